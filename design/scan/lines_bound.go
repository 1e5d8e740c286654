package scan

import (
	"cmp"
	"slices"
)

// The tolls of a bound count in fractions of a hole, whole numbers so that every machine agrees.
// tollWork bounds the wires that are looked at, over all rounds.
const (
	tollHole        = 1 << 12
	tollWork        = 400000
	tollRounds      = 300
	tollRoundsLeast = 10
	tollPatience    = 6 // rounds without a better bound before steps get shorter
)

// A tie is a possible wire between ends of two keys. Of the wires between two keys at most one can
// be there, but for the two between a row side and a column side, which can go together: any other
// two would put both sides of one key on one line. Each pair of keys has two tolls: one is paid by
// all its wires but that from the later key's row side to the other's column side, one by all but
// that from the earlier key's.
type tie struct {
	a, b   int // ends
	length int64
	pair   int     // of keys
	pays   [2]bool // which tolls
}

// A tolled wire is one of the ties with its length and tolls of now.
type tolled struct {
	cost int64
	tie  int
}

// bound returns a length that no arrangement on so many lines stays under. Their trees together are
// a forest of 2 n - lines wires over the ends of n keys; the cheapest, less what its tolls come to,
// is a bound at any tolls, and the tolls are raised and lowered to make it a good one (Lagrangian
// relaxation with subgradient steps: Held, Wolfe, Crowder, 1974, doi:10.1007/BF01580223, from
// memory). length is one that an arrangement has.
func (t *lineTask) bound(lines, length int) int {
	n := len(t.keys)
	b := tolling{ties: t.ties(), want: max(0, 2*n-lines), toll: make([][2]int64, n*n), used: make([][2]int64, n*n), up: make([]int, 2*n)}
	if len(b.ties) == 0 {
		return 0
	}
	best, stalled, share := int64(0), 0, int64(2*tollHole)
	goal := int64(length) * tollHole
	for round := 0; round < tollRoundsLeast || round < tollRounds && b.work < tollWork; round++ {
		if got := b.cheapest(); got > best {
			best, stalled = got, 0
		} else if stalled++; stalled == tollPatience {
			stalled, share = 0, share*2/3
		}
		if best > goal-tollHole || !b.step(goal, share) {
			break
		}
	}
	return int((best + tollHole - 1) / tollHole)
}

// ties lists the wires between the ends of different keys.
func (t *lineTask) ties() []tie {
	n := len(t.keys)
	list := make([]tie, 0, 2*n*(n-1))
	for a := range n {
		for b := range a {
			for _, sides := range [4][2]int{{rowSide, rowSide}, {columnSide, columnSide}, {rowSide, columnSide}, {columnSide, rowSide}} {
				p, q := 2*a+sides[0], 2*b+sides[1]
				list = append(list, tie{a: p, b: q, length: int64(t.ends.distance[rowSide][p*2*n+q]) * tollHole, pair: a*n + b,
					pays: [2]bool{sides != [2]int{rowSide, columnSide}, sides != [2]int{columnSide, rowSide}}})
			}
		}
	}
	slices.SortStableFunc(list, func(x, y tie) int { return cmp.Compare(x.length, y.length) })
	return list
}

type tolling struct {
	ties  []tie // shortest first
	want  int   // wires of a forest
	toll  [][2]int64
	used  [][2]int64 // by pair of keys, as toll: how often each was paid in the last forest
	reach int64      // wires no longer than this are looked at
	list  []tolled
	up    []int
	paid  int64 // the last forest, less all tolls
	work  int
}

// cheapest finds the cheapest forest at the tolls of now and returns its bound. Prices only add, so
// a forest that costs nowhere more than reach needs no longer wire.
func (b *tolling) cheapest() int64 {
	for !b.forest() {
		b.reach = max(2*b.reach, 8*tollHole)
	}
	for i := range b.toll {
		b.paid -= b.toll[i][0] + b.toll[i][1]
	}
	return b.paid
}

// forest tries the wires within reach; false when longer ones may be needed.
func (b *tolling) forest() bool {
	b.list = b.list[:0]
	all := b.ties[len(b.ties)-1].length <= b.reach
	for i := range b.ties {
		e := &b.ties[i]
		if e.length > b.reach {
			break
		}
		cost := e.length
		for s := range 2 {
			if e.pays[s] {
				cost += b.toll[e.pair][s]
			}
		}
		if all || cost <= b.reach {
			b.list = append(b.list, tolled{cost, i})
		}
	}
	b.work += len(b.list)
	slices.SortFunc(b.list, func(x, y tolled) int { return cmp.Or(cmp.Compare(x.cost, y.cost), cmp.Compare(x.tie, y.tie)) })
	for i := range b.up {
		b.up[i] = i
	}
	clear(b.used)
	b.paid = 0
	left := b.want
	for _, p := range b.list {
		if left == 0 {
			break
		}
		e := &b.ties[p.tie]
		x, y := top(b.up, e.a), top(b.up, e.b)
		if x == y {
			continue
		}
		b.up[x] = y
		left--
		b.paid += p.cost
		for s := range 2 {
			if e.pays[s] {
				b.used[e.pair][s]++
			}
		}
	}
	return left == 0 || all
}

// step raises the tolls that were paid twice and lowers those that nobody paid; false when all were
// paid once or are nothing.
func (b *tolling) step(goal, share int64) bool {
	wrong := int64(0)
	for i := range b.toll {
		for s := range 2 {
			if over := b.used[i][s] - 1; over > 0 || over < 0 && b.toll[i][s] > 0 {
				wrong += over * over
			}
		}
	}
	if wrong == 0 {
		return false
	}
	size := max(1, (goal-b.paid)/tollHole*share/wrong)
	for i := range b.toll {
		for s := range 2 {
			b.toll[i][s] = max(0, b.toll[i][s]+size*(b.used[i][s]-1))
		}
	}
	return true
}
