package scan

import (
	"cmp"
	"math/bits"
	"slices"
)

// A field is a matrix with its keys in their cells.
type field struct {
	shape
	cell   []int // by key
	holder []int // by cell: key or noKey
}

func fieldOf(s shape, cell []int) *field {
	f := &field{shape: s, cell: cell, holder: make([]int, s.cells())}
	for i := range f.holder {
		f.holder[i] = noKey
	}
	for k, c := range cell {
		f.holder[c] = k
	}
	return f
}

func (f *field) row(k int) int    { return f.cell[k] / f.columns }
func (f *field) column(k int) int { return f.cell[k] % f.shape.columns }

// A detour is a way for current from a row to a column through pressed keys, when the cell where
// the two cross carries a key that is not pressed: it reads as pressed. The first, third, fifth …
// key is passed from row to column, the others from column to row, against their diode if they
// have one.
type detour struct {
	path    []int
	phantom int
	set     uint64 // of the chord's keys, those on the path
}

// backward lists the keys whose diode would stop the current.
func (d detour) backward() []int {
	var list []int
	for i := 1; i < len(d.path); i += 2 {
		list = append(list, d.path[i])
	}
	return list
}

// detours lists every detour through keys of one chord, which holds at most 64. A detour passes no
// line twice; in chords over maxChord only those of three keys are looked for.
func (f *field) detours(chord []int) []detour {
	w := walk{field: f, chord: chord, most: len(chord)}
	if len(chord) > maxChord {
		w.most = 3
	}
	for i := range chord {
		w.start = f.row(chord[i])
		w.rows = append(w.rows[:0], w.start)
		w.columns = w.columns[:0]
		w.forward(i)
	}
	return w.found
}

// walk is one search for detours, depth first.
type walk struct {
	*field
	chord   []int
	most    int // keys of the longest detour wanted
	start   int // row it began at
	path    []int
	set     uint64
	rows    []int // passed
	columns []int
	found   []detour
}

// forward passes the i-th key of the chord from its row to its column.
func (w *walk) forward(i int) {
	k := w.chord[i]
	j := w.field.column(k)
	if slices.Contains(w.columns, j) {
		return
	}
	w.enter(i)
	w.columns = append(w.columns, j)
	if corner := w.holder[w.start*w.field.columns+j]; len(w.path) >= 3 && corner != noKey {
		w.found = append(w.found, detour{slices.Clone(w.path), corner, w.set})
	}
	if len(w.path)+2 <= w.most {
		for b := range w.chord {
			if w.set>>b&1 == 0 && w.field.column(w.chord[b]) == j {
				w.back(b)
			}
		}
	}
	w.columns = w.columns[:len(w.columns)-1]
	w.leave(i)
}

// back passes the i-th key from its column to its row.
func (w *walk) back(i int) {
	r := w.row(w.chord[i])
	if slices.Contains(w.rows, r) {
		return
	}
	w.enter(i)
	w.rows = append(w.rows, r)
	for f := range w.chord {
		if w.set>>f&1 == 0 && w.row(w.chord[f]) == r {
			w.forward(f)
		}
	}
	w.rows = w.rows[:len(w.rows)-1]
	w.leave(i)
}

func (w *walk) enter(i int) {
	w.path = append(w.path, w.chord[i])
	w.set |= 1 << i
}

func (w *walk) leave(i int) {
	w.path = w.path[:len(w.path)-1]
	w.set &^= 1 << i
}

// least keeps the detours that contain no smaller one, fewest keys first.
func least(all []detour) []detour {
	slices.SortStableFunc(all, func(a, b detour) int {
		return cmp.Or(cmp.Compare(len(a.path), len(b.path)), cmp.Compare(bits.Reverse64(b.set), bits.Reverse64(a.set)), cmp.Compare(a.phantom, b.phantom))
	})
	var kept []detour
	for _, d := range all {
		if !slices.ContainsFunc(kept, func(k detour) bool { return k.set&^d.set == 0 && k.set != d.set }) {
			kept = append(kept, d)
		}
	}
	return kept
}

// elbows lists the keys that have a row-mate and a column-mate in a chord.
func (f *field) elbows(chords [][]int) []int {
	found := make([]bool, len(f.cell))
	rows, columns := make([]int, f.rows), make([]int, f.columns)
	for _, chord := range chords {
		clear(rows)
		clear(columns)
		for _, k := range chord {
			rows[f.row(k)]++
			columns[f.column(k)]++
		}
		for _, k := range chord {
			found[k] = found[k] || rows[f.row(k)] > 1 && columns[f.column(k)] > 1
		}
	}
	var list []int
	for k := range found {
		if found[k] {
			list = append(list, k)
		}
	}
	return list
}
