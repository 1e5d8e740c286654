package web

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/wiring"
	"fascia/web/view"
)

// wireOrders are the ways to sort the wire list, the usual one first.
var wireOrders = []struct{ name, says string }{{"", "Order of work"}, {"net", "Net"}, {"kind", "Kind"}, {"length", "Length"}}

// wireOrder is a way to sort that there is, or the usual one.
func wireOrder(name string) string {
	for _, o := range wireOrders {
		if o.name == name {
			return name
		}
	}
	return ""
}

// kindWords say the four ways to join.
var kindWords = map[wiring.Kind]string{
	wiring.Leg: "leg bridge", wiring.Solder: "solder bridge", wiring.Bare: "bare run", wiring.Insulated: "insulated",
}

// wireWords name the four ways to join as things, one and many.
var wireWords, wiresWords = map[wiring.Kind]string{
	wiring.Leg: "leg bridge", wiring.Solder: "solder bridge", wiring.Bare: "bare run", wiring.Insulated: "insulated wire",
}, map[wiring.Kind]string{
	wiring.Leg: "leg bridges", wiring.Solder: "solder bridges", wiring.Bare: "bare runs", wiring.Insulated: "insulated wires",
}

// colourWords are the names of the colour letters of IEC 60757.
var colourWords = map[string]string{
	"BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green", "BU": "blue", "VT": "violet",
	"GY": "grey", "WH": "white", "PK": "pink", "GD": "gold", "TQ": "turquoise", "SR": "silver",
}

// fillWires shows the wire list, what the maker wants of it, and how good it is.
func (v *visit) fillWires(r *view.WirePart) {
	r.Totals, r.Quality = v.wireTotals(), v.wireQuality()
	r.Face, r.KeepOut, r.Ends = v.face.String(), v.keptClear(), v.terminals()
	for _, i := range v.sortedWires() {
		w := &v.plan.Wiring.Wires[i]
		row := v.wireRow(w)
		row.Index = i
		if w.Kind == wiring.Leg {
			r.Legs = append(r.Legs, row)
			continue
		}
		r.Wires = append(r.Wires, row)
	}
	for _, c := range v.plan.Wiring.Cuts {
		r.Cuts = append(r.Cuts, view.CutRow{Hole: c.Hole.String(), Board: c.Board, Why: c.Why})
	}
	for _, o := range wireOrders {
		r.Orders = append(r.Orders, view.OrderLink{Says: o.says, Href: v.sortedBy(o.name), Current: o.name == v.sort})
	}
	for _, j := range v.panel.Joins {
		r.Joins = append(r.Joins, view.JoinRow{Name: j.Name, Terminals: strings.Join(j.Terminals, " ")})
	}
	r.Holes = map[string][]string{}
	for _, n := range v.plan.Nets.Nets {
		for _, t := range n.Terminals {
			r.Holes[n.Name] = append(r.Holes[n.Name], t.Hole.String())
		}
	}
	v.fillWireWishes(&r.WireWishes)
}

// sortedBy is this page with the wire list sorted otherwise.
func (v *visit) sortedBy(order string) string {
	other := *v
	other.sort = order
	return other.address(v.room, v.face, v.selected)
}

// sortedWires lists the numbers of the wires as the maker wants to see them. Whatever comes first, the
// order of work is kept in it.
func (v *visit) sortedWires() []int {
	wires := v.plan.Wiring.Wires
	order := make([]int, len(wires))
	for i := range order {
		order[i] = i
	}
	nets := map[string]int{}
	for i, n := range v.plan.Nets.Nets {
		nets[n.Name] = i
	}
	kinds := map[wiring.Kind]int{wiring.Leg: 0, wiring.Solder: 1, wiring.Bare: 2, wiring.Insulated: 3}
	slices.SortStableFunc(order, func(a, b int) int {
		switch v.sort {
		case "net":
			return nets[wires[a].Net] - nets[wires[b].Net]
		case "kind":
			return kinds[wires[a].Kind] - kinds[wires[b].Kind]
		case "length":
			return cmp.Compare(wires[b].LengthMM, wires[a].LengthMM)
		}
		return 0
	})
	return order
}

// wireTotals count the wires of each kind and say how much wire to cut.
func (v *visit) wireTotals() string {
	r := &v.plan.Wiring
	counts := map[wiring.Kind]int{}
	cut := 0.0
	for _, w := range r.Wires {
		counts[w.Kind]++
		cut += w.CutMM
	}
	var parts []string
	for _, k := range []wiring.Kind{wiring.Solder, wiring.Bare, wiring.Insulated} {
		n := counts[k]
		if n == 0 && k != wiring.Insulated {
			continue
		}
		says := countOf(n, wireWords[k], wiresWords[k])
		switch {
		case k != wiring.Insulated:
		case n == 0:
			says = "no insulated wire"
		case n == r.InsulatedBound:
			says += " (no way has fewer)"
		case r.InsulatedBound > 0:
			says += fmt.Sprintf(" (no way has fewer than %d)", r.InsulatedBound)
		}
		parts = append(parts, says)
	}
	says := strings.Join(parts, ", ")
	if cut > 0 {
		says += fmt.Sprintf("; %.2f m of wire to cut", cut/1000)
	}
	return says + "."
}

// wireQuality says what the wires cost, what no wiring falls below, and the gap.
func (v *visit) wireQuality() string {
	switch r := &v.plan.Wiring; {
	case r.Cost == 0:
		return ""
	case r.Proved:
		return fmt.Sprintf("Cost %s of bare wire; nothing less will do.", holesOf(r.Cost))
	default:
		return fmt.Sprintf("Cost %s of bare wire, bound %.4g, gap %.0f %%.", holesOf(r.Cost), r.Bound, r.Gap*100)
	}
}

func (v *visit) wireRow(w *wiring.Wire) view.WireRow {
	row := view.WireRow{
		Step: w.Step, Net: w.Net, Kind: string(w.Kind), KindSays: kindWords[w.Kind], Face: w.Face.String(),
		From: w.From.String(), To: w.To.String(), Holes: grid.JoinHoles([]grid.Hole{w.From, w.To}),
		Length: fmt.Sprintf("%.0f mm", w.LengthMM), Colour: w.Colour, ColourSays: colourWords[w.Colour], Gauge: w.Gauge,
	}
	if w.Through {
		row.KindSays = "link through the hole"
	}
	if w.CutMM > 0 {
		row.Cut = fmt.Sprintf("%.0f mm", w.CutMM)
	}
	for _, step := range v.plan.Steps {
		if step.Wire != 0 && step.Wire == w.Step {
			row.Done = v.ticks[step.ID]
		}
	}
	row.Locked, row.Switch = v.wireLock(w)
	return row
}

// wireLock is the edit that locks a wire of the plan as it is, or leaves a locked one to Fascia again;
// "" for a wire that cannot be locked: metal of a part, and what has an end on either face.
func (v *visit) wireLock(w *wiring.Wire) (locked bool, edit string) {
	if w.Locked {
		for i := range v.panel.Wires.Locked {
			if l := &v.panel.Wires.Locked[i]; askedFor(l, w) {
				return true, edited(&panel.UnlockWire{From: l.From, To: l.To, Face: l.Face})
			}
		}
		return true, ""
	}
	l, ok := asLocked(w)
	if !ok {
		return false, ""
	}
	if v.carriesNet(w.Net, w.From) || v.carriesNet(w.Net, w.To) {
		return false, edited(&panel.LockWire{Wire: l})
	}
	return false, v.lockedWith(w, l)
}

// asLocked is the wish for a wire of the plan as it is.
func asLocked(w *wiring.Wire) (panel.LockedWire, bool) {
	l := panel.LockedWire{From: w.From, To: w.To, Kind: string(w.Kind), Face: w.Face}
	if w.Kind == wiring.Bare {
		l.Path = bendsOf(w.Path)
	}
	return l, w.Kind != wiring.Leg && !w.Through && !w.Round && w.From != w.To && len(l.Path) <= panel.MaxMembers
}

// carriesNet reports whether a lead of a net is in a hole.
func (v *visit) carriesNet(net string, h grid.Hole) bool {
	n, _ := v.plan.Nets.Net(net)
	return slices.ContainsFunc(n.Terminals, func(t netlist.Terminal) bool { return t.Hole == h })
}

// lockedWith locks a wire between free holes with one that it leans on.
func (v *visit) lockedWith(w *wiring.Wire, l panel.LockedWire) string {
	for i := range v.plan.Wiring.Wires {
		o := &v.plan.Wiring.Wires[i]
		if o.Net != w.Net || !slices.Contains(o.Path, w.From) && !slices.Contains(o.Path, w.To) {
			continue
		}
		if o.Locked {
			return edited(&panel.LockWire{Wire: l})
		}
		other, ok := asLocked(o)
		if !ok || !v.carriesNet(o.Net, o.From) && !v.carriesNet(o.Net, o.To) {
			continue
		}
		lock := &panel.LockWire{Wire: l}
		both := &panel.Together{What: lock.Label() + " and the one it leans on"}
		for _, e := range []panel.Edit{&panel.LockWire{Wire: other}, lock} {
			both.Edits = append(both.Edits, jsontext.Value(edited(e)))
		}
		return edited(both)
	}
	return ""
}

// askedFor reports whether a wire of the plan is there because of a wish, all of it or one of the
// bridges of a row.
func askedFor(l *panel.LockedWire, w *wiring.Wire) bool {
	if l.Face != w.Face || l.Kind != string(w.Kind) {
		return false
	}
	if l.From == w.From && l.To == w.To || l.From == w.To && l.To == w.From {
		return true
	}
	row := l.From.Steps(l.To)
	return w.Kind == wiring.Solder && within(l, w.From, row) && within(l, w.To, row)
}

func within(l *panel.LockedWire, h grid.Hole, row int) bool {
	return l.From.Steps(h)+h.Steps(l.To) == row
}

// bendsOf leaves out the holes that a run goes straight through.
func bendsOf(path []grid.Hole) []grid.Hole {
	var kept []grid.Hole
	for i, h := range path {
		if i == 0 || i == len(path)-1 || path[i].Minus(path[i-1]) != path[i+1].Minus(path[i]) {
			kept = append(kept, h)
		}
	}
	return kept
}
