package scan

import (
	"cmp"
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

// corner is the key where the row of one key crosses the column of another, or noKey.
func (f *field) corner(k, other int) int { return f.holder[f.row(k)*f.columns+f.column(other)] }

// full reports whether no cell is empty.
func (f *field) full() bool { return len(f.cell) == f.cells() }

// A detour is a way for current from a row to a column through held keys, when the cell where the
// two cross carries a key that is not held: it reads as pressed. The first, third, fifth … key is
// passed from row to column, the others from column to row, against their diode if they have one.
type detour struct {
	path    []int
	phantom int
}

// backward lists the keys whose diode would stop the current.
func (d detour) backward() []int {
	var list []int
	for i := 1; i < len(d.path); i += 2 {
		list = append(list, d.path[i])
	}
	return list
}

// detourBudget bounds the search for the detours of one chord, in keys passed.
const detourBudget = 200000

// detours lists the detours of a matrix without diodes through keys that may be held together and no
// part of which is a detour: by keys, fewest first. all is false when the budget ran out, or there
// are more than maxGhosts; then the shortest are listed.
func (f *field) detours(fam *family) (list []detour, all bool) {
	w := newWalk(f, fam)
	w.left = detourBudget
	for w.most = 3; w.most <= min(len(fam.keys), 2*min(f.rows, f.columns)-1); w.most += 2 {
		for i := range fam.keys {
			w.passed[rowSide][w.line[rowSide][i]] = true
			w.forward(i)
			w.passed[rowSide][w.line[rowSide][i]] = false
		}
		if w.left <= 0 || len(w.found) > maxGhosts {
			break
		}
	}
	slices.SortFunc(w.found, func(a, b detour) int {
		return cmp.Or(cmp.Compare(len(a.path), len(b.path)), slices.Compare(inOrder(a.path), inOrder(b.path)), cmp.Compare(a.phantom, b.phantom))
	})
	return w.found, w.left > 0 && len(w.found) <= maxGhosts
}

func inOrder(list []int) []int {
	list = slices.Clone(list)
	slices.Sort(list)
	return list
}

// walk is one search for detours, depth first. It passes no line twice.
type walk struct {
	*field
	fam    *family
	most   int      // keys of the detours wanted
	line   [2][]int // by key of the chord: its row, its column
	in     [2][][]int
	held   load
	path   []int     // keys passed
	passed [2][]bool // by line
	found  []detour
	left   int
}

func newWalk(f *field, fam *family) *walk {
	w := &walk{field: f, fam: fam}
	for side, lines := range [2]int{f.rows, f.columns} {
		w.in[side], w.passed[side] = make([][]int, lines), make([]bool, lines)
		for i, k := range fam.keys {
			l := f.line(side, f.cell[k])
			w.line[side] = append(w.line[side], l)
			w.in[side][l] = append(w.in[side][l], i)
		}
	}
	return w
}

// forward passes the i-th key of the chord from its row to its column.
func (w *walk) forward(i int) {
	j := w.line[columnSide][i]
	if w.passed[columnSide][j] || !w.enter(i) {
		return
	}
	w.passed[columnSide][j] = true
	if phantom, within := w.ghost(); phantom != noKey {
		if !within && len(w.path) == w.most {
			w.found = append(w.found, detour{slices.Clone(w.path), phantom})
		}
	} else if len(w.path) < w.most {
		for _, b := range w.in[columnSide][j] {
			w.back(b)
		}
	}
	w.passed[columnSide][j] = false
	w.leave(i)
}

// back passes the i-th key from its column to its row.
func (w *walk) back(i int) {
	r := w.line[rowSide][i]
	if w.passed[rowSide][r] || !w.enter(i) {
		return
	}
	w.passed[rowSide][r] = true
	if phantom, _ := w.ghost(); phantom == noKey {
		for _, k := range w.in[rowSide][r] {
			if w.fam.keys[k] != w.path[len(w.path)-1] {
				w.forward(k)
			}
		}
	}
	w.passed[rowSide][r] = false
	w.leave(i)
}

// ghost returns the key that reads as pressed through the last keys of the path, as few of them as
// do, and whether they are only a part of it; noKey when there is none.
func (w *walk) ghost() (phantom int, within bool) {
	last := len(w.path) - 1
	for first := last - 2; first >= 0; first -= 2 {
		k := w.corner(w.path[first], w.path[last])
		if last%2 == 1 {
			k = w.corner(w.path[last], w.path[first])
		}
		if k != noKey {
			return k, first > 0
		}
	}
	return noKey, false
}

func (w *walk) enter(i int) bool {
	if w.left--; w.left <= 0 || !w.fam.take(&w.held, w.fam.kind[i]) {
		return false
	}
	w.path = append(w.path, w.fam.keys[i])
	return true
}

func (w *walk) leave(i int) {
	w.path = w.path[:len(w.path)-1]
	w.fam.drop(&w.held, w.fam.kind[i])
}

// elbows lists the keys that may be held together with a row-mate and a column-mate.
func (f *field) elbows(families []*family) []int {
	found := make([]bool, len(f.cell))
	var once, twice [2][]uint16
	for side, lines := range [2]int{f.rows, f.columns} {
		once[side], twice[side] = make([]uint16, lines), make([]uint16, lines)
	}
	for _, fam := range families {
		for side := range 2 {
			clear(once[side])
			clear(twice[side])
			for i, k := range fam.keys {
				l, bit := f.line(side, f.cell[k]), uint16(1)<<fam.kind[i]
				twice[side][l] |= once[side][l] & bit
				once[side][l] |= bit
			}
		}
		for i, k := range fam.keys {
			var mates [2]uint16
			for side := range 2 {
				l, own := f.line(side, f.cell[k]), uint16(1)<<fam.kind[i]
				mates[side] = once[side][l]&^own | twice[side][l]&own
			}
			found[k] = found[k] || fam.bends(fam.kind[i], mates[rowSide], mates[columnSide])
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
