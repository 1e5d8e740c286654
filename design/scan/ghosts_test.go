package scan

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/panel"
	"pgregory.net/rapid"
)

// A matrixCase is a small matrix, perhaps with empty cells, and chords in it.
type matrixCase struct {
	field  *field
	chords []chord
}

// drawMatrix makes one with at most so many rows and columns; holes lets cells be empty.
func drawMatrix(t *rapid.T, rows, columns int, holes bool) matrixCase {
	s := shape{rapid.IntRange(1, rows).Draw(t, "rows"), rapid.IntRange(1, columns).Draw(t, "columns")}
	cell := numbers(s.cells())
	if holes {
		cell = rapid.SliceOfNDistinct(rapid.IntRange(0, s.cells()-1), 1, s.cells(), rapid.ID[int]).Draw(t, "cells")
	}
	m := matrixCase{field: fieldOf(s, cell)}
	for i := range rapid.IntRange(0, 4).Draw(t, "chords") {
		m.chords = append(m.chords, drawChord(t, len(cell), fmt.Sprint("chord", i)))
	}
	return m
}

// drawChord makes one of some of n keys, half the time with choices.
func drawChord(t *rapid.T, n int, label string) chord {
	some := func(least, most int, what string) []int {
		keys := rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), min(n, least), min(n, most), rapid.ID[int]).Draw(t, label+what)
		slices.Sort(keys)
		return keys
	}
	if rapid.Bool().Draw(t, label+" is one set") {
		return chord{name: "c", keys: some(1, 6, " keys")}
	}
	c := chord{name: "c", keys: some(0, 3, " keys")}
	for i := range rapid.IntRange(1, 3).Draw(t, label+" choices") {
		of := some(1, 5, fmt.Sprint(" of", i))
		c.choices = append(c.choices, choice{rapid.IntRange(1, len(of)).Draw(t, fmt.Sprint(label, " count", i)), of})
	}
	c.settle()
	return c
}

func (m matrixCase) families() []*family { return familiesOf(m.chords) }

// built is the case as a panel's chords and a result, with diodes at some keys.
func (m matrixCase) built(diodes []int) (*panel.Panel, *Result) {
	p, r := &panel.Panel{}, &Result{Rows: m.field.rows, Columns: m.field.columns}
	for k, c := range m.field.cell {
		r.Cells = append(r.Cells, Cell{Key: fmt.Sprintf("K%d", k), Row: c / m.field.columns, Column: c % m.field.columns, Diode: slices.Contains(diodes, k)})
	}
	for _, c := range m.chords {
		written := panel.Chord{Name: c.name, Keys: held(c.keys...)}
		for _, a := range c.choices {
			written.Any = append(written.Any, panel.AnyOf{Count: a.count, Of: held(a.of...)})
		}
		p.Chords = append(p.Chords, written)
	}
	return p, r
}

func (m matrixCase) haunted(diodes []int) bool { return len(Verify(m.built(diodes))) > 0 }

// fewest is the least number of diodes that lays all ghosts, by trying sets in order of size.
func (m matrixCase) fewest() (diodes int, ways int) {
	n := len(m.field.cell)
	if !m.haunted(nil) {
		return 0, 1
	}
	for size := 1; size <= n; size++ {
		for part, more := firstPart(size, n); more; part, more = nextPart(part, n) {
			if !m.haunted(pick(numbers(n), part)) {
				ways++
			}
		}
		if ways > 0 {
			return size, ways
		}
	}
	return n, 0
}

// In a full matrix the elbows are the one smallest set: found here by trying every set of diodes
// on the simulator.
func TestElbowsAreTheFewestDiodesOfAFullMatrix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 3, 3, false)
		elbows := m.field.elbows(m.families())
		if m.haunted(elbows) {
			t.Fatalf("chords %v ghost with diodes at the elbows %v", m.chords, elbows)
		}
		if size, ways := m.fewest(); size != len(elbows) || ways != 1 {
			t.Fatalf("chords %v: elbows %v, but %d diodes do in %d ways", m.chords, elbows, size, ways)
		}
		if diodes, proved := m.field.diodes(m.families()); !slices.Equal(diodes, elbows) || !proved {
			t.Fatalf("chords %v: diodes %v (proved %v), elbows %v", m.chords, diodes, proved, elbows)
		}
	})
}

func TestDiodesAreFewestWithEmptyCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 3, 4, true)
		diodes, proved := m.field.diodes(m.families())
		if m.haunted(diodes) {
			t.Fatalf("cells %v, chords %v ghost with diodes at %v", m.field.cell, m.chords, diodes)
		}
		if size, _ := m.fewest(); size != len(diodes) || !proved {
			t.Fatalf("cells %v, chords %v: %v, proved %v, but %d do", m.field.cell, m.chords, diodes, proved, size)
		}
	})
}

func TestDetoursEqualSimulator(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 4, 4, true)
		want := map[string]int{}
		for _, g := range Verify(m.built(nil)) {
			want[fmt.Sprint(g.Pressed, g.Phantom)]++
		}
		got := map[string]int{}
		for _, chord := range m.chords {
			list, all := m.field.detours(chord.family())
			if !all {
				t.Fatalf("chord %v: search cut short", chord)
			}
			for _, d := range list {
				held := held(d.path...)
				_, r := m.built(nil)
				order := map[string]int{}
				for i, c := range r.Cells {
					order[c.Key] = i
				}
				slices.SortFunc(held, func(a, b string) int { return order[a] - order[b] })
				got[fmt.Sprint(held, fmt.Sprintf("K%d", d.phantom))]++
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("cells %v, chords %v: detours %v, simulator %v", m.field.cell, m.chords, got, want)
		}
	})
}

// Drawn by hand: a short detour ends at an empty cell, a longer one at a key; either of the two
// keys passed backwards may carry the diode.
func TestDetourPastAnEmptyCell(t *testing.T) {
	f := fieldOf(shape{3, 3}, []int{0, 3, 4, 7, 8, 2}) // K0 . K5 / K1 K2 . / . K3 K4
	five := together([]int{0, 1, 2, 3, 4})
	list, _ := f.detours(five[0])
	if len(list) != 1 || !slices.Equal(list[0].path, []int{0, 1, 2, 3, 4}) || list[0].phantom != 5 {
		t.Fatalf("detours %+v, want K0 K1 K2 K3 K4 to K5", list)
	}
	if diodes, proved := f.diodes(five); len(diodes) != 1 || !proved {
		t.Errorf("diodes %v, want one of K1 and K3", diodes)
	}
	if elbows := f.elbows(five); len(elbows) != 3 {
		t.Errorf("elbows %v, want three: the rule asks for too many beside empty cells", elbows)
	}
}

func TestLargeChordsEnd(t *testing.T) {
	f := fieldOf(shape{8, 8}, numbers(64))
	all := numbers(64)
	list, whole := f.detours(together(all)[0])
	if len(list) != 4*28*28 || whole {
		t.Errorf("%d detours of three keys, whole %v, want 4*C(8,2)*C(8,2) = %d and some more unlisted", len(list), whole, 4*28*28)
	}
	if diodes, _ := f.diodes(together(all)); len(diodes) != 64 {
		t.Errorf("%d diodes, want 64", len(diodes))
	}
	m := matrixCase{f, []chord{{name: "c", keys: all}}}
	if n := len(Verify(m.built(nil))); n != 4*28*28 {
		t.Errorf("the simulator finds %d ghosts of three keys, want %d", n, 4*28*28)
	}
}

func TestHit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sets [][]int
		for i := range rapid.IntRange(0, 8).Draw(t, "sets") {
			sets = append(sets, rapid.SliceOfNDistinct(rapid.IntRange(0, 7), 1, 4, rapid.ID[int]).Draw(t, fmt.Sprint("set", i)))
		}
		least := 8
		for part := range 1 << 8 {
			chosen := pick(numbers(8), uint64(part))
			if !slices.ContainsFunc(sets, func(s []int) bool { return !meets(s, chosen) }) {
				least = min(least, len(chosen))
			}
		}
		if best, all := hit(slices.Clone(sets)); len(best) != least || !all {
			t.Fatalf("sets %v: hit by %v (all %v), but %d do", sets, best, all, least)
		}
	})
}
