package scan

import "math/bits"

// Limits of the exact search: keys, and sets of keys looked at.
const (
	exactUpTo   = 12
	exactBudget = 4000000
)

// An exactSearch finds the arrangement of fewest elbows, and of those the shortest: keys are parted
// into rows, those in every way that could be shorter than the best, and for each way into columns
// that take at most one key of each row (dynamic programming over sets of keys, as Held and Karp,
// 1962, doi:10.1137/0110015). Sets of keys are numbers, a bit for each key.
type exactSearch struct {
	*task
	shape
	least, most [2]int   // keys of a line
	groups      [2][]int // keys that must share a line
	known       [2][]int // length of a line by its keys, or -1
	floor       [2][]int // what lines for some keys take at least, or -1
	rows        []int
	rowOf       []int // by key
	after       []int // by keys and columns left: the best lines for them, or -1 while not known
	pick        []int // the first column of those
	touched     []int // entries of after that are known
	best        int
	cell        []int // of the best found, or nil
	left        int
}

// heavy outweighs any length: what an elbow adds.
const heavy = 1 << 24

// exact looks for an arrangement for shape s with fewer elbows than some, or as many and shorter than
// length. cell is nil when there is none; ok is false when there are too many keys or the budget ran
// out. Chords count only where the task keeps them apart.
func (t *task) exact(s shape, elbows, length int) (cell []int, ok bool) {
	n := len(t.keys)
	if n > exactUpTo {
		return nil, false
	}
	x := exactSearch{task: t, shape: s, rowOf: make([]int, n), best: elbows*heavy + length, left: exactBudget}
	across := [2]int{s.columns, s.rows}
	for side := range 2 {
		x.most[side] = across[side]
		x.least[side] = max(1, across[side]-(s.cells()-n))
		x.known[side], x.floor[side] = unknown(1<<n), unknown(1<<n)
		x.groups[side] = make([]int, t.forced[side])
		for k := range t.keys {
			if l := t.keys[k].line[side]; l >= 0 {
				x.groups[side][l] |= 1 << k
			}
		}
	}
	x.after, x.pick = unknown((s.columns+1)<<n), make([]int, (s.columns+1)<<n)
	all := 1<<n - 1
	x.deal(all, 0, x.atLeast(columnSide, all))
	return x.cell, x.left > 0
}

func unknown(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = -1
	}
	return list
}

// lengthOf is the wire for a set of keys on one side.
func (x *exactSearch) lengthOf(side, set int) int {
	if x.known[side][set] < 0 {
		var line []int
		for rest := set; rest != 0; rest &= rest - 1 {
			line = append(line, bits.TrailingZeros(uint(rest)))
		}
		x.known[side][set] = int(x.wire(side, line, make([]int32, len(line)+1)))
	}
	return x.known[side][set]
}

// eachLine gives every line of one side that holds the first of some keys and else only keys of
// them, until the budget runs out.
func (x *exactSearch) eachLine(side, keys int, try func(line int)) {
	first := keys & -keys
	rest := keys ^ first
	for sub := rest; x.left > 0; sub = (sub - 1) & rest {
		x.left--
		line := sub | first
		if n := bits.OnesCount(uint(line)); n >= x.least[side] && n <= x.most[side] && x.whole(side, line) {
			try(line)
		}
		if sub == 0 {
			return
		}
	}
}

// whole reports whether a line parts no keys that must share one.
func (x *exactSearch) whole(side, line int) bool {
	for _, g := range x.groups[side] {
		if both := line & g; both != 0 && both != g {
			return false
		}
	}
	return true
}

const far = heavy * 1 << 12

// atLeast is what lines of one side for some keys take at least, however many lines.
func (x *exactSearch) atLeast(side, keys int) int {
	if keys == 0 {
		return 0
	}
	if x.floor[side][keys] < 0 {
		least := far
		x.eachLine(side, keys, func(line int) {
			least = min(least, x.lengthOf(side, line)+x.atLeast(side, keys&^line))
		})
		x.floor[side][keys] = least
	}
	return x.floor[side][keys]
}

// deal opens the next row with the first of the keys left. spent is the wire of the rows so far and
// of the columns at least.
func (x *exactSearch) deal(keys, row, spent int) {
	if keys == 0 {
		x.finish(spent - x.atLeast(columnSide, 1<<len(x.keys)-1))
		return
	}
	if row == x.shape.rows {
		return
	}
	x.eachLine(rowSide, keys, func(line int) {
		more := spent + x.lengthOf(rowSide, line)
		if more+x.atLeast(rowSide, keys&^line) >= x.best {
			return
		}
		x.rows = append(x.rows, line)
		for rest := line; rest != 0; rest &= rest - 1 {
			x.rowOf[bits.TrailingZeros(uint(rest))] = row
		}
		x.deal(keys&^line, row+1, more)
		x.rows = x.rows[:len(x.rows)-1]
	})
}

// finish finds the best columns for the rows, and keeps them if they are better than the best.
func (x *exactSearch) finish(rows int) {
	for _, at := range x.touched {
		x.after[at] = -1
	}
	x.touched = x.touched[:0]
	all := 1<<len(x.keys) - 1
	total := rows + x.columnsFor(all, x.shape.columns)
	if total >= x.best || x.left <= 0 {
		return
	}
	x.best, x.cell = total, make([]int, len(x.keys))
	for keys, left := all, x.shape.columns; keys != 0; left-- {
		line := x.pick[keys*(x.shape.columns+1)+left]
		for rest := line; rest != 0; rest &= rest - 1 {
			k := bits.TrailingZeros(uint(rest))
			x.cell[k] = x.rowOf[k]*x.shape.columns + x.shape.columns - left
		}
		keys &^= line
	}
}

// columnsFor is the least wire for some keys on so many columns, with what their elbows add.
func (x *exactSearch) columnsFor(keys, columns int) int {
	if keys == 0 {
		return 0
	}
	if columns == 0 {
		return far
	}
	at := keys*(x.shape.columns+1) + columns
	if x.after[at] < 0 {
		least := far
		x.eachLine(columnSide, keys, func(line int) {
			if x.crosses(line) {
				if n := x.lengthOf(columnSide, line) + heavy*x.bent(line) + x.columnsFor(keys&^line, columns-1); n < least {
					least = n
					x.pick[at] = line
				}
			}
		})
		x.after[at] = least
		x.touched = append(x.touched, at)
	}
	return x.after[at]
}

// crosses reports whether a column takes at most one key of each row.
func (x *exactSearch) crosses(column int) bool {
	for _, row := range x.rows {
		if both := column & row; both&(both-1) != 0 {
			return false
		}
	}
	return true
}

// bent counts the keys of a column that are elbows.
func (x *exactSearch) bent(column int) int {
	if !x.apart || column&(column-1) == 0 {
		return 0
	}
	n := 0
	for rest := column; rest != 0; rest &= rest - 1 {
		if k := bits.TrailingZeros(uint(rest)); x.bends(k, x.rows[x.rowOf[k]], column) {
			n++
		}
	}
	return n
}

// bends reports whether a key with these others in its row and its column is an elbow.
func (x *exactSearch) bends(k, row, column int) bool {
	for _, c := range x.inChords[k] {
		f := x.chords[c]
		var own uint8
		var mates [2]uint16
		for i, m := range f.keys {
			switch {
			case m == k:
				own = f.kind[i]
			case row>>m&1 == 1:
				mates[rowSide] |= 1 << f.kind[i]
			case column>>m&1 == 1:
				mates[columnSide] |= 1 << f.kind[i]
			}
		}
		if f.bends(own, mates[rowSide], mates[columnSide]) {
			return true
		}
	}
	return false
}
