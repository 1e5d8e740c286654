package sheet

import "fascia/design/grid"

// closeUp is the view box round the holes of a bench step: three holes of room on each side, never
// narrower than ten, in the proportion of four to three.
func (s *scene) closeUp() grid.Rect {
	r := grid.RectOf(s.hole(s.Holes[0]), s.hole(s.Holes[0]))
	for _, h := range s.Holes {
		r = r.Union(grid.RectOf(s.hole(h), s.hole(h)))
	}
	r = r.Grown(3 * grid.Pitch)
	const least = 10 * grid.Pitch
	if w := r.Width(); w < least {
		r.Min.X, r.Max.X = r.Min.X-(least-w)/2, r.Max.X+(least-w)/2
	}
	return shaped(r, 4, 3)
}

// drawRings rings the holes of the step and names them, each name above its hole, or under it when
// a ringed neighbour is in the way. Many holes, as of a module, are ringed without names but for
// the first and the last.
func (s *scene) drawRings() {
	for i, h := range s.Holes {
		at := s.hole(h)
		s.circle(at, 1.3, "ring")
		if len(s.Holes) > 6 && i != 0 && i != len(s.Holes)-1 {
			continue
		}
		up := grid.Millimetre(-2.2)
		if s.ringed(h.Add(grid.Offset{Rows: -1})) {
			up = 2.2
		}
		s.text(at.Add(grid.Point{Y: up}), 1.5, h.String(), "ring-name")
	}
}
