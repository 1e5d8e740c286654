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
