package randompanel

import (
	"fascia/design/grid"
	"fascia/design/panel"
)

// fits reports whether a trial is on board b and gets into nobody's way.
func (m *maker) fits(b *panel.Board, t *trial) bool {
	for i, l := range t.leads {
		if !b.Holds(l.hole) || m.copperTaken(b, l, t.leads[:i]) || m.copperTaken(b, l, m.leads) ||
			covered(l, m.bodies) || drilled(l, m.drills) {
			return false
		}
	}
	for i := range t.bodies {
		if !t.bodies[i].rect.Inside(b.Outline()) {
			return false
		}
		for j := range m.bodies {
			if t.bodies[i].face == m.bodies[j].face && t.bodies[i].rect.Overlap(m.bodies[j].rect) > 0 {
				return false
			}
		}
	}
	if bores(t.drills, m.bodies, m.drills) || bores(m.drills, t.bodies, t.drills) {
		return false
	}
	lid, hidden := "", ""
	for _, l := range t.leads {
		lid = max(lid, over(l, m.bodies))
	}
	for _, l := range m.leads {
		if over(l, t.bodies) != "" {
			hidden = max(hidden, l.ref)
		}
	}
	if lid != "" && hidden != "" {
		return false // each might want to be soldered before the other
	}
	for _, l := range m.leads {
		if covered(l, t.bodies) || drilled(l, t.drills) {
			return false
		}
	}
	return true
}

// bores reports whether a drill runs into a body or another drill.
func bores(drills []drill, bodies []body, others []drill) bool {
	for _, d := range drills {
		r := grid.Rect{Min: d.at, Max: d.at}.Grown(grid.Millimetre(d.radius + beside))
		for i := range bodies {
			if bodies[i].ref != d.ref && bodies[i].rect.Overlap(r) > 0 {
				return true
			}
		}
		for _, o := range others {
			if o.ref != d.ref && float64(o.at.Distance(d.at)) < o.radius+d.radius+beside {
				return true
			}
		}
	}
	return false
}

// over returns a part whose body lies over a lead of another, or "".
func over(l lead, bodies []body) string {
	for i := range bodies {
		if b := &bodies[i]; b.ref != l.ref && b.rect.Grown(beside).Contains(l.hole.Centre()) {
			return b.ref
		}
	}
	return ""
}

// covered reports whether a body leaves a lead of another part too little room.
func covered(l lead, bodies []body) bool {
	for i := range bodies {
		b := &bodies[i]
		if b.ref != l.ref && b.standOff < jointRoom && b.rect.Grown(beside).Contains(l.hole.Centre()) {
			return true
		}
	}
	return false
}

func drilled(l lead, drills []drill) bool {
	for _, d := range drills {
		if d.ref != l.ref && float64(d.at.Distance(l.hole.Centre())) < d.radius+padRadius {
			return true
		}
	}
	return false
}

// copperTaken reports whether the copper of a lead's hole is another's: the hole itself, its group,
// or a strip on which no cut fits between the two.
func (m *maker) copperTaken(b *panel.Board, l lead, others []lead) bool {
	for _, o := range others {
		same := o.ref == l.ref && o.metal == l.metal
		switch {
		case o.hole == l.hole:
			return true
		case same:
		case b.Copper == panel.Strips && alongStrip(b, o.hole, l.hole) && o.hole.Steps(l.hole) < 2:
			return true
		case b.Copper == panel.Groups:
			for _, h := range b.Mates(l.hole) {
				if h == o.hole {
					return true
				}
			}
		}
	}
	return false
}
