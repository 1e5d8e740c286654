package scan

import (
	"testing"

	"pgregory.net/rapid"
)

// Counted by hand: of three keys an L ghosts, 4 * C(R,2) * C(C,2) of them. Of four keys in 5 x 8 the
// 30,240 ghost of which the simulator and merged clusters know, and the 280 rectangles on the way.
func TestPresses(t *testing.T) {
	tests := []struct{ rows, columns, n, unsafe, all int }{
		{5, 8, 2, 0, 780}, {5, 8, 3, 1120, 9880}, {5, 8, 4, 30240 + 280, 91390},
		{1, 8, 4, 0, 70}, {2, 2, 3, 4, 4}, {2, 2, 4, 1, 1}, {5, 8, 1, 0, 0}, {5, 8, 5, 0, 0}, {12, 12, 3, 0, 0},
	}
	for _, tt := range tests {
		if safe, all := fullMatrix(tt.rows, tt.columns).Presses(tt.n); all != tt.all || all-safe != tt.unsafe {
			t.Errorf("%d x %d: %d of %d sets of %d keys ghost, want %d of %d", tt.rows, tt.columns, all-safe, all, tt.n, tt.unsafe, tt.all)
		}
	}
}

func TestPressesEqualSimulator(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 4, 4, true)
		n := len(m.field.cell)
		diodes := rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), 0, n, rapid.ID[int]).Draw(t, "diodes")
		size := rapid.IntRange(2, 4).Draw(t, "size")
		_, r := m.built(diodes)
		want, count := 0, 0
		for part, more := firstPart(size, n); more; part, more = nextPart(part, n) {
			count++
			if !(matrixCase{m.field, []chord{{name: "c", keys: pick(numbers(n), part)}}}).haunted(diodes) {
				want++
			}
		}
		if safe, all := r.Presses(size); safe != want || all != count {
			t.Fatalf("cells %v, diodes %v: %d of %d safe, want %d of %d", m.field.cell, diodes, safe, all, want, count)
		}
	})
}

func BenchmarkQuadruples(b *testing.B) {
	r := fullMatrix(5, 8)
	n := 0
	for b.Loop() {
		safe, all := r.Presses(4)
		n = all - safe
	}
	b.ReportMetric(float64(n), "ghosting")
}
