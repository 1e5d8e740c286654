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
	fd := newField(p, f, n)
	tasks, owner, found := newTasks(p, fd, n)
	g := newGrower(fd, tasks, owner)
	found = append(found, g.lockWires(p.Wires.Locked)...)
	g.setBounds()
	s := newSearch(g)
	s.run()
	r := Result{Findings: append(found, s.report()...)}
	r.Wires = s.wires(p)
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
	var c, b price
	for i := range s.tasks {
		t := &s.tasks[i]
		for n := range t.base {
			c += t.base[n].price(s.fd)
			b += t.base[n].price(s.fd)
		}
		if !s.layouts[i].failed {
			c += s.layouts[i].price
			b += t.bound
		}
	}
	return c.holes(), b.holes()
}

func (s *search) anyFailed() bool {
	for i := range s.layouts {
		if s.layouts[i].failed {
			return true
		}
	}
	return false
}

// report names the nets that are not joined and the joints that hold too many wires.
func (s *search) report() []finding.Finding {
	var found []finding.Finding
	for i := range s.layouts {
		l, net := &s.layouts[i], s.tasks[i].net
		if l.failed {
			found = append(found, finding.Finding{Severity: finding.Stop, Code: "wire-no-way",
				Where: finding.Where{Holes: s.someHoles(&s.tasks[i]), Net: net.Name},
				Text:  fmt.Sprintf("The terminals of %s cannot all be joined: some take no wire, or lie on the other face with no free hole to pass through.", net.Name),
				Fix:   "Free a hole near them, or take them out of the holes to keep clear."})
		}
		if l.crowded != nowhere {
			h := s.fd.hole(l.crowded)
			found = append(found, finding.Finding{Severity: finding.Mind, Code: "wire-crowded",
				Where: finding.Where{Holes: []grid.Hole{h}, Net: net.Name},
				Text:  fmt.Sprintf("More than three wires of %s end on %s.", net.Name, h),
				Fix:   "Leave free holes beside it, or lock wires that share the load."})
		}
	}
	return found
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
