package wiring

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
)

// inspect looks at each wire's shape and at what its bare metal touches.
func (v *verifier) inspect(n *netlist.Result, wires []Wire) {
	netOf := map[panel.TerminalRef]string{}
	for _, net := range n.Nets {
		for _, t := range net.Terminals {
			netOf[t.TerminalRef] = net.Name
		}
	}
	covers := map[place]*Wire{}
	for i := range wires {
		w := &wires[i]
		if w.Kind == Leg {
			continue
		}
		name := string(w.Kind) + " of " + w.Net + " from " + w.From.String() + " to " + w.To.String()
		v.shape(w, name)
		for _, h := range w.Path {
			for _, at := range v.touched(w, h) {
				for _, lead := range v.leads[at] {
					if netOf[lead] != w.Net {
						v.say(name + " touches the foreign lead " + lead.String() + " at " + h.String())
					}
				}
				if w.Kind == Insulated {
					continue
				}
				if other := covers[at]; other != nil && other.Net != w.Net {
					v.say(name + " shares " + h.String() + " with bare metal of " + other.Net)
				}
				covers[at] = w
			}
		}
		if w.Kind == Bare || w.Kind == Solder {
			v.underBody(w, name)
		} else {
			v.coveredEnds(w, name)
		}
	}
	v.bridges(wires)
}

// bridges checks that solder joins at most three pads, and those in a straight line: two bridges
// that share a pad go straight on, and none follows on a second.
func (v *verifier) bridges(wires []Wire) {
	type end struct {
		at   grid.Hole
		face grid.Face
	}
	from := map[end][]grid.Offset{} // the ways in which solder leaves a pad
	for _, w := range wires {
		if w.Kind == Solder {
			from[end{w.From, w.Face}] = append(from[end{w.From, w.Face}], w.To.Minus(w.From))
			from[end{w.To, w.Face}] = append(from[end{w.To, w.Face}], w.From.Minus(w.To))
		}
	}
	for _, w := range wires {
		if w.Kind != Solder {
			continue
		}
		a, b := from[end{w.From, w.Face}], from[end{w.To, w.Face}]
		if len(a)+len(b) > 3 {
			v.say("solder of " + w.Net + " joins more than three pads at " + w.From.String())
		}
		for _, ways := range [][]grid.Offset{a, b} {
			if len(ways) == 2 && (ways[0].Cols != -ways[1].Cols || ways[0].Rows != -ways[1].Rows) {
				v.say("solder of " + w.Net + " turns a corner beside " + w.From.String())
			}
		}
	}
}

// touched lists the places that a wire touches at hole h. Over a lead's far end it touches the lead
// even where the pads of the two faces are apart.
func (v *verifier) touched(w *Wire, h grid.Hole) []place {
	front, back := v.place(h, grid.Front), v.place(h, grid.Back)
	at := v.place(h, w.Face)
	switch {
	case front == back:
		return []place{front}
	case w.Through:
		return []place{front, back}
	case len(v.leads[front])+len(v.leads[back]) > 0 && len(v.leads[at]) == 0:
		v.say(string(w.Kind) + " of " + w.Net + " touches the far end of a lead at " + h.String())
	}
	return []place{at}
}

// shape checks that a wire is where wires can be: ends first and last, bare runs in single steps,
// bridges between neighbours, nothing off the boards or on laminate without copper.
func (v *verifier) shape(w *Wire, name string) {
	if len(w.Path) == 0 || w.Path[0] != w.From || w.Path[len(w.Path)-1] != w.To {
		v.say(name + " has a path that does not lead from end to end")
		return
	}
	var last *panel.Board
	for i, h := range w.Path {
		b := v.p.BoardAt(h)
		switch {
		case b == nil:
			v.say(name + " leaves the boards at " + h.String())
			return
		case w.Kind != Insulated && !b.HasCopper(w.Face):
			v.say(name + " lies on a face without copper at " + h.String())
		case slices.Contains(v.p.Wires.KeepOut, h):
			v.say(name + " uses " + h.String() + ", which is to stay clear")
		case w.Kind != Insulated && i > 0 && w.Path[i-1].Steps(h) != 1:
			v.say(name + " jumps from " + w.Path[i-1].String() + " to " + h.String())
		case w.Kind != Insulated && last != nil && last != b && !(w.Locked && v.asksFor(w) && sewn(last, b)):
			v.say(name + " crosses the seam at " + h.String())
		}
		if w.Kind != Insulated && b.Copper == panel.Strips && slices.Contains(b.Cuts, h) {
			v.say(name + " lies over the cut at " + h.String())
		}
		last = b
	}
	if w.Kind == Solder && len(w.Path) != 2 || w.Kind == Insulated && len(w.Path) != 2 || w.Through && len(w.Path) != 1 ||
		w.Kind == Bare && !w.Through && len(w.Path) < 2 {
		v.say(name + " covers the wrong number of holes")
	}
	if w.Through && v.place(w.From, grid.Front) == v.place(w.From, grid.Back) {
		v.say(name + " links two faces that are one")
	}
}

// asksFor reports whether the panel holds a wish for a bare run between the ends of w.
func (v *verifier) asksFor(w *Wire) bool {
	return slices.ContainsFunc(v.p.Wires.Locked, func(l panel.LockedWire) bool {
		return l.Kind == string(Bare) && (l.From == w.From && l.To == w.To || l.From == w.To && l.To == w.From)
	})
}

// sewn reports whether a seam joins two boards.
func sewn(a, b *panel.Board) bool {
	return a.Seam != nil && a.Seam.Board == b.ID || b.Seam != nil && b.Seam.Board == a.ID
}

// underBody walks along a bare wire in small steps and looks for bodies close to the board.
func (v *verifier) underBody(w *Wire, name string) {
	const parts = 8
	faces := []grid.Face{w.Face}
	if w.Through {
		faces = []grid.Face{grid.Front, grid.Back}
	}
	for i, h := range w.Path {
		from := h.Centre()
		to := from
		if i+1 < len(w.Path) {
			to = w.Path[i+1].Centre()
		}
		for k := range parts {
			at := grid.Point{X: from.X + (to.X-from.X)*grid.Millimetre(k)/parts, Y: from.Y + (to.Y-from.Y)*grid.Millimetre(k)/parts}
			for _, f := range faces {
				if ref := v.bodyOver(at, f, 1); ref != "" {
					v.say(name + " lies under the body of " + ref + " near " + h.String())
				}
			}
		}
	}
}

// coveredEnds looks for bodies over the ends of an insulated wire that leave less than the two
// millimetres that a joint and a wire end need.
func (v *verifier) coveredEnds(w *Wire, name string) {
	for i, h := range w.Path {
		face := w.Face
		if w.Round && i > 0 {
			face = face.Other()
		}
		if ref := v.bodyOver(h.Centre(), face, 2); ref != "" {
			v.say(name + " ends under " + ref + " at " + h.String() + ", where it cannot be soldered")
		}
	}
}

// hasLead reports whether a lead of pl is at a point: its own body then leaves no room for the iron.
func (v *verifier) hasLead(pl *panel.Placed, at grid.Point) bool {
	d := v.p.Definition(pl)
	return slices.ContainsFunc(d.Terminals, func(t part.Terminal) bool { return pl.Pose().Hole(t.Offset()).Centre() == at })
}

// bodyOver returns the part with a body over a point of a face that leaves less room than asked for.
func (v *verifier) bodyOver(at grid.Point, f grid.Face, room float64) string {
	for i := range v.lids {
		l := &v.lids[i]
		if l.face != f || !l.rect.Contains(at) {
			continue
		}
		own := room > 1 && !l.plugged && v.hasLead(l.placed, at)
		if l.standOff >= room && !own {
			continue
		}
		if !l.round || l.rect.Centre().Distance(at) <= min(l.rect.Width(), l.rect.Height())/2 {
			return l.placed.Ref
		}
	}
	return ""
}

// A lid is a body where it lies.
type lid struct {
	placed         *panel.Placed
	face           grid.Face
	rect           grid.Rect
	standOff       float64
	plugged, round bool
}

func (v *verifier) layBodies() {
	for i := range v.p.Placed {
		pl := &v.p.Placed[i]
		pose := pl.Pose()
		for _, b := range v.p.Parts[pl.Part].Bodies {
			v.lids = append(v.lids, lid{pl, pose.Side(b.Face), pose.Rect(b.Rectangle()), b.StandOff, b.Plugged, b.Shape == "round"})
		}
	}
}
