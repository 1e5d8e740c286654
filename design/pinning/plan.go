package pinning

import (
	"fmt"
	"slices"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/scan"
	"fascia/design/search"
	"fascia/design/signal"
)

// budget is how many options the search may try: far more than ordinary panels need, and about a
// tenth of a second at worst.
const budget = 120_000

// Plan gives pins to the signals of the parts and of the keys.
func Plan(p *panel.Panel, m *controller.Module, moduleRef string, r *scan.Result) Result {
	return Assign(p, m, moduleRef, Signals(p, r))
}

// Signals lists what the parts and the keys want, in the order in which Plan takes them.
func Signals(p *panel.Panel, r *scan.Result) []signal.Signal {
	return slices.Concat(signal.OfParts(p), KeySignals(p, r))
}

// Assign gives every signal a pin of the module, which is placed on p as moduleRef. An optional
// signal goes without when pins are short. Of all ways that keep the hard rules it takes the one
// that leaves out the fewest optional signals, then takes the least from what the maker wants spared,
// wish by wish in the maker's order, then the fewest holes of distance. Of those it takes the one with
// the fewest crossings of straight lines, then the lowest numbers, earlier signals first; Untangled
// says whether that is proved, else it is the best that a descent came to. The lines of a run may be
// in any order. Signals have different ids, and those of one bus want different lines of it. m may be
// nil when there is no module.
func Assign(p *panel.Panel, m *controller.Module, moduleRef string, signals []signal.Signal) Result {
	if m == nil {
		return withoutModule(signals)
	}
	t := newTask(p, m, moduleRef, signals)
	result := Result{Module: moduleRef, Chip: m.Chip.Name, Pins: []Pin{}, Findings: t.findings}
	if clashes := t.plainClashes(); len(clashes) > 0 {
		result.refuse(t, clashes)
		return result
	}
	best := t.solve()
	result.nodes = best.answer.Nodes
	switch best.answer.Verdict {
	case search.Found:
		result.accept(t, best)
	case search.Impossible:
		result.refuse(t, []clash{t.explain()})
	case search.Undecided:
		result.refuse(t, []clash{undecided(signals)})
	}
	return result
}

func withoutModule(signals []signal.Signal) Result {
	result := Result{Pins: []Pin{}, Free: []string{}, Proved: true, Untangled: true}
	if len(signals) > 0 {
		var where finding.Where
		where.Net = signals[0].Net
		result.Findings = append(result.Findings, finding.Finding{
			Severity: finding.Stop, Code: "pin-no-module", Where: where,
			Text: fmt.Sprintf("%s no pin, as no module is placed.", plural(len(signals), "signal has", "signals have")),
			Fix:  "Place a module.",
		})
	}
	return result
}

// accept writes the solution down.
func (r *Result) accept(t *task, best solution) {
	r.Cost, r.Bound = best.holes()
	if r.Bound > 0 {
		r.Gap = (r.Cost - r.Bound) / r.Bound
	}
	r.Proved = r.Cost == r.Bound
	at := best.at
	for s := range t.signals {
		if at[s] < 0 {
			r.Findings = append(r.Findings, t.leftOut(s))
			continue
		}
		r.Pins = append(r.Pins, t.pinOf(s, at))
	}
	r.Free = t.free(at)
	r.Crossings = t.crossings(at)
	r.Untangled = r.Crossings == 0 || best.untangled
	r.GaveWay = t.gaveWay(at)
	r.Findings = append(r.Findings, t.spoilt(at)...)
}

// refuse says why there are no pins.
func (r *Result) refuse(t *task, clashes []clash) {
	first := clashes[0]
	r.Conflict, r.Concessions = first.sentences, first.concessions
	if r.Concessions == nil && first.finding.Code != "pin-undecided" {
		r.Concessions = t.offer(first.wishes)
	}
	r.Free = t.free(nil)
	for _, c := range clashes {
		r.Findings = append(r.Findings, c.finding)
	}
}

func (t *task) pinOf(s int, at []int) Pin {
	want, pin := t.signals[s], t.pins[at[s]]
	pullName := want.Pull
	if pullName == "" {
		pullName = "none"
	}
	return Pin{
		Signal: want.ID, Net: want.Net, GPIO: pin.Name, Number: pin.GPIO, ModulePin: pin.Number, Terminal: pin.Terminal,
		Function: t.function(s, at[s]), Direction: want.Direction, Pull: pullName, Hole: t.hole[at[s]],
		Reason: t.reason(s, at), Serves: want.Terminals,
	}
}

// free lists the GPIOs that carry neither a signal nor a join of the maker's.
func (t *task) free(at []int) []string {
	names := []string{}
	for i, pin := range t.pins {
		if !t.joined[i] && !slices.Contains(at, i) {
			names = append(names, pin.Name)
		}
	}
	return names
}

// leftOut says that an optional signal has no pin.
func (t *task) leftOut(s int) finding.Finding {
	want := t.signals[s]
	return finding.Finding{
		Severity: finding.Mind, Code: "pin-left-out", Where: t.where(s),
		Text: fmt.Sprintf("Pins are short, so %s has none.", want.Net),
		Fix:  fmt.Sprintf("Leave it as its part's idle state asks, or free a pin and lock %s to it.", want.Net),
	}
}
