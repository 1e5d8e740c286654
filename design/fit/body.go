package fit

import (
	"math"

	"fascia/design/grid"
)

// Figures of boards and joints, in millimetres.
const (
	holeRadius grid.Millimetre = 0.5 // drilled 1.0: proto-board maker's documentation
	padRadius  grid.Millimetre = 0.9 // plated pads of 1.8: common practice, no source
	// JointRoom is what a joint and the lead's end need above the board: a lead end of at most 1.5
	// (NASA and IPC workmanship notes), and 0.5 of air.
	JointRoom grid.Millimetre = 2.0
	// bodyAir is what one body needs above another on the same face (common practice, no source).
	bodyAir grid.Millimetre = 0.5
	// touching is how far outlines may overlap before it counts: bodies vary by more than this.
	touching grid.Millimetre = 0.1
)

// top is the highest point of the body above the board.
func (b *Body) top() grid.Millimetre { return max(b.Height, b.StandOff) }

// over reports whether b lies over p, or within the clearance beside it.
func (b *Body) over(p grid.Point) bool {
	if b.Round {
		return b.Rect.Centre().Distance(p) <= b.radius()+clearance
	}
	return b.Rect.Grown(clearance).Contains(p)
}

func (b *Body) radius() grid.Millimetre { return min(b.Rect.Width(), b.Rect.Height()) / 2 }

// reach is how far two bodies reach into each other, seen from above; zero or less when they do not.
func (b *Body) reach(c *Body) grid.Millimetre {
	switch {
	case b.Round && c.Round:
		return b.radius() + c.radius() - b.Rect.Centre().Distance(c.Rect.Centre())
	case b.Round:
		return b.radius() - outside(c.Rect, b.Rect.Centre())
	case c.Round:
		return c.radius() - outside(b.Rect, c.Rect.Centre())
	}
	return b.Rect.Overlap(c.Rect)
}

// outside is how far p lies outside r; negative by the distance to the nearest side when inside.
func outside(r grid.Rect, p grid.Point) grid.Millimetre {
	x := max(r.Min.X-p.X, p.X-r.Max.X)
	y := max(r.Min.Y-p.Y, p.Y-r.Max.Y)
	if x > 0 && y > 0 {
		return grid.Millimetre(math.Hypot(float64(x), float64(y)))
	}
	return max(x, y)
}

// bridges reports whether b stands off far enough to lie over c.
func (b *Body) bridges(c *Body) bool { return b.StandOff >= c.top()+bodyAir }
