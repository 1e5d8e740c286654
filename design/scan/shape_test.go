package scan

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// r + c is least when r and c are closest to equal; it is at least 2 sqrt(r c) by the inequality
// of arithmetic and geometric means.
func TestFewestPins(t *testing.T) {
	for n := 4; n <= 100; n++ {
		if got, want := shapesOf(n)[0].pins(), int(math.Ceil(2*math.Sqrt(float64(n)))); got != want {
			t.Errorf("%d keys: %d pins, want ceil(2 sqrt n) = %d", n, got, want)
		}
	}
}

func TestFewestPinsTable(t *testing.T) {
	const source = "arithmetic; 24 as 4 x 6 on 10: common practice, no source"
	want := map[int]int{8: 6, 12: 7, 16: 8, 20: 9, 24: 10, 30: 11, 36: 12, 48: 14, 64: 16}
	for n, pins := range want {
		if got := shapesOf(n)[0].pins(); got != pins {
			t.Errorf("%d keys: %d pins, want %d (%s)", n, got, pins, source)
		}
	}
}

func TestShapes(t *testing.T) {
	tests := []struct {
		name             string
		n, rows, columns int
		want             string
	}{
		{"24 keys", 24, 0, 0, "[4x6 5x5 6x4 3x8 8x3]"},
		{"one key", 1, 0, 0, "[1x1]"},
		{"two keys", 2, 0, 0, "[1x2 2x1]"},
		{"rows wished for", 20, 2, 0, "[2x10]"},
		{"columns wished for", 20, 0, 3, "[7x3]"},
		{"both wished for, with room to spare", 20, 5, 6, "[5x6]"},
		{"a wish that can't hold", 20, 3, 6, "[]"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tight, _ := shapes(tt.n, tt.rows, tt.columns, func(shape) bool { return true })
			got := make([]string, len(tight))
			for i, s := range tight {
				got[i] = fmt.Sprintf("%dx%d", s.rows, s.columns)
			}
			if fmt.Sprint(got) != tt.want {
				t.Errorf("shapes %v, want %s", got, tt.want)
			}
		})
	}
}

func TestShapesAbleOnly(t *testing.T) {
	wide := func(s shape) bool { return s.columns >= 5 }
	tight, _ := shapes(12, 0, 0, wide)
	if len(tight) == 0 || slices.ContainsFunc(tight, func(s shape) bool { return !wide(s) }) {
		t.Errorf("shapes %v, want some, all of five columns or more", tight)
	}
}
