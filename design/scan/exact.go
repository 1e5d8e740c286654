package scan

import "math/bits"

// Limits of the exact search: keys, keys of a full matrix with two rows or two columns, and lines
// looked at.
const (
	exactUpTo    = 12
	exactUpToTwo = 16
	exactBudget  = 12000000
)

// exactFor reports whether the keys are few enough to be searched through in shape s.
func (t *task) exactFor(s shape) bool {
	n := len(t.keys)
	return n <= exactUpTo || n <= exactUpToTwo && min(s.rows, s.columns) == 2 && n == s.cells()
}

// An exactSearch finds the arrangement of fewest elbows, and of those the shortest: keys are parted
// into the lines of one side, those in every way that could be better than the best, and for each way
// into lines across that take at most one key of each (dynamic programming over sets of keys, as Held
// and Karp, 1962, doi:10.1137/0110015). What lines take at least is reckoned with the prices of a
// bound: see pricing. Sets of keys are numbers, a bit for each key.
type exactSearch struct {
	*task
	side        [2]int     // of the lines dealt first, the fewer, and of those across
	lines       [2]int     // how many; as all that follows, by first or across
	least, most [2]int     // keys of a line
	groups      [2][]int   // keys that must share a line
	sets        [2][][]int // by first key: the lines there could be
	known       [2][]int   // length of a line by its keys, or -1
	dear        [2][]int   // the same by priced lengths
	floor       [2][]int   // what lines for some keys take at least by priced lengths, or -1
	prices      *pricing
	bars        [exactUpToTwo][]int // by key and another: the keys that make it an elbow, should one lie across
	dealt       []int               // the first lines
	lineOf      []int               // by key
	barred      []int               // by key: those that make it an elbow across
	after       []int               // by keys and lines across left: the best lines for them, or -1 while not known
	chosen      []int               // lines across
	allowed     func(cell []int) bool
	touched     []int // entries of after that are known
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
// length. p holds prices for that shape. cell is nil when there is none; ok is false when there are
// too many keys or the budget ran out. Chords count only where the task keeps them apart.
func (t *task) exact(p *pricing, s shape, elbows, length int) (cell []int, ok bool) {
	return t.exactly(p, s, elbows*heavy+length, nil)
}

// exactSparing looks for an arrangement that is shorter than length and needs at most so many diodes.
// cell and ok are as for exact.
func (t *task) exactSparing(p *pricing, s shape, diodes, length int) (cell []int, ok bool) {
	free := *t
	free.apart = false
	left := sparingChecks
	cell, ok = free.exactly(p, s, length, func(cell []int) bool {
		left--
		if left < 0 {
			return false
		}
		list, _ := fieldOf(s, cell).diodes(t.chords)
		return len(list) <= diodes
	})
	return cell, ok && left >= 0
}

// sparingChecks is how many arrangements may be looked at for their diodes.
const sparingChecks = 5000

func (t *task) exactly(p *pricing, s shape, best int, allowed func(cell []int) bool) (cell []int, ok bool) {
	n := len(t.keys)
	if !t.exactFor(s) {
		return nil, false
	}
	x := exactSearch{task: t, side: [2]int{rowSide, columnSide}, lines: [2]int{s.rows, s.columns}, columns: s.columns, prices: p,
		lineOf: make([]int, n), barred: make([]int, n), best: best, allowed: allowed, left: exactBudget}
	if s.rows > s.columns {
		x.side, x.lines = [2]int{columnSide, rowSide}, [2]int{s.columns, s.rows}
	}
	for i := range 2 {
		x.most[i] = x.lines[1-i]
		x.least[i] = max(1, x.most[i]-(s.cells()-n))
		x.known[i], x.dear[i], x.floor[i] = unknown(1<<n), unknown(1<<n), unknown(1<<n)
		for _, keys := range t.tied[x.side[i]] {
			group := 0
			for _, k := range keys {
				group |= 1 << k
			}
			x.groups[i] = append(x.groups[i], group)
		}
		x.list(i)
	}
	if t.apart {
		x.bar()
	}
	x.after = unknown((x.lines[across] + 1) << n)
	x.deal(1<<n-1, 0, 0, x.atLeast(across, 1<<n-1)-int(p.credit()))
	return x.cell, x.left > 0
}

// list lists the lines there could be.
func (x *exactSearch) list(which int) {
	x.sets[which] = make([][]int, len(x.keys))
	for set := 1; set < 1<<len(x.keys); set++ {
		if n := bits.OnesCount(uint(set)); n >= x.least[which] && n <= x.most[which] && x.whole(which, set) {
			k := bits.TrailingZeros(uint(set))
			x.sets[which][k] = append(x.sets[which][k], set)
		}
	}
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
		line := make([]int, 0, exactUpToTwo)
		for rest := set; rest != 0; rest &= rest - 1 {
			line = append(line, bits.TrailingZeros(uint(rest)))
		}
		var scratch [exactUpToTwo + 1]int32
		x.known[which][set] = int(x.wire(x.side[which], line, scratch[:]))
	}
	return x.known[which][set]
}

// dearOf is the shortest tree for a set of keys in a line by priced lengths.
func (x *exactSearch) dearOf(which, set int) int {
	if x.dear[which][set] >= 0 {
		return x.dear[which][set]
	}
	length := x.prices.length[x.side[which]]
	var near [exactUpToTwo]int64
	total := int64(0)
	joined := bits.TrailingZeros(uint(set))
	for k := range near {
		near[k] = never64
	}
	for rest := set &^ (1 << joined); rest != 0; rest &^= 1 << joined {
		next := -1
		for more := rest; more != 0; more &= more - 1 {
			k := bits.TrailingZeros(uint(more))
			e := pairOf(k, joined)
			near[k] = min(near[k], length[e]+x.prices.extra[e])
			if next < 0 || near[k] < near[next] {
				next = k
			}
		}
		total += near[next]
		joined = next
	}
	x.dear[which][set] = int(total)
	return int(total)
}

// eachLine gives every line that holds the first of some keys and else only keys of them, until the
// budget runs out.
func (x *exactSearch) eachLine(which, keys int, try func(line int)) {
	for _, line := range x.sets[which][bits.TrailingZeros(uint(keys))] {
		if x.left--; x.left <= 0 {
			return
		}
		if line&^keys == 0 {
			try(line)
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

// atLeast is what lines for some keys take at least by priced lengths, however many lines.
func (x *exactSearch) atLeast(which, keys int) int {
	if keys == 0 {
		return 0
	}
	if x.floor[which][keys] < 0 {
		least := far * perPrice
		x.eachLine(which, keys, func(line int) {
			least = min(least, x.dearOf(which, line)+x.atLeast(which, keys&^line))
		})
		x.floor[which][keys] = least
	}
	return x.floor[which][keys]
}

// deal fills the next line with the first of the keys left and others. spent is the wire of the lines
// so far; priced is what they and those across take at least by priced lengths, less what crowds may
// have at their prices.
func (x *exactSearch) deal(keys, line, spent, priced int) {
	if keys == 0 {
		x.finish(spent)
		return
	}
	if line == x.lines[first] {
		return
	}
	x.eachLine(first, keys, func(set int) {
		more := priced + x.dearOf(first, set)
		if more+x.atLeast(first, keys&^set) > (x.best-1)*perPrice {
			return
		}
		x.dealt = append(x.dealt, set)
		for rest := set; rest != 0; rest &= rest - 1 {
			x.seat(bits.TrailingZeros(uint(rest)), line, set)
		}
		x.deal(keys&^set, line+1, spent+x.lengthOf(first, set), more)
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
