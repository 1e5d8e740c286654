package sheet

import (
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// A lens turns places on the board into places on the sheet: the same millimetres seen from the
// front, mirrored left to right about mirror/2 seen from the back.
type lens struct {
	face   grid.Face
	mirror grid.Millimetre
}

func (l lens) point(q grid.Point) grid.Point {
	if l.face == grid.Back {
		q.X = l.mirror - q.X
	}
	return q
}

func (l lens) hole(h grid.Hole) grid.Point { return l.point(h.Centre()) }

func (l lens) area(r grid.Rect) grid.Rect { return grid.RectOf(l.point(r.Min), l.point(r.Max)) }

// Mirror is the number that takes a place on the back view to the board: board x = mirror - view
// x. It follows from the boards alone, so that it stays while parts are moved, and it is such that
// the boards fill the same room in both views.
func Mirror(p *panel.Panel) grid.Millimetre {
	r := boardsExtent(p)
	return r.Min.X + r.Max.X
}

// boardsExtent is the smallest rectangle that holds every board.
func boardsExtent(p *panel.Panel) grid.Rect {
	if len(p.Boards) == 0 {
		return grid.Rect{}
	}
	r := p.Boards[0].Outline()
	for i := range p.Boards {
		r = r.Union(p.Boards[i].Outline())
	}
	return r
}

// extent is the room that the drawing of a panel takes in a view: its boards with the labels round
// them, and the parts that hang over the edge.
func (l lens) extent(p *panel.Panel, labels grid.Millimetre) grid.Rect {
	r := boardsExtent(p).Grown(labels)
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Parts[pl.Part]
		for _, b := range d.Bodies {
			r = r.Union(pl.Pose().Rect(b.Rectangle()).Grown(labels / 2))
		}
	}
	return l.area(r)
}

// A frame takes a part's own millimetres, drawn at turn 0 on the front, to the sheet, measured
// from where its first hole is drawn.
type frame struct {
	lens
	pose grid.Pose
}

func (f frame) at(q grid.Point) grid.Point {
	q = f.pose.Point(q).Minus(f.pose.At.Centre())
	if f.face == grid.Back {
		q.X = -q.X
	}
	return q
}

func (f frame) box(r grid.Rect) grid.Rect { return grid.RectOf(f.at(r.Min), f.at(r.Max)) }

// lead is where the tip of a terminal's lead goes: the middle of its hole.
func (f frame) lead(t part.Terminal) grid.Point { return f.at(t.Offset().Point()) }

// side names the edge of a box that p is nearest to.
func side(r grid.Rect, p grid.Point) edge {
	gaps := [...]grid.Millimetre{left: p.X - r.Min.X, top: p.Y - r.Min.Y, right: r.Max.X - p.X, bottom: r.Max.Y - p.Y}
	best := left
	for e := range gaps {
		if gaps[e] < gaps[best]-0.01 {
			best = edge(e)
		}
	}
	return best
}

// An edge of a rectangle on the sheet.
type edge int

const (
	left edge = iota
	top
	right
	bottom
)

// outward is one millimetre out of the rectangle across e.
func (e edge) outward() grid.Point {
	return [...]grid.Point{left: {X: -1}, top: {Y: -1}, right: {X: 1}, bottom: {Y: 1}}[e]
}

// edgeNamed reads the words of part.Body.Overhang.
func edgeNamed(name string) (edge, bool) {
	switch name {
	case "left":
		return left, true
	case "top":
		return top, true
	case "right":
		return right, true
	case "bottom":
		return bottom, true
	}
	return 0, false
}

// middle is the middle of edge e of r.
func (e edge) middle(r grid.Rect) grid.Point {
	c := r.Centre()
	return [...]grid.Point{left: {X: r.Min.X, Y: c.Y}, top: {X: c.X, Y: r.Min.Y}, right: {X: r.Max.X, Y: c.Y}, bottom: {X: c.X, Y: r.Max.Y}}[e]
}

// An axis lies on the sheet: where it starts, and one millimetre along and across it.
type axis struct{ from, along, across grid.Point }

// axisOf is the axis from a to b, of unit steps in millimetres; its crossing points a quarter turn
// clockwise of it on the sheet. When a is b it runs right.
func axisOf(a, b grid.Point) axis {
	d := a.Distance(b)
	if d == 0 {
		return axis{a, grid.Point{X: 1}, grid.Point{Y: 1}}
	}
	u := grid.Point{X: (b.X - a.X) / d, Y: (b.Y - a.Y) / d}
	return axis{a, u, grid.Point{X: -u.Y, Y: u.X}}
}

func (x axis) at(along, across grid.Millimetre) grid.Point {
	return grid.Point{
		X: x.from.X + x.along.X*along + x.across.X*across,
		Y: x.from.Y + x.along.Y*along + x.across.Y*across,
	}
}

// bar is the rectangle along the axis from s to e, half its width to each side.
func (x axis) bar(s, e, half grid.Millimetre) grid.Rect {
	return grid.RectOf(x.at(s, -half), x.at(e, half))
}
