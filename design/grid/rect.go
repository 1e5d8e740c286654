package grid

// A Rect is an upright rectangle in millimetres; Min is its top left corner, Max its bottom right.
type Rect struct{ Min, Max Point }

// RectOf returns the rectangle with a and b as opposite corners.
func RectOf(a, b Point) Rect {
	return Rect{Point{min(a.X, b.X), min(a.Y, b.Y)}, Point{max(a.X, b.X), max(a.Y, b.Y)}}
}

// Width and Height are never negative.
func (r Rect) Width() Millimetre { return r.Max.X - r.Min.X }

// Height is the extent along the rows.
func (r Rect) Height() Millimetre { return r.Max.Y - r.Min.Y }

// Centre is the middle of r.
func (r Rect) Centre() Point { return Point{(r.Min.X + r.Max.X) / 2, (r.Min.Y + r.Max.Y) / 2} }

// Grown returns r with each side moved outward by d, or inward when d is negative.
func (r Rect) Grown(d Millimetre) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Contains reports whether p lies in r, its edge included.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Inside reports whether all of r lies in s.
func (r Rect) Inside(s Rect) bool { return s.Contains(r.Min) && s.Contains(r.Max) }

// Overlap returns how far r and s reach into each other along the axis where they do so least;
// it is zero or negative when they do not overlap.
func (r Rect) Overlap(s Rect) Millimetre {
	x := min(r.Max.X, s.Max.X) - max(r.Min.X, s.Min.X)
	y := min(r.Max.Y, s.Max.Y) - max(r.Min.Y, s.Min.Y)
	return min(x, y)
}

// Union returns the smallest rectangle that holds both.
func (r Rect) Union(s Rect) Rect {
	return Rect{Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)}, Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)}}
}

// Holes returns every hole whose centre lies in r, row by row.
func (r Rect) Holes() []Hole {
	var holes []Hole
	from, to := Nearest(r.Min), Nearest(r.Max)
	for row := from.Row; row <= to.Row; row++ {
		for col := from.Col; col <= to.Col; col++ {
			if h := (Hole{col, row}); r.Contains(h.Centre()) {
				holes = append(holes, h)
			}
		}
	}
	return holes
}
