package wiring

import (
	"fascia/design/fit"
	"fascia/design/grid"
)

// setNext lists where bare runs may go: to the neighbouring hole of the same board on the same
// face, unless a body lies across the way.
func (fd *field) setNext(f *fit.Result) {
	fd.next = make([][4]spot, len(fd.class))
	for s := range fd.next {
		fd.next[s] = [4]spot{nowhere, nowhere, nowhere, nowhere}
		if !fd.pass[s] {
			continue
		}
		for k, step := range steps {
			n := fd.at(fd.hole(spot(s)).Add(step), fd.face(spot(s)))
			if n != nowhere && fd.on[n/2] == fd.on[s/2] && fd.pass[n] {
				fd.next[s][k] = n
			}
		}
	}
	for i := range f.Bodies {
		if f.Bodies[i].StandOff < bareRoom {
			fd.closeAcross(&f.Bodies[i])
		}
	}
}

// closeAcross takes away the steps that would pass under a body though it covers neither end.
func (fd *field) closeAcross(b *fit.Body) {
	r := b.Rect.Grown(besideBody)
	if !b.Round && r.Width() >= grid.Pitch && r.Height() >= grid.Pitch {
		return // whatever crosses it starts or ends in it
	}
	for _, h := range r.Grown(grid.Pitch).Holes() {
		s := fd.at(h, b.Face)
		if s == nowhere {
			continue
		}
		for k, step := range steps[:2] {
			n := fd.next[s][k]
			if n != nowhere && crosses(grid.RectOf(h.Centre(), h.Add(step).Centre()), b) {
				fd.next[s][k], fd.next[n][k+2] = nowhere, nowhere
			}
		}
	}
}

// crosses reports whether a straight way, a rectangle without width, passes under b or too close.
func crosses(way grid.Rect, b *fit.Body) bool {
	if b.Round {
		m := b.Rect.Centre()
		nearest := grid.Point{X: min(max(m.X, way.Min.X), way.Max.X), Y: min(max(m.Y, way.Min.Y), way.Max.Y)}
		return nearest.Distance(m) < min(b.Rect.Width(), b.Rect.Height())/2+besideBody
	}
	r := b.Rect.Grown(besideBody)
	return way.Max.X > r.Min.X && way.Min.X < r.Max.X && way.Max.Y > r.Min.Y && way.Min.Y < r.Max.Y
}
