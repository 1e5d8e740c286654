package check

import (
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// A joint is a hole where metal meets, and its face where the two faces are two nodes. What a
// board's own copper joins is the joint of its first hole: copper is wide and short, and counts as
// nothing beside wire.
type joint struct {
	hole grid.Hole
	face grid.Face
}

func (v *view) joint(h grid.Hole, f grid.Face) joint {
	b := v.Panel.BoardAt(h)
	if b == nil {
		return joint{h, f}
	}
	if b.OneNode() {
		f = grid.Front
	}
	return joint{b.Mates(h)[0], f}
}

// jointOf is where a terminal is soldered.
func (v *view) jointOf(t panel.TerminalRef) joint {
	h, _ := v.Panel.HoleOf(t)
	return v.joint(h, v.Panel.Find(t.Ref).Face.Other())
}

// A conductor is the metal of one net: what is one piece without wire, and the wires between.
type conductor struct {
	v    *view
	same map[joint]joint
	runs map[joint][]run
}

// A run is a piece of wire to another joint.
type run struct {
	to   joint
	ohms float64
}

// conductorOf lays the wires of a net out. Terminals in one are joined inside the part that feeds it.
func (v *view) conductorOf(n *netlist.Net, one []panel.TerminalRef) *conductor {
	c := conductor{v: v, same: map[joint]joint{}, runs: map[joint][]run{}}
	for _, t := range n.Terminals {
		if it := v.byRef[t.Ref]; it != nil {
			first := panel.TerminalRef{Ref: t.Ref, Terminal: it.def.Metal(t.Terminal)[0]}
			c.unite(v.jointOf(first), v.jointOf(t.TerminalRef))
		}
	}
	for _, t := range one {
		c.unite(v.jointOf(one[0]), v.jointOf(t))
	}
	wires := v.wiresOf(n)
	for _, w := range wires { // what is one piece comes first, so that runs end at all of it
		if w.Ohms() == 0 {
			c.follow(w, c.unite)
		}
	}
	for _, w := range wires {
		if ohms := w.Ohms() / float64(max(1, len(w.Path)-1)); ohms > 0 {
			c.follow(w, func(a, b joint) {
				if a, b = c.find(a), c.find(b); a != b {
					c.runs[a], c.runs[b] = append(c.runs[a], run{b, ohms}), append(c.runs[b], run{a, ohms})
				}
			})
		}
	}
	return &c
}

// wiresOf lists what is laid for a net; leg bridges are metal that the parts bring.
func (v *view) wiresOf(n *netlist.Net) []*wiring.Wire {
	var wires []*wiring.Wire
	for i := range v.Wiring.Wires {
		if w := &v.Wiring.Wires[i]; w.Net == n.Name && w.Kind != wiring.Leg {
			wires = append(wires, w)
		}
	}
	return wires
}

// follow calls step for each piece of a wire from one joint to the next. A wire that leads round an
// edge ends on the other face, and a link through a hole is a piece between two faces.
func (c *conductor) follow(w *wiring.Wire, step func(a, b joint)) {
	if w.Through {
		step(c.v.joint(w.From, grid.Front), c.v.joint(w.From, grid.Back))
		return
	}
	for i := 1; i < len(w.Path); i++ {
		end := w.Face
		if w.Round {
			end = end.Other()
		}
		step(c.v.joint(w.Path[i-1], w.Face), c.v.joint(w.Path[i], end))
	}
}

func (c *conductor) find(j joint) joint {
	for {
		up, ok := c.same[j]
		if !ok {
			return j
		}
		j = up
	}
}

func (c *conductor) unite(a, b joint) {
	if a, b = c.find(a), c.find(b); a != b {
		c.same[b] = a
	}
}
