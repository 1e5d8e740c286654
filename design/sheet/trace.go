package sheet

import "fascia/design/grid"

// A trace is the data of a path.
type trace struct{ d []byte }

func (t *trace) at(command byte, points ...grid.Point) *trace {
	t.d = append(t.d, command)
	for i, q := range points {
		if i > 0 {
			t.d = append(t.d, ' ')
		}
		t.d = appendMM(t.d, q.X)
		t.d = append(t.d, ' ')
		t.d = appendMM(t.d, q.Y)
	}
	return t
}

func (t *trace) move(q grid.Point) *trace          { return t.at('M', q) }
func (t *trace) line(q grid.Point) *trace          { return t.at('L', q) }
func (t *trace) bend(corner, to grid.Point) *trace { return t.at('Q', corner, to) }
func (t *trace) across(x grid.Millimetre) *trace {
	t.d = appendMM(append(t.d, 'H'), x)
	return t
}

// round goes on along a circle of radius r, clockwise on the sheet, the long way or the short.
func (t *trace) round(r grid.Millimetre, long bool, to grid.Point) *trace {
	t.d = appendMM(append(t.d, 'A'), r)
	t.d = appendMM(append(t.d, ' '), r)
	if long {
		t.d = append(t.d, " 0 1 1 "...)
	} else {
		t.d = append(t.d, " 0 0 1 "...)
	}
	t.d = appendMM(t.d, to.X)
	t.d = appendMM(append(t.d, ' '), to.Y)
	return t
}

func (t *trace) closed() *trace                   { t.d = append(t.d, 'Z'); return t }
func (t *trace) curve(a, b, to grid.Point) *trace { return t.at('C', a, b, to) }
func (t *trace) lines(points ...grid.Point) *trace {
	for i, q := range points {
		if i == 0 {
			t.move(q)
			continue
		}
		t.line(q)
	}
	return t
}

// smooth runs along points with its corners rounded by radius, or by half the shorter leg.
func (t *trace) smooth(points []grid.Point, radius grid.Millimetre) *trace {
	t.move(points[0])
	for i := 1; i < len(points)-1; i++ {
		a, c, b := points[i-1], points[i], points[i+1]
		r := min(radius, a.Distance(c)/2, b.Distance(c)/2)
		t.line(towards(c, a, r)).bend(c, towards(c, b, r))
	}
	return t.line(points[len(points)-1])
}

// towards returns the point at distance r from a on the way to b.
func towards(a, b grid.Point, r grid.Millimetre) grid.Point {
	d := a.Distance(b)
	if d == 0 {
		return a
	}
	return grid.Point{X: a.X + (b.X-a.X)*r/d, Y: a.Y + (b.Y-a.Y)*r/d}
}
