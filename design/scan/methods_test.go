package scan

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"pgregory.net/rapid"
)

// Pins for n keys by each method, and expanders of 16 lines: arithmetic. A matrix of r x c takes
// r + c >= 2 sqrt(n) pins, by the inequality of arithmetic and geometric means; lines with diodes
// give n (n-1) ordered pairs; an expander of 16 lines reads 16 keys.
func TestPinsByMethod(t *testing.T) {
	const source = "arithmetic"
	tests := []struct{ keys, matrix, lines, chips int }{
		{4, 4, 3, 1}, {6, 5, 3, 1}, {8, 6, 4, 1}, {9, 6, 4, 1}, {12, 7, 4, 1}, {16, 8, 5, 1}, {20, 9, 5, 2}, {25, 10, 6, 2}, {30, 11, 6, 2}, {36, 12, 7, 3},
		{40, 13, 7, 3}, {42, 13, 7, 3}, {48, 14, 8, 3}, {56, 15, 8, 4}, {60, 16, 9, 4}, {64, 16, 9, 4}, {72, 17, 9, 5}, {80, 18, 10, 5}, {90, 19, 10, 6}, {100, 20, 11, 7},
	}
	for _, tt := range tests {
		if got := shapesOf(tt.keys)[0].pins(); got != tt.matrix {
			t.Errorf("%d keys: a matrix takes %d pins, want %d (%s)", tt.keys, got, tt.matrix, source)
		}
		if got := linesFor(tt.keys); got != tt.lines {
			t.Errorf("%d keys: lines take %d pins, want %d (%s)", tt.keys, got, tt.lines, source)
		}
		if got := chipsFor(tt.keys, 16); got != tt.chips {
			t.Errorf("%d keys: %d expanders, want %d (%s)", tt.keys, got, tt.chips, source)
		}
	}
}

func TestPinsAreTheFewest(t *testing.T) {
	for n := 1; n <= panel.MaxKeys; n++ {
		l, m := linesFor(n), max(2, shapesOf(n)[0].pins())
		switch {
		case linesHold(l) < n || matrixHolds(m) < n:
			t.Errorf("%d keys don't fit on %d lines or a matrix of %d pins", n, l, m)
		case n > 2 && linesHold(l-1) >= n || n > 1 && matrixHolds(m-1) >= n:
			t.Errorf("%d keys fit on a pin less than %d lines, or than %d pins of a matrix", n, l, m)
		case linesFor(n+1) < l || shapesOf(n + 1)[0].pins() < m:
			t.Errorf("%d keys take fewer pins than %d", n+1, n)
		}
		if c := chipsFor(n, 14); c*14 < n || (c-1)*14 >= n {
			t.Errorf("%d keys on %d expanders of 14", n, c)
		}
	}
}

// Every tight shape is listed: the shapes that hold n keys and could not lose a line, with fewer pins
// than keys.
func TestLeastShapes(t *testing.T) {
	for _, n := range []int{1, 4, 5, 20, 61, 128} {
		want := map[shape]bool{}
		for r := 1; r <= n; r++ {
			for c := 1; c <= n; c++ {
				if r*c >= n && (r-1)*c < n && r*(c-1) < n && r+c < n {
					want[shape{r, c}] = true
				}
			}
		}
		list := leastShapes(n)
		for _, s := range list {
			if !want[s] {
				t.Errorf("%d keys: %v is listed, and is not tight", n, s)
			}
			delete(want, s)
		}
		if len(want) > 0 || !slices.IsSortedFunc(list, func(a, b shape) int { return a.pins() - b.pins() }) {
			t.Errorf("%d keys: %v are missing from %v, or it is out of order", n, want, list)
		}
	}
}

// withExpanders puts expanders of the catalogue on the panel, each at its own hole, U1 first.
func withExpanders(p *panel.Panel, holes ...grid.Hole) *panel.Panel {
	p.Parts[usualExpander] = part.BuiltIn()[usualExpander]
	for i, h := range holes {
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprintf("U%d", i+1), Part: usualExpander, At: h, Address: fmt.Sprintf("0x%02X", 0x20+i)})
	}
	return p
}

// methodsOf lists a result's rows as method and shape.
func methodsOf(r *Result) []string {
	var list []string
	for _, c := range r.Choices {
		text := c.Method
		if c.Rows > 0 {
			text += fmt.Sprintf(" %dx%d", c.Rows, c.Columns)
		}
		list = append(list, text)
	}
	return list
}

func TestTable(t *testing.T) {
	r := Plan(withChords(regularKeys(4, 5), []int{1, 2, 6}, []int{1, 2}), rp2040(), 12)
	want := []string{"direct", "matrix 4x5", "matrix 5x4", "matrix 3x7", "matrix 7x3", "matrix 2x10", "matrix 10x2",
		"matrix with diodes 4x5", "matrix with diodes 5x4", "matrix with diodes 3x7", "matrix with diodes 7x3", "matrix with diodes 2x10", "matrix with diodes 10x2",
		"lines with diodes 5x5", "expander"}
	if got := methodsOf(&r); !slices.Equal(got, want) {
		t.Fatalf("rows %q,\nwant %q", got, want)
	}
	for i, c := range r.Choices {
		if c.Chords != 2 || c.SafeChords > c.Chords {
			t.Errorf("%s: %d of %d chords safe, want of 2", want[i], c.SafeChords, c.Chords)
		}
		if fits := c.Pins <= 12; c.Fits != fits {
			t.Errorf("%s takes %d of 12 pins, fits: %v", want[i], c.Pins, c.Fits)
		}
	}
}

// Counted by hand for 4 x 5 keys that follow the layout. Joints: two a diode or a resistor; an
// expander's supplies, address pins, reset and bus are 8 terminals, its interrupt one, each key's line
// one, two pull-ups of the bus four.
func TestPartsAndJoints(t *testing.T) {
	tests := []struct {
		name, method, pulls string
		free                int
		p                   *panel.Panel
		pins, parts, joints int
		fits                bool
		says                string
	}{
		{"a pin each", methodDirect, "internal", 20, regularKeys(4, 5), 20, 0, 0, true, ""},
		{"a pin each, pulled outside", methodDirect, "external", 20, regularKeys(4, 5), 20, 20, 40, true, ""},
		{"matrix", methodMatrix, "internal", 20, regularKeys(4, 5), 9, 0, 0, true, ""},
		{"matrix, rows pulled outside", methodMatrix, "external", 20, regularKeys(4, 5), 9, 4, 8, true, ""},
		{"matrix with diodes", methodDiodes, "internal", 20, regularKeys(4, 5), 9, 20, 40, true, "20 diodes"},
		{"lines", methodLines, "internal", 20, regularKeys(4, 5), 5, 20, 40, true, "20 diodes"},
		{"lines, pulled outside", methodLines, "external", 20, regularKeys(4, 5), 5, 25, 50, true, ""},
		{"two expanders with interrupts", methodExpander, "internal", 20, regularKeys(4, 5), 4, 4, 2*9 + 20 + 4, true, "2 expanders"},
		{"no pins for interrupts", methodExpander, "internal", 3, regularKeys(4, 5), 2, 4, 2*8 + 20 + 4, true, "no pin for an interrupt"},
		{"no pins for the bus", methodExpander, "internal", 1, regularKeys(4, 5), 2, 4, 2*8 + 20 + 4, false, "takes 1 pin more than are free"},
		{"one expander placed, and so the bus", methodExpander, "internal", 20, withExpanders(regularKeys(4, 5), grid.Hole{Col: 60}), 2, 4, 2*9 + 20 + 4, true, "1 of them yet to be placed"},
		{"both placed", methodExpander, "internal", 20, withExpanders(regularKeys(4, 5), grid.Hole{Col: 60}, grid.Hole{Col: 70}), 2, 4, 2*9 + 20 + 4, true, "placed already"},
		{"more than one bus holds", methodExpander, "internal", 20, regularKeys(10, 12), 11, 11, 9*9 + 120 + 4, false, "one bus tells 8 expanders apart"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.p.Scan.Pulls = tt.pulls
			r := Plan(tt.p, rp2040(), tt.free)
			i := slices.IndexFunc(r.Choices, func(c Choice) bool { return c.Method == tt.method })
			c := r.Choices[i]
			if c.Pins != tt.pins || c.Parts != tt.parts || c.Joints != tt.joints || c.Fits != tt.fits || !strings.Contains(c.Verdict, tt.says) {
				t.Errorf("%d pins, %d parts, %d joints, fits %v, %q; want %d, %d, %d, %v, %q", c.Pins, c.Parts, c.Joints, c.Fits, c.Verdict, tt.pins, tt.parts, tt.joints, tt.fits, tt.says)
			}
		})
	}
}

// A row's wish, asked for, gives that row.
func TestWishesPickTheirRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPanel(t, 6)
		free := rapid.IntRange(0, 26).Draw(t, "free")
		r := Plan(p, rp2040(), free)
		if len(r.Choices) == 0 {
			return // no keys
		}
		c := rapid.SampledFrom(r.Choices).Draw(t, "row")
		if c.Wish.Style == "" || c.Method == methodExpander && !placed(p, len(p.Keys())) {
			return // nothing gets this row
		}
		q := p.Clone()
		q.Scan.Style, q.Scan.Rows, q.Scan.Columns, q.Scan.Diodes = c.Wish.Style, c.Wish.Rows, c.Wish.Columns, c.Wish.Diodes
		again := Plan(&q, rp2040(), free)
		i := slices.IndexFunc(again.Choices, func(c Choice) bool { return c.Chosen })
		got := again.Choices[i]
		if got.Method != c.Method || got.Rows != c.Rows || got.Columns != c.Columns || got.Pins != c.Pins || got.Fits != c.Fits {
			t.Fatalf("asked for %+v,\ngot %+v", c, got)
		}
		if got.Wish != c.Wish {
			t.Fatalf("wish %+v became %+v", c.Wish, got.Wish)
		}
	})
}

func placed(p *panel.Panel, n int) bool { x := expandingOf(p); return len(x.ports) >= n }
