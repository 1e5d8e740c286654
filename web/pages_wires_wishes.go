package web

import (
	"fmt"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
	"fascia/web/view"
)

// fillWireWishes shows what the maker wants of wires, each with the name by which its price is asked.
func (v *visit) fillWireWishes(r *view.WireWishes) {
	w := &v.panel.Wires
	for i := range w.Locked {
		r.Own = append(r.Own, v.ownWire(&w.Locked[i]))
	}
	v.fillNetWishes(r)
	for _, face := range []grid.Face{grid.Front, grid.Back} {
		f := view.FaceWish{Face: face.String(), NoRuns: slices.Contains(w.NoRuns, face)}
		if f.NoRuns {
			f.Price = "no bare runs on the " + f.Face
		}
		r.Faces = append(r.Faces, f)
	}
	r.Three = w.Ends == panel.MostEnds
	costs := panel.UsualCosts()
	if w.Costs != nil {
		costs = *w.Costs
		r.Usual = edited(&panel.SetWiring{NoRuns: w.NoRuns, Ends: w.Ends})
	}
	r.Costs = costRows(&costs)
	r.Base = edited(&panel.SetWiring{NoRuns: slices.Concat([]grid.Face{}, w.NoRuns), Ends: w.Ends, Costs: w.Costs})
}

// costRows are the costs that the maker may set, in the order of the form.
func costRows(c *panel.WireCosts) []view.CostRow {
	row := func(name, says string, holes float64) view.CostRow {
		return view.CostRow{Name: name, Says: says, Holes: fmt.Sprintf("%.4g", holes)}
	}
	return []view.CostRow{
		row("bend", "A bend in a bare run", c.Bend), row("solder", "A solder bridge", c.Solder),
		row("insulated", "An insulated wire", c.Insulated), row("per_hole", "and each hole it spans", c.PerHole),
		row("through", "A link through one hole", c.Through),
	}
}

func (v *visit) ownWire(l *panel.LockedWire) view.OwnWire {
	one := view.OwnWire{
		Kind: l.Kind, KindSays: wireWords[wiring.Kind(l.Kind)], Face: l.Face.String(), From: l.From.String(), To: l.To.String(),
		Holes: grid.JoinHoles([]grid.Hole{l.From, l.To}), Colour: l.Colour, Index: -1,
		Price:  fmt.Sprintf("%s wire from %s to %s on the %s", l.Kind, l.From, l.To, l.Face),
		Unlock: edited(&panel.UnlockWire{From: l.From, To: l.To, Face: l.Face}),
	}
	for i := range v.plan.Wiring.Wires {
		if w := &v.plan.Wiring.Wires[i]; w.Locked && askedFor(l, w) {
			one.Index, one.Net = i, w.Net
			break
		}
	}
	return one
}

// fillNetWishes lists the nets that need a wire or carry a wish. A wish for a net that is gone stays,
// so that it can be taken away.
func (v *visit) fillNetWishes(r *view.WireWishes) {
	wishes := map[string]panel.NetWish{}
	for _, w := range v.panel.Wires.Nets {
		wishes[w.Net] = w
	}
	for i := range v.plan.Nets.Nets {
		n := &v.plan.Nets.Nets[i]
		wish := wishes[n.Name]
		delete(wishes, n.Name)
		if len(n.Terminals) > 1 || wish != (panel.NetWish{}) {
			r.Nets = append(r.Nets, netRow(n.Name, wish, wiring.Colour(&v.panel, n)))
		}
	}
	for _, w := range v.panel.Wires.Nets {
		if _, stray := wishes[w.Net]; stray {
			r.Nets = append(r.Nets, netRow(w.Net, w, ""))
		}
	}
	r.Wished = len(v.panel.Wires.Nets)
	for _, c := range panel.Colours {
		r.Colours = append(r.Colours, view.Choice{Value: c, Says: c + " " + colourWords[c]})
	}
	for _, g := range panel.Gauges {
		r.Gauges = append(r.Gauges, view.Choice{Value: fmt.Sprint(g), Says: fmt.Sprintf("AWG %d, %.2f mm", g, wiring.GaugeMM(g))})
	}
}

func netRow(net string, w panel.NetWish, usual string) view.NetRow {
	row := view.NetRow{Net: net, Insulated: w.Insulated, Colour: w.Colour, Usual: usual, Wished: w != (panel.NetWish{})}
	if w.Gauge != 0 {
		row.Gauge = fmt.Sprint(w.Gauge)
	}
	if w.Insulated {
		row.Price = net + " insulated"
	}
	return row
}

// keptClear lists the holes that take no wire. Where there are many, one price stands for all.
func (v *visit) keptClear() []view.ClearHole {
	var list []view.ClearHole
	for _, h := range v.panel.Wires.KeepOut {
		list = append(list, view.ClearHole{Hole: h.String(), Price: h.String() + " to stay clear"})
	}
	return list
}
