package wiring

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// Route joins every net of n on the boards of p, where f says what lies where. The result depends
// on its arguments alone. What cannot be joined is left open and named by a finding; what the copper
// of the boards shorts is named too, and no wire can mend it. Work is bounded: about a twentieth of
// a second for a hand-held console on the author's machine.
func Route(p *panel.Panel, f *fit.Result, n *netlist.Result) Result {
	return RouteWith(p, f, n, Options{})
}

// Options say how much work to put into the wires.
type Options struct {
	Moves int  // tries to better the first answer, each of some tens of microseconds to a millisecond
	Quick bool // a first answer in a tenth of the time, dearer and with a lower bound
}

// RouteWith is Route with more work, or less, put in.
func RouteWith(p *panel.Panel, f *fit.Result, n *netlist.Result, o Options) Result {
	w := Begin(p, f, n, o)
	if o.Moves > 0 {
		return w.Improve(o.Moves, nil, nil)
	}
	return w.Result()
}

// A Work is a wire list in the making: it has a first answer and can be bettered, by one goroutine
// at a time. The panel, the fit and the nets must not change meanwhile.
type Work struct {
	panel *panel.Panel
	cuts  []Cut
	found []finding.Finding // what holds whatever the wires
	s     *search
	moves int
	bound int // of the count of insulated wires
}

// Begin finds a first answer. It takes no notice of o.Moves.
func Begin(p *panel.Panel, f *fit.Result, n *netlist.Result, o Options) *Work {
	w := &Work{}
	w.panel, w.cuts = withCuts(p, n)
	fd := newField(w.panel, f, n)
	tasks, owner, found := newTasks(w.panel, fd, n)
	g := newGrower(fd, tasks, owner)
	w.found = append(found, g.lockWires(p.Wires.Locked)...)
	w.found = append(w.found, strayWishes(p, n)...)
	g.setBounds(o.Quick)
	w.bound = g.insulatedBound()
	w.s = newSearch(g)
	w.s.quick = o.Quick
	w.s.run()
	return w
}

// Improve tries so many moves and returns the best answer of all. It ends sooner when stop, asked
// before each move, returns true, or when nothing is left to better. better is called with each answer
// that beats the last; the same moves give the same answers, in one call or in several. stop and
// better may be nil.
func (w *Work) Improve(moves int, stop func() bool, better func(Result)) Result {
	for range moves {
		if stop != nil && stop() || w.s.atBound() {
			break
		}
		w.moves++
		if w.s.anneal(w.moves-1) && better != nil {
			better(w.Result())
		}
	}
	return w.Result()
}

// Result is the best answer so far.
func (w *Work) Result() Result {
	s := w.s
	r := Result{Cuts: w.cuts, moves: w.moves, Findings: append(w.found[:len(w.found):len(w.found)], s.report()...)}
	r.Wires = s.wires(w.panel)
	r.Counts = countsOf(r.Wires)
	r.InsulatedBound = w.bound
	r.Cost, r.Bound = s.sums()
	if r.Bound > 0 {
		r.Gap = (r.Cost - r.Bound) / r.Bound
	}
	r.Proved = r.Cost == r.Bound && !s.anyFailed()
	finding.Sort(r.Findings)
	return r
}

// sums returns cost and bound of all nets in holes, the maker's own wires in both. A net that could
// not be joined counts in neither.
func (s *search) sums() (cost, least float64) {
	var c, b, base price
	for i := range s.tasks {
		t := &s.tasks[i]
		for n := range t.base {
			base += t.base[n].price(s.fd)
		}
		switch l := &s.best[i]; {
		case l.failed:
		case l.bared:
			c += l.price
		default:
			c += l.price
			b += t.bound
		}
	}
	if s.toll != nil && !s.anyFailed() {
		b = max(b, s.toll.bound)
	}
	return (c + base).holes(), (b + base).holes()
}

func (s *search) anyFailed() bool {
	for i := range s.best {
		if s.best[i].failed {
			return true
		}
	}
	return false
}

// report names the nets that are not joined and the joints that hold too many wires.
func (s *search) report() []finding.Finding {
	var found []finding.Finding
	for i := range s.best {
		l, t := &s.best[i], &s.tasks[i]
		if l.failed {
			found = append(found, finding.Finding{Severity: finding.Stop, Code: "wire-no-way",
				Where: finding.Where{Holes: s.someHoles(t), Net: t.net.Name},
				Text:  fmt.Sprintf("The terminals of %s cannot all be joined: some take no wire, or lie on the other face with no free hole to pass through.", t.net.Name),
				Fix:   "Free a hole near them, or take them out of the holes to keep clear."})
		}
		if l.crowded != nowhere {
			found = append(found, s.crowdedFinding(t, l.crowded))
		}
		if l.bared && !l.failed {
			found = append(found, finding.Finding{Severity: finding.Mind, Code: "wire-wish-broken",
				Where: finding.Where{Holes: s.someHoles(t), Net: t.net.Name},
				Text:  fmt.Sprintf("%s has a bare run though you want it insulated: some of its joints take no insulated wire.", t.net.Name),
				Fix:   "Free a joint of it, or take the wish away."})
		}
	}
	return found
}

// crowdedFinding says that a joint holds more wires than the maker allows.
func (s *search) crowdedFinding(t *task, joint spot) finding.Finding {
	h := s.fd.hole(joint)
	number, fix := "two", "Allow three wire ends in one joint, leave free holes beside it, or lock wires that share the load."
	if s.fd.ends == crowdedEnds {
		number, fix = "three", "Leave free holes beside it, or lock wires that share the load."
	}
	return finding.Finding{Severity: finding.Mind, Code: "wire-crowded",
		Where: finding.Where{Holes: []grid.Hole{h}, Net: t.net.Name},
		Text:  fmt.Sprintf("More than %s wires of %s end on %s.", number, t.net.Name, h), Fix: fix}
}

func (s *search) someHoles(t *task) []grid.Hole {
	var holes []grid.Hole
	for _, term := range t.net.Terminals {
		if s.fd.at(term.Hole, term.Face) != nowhere && len(holes) < 4 {
			holes = append(holes, term.Hole)
		}
	}
	return holes
}
