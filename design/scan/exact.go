package scan

import "math/bits"

// Limits of the exact search: keys, and arrangements looked at.
const (
	exactUpTo   = 10
	exactBudget = 150000
)

// exact finds the shortest arrangement for shape s by trying all: keys are dealt into rows, the
// first of a row opening it, then row by row into columns. ok is false when there are too many keys
// or keys bound to lines, or the budget ran out. Chords don't count.
func (t *task) exact(s shape) (cell []int, length int, ok bool) {
	n := len(t.keys)
	if n > exactUpTo || t.anyBound() {
		return nil, 0, false
	}
	x := exactSearch{task: t, shape: s, rows: make([]uint, s.rows), columns: make([]uint, s.columns), columnOf: make([]int, n),
		floor: t.forestOf(columnSide, t.wires(s)[columnSide]), best: -1, left: exactBudget}
	for side := range 2 {
		x.known[side] = make([]int, 1<<n)
		for i := range x.known[side] {
			x.known[side][i] = -1
		}
	}
	x.deal(0, 0)
	return x.cell, x.best, x.left > 0
}

type exactSearch struct {
	*task
	shape
	rows, columns []uint   // keys of each line, a bit each
	columnOf      []int    // by key
	known         [2][]int // length of a line by its keys, or -1
	floor         int      // the columns take at least this
	best          int
	cell          []int
	left          int
}

// lengthOf is the wire for a set of keys on one side.
func (x *exactSearch) lengthOf(side int, set uint) int {
	if x.known[side][set] < 0 {
		var line []int
		for rest := set; rest != 0; rest &= rest - 1 {
			line = append(line, bits.TrailingZeros(rest))
		}
		x.known[side][set] = int(x.wire(side, line, make([]int32, len(line)+1)))
	}
	return x.known[side][set]
}

func (x *exactSearch) total(side int, lines []uint) int {
	sum := 0
	for _, set := range lines {
		sum += x.lengthOf(side, set)
	}
	return sum
}

// deal puts key k into a row; opened rows come first.
func (x *exactSearch) deal(k, opened int) {
	if k == len(x.keys) {
		if rows := x.total(rowSide, x.rows); x.best < 0 || rows+x.floor < x.best {
			x.spread(0, x.rows[0], 0, rows)
		}
		return
	}
	for r := range min(opened+1, len(x.rows)) {
		if bits.OnesCount(x.rows[r]) == len(x.columns) || x.left <= 0 {
			continue
		}
		x.rows[r] |= 1 << k
		x.deal(k+1, max(opened, r+1))
		x.rows[r] &^= 1 << k
	}
}

// spread puts the keys of row r that are in rest into columns of which the row has none yet.
func (x *exactSearch) spread(r int, rest uint, opened, rows int) {
	for rest == 0 {
		if r++; r == len(x.rows) {
			x.judge(rows)
			return
		}
		rest = x.rows[r]
	}
	k := bits.TrailingZeros(rest)
	for c := range min(opened+1, len(x.columns)) {
		if x.columns[c]&x.rows[r] != 0 || x.left <= 0 {
			continue
		}
		x.columns[c] |= 1 << k
		x.columnOf[k] = c
		x.spread(r, rest&(rest-1), max(opened, c+1), rows)
		x.columns[c] &^= 1 << k
	}
}

func (x *exactSearch) judge(rows int) {
	x.left--
	if sum := rows + x.total(columnSide, x.columns); x.best < 0 || sum < x.best {
		x.best = sum
		x.cell = make([]int, len(x.keys))
		for r, set := range x.rows {
			for ; set != 0; set &= set - 1 {
				k := bits.TrailingZeros(set)
				x.cell[k] = r*x.shape.columns + x.columnOf[k]
			}
		}
	}
}
