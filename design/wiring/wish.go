package wiring

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// wishOf is what the maker wants of a net's wires.
func wishOf(p *panel.Panel, net string) panel.NetWish {
	for _, w := range p.Wires.Nets {
		if w.Net == net {
			return w
		}
	}
	return panel.NetWish{Net: net}
}

// strayWishes names the wishes for nets that there are none of.
func strayWishes(p *panel.Panel, n *netlist.Result) []finding.Finding {
	var found []finding.Finding
	for _, w := range p.Wires.Nets {
		if _, ok := n.Net(w.Net); !ok {
			found = append(found, finding.Finding{Severity: finding.Note, Code: "wire-wish-stray",
				Text: fmt.Sprintf("You have a wish for the wires of %s, but no net is called so.", w.Net),
				Fix:  "Take the wish away, or give it to another net."})
		}
	}
	return found
}

// A WishPrice says what a wish of the maker's about wires costs, in holes of bare run: how much
// cheaper the wires could be without it. A wish that costs nothing has Cost 0.
type WishPrice struct {
	Wish string  `json:"wish"`
	Cost float64 `json:"cost"`
}

// mostKeptApart is how many holes to be kept clear are priced one by one; more are priced as one wish.
const mostKeptApart = 8

// Price joins all nets once more without each of the maker's wishes and says what it saves. r is the
// result with all of them. It takes about as long as Route did for each wish.
func Price(p *panel.Panel, f *fit.Result, n *netlist.Result, r *Result) []WishPrice {
	var list []WishPrice
	without := func(wish string, change func(w *panel.Wires)) {
		q := *p
		q.Wires.Locked, q.Wires.KeepOut = slices.Clone(p.Wires.Locked), slices.Clone(p.Wires.KeepOut)
		q.Wires.NoRuns, q.Wires.Nets = slices.Clone(p.Wires.NoRuns), slices.Clone(p.Wires.Nets)
		change(&q.Wires)
		free := RouteWith(&q, f, n, Options{Moves: r.moves})
		// What obeys the wish would do without it too, so that it never costs less than nothing.
		list = append(list, WishPrice{Wish: wish, Cost: max(0, rounded(r.Cost-free.Cost))})
	}
	for i, l := range p.Wires.Locked {
		without(fmt.Sprintf("%s wire from %s to %s on the %s", l.Kind, l.From, l.To, l.Face),
			func(w *panel.Wires) { w.Locked = slices.Delete(w.Locked, i, i+1) })
	}
	if len(p.Wires.KeepOut) > mostKeptApart {
		without(fmt.Sprintf("%d holes to stay clear", len(p.Wires.KeepOut)), func(w *panel.Wires) { w.KeepOut = nil })
	} else {
		for i, h := range p.Wires.KeepOut {
			without(fmt.Sprintf("%s to stay clear", h), func(w *panel.Wires) { w.KeepOut = slices.Delete(w.KeepOut, i, i+1) })
		}
	}
	for i, face := range p.Wires.NoRuns {
		without(fmt.Sprintf("no bare runs on the %s", face), func(w *panel.Wires) { w.NoRuns = slices.Delete(w.NoRuns, i, i+1) })
	}
	for i, net := range p.Wires.Nets {
		switch {
		case net.Insulated:
			without(fmt.Sprintf("%s insulated", net.Net), func(w *panel.Wires) { w.Nets[i].Insulated = false })
		case net.Colour != "" || net.Gauge != 0:
			list = append(list, WishPrice{Wish: fmt.Sprintf("colour and gauge of %s", net.Net)})
		}
	}
	return list
}
