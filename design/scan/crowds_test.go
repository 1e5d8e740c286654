package scan

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// wiresWithin counts, for keys in cells, the wires of the trees of all lines that run between keys of
// a set, at most: one fewer in each line than it has of them.
func wiresWithin(f *field, set []int) int {
	n := 0
	for side := range 2 {
		in := map[int]int{}
		for _, k := range set {
			in[f.line(side, f.cell[k])]++
		}
		for _, keys := range in {
			n += keys - 1
		}
	}
	return n
}

// Counted by hand on squared paper.
func TestMostWires(t *testing.T) {
	tests := []struct {
		shape    shape
		n, wires int
	}{
		{shape{4, 5}, 1, 0}, {shape{4, 5}, 2, 1}, {shape{4, 5}, 3, 2}, {shape{4, 5}, 4, 4}, {shape{4, 5}, 5, 5},
		{shape{4, 5}, 6, 7}, {shape{4, 5}, 9, 12}, {shape{4, 5}, 20, 31}, {shape{1, 6}, 5, 4}, {shape{2, 9}, 9, 11},
	}
	for _, tt := range tests {
		if got := tt.shape.mostWires(tt.n); got != tt.wires {
			t.Errorf("%d keys in %v: %d wires, want %d", tt.n, tt.shape, got, tt.wires)
		}
	}
}

func TestNoArrangementOverfillsACrowd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 5, 5, true)
		n := len(m.field.cell)
		set := rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), 1, n, rapid.ID[int]).Draw(t, "set")
		if got, most := wiresWithin(m.field, set), m.field.mostWires(len(set)); got > most {
			t.Fatalf("%d keys of %v have %d wires, at most %d", len(set), m.field.cell, got, most)
		}
	})
}

// Keys of a chord that never ghosts have a wire fewer than keys, parts of it likewise.
func TestThinCrowds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 4, 4, true)
		if m.haunted(nil) {
			return
		}
		tk := &task{keys: make([]key, len(m.field.cell)), chords: m.families()}
		c := tk.crowding(m.field.shape, true)
		for _, thin := range c.thin {
			set := rapid.SliceOfNDistinct(rapid.SampledFrom(thin), 1, len(thin), rapid.ID[int]).Draw(t, "set")
			slices.Sort(set)
			if got, most := wiresWithin(m.field, set), c.most(set); got > most {
				t.Fatalf("keys %v of a chord in %v have %d wires, at most %d", set, m.field.cell, got, most)
			}
		}
	})
}

func TestBoundLiesBetweenForestAndLength(t *testing.T) {
	for _, n := range []int{2, 9, 16, 20, 24, 40} {
		m := matrices{task: bare(scatteredKeys(n, 3))}
		s := shapesOf(n)[0]
		draft, _ := m.draft(s)
		length := m.improve(draft).length
		if got, _ := m.bound(s, length, false); got < m.forest(s) || got > length {
			t.Errorf("%d keys: bound %d, forest %d, length %d", n, got, m.forest(s), length)
		}
	}
}

// The best arrangements of a regular board are proved: its keys have wires to their neighbours alone.
func TestRegularLayoutsAreProved(t *testing.T) {
	for _, s := range []shape{{3, 4}, {4, 6}, {6, 10}} {
		r := Plan(wishing(regularKeys(s.rows, s.columns), "matrix", "none"), rp2040(), 26)
		if !r.Proved || r.Cost == 0 {
			t.Errorf("%v: length %g, bound %g", s, r.Cost, r.Bound)
		}
	}
}
