package randompanel

import (
	"fmt"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// Room that things need, in millimetres: a joint under a body, and a lead beside one.
const (
	jointRoom = 2.0
	beside    = 0.3
	padRadius = 0.9
)

type lead struct {
	ref   string
	hole  grid.Hole
	metal string // the first terminal of its metal
}

type body struct {
	ref      string
	face     grid.Face
	rect     grid.Rect
	standOff float64
}

type drill struct {
	ref    string
	at     grid.Point
	radius float64
}

// A trial is a part in a place that it may not keep.
type trial struct {
	placed panel.Placed
	leads  []lead
	bodies []body
	drills []drill
}

// place tries some places for a part and keeps the first in which it fits.
func (m *maker) place(id string, shelf part.Catalogue) {
	d := shelf[id]
	m.count[d.Prefix]++
	ref := fmt.Sprintf("%s%d", d.Prefix, m.count[d.Prefix])
	for range 60 {
		b := &m.p.Boards[m.IntN(len(m.p.Boards))]
		at := b.At.Add(grid.Offset{Cols: m.IntN(b.Columns), Rows: m.IntN(b.Rows)})
		t := lay(panel.Placed{Ref: ref, Part: id, At: at, Turn: grid.Turn(m.IntN(4)), Face: m.face(b, d.Kind)}, &d)
		if !m.fits(b, &t) {
			continue
		}
		m.name(&t.placed, &d)
		m.p.Parts[id] = d
		m.p.Placed = append(m.p.Placed, t.placed)
		m.leads, m.bodies, m.drills = append(m.leads, t.leads...), append(m.bodies, t.bodies...), append(m.drills, t.drills...)
		return
	}
	m.count[d.Prefix]--
}

// face chooses the face of a part's body: away from the copper where only one face has any.
func (m *maker) face(b *panel.Board, kind part.Kind) grid.Face {
	switch {
	case b.Faces == panel.BackOnly:
		return grid.Front
	case b.Faces == panel.FrontOnly:
		return grid.Back
	case kind == part.Module && m.chance(50), kind != part.Module && kind != part.Switch && m.chance(20):
		return grid.Back
	}
	return grid.Front
}

func lay(pl panel.Placed, d *part.Definition) trial {
	t := trial{placed: pl}
	pose := pl.Pose()
	for _, term := range d.Terminals {
		t.leads = append(t.leads, lead{pl.Ref, pose.Hole(term.Offset()), d.Metal(term.Name)[0]})
	}
	for _, b := range d.Bodies {
		t.bodies = append(t.bodies, body{pl.Ref, pose.Side(b.Face), pose.Rect(b.Rectangle()), b.StandOff})
	}
	for _, h := range d.Drills {
		at := pose.Point(grid.Point{X: grid.Millimetre(h.MM[0]), Y: grid.Millimetre(h.MM[1])})
		t.drills = append(t.drills, drill{pl.Ref, at, h.Diameter / 2})
	}
	return t
}

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

func alongStrip(b *panel.Board, g, h grid.Hole) bool {
	if b.Along == "columns" {
		return g.Col == h.Col
	}
	return g.Row == h.Row
}

// cutStrips cuts each strip between leads of different metal.
func (m *maker) cutStrips() {
	for i := range m.p.Boards {
		b := &m.p.Boards[i]
		if b.Copper != panel.Strips {
			continue
		}
		byHole := map[grid.Hole]lead{}
		for _, l := range m.leads {
			byHole[l.hole] = l
		}
		lines, along, step := b.Rows, b.Columns, grid.Offset{Cols: 1}
		if b.Along == "columns" {
			lines, along, step = b.Columns, b.Rows, grid.Offset{Rows: 1}
		}
		for line := range lines {
			first := b.At.Add(grid.Offset{Cols: line * step.Rows, Rows: line * step.Cols})
			b.Cuts = append(b.Cuts, cuts(first, step, along, byHole)...)
		}
	}
}

// cuts returns where the strip from first is to be cut: half-way between leads of different metal.
func cuts(first grid.Hole, step grid.Offset, along int, byHole map[grid.Hole]lead) []grid.Hole {
	var found []grid.Hole
	last := -1
	var before lead
	for k := range along {
		l, ok := byHole[first.Add(grid.Offset{Cols: k * step.Cols, Rows: k * step.Rows})]
		if !ok {
			continue
		}
		if last >= 0 && (l.ref != before.ref || l.metal != before.metal) {
			half := (last + k) / 2
			found = append(found, first.Add(grid.Offset{Cols: half * step.Cols, Rows: half * step.Rows}))
		}
		last, before = k, l
	}
	return found
}
