package sheet

import (
	"strings"

	"fascia/design/finding"
	"fascia/design/grid"
)

// drawMarks draws a mark in red pencil for each finding that points at a place in view: a loop
// drawn by hand round the hole or at the part's corner, with a sign for its severity.
func (s *scene) drawMarks() {
	taken := map[grid.Point]int{}
	for i, f := range s.Findings {
		at, ok := s.placeOf(f.Where)
		if !ok {
			continue
		}
		n := taken[at]
		taken[at]++
		s.drawMark(i, f, grid.Point{X: at.X + 2.6*grid.Millimetre(n), Y: at.Y})
	}
}

// placeOf is where on the sheet a finding points first: its first hole, else the top right corner
// of its first part.
func (s *scene) placeOf(w finding.Where) (grid.Point, bool) {
	if len(w.Holes) > 0 {
		return s.hole(w.Holes[0]), true
	}
	for _, ref := range append(append([]string{}, w.Refs...), w.Keys...) {
		ref, _, _ = strings.Cut(ref, ".")
		if pl := s.Panel.Find(ref); pl != nil {
			k := s.sketch(pl)
			return s.hole(pl.At).Add(grid.Point{X: k.main.Max.X, Y: k.main.Min.Y}), true
		}
	}
	return grid.Point{}, false
}

func (s *scene) drawMark(i int, f finding.Finding, at grid.Point) {
	sign := class("note-" + f.Severity.String())
	s.newline()
	s.tag("g", "mark", "mark-"+sign)
	s.word("data-code", f.Code)
	s.whole("data-finding", i)
	s.open()
	s.title(strings.TrimSpace(f.Text + " " + f.Fix))
	s.circle(at, 1.5, "hit")
	s.path(loop(at, 1.25), sign)
	t := new(trace)
	switch f.Severity {
	case finding.Stop:
		s.cross(at, 0.55, sign)
	case finding.Mind:
		t.move(at.Add(grid.Point{Y: -0.65})).line(at.Add(grid.Point{Y: 0.2}))
		t.move(at.Add(grid.Point{Y: 0.66})).line(at.Add(grid.Point{Y: 0.67}))
		s.path(t, sign)
	default:
		t.move(at.Add(grid.Point{Y: -0.1})).line(at.Add(grid.Point{Y: 0.65}))
		t.move(at.Add(grid.Point{Y: -0.62})).line(at.Add(grid.Point{Y: -0.61}))
		s.path(t, sign)
	}
	s.end("g")
}

// loop is a circle as a pencil draws it: it starts inside, runs round and overshoots.
func loop(c grid.Point, r grid.Millimetre) *trace {
	at := func(x, y grid.Millimetre) grid.Point { return grid.Point{X: c.X + x*r, Y: c.Y + y*r} }
	t := new(trace).move(at(-0.2, -0.86))
	t.curve(at(0.5, -1.2), at(1.12, -0.6), at(1.05, 0.08))
	t.curve(at(1, 0.7), at(0.45, 1.06), at(-0.1, 1.02))
	t.curve(at(-0.8, 0.98), at(-1.12, 0.4), at(-1, -0.2))
	return t.curve(at(-0.9, -0.85), at(-0.2, -1.3), at(0.55, -1.02))
}
