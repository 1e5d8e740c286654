package scan

import "math"

// intersect is the bound that also knows that two keys share a row or a column, never both: the
// least total of n - rows row wires and n - columns column wires, each side a forest, no pair used
// on both. It is a weighted matroid intersection (Edmonds, 1970), solved by cheapest augmenting
// paths (Lawler, 1975; Frank, 1981). ok is false when no such wires exist.
func (t *task) intersect(s shape) (least int, ok bool) {
	x := newIntersection(t, s)
	total := 0
	for range x.want[0] + x.want[1] {
		gain, ok := x.augment()
		if !ok {
			return 0, false
		}
		total += gain
	}
	return total, true
}

// An intersection is a growing choice of wires. Wire e of side s and wire e of the other side join
// the same pair of keys and exclude each other: they are twins.
type intersection struct {
	keys   int
	spans  [2][]span
	want   [2]int // wires wanted by side
	have   [2]int
	chosen [2][]bool
	tree   [2]trees
	// Costs of the cheapest way so far that ends with wire e joining, or leaving, and the wire that
	// left just before it joined, -1 for none. One wire more counts as a little, so that of equal
	// ways the one with fewest wires wins, as the method needs.
	join   [2][]int64
	leave  [2][]int64
	before [2][]int
}

const (
	never64 = math.MaxInt64 / 4
	perHole = 1 << 12 // a step costs 1: no way has as many
)

func newIntersection(t *task, s shape) *intersection {
	x := &intersection{keys: len(t.keys), want: t.wires(s)}
	for side := range 2 {
		x.spans[side] = t.spans(side)
		n := len(x.spans[side])
		x.chosen[side] = make([]bool, n)
		x.join[side], x.leave[side], x.before[side] = make([]int64, n), make([]int64, n), make([]int, n)
	}
	return x
}

// augment makes the choice one wire larger at least cost and returns the cost.
func (x *intersection) augment() (cost int, ok bool) {
	for side := range 2 {
		x.tree[side].build(x.keys, x.spans[side], x.chosen[side])
		for e := range x.spans[side] {
			x.join[side][e], x.leave[side][e], x.before[side][e] = never64, never64, -1
		}
	}
	for side := range 2 {
		x.open(side)
	}
	for again := true; again; {
		again = false
		for side := range 2 {
			if x.relax(side) {
				again = true
			}
		}
	}
	return x.apply()
}

// full reports whether a side has all its wires, so that any other joins only as one leaves.
func (x *intersection) full(side int) bool { return x.have[side] == x.want[side] }

// open reaches the wires that may join as things are.
func (x *intersection) open(side int) {
	if x.full(side) {
		return
	}
	for e, sp := range x.spans[side] {
		if !x.chosen[side][e] && !x.tree[side].joined(sp) {
			x.reach(side, e, sp.length*perHole+1, -1)
		}
	}
}

// reach notes a cheaper way to let wire e of a side join; its twin, if chosen, then leaves.
func (x *intersection) reach(side, e int, cost int64, before int) bool {
	if cost >= x.join[side][e] {
		return false
	}
	x.join[side][e], x.before[side][e] = cost, before
	if x.chosen[1-side][e] {
		x.leave[1-side][e] = cost - x.spans[1-side][e].length*perHole + 1
	}
	return true
}

// relax lets wires join in place of those that leave: of the circle that the wire closes, or, when
// the side is full, any. It reports whether a way got cheaper.
func (x *intersection) relax(side int) bool {
	any, anyCost := -1, int64(never64)
	for e, chosen := range x.chosen[side] {
		if chosen && x.leave[side][e] < anyCost {
			any, anyCost = e, x.leave[side][e]
		}
	}
	if any < 0 {
		return false
	}
	better := false
	for e, sp := range x.spans[side] {
		if x.chosen[side][e] {
			continue
		}
		from, cost := any, anyCost
		if x.tree[side].joined(sp) {
			from, cost = x.tree[side].cheapest(sp, x.leave[side])
		} else if !x.full(side) {
			continue
		}
		if from >= 0 && cost < never64 && x.reach(side, e, cost+sp.length*perHole+1, from) {
			better = true
		}
	}
	return better
}

// apply takes the cheapest way to a wire whose twin is not chosen.
func (x *intersection) apply() (cost int, ok bool) {
	side, e, least := 0, -1, int64(never64)
	for s := range 2 {
		for i, c := range x.join[s] {
			if c < least && !x.chosen[s][i] && !x.chosen[1-s][i] {
				side, e, least = s, i, c
			}
		}
	}
	if e < 0 {
		return 0, false
	}
	for {
		x.chosen[side][e] = true
		x.have[side]++
		cost += int(x.spans[side][e].length)
		e = x.before[side][e]
		if e < 0 {
			return cost, true
		}
		x.chosen[side][e] = false
		x.have[side]--
		cost -= int(x.spans[side][e].length)
		side = 1 - side
	}
}

// trees is a forest with a root for each tree, to walk from key to key.
type trees struct {
	root, above, wire, depth []int
}

func (f *trees) build(keys int, spans []span, chosen []bool) {
	type half struct{ to, wire int }
	next := make([][]half, keys)
	for e, c := range chosen {
		if c {
			next[spans[e].a] = append(next[spans[e].a], half{spans[e].b, e})
			next[spans[e].b] = append(next[spans[e].b], half{spans[e].a, e})
		}
	}
	f.root, f.above, f.wire, f.depth = make([]int, keys), make([]int, keys), make([]int, keys), make([]int, keys)
	for k := range f.root {
		f.root[k] = -1
	}
	for start := range keys {
		if f.root[start] >= 0 {
			continue
		}
		f.root[start] = start
		for queue := []int{start}; len(queue) > 0; queue = queue[1:] {
			k := queue[0]
			for _, h := range next[k] {
				if f.root[h.to] < 0 {
					f.root[h.to], f.above[h.to], f.wire[h.to], f.depth[h.to] = start, k, h.wire, f.depth[k]+1
					queue = append(queue, h.to)
				}
			}
		}
	}
}

// joined reports whether the forest already joins the two keys.
func (f *trees) joined(s span) bool { return f.root[s.a] == f.root[s.b] }

// cheapest finds the wire with the least cost on the way between two joined keys, or -1.
func (f *trees) cheapest(s span, cost []int64) (wire int, least int64) {
	wire, least = -1, never64
	for a, b := s.a, s.b; a != b; {
		if f.depth[a] < f.depth[b] {
			a, b = b, a
		}
		if c := cost[f.wire[a]]; c < least {
			wire, least = f.wire[a], c
		}
		a = f.above[a]
	}
	return wire, least
}
