package wiring

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// Verify checks a wire list against the netlist from nothing but the panel and the cuts to be made
// in its strips: it joins what boards, parts and wires join and compares, and looks at where bare
// metal lies. It shares no code with Route. It returns what is wrong, each in a sentence, and nothing
// when all is right.
func Verify(p *panel.Panel, n *netlist.Result, wires []Wire, cuts ...Cut) []string {
	v := verifier{p: p, up: map[place]place{}, leads: map[place][]panel.TerminalRef{}}
	v.makeCuts(cuts)
	v.layBodies()
	v.joinCopper()
	v.joinParts()
	for i := range wires {
		v.joinWire(&wires[i])
	}
	v.compare(n)
	v.inspect(n, wires)
	slices.Sort(v.wrong)
	return slices.Compact(v.wrong)
}

// A place is a hole and the face on which it is touched; where both faces are one node the face is
// always the front. A terminal that is off every board is a place of its own.
type place struct {
	hole grid.Hole
	face grid.Face
	off  panel.TerminalRef
}

type verifier struct {
	p     *panel.Panel
	up    map[place]place
	leads map[place][]panel.TerminalRef // by where their joints are
	lids  []lid
	wrong []string
}

func (v *verifier) say(text string) { v.wrong = append(v.wrong, text) }

func (v *verifier) place(h grid.Hole, f grid.Face) place {
	if b := v.p.BoardAt(h); b != nil && b.OneNode() {
		f = grid.Front
	}
	return place{hole: h, face: f}
}

func (v *verifier) root(x place) place {
	for {
		up, ok := v.up[x]
		if !ok {
			return x
		}
		x = up
	}
}

func (v *verifier) unite(x, y place) {
	if x, y = v.root(x), v.root(y); x != y {
		v.up[y] = x
	}
}

// joinCopper unites the holes that a board's own metal joins.
func (v *verifier) joinCopper() {
	for i := range v.p.Boards {
		b := &v.p.Boards[i]
		if b.Copper == panel.Pads {
			continue
		}
		seen := map[grid.Hole]bool{}
		for row := range b.Rows {
			for col := range b.Columns {
				h := b.At.Add(grid.Offset{Cols: col, Rows: row})
				if seen[h] {
					continue
				}
				for _, mate := range b.Mates(h) {
					seen[mate] = true
					for f := grid.Front; f <= grid.Back; f++ {
						if b.HasCopper(f) {
							v.unite(v.place(h, f), v.place(mate, f))
						}
					}
				}
			}
		}
	}
}

// joinParts unites terminals that are one metal inside their part.
func (v *verifier) joinParts() {
	for i := range v.p.Placed {
		pl := &v.p.Placed[i]
		d := v.p.Parts[pl.Part]
		for _, t := range d.Terminals {
			ref := panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name}
			at := v.terminal(ref)
			v.leads[at] = append(v.leads[at], ref)
		}
		for _, set := range d.Joined {
			for _, name := range set {
				v.unite(v.terminal(panel.TerminalRef{Ref: pl.Ref, Terminal: set[0]}),
					v.terminal(panel.TerminalRef{Ref: pl.Ref, Terminal: name}))
			}
		}
	}
}

// terminal is the place at which a terminal is soldered: the face away from its part's body.
func (v *verifier) terminal(t panel.TerminalRef) place {
	h, ok := v.p.HoleOf(t)
	if !ok || v.p.BoardAt(h) == nil {
		return place{off: t}
	}
	return v.place(h, v.p.Find(t.Ref).Face.Other())
}

// joinWire unites what a wire touches. A leg bridge is looked up, not believed.
func (v *verifier) joinWire(w *Wire) {
	switch {
	case w.Kind == Leg:
		if !v.isMetal(w) {
			v.say("leg bridge of " + w.Net + " from " + w.From.String() + " to " + w.To.String() + " is no metal of any part")
		}
		return
	case w.Through:
		v.unite(v.place(w.From, grid.Front), v.place(w.From, grid.Back))
		return
	}
	v.unite(v.place(w.From, w.Face), v.place(w.To, w.Face))
	if w.Kind == Bare {
		for _, h := range w.Path {
			v.unite(v.place(w.From, w.Face), v.place(h, w.Face))
		}
	}
}

// isMetal reports whether some part joins the two ends of a leg bridge.
func (v *verifier) isMetal(w *Wire) bool {
	for i := range v.p.Placed {
		pl := &v.p.Placed[i]
		d := v.p.Parts[pl.Part]
		for _, set := range d.Joined {
			var from, to bool
			for _, name := range set {
				h, _ := v.p.HoleOf(panel.TerminalRef{Ref: pl.Ref, Terminal: name})
				from, to = from || h == w.From, to || h == w.To
			}
			if from && to {
				return true
			}
		}
	}
	return false
}

// compare holds the nodes against the netlist: every net one node, every two nets two.
func (v *verifier) compare(n *netlist.Result) {
	netAt := map[place]string{}
	for _, net := range n.Nets {
		first := v.root(v.terminal(net.Terminals[0].TerminalRef))
		for _, t := range net.Terminals {
			at := v.root(v.terminal(t.TerminalRef))
			if at != first {
				v.say("open: " + net.Terminals[0].TerminalRef.String() + " and " + t.TerminalRef.String() + " of " + net.Name + " are not joined")
			}
			if other, taken := netAt[at]; taken && other != net.Name {
				v.say("short: " + other + " and " + net.Name + " are joined at " + t.TerminalRef.String())
			}
			netAt[at] = net.Name
		}
	}
	for _, o := range n.Open {
		if net, taken := netAt[v.root(v.terminal(o.TerminalRef))]; taken {
			v.say("short: " + o.TerminalRef.String() + " is to stay open and is joined with " + net)
		}
	}
}
