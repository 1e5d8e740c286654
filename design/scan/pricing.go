package scan

import (
	"cmp"
	"slices"
)

// A pricing is a bound on the length of any arrangement. Rows and columns are each a forest of a
// known number of wires; and no crowd of keys has more wires than it may. Overfull crowds get a price
// on each of their wires, and the shortest forests by the priced lengths, less what the crowds may
// have at their price, are never longer than any arrangement (Lagrangian relaxation; Held, Wolfe,
// Crowder, 1974, doi:10.1007/BF01580223). Prices climb along the subgradient, crowds are looked for
// in the forests on the way (relax and cut; Lucena, 2005, doi:10.1007/s10479-005-3975-1). All is
// reckoned in whole numbers, so that the bound is exact and the same everywhere.
type pricing struct {
	keys     int
	crowding crowding
	ends     [][2]int
	length   [2][]int64 // by side and pair, in 1/perPrice holes
	cheap    [2][]int32 // pairs by length
	want     [2]int     // wires
	alike    bool       // both sides have the same lengths
	extra    []int64    // by pair: prices of the crowds it is in
	priced   []int32    // pairs that are in a crowd
	isPriced []bool
	in       [][]int32 // by pair: the crowds it is in
	crowds   []crowd
	known    map[string]bool
	chosen   [2][]int32
	late     []int32 // by pair: how often it was a wire of late, of weight
	recent   []int32 // pairs of which that is not 0
	sorted   []int64 // scratch
	up       []int16 // scratch
	web      *web
}

const perPrice = 1 << 10

func newPricing(t *task, s shape, c crowding) *pricing {
	p := &pricing{keys: len(t.keys), crowding: c, want: t.wires(s), known: map[string]bool{},
		up: make([]int16, len(t.keys)), web: newWeb(len(t.keys)), alike: slices.Equal(t.distance[0], t.distance[1])}
	for side := range 2 {
		list := t.spans(side)
		p.length[side], p.cheap[side] = make([]int64, len(list)), make([]int32, len(list))
		for e, sp := range list {
			p.length[side][e], p.cheap[side][e] = sp.length*perPrice, int32(e)
			if side == 0 {
				p.ends = append(p.ends, [2]int{sp.a, sp.b})
			}
		}
		slices.SortStableFunc(p.cheap[side], func(a, b int32) int { return cmp.Compare(p.length[side][a], p.length[side][b]) })
	}
	n := len(p.ends)
	p.extra, p.isPriced, p.in, p.late = make([]int64, n), make([]bool, n), make([][]int32, n), make([]int32, n)
	return p
}

// add opens a crowd of keys, which are in order; false when it is open already.
func (p *pricing) add(keys []int) bool {
	id := make([]byte, 0, 2*len(keys))
	for _, k := range keys {
		id = append(id, byte(k), byte(k>>8))
	}
	if p.known[string(id)] {
		return false
	}
	p.known[string(id)] = true
	c := crowd{keys: keys, most: p.crowding.most(keys)}
	for i, a := range keys {
		for _, b := range keys[:i] {
			e := int32(a*(a-1)/2 + b)
			c.spans = append(c.spans, e)
			p.in[e] = append(p.in[e], int32(len(p.crowds)))
			if !p.isPriced[e] {
				p.isPriced[e] = true
				p.priced = append(p.priced, e)
			}
		}
	}
	p.crowds = append(p.crowds, c)
	return true
}

// forests chooses the shortest forests by the priced lengths and returns the bound, in 1/perPrice
// holes.
func (p *pricing) forests() int64 {
	total := int64(0)
	for side := range 2 {
		if side == 1 && p.alike {
			total += p.again()
			break
		}
		p.sorted = p.sorted[:0]
		for _, e := range p.priced {
			p.sorted = append(p.sorted, (p.length[side][e]+p.extra[e])<<16|int64(e))
		}
		slices.Sort(p.sorted)
		want := p.want[side]
		if p.alike {
			want = max(p.want[0], p.want[1])
		}
		p.grow(side, want)
		for _, e := range p.chosen[side][:min(p.want[side], len(p.chosen[side]))] {
			total += p.length[side][e] + p.extra[e]
		}
	}
	return total - p.credit()
}

// credit is what all crowds may have at their prices.
func (p *pricing) credit() int64 {
	total := int64(0)
	for i := range p.crowds {
		total += p.crowds[i].price * int64(p.crowds[i].most)
	}
	return total
}

// again cuts the forests of both sides from the one grown last, which is long enough for either.
func (p *pricing) again() int64 {
	total := int64(0)
	p.chosen[1] = append(p.chosen[1][:0], p.chosen[0][:p.want[1]]...)
	p.chosen[0] = p.chosen[0][:p.want[0]]
	for _, e := range p.chosen[1] {
		total += p.length[1][e] + p.extra[e]
	}
	return total
}

// grow makes one side's forest, from the shortest wire on (Kruskal, 1956).
func (p *pricing) grow(side, want int) {
	for k := range p.up {
		p.up[k] = int16(k)
	}
	list := p.chosen[side][:0]
	cheap, i, j := p.cheap[side], 0, 0
	for len(list) < want {
		for i < len(cheap) && p.isPriced[cheap[i]] {
			i++
		}
		var e int32
		if j < len(p.sorted) && (i == len(cheap) || p.sorted[j]>>16 <= p.length[side][cheap[i]]) {
			e = int32(p.sorted[j] & 0xFFFF)
			j++
		} else {
			e = cheap[i]
			i++
		}
		a, b := p.root(p.ends[e][0]), p.root(p.ends[e][1])
		if a != b {
			p.up[a] = b
			list = append(list, e)
		}
	}
	p.chosen[side] = list
}

func (p *pricing) root(k int) int16 {
	at := int16(k)
	for p.up[at] != at {
		p.up[at] = p.up[p.up[at]]
		at = p.up[at]
	}
	return at
}
