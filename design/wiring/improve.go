package wiring

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// Work is counted in spots that waves take, since a clock would make two runs differ.
const (
	orderPasses = 4       // orders tried from nothing
	workLimit   = 300_000 // spots after which no more orders or improvements are tried
	dullLimit   = 400     // tries in a row that gained nothing, after which the search ends
	mostMoved   = 6       // nets that one try may take up
)

// A search holds the best way found to join every net, and improves it.
type search struct {
	*grower
	layouts []layout
	shared  price // no way to join all nets that succeed costs less
	quick   bool
	random  *rand.Rand
}

func newSearch(g *grower) *search {
	return &search{grower: g, layouts: make([]layout, len(g.tasks)), random: rand.New(rand.NewPCG(1, 2))}
}

// run joins all nets: a few orders from nothing, then improvements while they pay and work is left.
func (s *search) run() {
	order := s.byLength()
	var best []layout
	least := price(0)
	for pass := range orderPasses {
		s.clear()
		for _, i := range order {
			s.put(i, s.grow(i, 0, false))
		}
		if total := s.total(); best == nil || total < least {
			best, least = slices.Clone(s.layouts), total
		}
		if pass+1 == orderPasses || s.quick || s.wave.pops > workLimit/2 || s.atBound() {
			break
		}
		order = s.hardFirst(order)
	}
	s.clear()
	for i := range best {
		s.put(i, best[i])
	}
	if !s.quick {
		s.improve()
	}
}

// byLength lists the tasks, shortest tree first.
func (s *search) byLength() []int {
	order := make([]int, len(s.tasks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(s.tasks[i].spread, s.tasks[j].spread) })
	return order
}

// hardFirst moves the tasks that needed insulated wires to the front.
func (s *search) hardFirst(order []int) []int {
	next := slices.Clone(order)
	slices.SortStableFunc(next, func(i, j int) int {
		return cmp.Compare(min(s.layouts[j].insulated, 1), min(s.layouts[i].insulated, 1))
	})
	return next
}

func (s *search) clear() {
	for i := range s.layouts {
		s.take(i)
	}
}

// take rips task i off the board and returns how it lay.
func (s *search) take(i int) layout {
	old := s.layouts[i]
	for _, c := range old.claimed {
		s.owner[c] = nobody
	}
	s.layouts[i] = layout{}
	return old
}

func (s *search) put(i int, l layout) {
	for _, c := range l.claimed {
		s.owner[c] = int16(i + 1)
	}
	s.layouts[i] = l
}

func (s *search) total() price {
	var sum price
	for i := range s.layouts {
		sum += s.layouts[i].price
	}
	return sum
}

func (s *search) atBound() bool { return len(s.loose()) == 0 }

// loose lists the tasks that cost more than their bound.
func (s *search) loose() []int {
	var list []int
	for i := range s.tasks {
		if s.layouts[i].price > s.tasks[i].bound {
			list = append(list, i)
		}
	}
	return list
}

// improve takes up one net after the other, with those that its cheapest way would cross, and lays
// them anew; what is not dearer stays.
func (s *search) improve() {
	for dull := 0; dull < dullLimit && s.wave.pops < workLimit && !s.atBound(); {
		if s.move() {
			dull = 0
		} else {
			dull++
		}
	}
}

// move tries one net, and reports whether that was cheaper.
func (s *search) move() bool { return s.try(s.choose(s.loose())) }

// choose picks a net with an insulated wire half of the time, and any loose net otherwise.
func (s *search) choose(loose []int) int {
	var hard []int
	for _, i := range loose {
		if s.layouts[i].insulated > 0 {
			hard = append(hard, i)
		}
	}
	if len(hard) > 0 && s.random.IntN(2) == 0 {
		return hard[s.random.IntN(len(hard))]
	}
	return loose[s.random.IntN(len(loose))]
}

// try lays net i and those in its way anew. It reports whether that was cheaper, and takes it back
// when it was dearer.
func (s *search) try(i int) bool {
	start := s.random.IntN(max(1, len(s.tasks[i].groups)))
	old := map[int]layout{i: s.take(i)}
	moved := []int{i}
	sketch := s.grow(i, start, true)
	if len(sketch.crossed) < mostMoved {
		for _, j := range sketch.crossed {
			old[j] = s.take(j)
			moved = append(moved, j)
		}
	}
	if s.random.IntN(4) == 0 {
		s.random.Shuffle(len(moved), func(a, b int) { moved[a], moved[b] = moved[b], moved[a] })
	} else {
		rest := moved[1:]
		s.random.Shuffle(len(rest), func(a, b int) { rest[a], rest[b] = rest[b], rest[a] })
	}
	var before, after price
	for _, j := range moved {
		first := start
		if j != i {
			first = s.random.IntN(max(1, len(s.tasks[j].groups)))
		}
		s.put(j, s.grow(j, first, false))
		before += old[j].price
		after += s.layouts[j].price
	}
	if after > before {
		for _, j := range moved {
			s.take(j)
		}
		for _, j := range moved {
			s.put(j, old[j])
		}
	}
	return after < before
}
