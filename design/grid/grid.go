// Package grid knows where things are on a board: holes and their names, millimetres, faces,
// quarter turns and rectangles. It is the only place that converts holes to millimetres.
// Columns run right and rows run down, seen from the front. It knows nothing of parts or boards.
package grid

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// Millimetre is a length on the real board.
type Millimetre float64

// Pitch is the distance between neighbouring hole centres: 0.1 inch.
const Pitch Millimetre = 2.54

// MaxIndex is the largest column or row index a hole name may carry: column ZZ, row 702.
const MaxIndex = 26*27 - 1

// A Hole is a place in the common grid of all boards, counted from the top left of the front,
// from 0: A1 is {0, 0} and C7 is {2, 6}. It has the same name on both faces.
type Hole struct{ Col, Row int }

// An Offset is a distance in whole holes: columns to the right, rows down, seen from the front.
type Offset struct{ Cols, Rows int }

// A Point lies in millimetres from the middle of hole A1, right and down, seen from the front.
type Point struct{ X, Y Millimetre }

// ErrHoleName is wrapped by every error of ParseHole.
var ErrHoleName = errors.New("not a hole name")

// ParseHole reads a name such as C7 or AB12. Letters may be lower case; nothing else is accepted.
func ParseHole(name string) (Hole, error) {
	col, i := 0, 0
	for ; i < len(name) && i < 3; i++ {
		c := name[i] &^ 0x20
		if c < 'A' || c > 'Z' {
			break
		}
		col = col*26 + int(c-'A') + 1
	}
	row := 0
	digits := name[i:]
	if i == 0 || i > 2 || digits == "" || len(digits) > 3 || digits[0] == '0' {
		return Hole{}, fmt.Errorf("%q is %w: write one or two column letters and a row number, such as C7", name, ErrHoleName)
	}
	for _, c := range []byte(digits) {
		if c < '0' || c > '9' {
			return Hole{}, fmt.Errorf("%q is %w: write one or two column letters and a row number, such as C7", name, ErrHoleName)
		}
		row = row*10 + int(c-'0')
	}
	if row > MaxIndex+1 {
		return Hole{}, fmt.Errorf("%q is %w: rows end at %d", name, ErrHoleName, MaxIndex+1)
	}
	return Hole{col - 1, row - 1}, nil
}

// MustHole is ParseHole for names written in code and tests; it panics on any other.
func MustHole(name string) Hole {
	h, err := ParseHole(name)
	if err != nil {
		panic(err)
	}
	return h
}

// Valid reports whether h has a name.
func (h Hole) Valid() bool {
	return h.Col >= 0 && h.Row >= 0 && h.Col <= MaxIndex && h.Row <= MaxIndex
}

// String names h like a spreadsheet cell. A hole outside the grid, where a part hangs over the
// edge, has no name and reads as its column and row in brackets.
func (h Hole) String() string {
	if !h.Valid() {
		return fmt.Sprintf("(%d,%d)", h.Col+1, h.Row+1)
	}
	return fmt.Sprintf("%s%d", ColumnName(h.Col), h.Row+1)
}

// ColumnName gives the letters of column col, counted from 0: A, B … Z, AA … ZZ.
func ColumnName(col int) string {
	if col < 26 {
		return string(rune('A' + col))
	}
	return string(rune('A'+col/26-1)) + string(rune('A'+col%26))
}

// Add returns the hole at offset o from h.
func (h Hole) Add(o Offset) Hole { return Hole{h.Col + o.Cols, h.Row + o.Rows} }

// Minus returns the offset from g to h.
func (h Hole) Minus(g Hole) Offset { return Offset{h.Col - g.Col, h.Row - g.Row} }

// Before orders holes by row, then column.
func (h Hole) Before(g Hole) bool { return h.Compare(g) < 0 }

// Compare orders holes by row, then column, for slices.SortFunc.
func (h Hole) Compare(g Hole) int {
	if h.Row != g.Row {
		return h.Row - g.Row
	}
	return h.Col - g.Col
}

// Steps is the walking distance from h to g along the grid, in holes.
func (h Hole) Steps(g Hole) int { return abs(h.Col-g.Col) + abs(h.Row-g.Row) }

// Centre returns where the middle of h lies.
func (h Hole) Centre() Point { return Point{Millimetre(h.Col) * Pitch, Millimetre(h.Row) * Pitch} }

// Point returns o in millimetres.
func (o Offset) Point() Point { return Point{Millimetre(o.Cols) * Pitch, Millimetre(o.Rows) * Pitch} }

// Nearest returns the hole whose centre is nearest to p.
func Nearest(p Point) Hole {
	return Hole{int(math.Round(float64(p.X / Pitch))), int(math.Round(float64(p.Y / Pitch)))}
}

// MarshalText writes the hole's name, or for a place outside the grid what String gives, which
// UnmarshalText refuses.
func (h Hole) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// UnmarshalText reads a hole's name.
func (h *Hole) UnmarshalText(text []byte) (err error) {
	*h, err = ParseHole(string(text))
	return err
}

// Distance is the straight line from p to q.
func (p Point) Distance(q Point) Millimetre {
	return Millimetre(math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
}

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Minus returns p as seen from q.
func (p Point) Minus(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// JoinHoles writes holes as the output files do: names joined by spaces.
func JoinHoles(holes []Hole) string {
	names := make([]string, len(holes))
	for i, h := range holes {
		names[i] = h.String()
	}
	return strings.Join(names, " ")
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
