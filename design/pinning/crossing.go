package pinning

import "fascia/design/grid"

// cross reports whether the lines of two signals from two pins have a point in common. It is exact.
func (t *task) cross(a, pin, b, other int) bool {
	from, to := t.hole[pin], t.line[a][pin].to
	start, end := t.hole[other], t.line[b][other].to
	if t.line[a][pin].none || t.line[b][other].none || apart(from, to, start, end) {
		return false
	}
	one, two := side(from, to, start), side(from, to, end)
	three, four := side(start, end, from), side(start, end, to)
	// Lines whose frames overlap meet unless one lies wholly to one side of the other. On one straight
	// line all four sides are 0, and overlapping frames mean that they meet.
	return one*two <= 0 && three*four <= 0
}

// apart reports whether the frames round two lines have no point in common.
func apart(a, b, c, d grid.Hole) bool {
	return max(a.Col, b.Col) < min(c.Col, d.Col) || max(c.Col, d.Col) < min(a.Col, b.Col) ||
		max(a.Row, b.Row) < min(c.Row, d.Row) || max(c.Row, d.Row) < min(a.Row, b.Row)
}

// side is 1, 0 or -1 as p lies to one side of the line through a and b, on it, or to the other side.
func side(a, b, p grid.Hole) int {
	turn := (b.Col-a.Col)*(p.Row-a.Row) - (b.Row-a.Row)*(p.Col-a.Col)
	switch {
	case turn > 0:
		return 1
	case turn < 0:
		return -1
	}
	return 0
}

// crossings counts the pairs of signals whose lines meet.
func (t *task) crossings(at []int) (n int) {
	for a := range at {
		for b := range a {
			if at[a] >= 0 && at[b] >= 0 && t.cross(a, at[a], b, at[b]) {
				n++
			}
		}
	}
	return n
}
