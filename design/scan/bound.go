package scan

import (
	"cmp"
	"slices"
)

// Rounds in which the bound climbs: as many as that for few keys, fewer for many.
const (
	climbs    = 200
	climbWork = 32000 // keys times rounds
)

// intersectUpTo is the most keys for which the bound by matroid intersection is worked out: it is soon
// had and met by regular layouts, which prices only come near to.
const intersectUpTo = 64

// A span is a possible wire between two keys on one side.
type span struct {
	a, b   int
	length int64
}

// spans lists every pair of keys on one side, in the order of pairs (1,0), (2,0), (2,1), (3,0) …
func (t *task) spans(side int) []span {
	n := len(t.keys)
	list := make([]span, 0, n*(n-1)/2)
	for a := range n {
		for b := range a {
			list = append(list, span{a, b, int64(t.distance[side][a*n+b])})
		}
	}
	return list
}

// wires is the least number of wires on each side: n keys on at most l lines take n - l.
func (t *task) wires(s shape) [2]int {
	return [2]int{max(0, len(t.keys)-s.rows), max(0, len(t.keys)-s.columns)}
}

// forest is a bound on the length of any arrangement: whatever the lines, their trees together are
// a forest of n - l wires on each side, and none is shorter than the shortest wires of the
// spanning tree.
func (t *task) forest(s shape) int {
	w := t.wires(s)
	return t.forestOf(rowSide, w[rowSide]) + t.forestOf(columnSide, w[columnSide])
}

// forestOf is the length of the shortest count wires on one side that close no circle.
func (t *task) forestOf(side, count int) int {
	list := t.spans(side)
	slices.SortStableFunc(list, func(a, b span) int { return cmp.Compare(a.length, b.length) })
	tree := make([]int, len(t.keys))
	for i := range tree {
		tree[i] = i
	}
	total := int64(0)
	for _, e := range list {
		a, b := top(tree, e.a), top(tree, e.b)
		if count == 0 {
			break
		}
		if a != b {
			tree[a] = b
			total += e.length
			count--
		}
	}
	return int(total)
}

func top(tree []int, k int) int {
	for tree[k] != k {
		k = tree[k]
	}
	return k
}

// bound returns a length that no arrangement of shape s stays under, in holes; it need not look for
// more than enough, a length that is known. With clean, arrangements that ghost do not count. The
// prices are those behind it.
func (t *task) bound(s shape, enough int, clean bool) (least int, p *pricing) {
	p = newPricing(t, s, t.crowding(s, clean))
	least = t.forest(s)
	if n := len(t.keys); n <= intersectUpTo && least < enough {
		both, _ := t.intersect(s)
		least = max(least, both)
	}
	if least < enough {
		least = max(least, p.climb(min(climbs, climbWork/len(t.keys)), enough))
	}
	return min(least, enough), p
}
