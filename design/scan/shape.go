package scan

// A shape is a matrix's size.
type shape struct{ rows, columns int }

func (s shape) pins() int  { return s.rows + s.columns }
func (s shape) cells() int { return s.rows * s.columns }

// spare is how many pins more than the fewest a shape may take to be looked at.
const spare = 2

// holdsTight reports whether no row and no column of s could go without losing a cell n needs.
func (s shape) holdsTight(n int) bool {
	return s.cells() >= n && (s.rows-1)*s.columns < n && s.rows*(s.columns-1) < n
}

// shapes lists the matrices worth looking at for n keys: those that hold them for which able says
// yes and which take at most spare pins more than the least of those, fewest pins first, then
// fewer rows. A wish above zero fixes the rows or the columns. The second list holds shapes that
// are larger than need be; their empty cells can keep chords apart.
func shapes(n, rows, columns int, able func(shape) bool) (tight, loose []shape) {
	least := 0
	for pins := 2; pins <= 2*n+rows+columns; pins++ {
		if least > 0 && pins > least+spare {
			break
		}
		for r := 1; r < pins; r++ {
			s := shape{r, pins - r}
			if rows > 0 && r != rows || columns > 0 && s.columns != columns || s.cells() < n {
				continue
			}
			if !able(s) {
				continue
			}
			if least == 0 {
				least = pins
			}
			if s.holdsTight(n) || pins == least {
				tight = append(tight, s)
			} else {
				loose = append(loose, s)
			}
		}
	}
	return tight, loose
}
