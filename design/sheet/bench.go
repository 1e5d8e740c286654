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

// drawRings rings the holes of the step and names them. Many holes, as of a module, are ringed
// without names but for the first and the last.
func (s *scene) drawRings() {
	list := s.stepHoles()
	for i, h := range list {
		at := s.hole(h)
		s.circle(at, 1.3, "ring")
		if len(list) <= 6 || i == 0 || i == len(list)-1 {
			s.text(at.Add(nameOffset(s.face, h, list)), 1.5, h.String(), "ring-name")
		}
	}
}

// stepHoles are the holes that the hands go to: both ends of a wire, else all that were given.
func (s *scene) stepHoles() []grid.Hole {
	if s.Wire == 0 || s.Wiring == nil {
		return s.Holes
	}
	for _, w := range s.Wiring.Wires {
		if w.Step == s.Wire {
			return []grid.Hole{w.From, w.To}
		}
	}
	return s.Holes
}

// nameOffset is where a ringed hole's name goes: above, under when the hole above is ringed too, and
// aside from a ringed neighbour in the row.
func nameOffset(face grid.Face, h grid.Hole, ringed []grid.Hole) grid.Point {
	off := grid.Point{Y: -2.2}
	for _, o := range ringed {
		d := o.Minus(h)
		switch {
		case d.Cols == 0 && d.Rows == -1:
			off.Y = 2.2
		case d.Rows == 0 && d.Cols == 1:
			off.X = -0.9
		case d.Rows == 0 && d.Cols == -1:
			off.X = 0.9
		}
	}
	if face == grid.Back {
		off.X = -off.X
	}
	return off
}
