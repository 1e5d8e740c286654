package wiring

import (
	"slices"
)

// Ways by which a wave came to a spot. 0 to 3 are steps along the board.
const (
	byFace   int8 = 4 // to the other face of the same hole
	byCopper int8 = 5 // along the board's own copper
	atStart  int8 = 6
)

// A wave spreads from a tree over the spots that its net may use, cheapest first, until it meets a
// group that the tree still lacks. Its scratch lists are kept between runs and told apart by age.
//
// Dijkstra's method with one list a price, since prices are small whole numbers. A spot remembers
// the cheapest way in alone, so a bend may now and then cost a fraction more than it must.
type wave struct {
	fd      *field
	age     int32
	ageOf   []int32
	cost    []price
	from    []spot
	way     []int8
	done    []bool
	lists   [][]spot // by price
	least   int      // no list below holds anything
	highest int
	pops    int // spots taken from the lists since the start, the measure of work
}

func newWave(fd *field) *wave {
	n := len(fd.class)
	return &wave{fd: fd, ageOf: make([]int32, n), cost: make([]price, n), from: make([]spot, n), way: make([]int8, n), done: make([]bool, n)}
}

func (w *wave) reset() {
	w.age++
	for i := w.least; i <= w.highest && i < len(w.lists); i++ {
		w.lists[i] = w.lists[i][:0]
	}
	w.least, w.highest = 0, -1
}

// offer notes a way to s, if it is the cheapest so far.
func (w *wave) offer(s, from spot, way int8, cost, limit price) {
	if cost > limit || w.ageOf[s] == w.age && (w.done[s] || w.cost[s] <= cost) {
		return
	}
	w.ageOf[s], w.cost[s], w.from[s], w.way[s], w.done[s] = w.age, cost, from, way, false
	for int(cost) >= len(w.lists) {
		w.lists = append(w.lists, nil)
	}
	w.lists[cost] = append(w.lists[cost], s)
	w.highest = max(w.highest, int(cost))
}

// take returns the cheapest spot not yet taken, or nowhere.
func (w *wave) take() spot {
	for ; w.least <= w.highest; w.least++ {
		for n := len(w.lists[w.least]); n > 0; n = len(w.lists[w.least]) {
			s := w.lists[w.least][n-1]
			w.lists[w.least] = w.lists[w.least][:n-1]
			if !w.done[s] && w.cost[s] == price(w.least) {
				w.done[s] = true
				w.pops++
				return s
			}
		}
	}
	return nowhere
}

// path returns the spots from the tree to s.
func (w *wave) path(s spot) []spot {
	path := []spot{s}
	for w.way[s] != atStart {
		s = w.from[s]
		path = append(path, s)
	}
	slices.Reverse(path)
	return path
}
