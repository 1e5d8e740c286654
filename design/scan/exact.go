package scan

import "math/bits"

// Limits of the exact search: keys, and lines looked at.
const (
	exactUpTo   = 12
	exactBudget = 12000000
)

// An exactSearch finds the arrangement of fewest elbows, and of those the shortest: keys are parted
// into the lines of one side, those in every way that could be better than the best, and for each way
// into lines across that take at most one key of each (dynamic programming over sets of keys, as Held
// and Karp, 1962, doi:10.1137/0110015). Sets of keys are numbers, a bit for each key.
type exactSearch struct {
	*task
	side        [2]int    // of the lines dealt first, the fewer, and of those across
	lines       [2]int    // how many; as all that follows, by first or across
	least, most [2]int    // keys of a line
	groups      [2][]int  // keys that must share a line
	known       [2][]int  // length of a line by its keys, or -1
	floor       [2][]int  // what lines for some keys take at least, or -1
	bars        [12][]int // by key and another: the keys that make it an elbow, should one lie across
	dealt       []int     // the first lines
	lineOf      []int     // by key
	barred      []int     // by key: those that make it an elbow across
	after       []int     // by keys and lines across left: the best lines for them, or -1 while not known
	pick        []int     // the first of those
	touched     []int     // entries of after that are known
	best        int
	columns     int
	cell        []int // of the best found, or nil
	left        int
}

// The lines dealt first, and those across them.
const (
	first = iota
	across
)

// heavy outweighs any length: what an elbow adds. far is what there is no way for.
const (
	heavy = 1 << 24
	far   = heavy << 12
)

// exact looks for an arrangement for shape s with fewer elbows than some, or as many and shorter than
// length. cell is nil when there is none; ok is false when there are too many keys or the budget ran
// out. Chords count only where the task keeps them apart.
func (t *task) exact(s shape, elbows, length int) (cell []int, ok bool) {
	n := len(t.keys)
	if n > exactUpTo {
		return nil, false
	}
	x := exactSearch{task: t, side: [2]int{rowSide, columnSide}, lines: [2]int{s.rows, s.columns}, columns: s.columns,
		lineOf: make([]int, n), barred: make([]int, n), best: elbows*heavy + length, left: exactBudget}
	if s.rows > s.columns {
		x.side, x.lines = [2]int{columnSide, rowSide}, [2]int{s.columns, s.rows}
	}
	for i := range 2 {
		x.most[i] = x.lines[1-i]
		x.least[i] = max(1, x.most[i]-(s.cells()-n))
		x.known[i], x.floor[i] = unknown(1<<n), unknown(1<<n)
		x.groups[i] = make([]int, t.forced[x.side[i]])
		for k := range t.keys {
			if l := t.keys[k].line[x.side[i]]; l >= 0 {
				x.groups[i][l] |= 1 << k
			}
		}
	}
	if t.apart {
		x.bar()
	}
	x.after, x.pick = unknown((x.lines[across]+1)<<n), make([]int, (x.lines[across]+1)<<n)
	x.deal(1<<n-1, 0, x.atLeast(across, 1<<n-1))
	return x.cell, x.left > 0
}

func unknown(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = -1
	}
	return list
}

// bar notes which keys may be held together in threes.
func (x *exactSearch) bar() {
	for k := range x.keys {
		x.bars[k] = make([]int, len(x.keys))
		for _, c := range x.inChords[k] {
			f := x.chords[c]
			own := f.kindOf(k)
			for i, a := range f.keys {
				for j, b := range f.keys {
					if a != b && a != k && b != k && f.with[own][f.kind[i]]>>f.kind[j]&1 == 1 {
						x.bars[k][a] |= 1 << b
					}
				}
			}
		}
	}
}

// lengthOf is the wire for a set of keys in a line.
func (x *exactSearch) lengthOf(which, set int) int {
	if x.known[which][set] < 0 {
		line := make([]int, 0, exactUpTo)
		for rest := set; rest != 0; rest &= rest - 1 {
			line = append(line, bits.TrailingZeros(uint(rest)))
		}
		var scratch [exactUpTo + 1]int32
		x.known[which][set] = int(x.wire(x.side[which], line, scratch[:]))
	}
	return x.known[which][set]
}

// eachLine gives every line that holds the first of some keys and else only keys of them, until the
// budget runs out.
func (x *exactSearch) eachLine(which, keys int, try func(line int)) {
	lowest := keys & -keys
	rest := keys ^ lowest
	for sub := rest; x.left > 0; sub = (sub - 1) & rest {
		x.left--
		line := sub | lowest
		if n := bits.OnesCount(uint(line)); n >= x.least[which] && n <= x.most[which] && x.whole(which, line) {
			try(line)
		}
		if sub == 0 {
			return
		}
	}
}

// whole reports whether a line parts no keys that must share one.
func (x *exactSearch) whole(which, line int) bool {
	for _, g := range x.groups[which] {
		if both := line & g; both != 0 && both != g {
			return false
		}
	}
	return true
}

// atLeast is what lines for some keys take at least, however many lines.
func (x *exactSearch) atLeast(which, keys int) int {
	if keys == 0 {
		return 0
	}
	if x.floor[which][keys] < 0 {
		least := far
		x.eachLine(which, keys, func(line int) {
			least = min(least, x.lengthOf(which, line)+x.atLeast(which, keys&^line))
		})
		x.floor[which][keys] = least
	}
	return x.floor[which][keys]
}

// deal fills the next line with the first of the keys left and others. spent is the wire of the lines
// so far and of those across at least.
func (x *exactSearch) deal(keys, line, spent int) {
	if keys == 0 {
		x.finish(spent - x.atLeast(across, 1<<len(x.keys)-1))
		return
	}
	if line == x.lines[first] {
		return
	}
	x.eachLine(first, keys, func(set int) {
		more := spent + x.lengthOf(first, set)
		if more+x.atLeast(first, keys&^set) >= x.best {
			return
		}
		x.dealt = append(x.dealt, set)
		for rest := set; rest != 0; rest &= rest - 1 {
			x.seat(bits.TrailingZeros(uint(rest)), line, set)
		}
		x.deal(keys&^set, line+1, more)
		x.dealt = x.dealt[:len(x.dealt)-1]
	})
}

// seat puts key k into a line with others.
func (x *exactSearch) seat(k, line, set int) {
	x.lineOf[k], x.barred[k] = line, 0
	if x.bars[k] == nil {
		return
	}
	for rest := set &^ (1 << k); rest != 0; rest &= rest - 1 {
		x.barred[k] |= x.bars[k][bits.TrailingZeros(uint(rest))]
	}
}

// finish finds the best lines across those dealt, and keeps them if they are better than the best.
func (x *exactSearch) finish(spent int) {
	for _, at := range x.touched {
		x.after[at] = -1
	}
	x.touched = x.touched[:0]
	all := 1<<len(x.keys) - 1
	total := spent + x.linesFor(all, x.lines[across])
	if total >= x.best || x.left <= 0 {
		return
	}
	x.best, x.cell = total, make([]int, len(x.keys))
	for keys, left := all, x.lines[across]; keys != 0; left-- {
		set := x.pick[keys*(x.lines[across]+1)+left]
		for rest := set; rest != 0; rest &= rest - 1 {
			k := bits.TrailingZeros(uint(rest))
			row, column := x.lineOf[k], x.lines[across]-left
			if x.side[first] == columnSide {
				row, column = column, row
			}
			x.cell[k] = row*x.columns + column
		}
		keys &^= set
	}
}

// linesFor is the least wire for some keys on so many lines across, with what their elbows add.
func (x *exactSearch) linesFor(keys, left int) int {
	if keys == 0 {
		return 0
	}
	if left == 0 {
		return far
	}
	at := keys*(x.lines[across]+1) + left
	if x.after[at] < 0 {
		x.after[at] = far
		lowest := keys & -keys
		x.cross(at, lowest, keys^lowest, 0, x.lineOf[bits.TrailingZeros(uint(lowest))])
		x.touched = append(x.touched, at)
	}
	return x.after[at]
}

// cross fills a line across with keys of the rest, at most one of each of the lines dealt from the
// given one on, but for the line that the first key lies in, and keeps the best for entry at.
func (x *exactSearch) cross(at, set, rest, line, own int) {
	for ; line < len(x.dealt); line++ {
		if line == own {
			continue
		}
		for more := rest & x.dealt[line]; more != 0; more &= more - 1 {
			x.cross(at, set|more&-more, rest, line+1, own)
		}
	}
	x.left--
	if bits.OnesCount(uint(set)) < x.least[across] || !x.whole(across, set) {
		return
	}
	n := x.lengthOf(across, set)
	for rest := set; rest != 0; rest &= rest - 1 {
		if x.barred[bits.TrailingZeros(uint(rest))]&set != 0 {
			n += heavy
		}
	}
	keys, left := at/(x.lines[across]+1), at%(x.lines[across]+1)
	if n < x.after[at] {
		if n += x.linesFor(keys&^set, left-1); n < x.after[at] {
			x.after[at], x.pick[at] = n, set
		}
	}
}
