package wiring

import (
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// A WireTree is one net's wires, to be asked for resistances. Boards' copper, solder and the metal
// inside parts count for nothing, as against wire.
type WireTree struct {
	panel *panel.Panel
	at    map[panel.TerminalRef]place
	next  map[place][]stretchTo
}

// A stretchTo leads to a place over some resistance.
type stretchTo struct {
	to   place
	ohms float64
}

// TreeOf gathers the wires of net n in r.
func TreeOf(p *panel.Panel, n *netlist.Net, r *Result) *WireTree {
	v := verifier{p: p, up: map[place]place{}, leads: map[place][]panel.TerminalRef{}}
	v.makeCuts(r.Cuts)
	v.joinCopper()
	v.joinParts()
	t := &WireTree{panel: v.p, at: map[panel.TerminalRef]place{}, next: map[place][]stretchTo{}}
	for _, term := range n.Terminals {
		t.at[term.TerminalRef] = v.root(v.terminal(term.TerminalRef))
	}
	for i := range r.Wires {
		w := &r.Wires[i]
		if w.Net != n.Name || w.Kind == Leg {
			continue
		}
		t.addWire(&v, w)
	}
	return t
}

// addWire adds the stretches of a wire from hole to hole, so that others may branch from it.
func (t *WireTree) addWire(v *verifier, w *Wire) {
	if w.Through {
		t.link(v.root(v.place(w.From, grid.Front)), v.root(v.place(w.From, grid.Back)), 0)
		return
	}
	end := w.Face
	if w.Round {
		end = end.Other()
	}
	if w.Kind != Bare {
		t.link(v.root(v.place(w.From, w.Face)), v.root(v.place(w.To, end)), w.Ohms())
		return
	}
	for i := range w.Path[1:] {
		t.link(v.root(v.place(w.Path[i], w.Face)), v.root(v.place(w.Path[i+1], w.Face)), w.Ohms()/float64(len(w.Path)-1))
	}
}

func (t *WireTree) link(a, b place, ohms float64) {
	t.next[a] = append(t.next[a], stretchTo{b, ohms})
	t.next[b] = append(t.next[b], stretchTo{a, ohms})
}

// Ohms is the resistance of the wire between two terminals of the net, the way that the wires lead; of
// two ways, the better. It returns false when no wires lead from one to the other. What is lost there
// is the resistance times the current.
func (t *WireTree) Ohms(from, to panel.TerminalRef) (float64, bool) {
	start, ok := t.at[from]
	goal, known := t.at[to]
	if !ok || !known {
		return 0, false
	}
	ohms, done := map[place]float64{start: 0}, map[place]bool{}
	open := []place{start}
	for len(open) > 0 {
		best := 0
		for i := range open {
			if ohms[open[i]] < ohms[open[best]] {
				best = i
			}
		}
		at := open[best]
		open[best] = open[len(open)-1]
		open = open[:len(open)-1]
		if at == goal {
			return ohms[at], true
		}
		if done[at] {
			continue
		}
		done[at] = true
		for _, s := range t.next[at] {
			if old, seen := ohms[s.to]; !seen || ohms[at]+s.ohms < old {
				ohms[s.to] = ohms[at] + s.ohms
				open = append(open, s.to)
			}
		}
	}
	return 0, false
}
