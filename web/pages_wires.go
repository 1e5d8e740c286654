package web

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fascia/design/grid"
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
