package scan

// Energies count in fractions of a hole, so that ties in wire are broken by how straight the lines
// lie on the board.
const (
	hole        = 1 << 16
	emptyLine   = 1000 * hole // a line without keys wastes a pin
	elbowCost   = 200 * hole  // a key that ghosts, or takes a diode
	mildElbow   = 10 * hole   // the same while elbows are let come and go
	displaced   = 30 * hole   // a key moved out of a regular layout
	noKey       = -1
	cacheBits   = 12
	noteIsEmpty = ^uint64(0)
)

// An arrangement gives every key a cell, keeps the energy of that, and can exchange cells and take
// the exchange back.
type arrangement struct {
	*task
	shape
	home     []int // the cell each key has on the board itself, or nil
	cell     []int // by key
	holder   []int // by cell: key or noKey
	tag      []uint64
	sum      [2][]uint64 // by side and line: tags of its keys
	cost     [2][]int64
	note     [2][]noted // known costs of lines, by tag
	chord    chordState
	energy   int64
	undo     undo
	mates    []int     // scratch
	crossing []int     // scratch
	crossed  [2][]bool // by side and line: whether it is in crossing
	tree     []int32
}

// noted is the remembered cost of one line.
type noted struct {
	sum  uint64
	cost int64
}

// An undo remembers what one exchange changed.
type undo struct {
	pairs  [][2]int // cells exchanged, in order
	sides  [4]int
	lines  [4]int
	sums   [4]uint64
	costs  [4]int64
	count  int
	energy int64
}

func (t *task) arrange(s shape, cell, home []int) *arrangement {
	a := &arrangement{task: t, shape: s, home: home, cell: append([]int(nil), cell...), holder: make([]int, s.cells()),
		tag: make([]uint64, len(t.keys)), mates: make([]int, 0, len(t.keys)), tree: make([]int32, len(t.keys)+1)}
	for i := range a.holder {
		a.holder[i] = noKey
	}
	r := dice(1)
	for k, c := range a.cell {
		a.tag[k] = r.next()
		a.holder[c] = k
	}
	for side, lines := range [2]int{s.rows, s.columns} {
		a.sum[side], a.cost[side], a.crossed[side] = make([]uint64, lines), make([]int64, lines), make([]bool, lines)
		a.note[side] = make([]noted, 1<<cacheBits)
		for i := range a.note[side] {
			a.note[side][i].sum = noteIsEmpty
		}
		for k, c := range a.cell {
			a.sum[side][s.line(side, c)] ^= a.tag[k]
		}
		for l := range lines {
			a.cost[side][l] = a.weigh(side, l)
			a.energy += a.cost[side][l]
		}
	}
	for k := range a.cell {
		a.energy += a.strayed(k)
	}
	a.chord = newChordState(t, s)
	for c := range t.chords {
		a.energy += a.chord.set(c, a.chord.elbows(c, a.cell))
	}
	return a
}

// strayed is what it costs that key k left its place in a regular layout.
func (a *arrangement) strayed(k int) int64 {
	if k != noKey && a.home != nil && a.home[k] != a.cell[k] {
		return displaced
	}
	return 0
}

// weigh returns the cost of a line, worked out once for each set of keys.
func (a *arrangement) weigh(side, l int) int64 {
	sum := a.sum[side][l]
	n := &a.note[side][sum>>(64-cacheBits)]
	if n.sum == sum {
		return n.cost
	}
	members := a.mates[:0]
	if side == rowSide {
		for _, k := range a.holder[l*a.columns : (l+1)*a.columns] {
			if k != noKey {
				members = append(members, k)
			}
		}
	} else {
		for c := l; c < len(a.holder); c += a.columns {
			if k := a.holder[c]; k != noKey {
				members = append(members, k)
			}
		}
	}
	cost := int64(emptyLine)
	if len(members) > 0 {
		cost = a.spread(side, members)
		cost += a.wire(side, members, a.tree) * hole
	}
	*n = noted{sum, cost}
	return cost
}

// begin opens an exchange; swap, any number of times, and settle follow.
func (a *arrangement) begin() {
	a.undo.pairs = a.undo.pairs[:0]
	a.undo.count = 0
	a.undo.energy = a.energy
	a.chord.begin()
}

// swap exchanges what two cells hold.
func (a *arrangement) swap(p, q int) {
	a.undo.pairs = append(a.undo.pairs, [2]int{p, q})
	kp, kq := a.holder[p], a.holder[q]
	a.energy -= a.strayed(kp) + a.strayed(kq)
	a.exchange(p, q)
	a.energy += a.strayed(kp) + a.strayed(kq)
	mix := uint64(0)
	for _, k := range [2]int{kp, kq} {
		if k != noKey {
			mix ^= a.tag[k]
			a.chord.stir(k)
		}
	}
	for side := range 2 {
		if lp, lq := a.shape.line(side, p), a.shape.line(side, q); lp != lq {
			a.touch(side, lp)
			a.touch(side, lq)
			a.sum[side][lp] ^= mix
			a.sum[side][lq] ^= mix
		}
	}
}

func (a *arrangement) exchange(p, q int) {
	kp, kq := a.holder[p], a.holder[q]
	a.holder[p], a.holder[q] = kq, kp
	if kp != noKey {
		a.cell[kp] = q
	}
	if kq != noKey {
		a.cell[kq] = p
	}
}

// touch remembers a line before its first change. An exchange changes at most two rows and two
// columns.
func (a *arrangement) touch(side, l int) {
	u := &a.undo
	for i := range u.count {
		if u.sides[i] == side && u.lines[i] == l {
			return
		}
	}
	u.sides[u.count], u.lines[u.count] = side, l
	u.sums[u.count], u.costs[u.count] = a.sum[side][l], a.cost[side][l]
	u.count++
}

// settle works out the energy after the swaps and returns the change.
func (a *arrangement) settle() int64 {
	a.settleLines()
	a.energy += a.chord.settle(a.cell)
	return a.energy - a.undo.energy
}

// settleWithin is settle for an exchange that is to be taken back if it costs more than limit; it
// saves counting elbows when there are none to lose and the wire costs too much already.
func (a *arrangement) settleWithin(limit int64) bool {
	a.settleLines()
	if a.chord.total > 0 || a.energy-a.undo.energy <= limit {
		a.energy += a.chord.settle(a.cell)
	}
	return a.energy-a.undo.energy <= limit
}

func (a *arrangement) settleLines() {
	u := &a.undo
	for i := range u.count {
		side, l := u.sides[i], u.lines[i]
		a.cost[side][l] = a.weigh(side, l)
		a.energy += a.cost[side][l] - u.costs[i]
	}
}

// revert takes the exchange back.
func (a *arrangement) revert() {
	u := &a.undo
	for i := len(u.pairs) - 1; i >= 0; i-- {
		a.exchange(u.pairs[i][0], u.pairs[i][1])
	}
	for i := range u.count {
		a.sum[u.sides[i]][u.lines[i]] = u.sums[i]
		a.cost[u.sides[i]][u.lines[i]] = u.costs[i]
	}
	a.chord.revert()
	a.energy = u.energy
}
