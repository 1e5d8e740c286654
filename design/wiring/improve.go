package wiring

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// Work is counted in spots that waves take and in moves, since a clock would make two runs differ.
const (
	orderPasses = 4       // orders tried from nothing
	workLimit   = 400_000 // spots after which the first answer is taken as it is
	dullLimit   = 400     // moves in a row that gained nothing, after which the first answer is taken
	mostMoved   = 6       // nets that one move may take up

	mostMended = 8 // nets that may lose wires to one move

	boundEvery = 100 // moves between two looks at the bound
	cycle      = 500 // moves from hot to cold
)

// heat is how many twentieths of a hole a move may lose, about, when it is hottest.
const heat = 60.0

// trespasses are the prices that a sketch may put on a hole of another net's run.
var trespasses = []price{20, 50, 50, 120}

// A search holds a way to join every net, and betters it.
type search struct {
	*grower
	layouts []layout
	best    []layout // the cheapest of all so far
	least   price    // what it costs
	random  *rand.Rand
	quick   bool
	toll    *tolls
}

func newSearch(g *grower) *search {
	return &search{grower: g, layouts: make([]layout, len(g.tasks)), random: rand.New(rand.NewPCG(1, 2)), least: beyondPrice * 1024}
}

// run joins all nets: by a few orders from nothing and by coming to terms, then by moves while they pay
// and work is left.
func (s *search) run() {
	order := s.byLength()
	for pass := range orderPasses {
		s.clear()
		for _, i := range order {
			s.put(i, s.grow(i, 0, false))
		}
		s.keepBest()
		if s.quick || s.atBound() {
			break
		}
		if pass == 0 {
			s.negotiate()
			s.keepBest()
		}
		if s.wave.pops > workLimit/2 {
			break
		}
		order = s.hardFirst(order)
	}
	s.backToBest()
	for dull := 0; !s.quick && dull < dullLimit && s.wave.pops < workLimit && !s.atBound(); dull++ {
		if s.move(0) {
			dull = 0
		}
	}
}

// keepBest takes what lies now as the best, if it is. It reports whether it is.
func (s *search) keepBest() bool {
	total := s.total()
	if total >= s.least {
		return false
	}
	s.best, s.least = slices.Clone(s.layouts), total
	return true
}

func (s *search) backToBest() {
	s.clear()
	for i := range s.best {
		s.put(i, s.best[i])
	}
}

// anneal makes the n-th move, counted from 0, of those that better the first answer: hot at first in
// each cycle, so that what is worse for now may stay, then colder. It reports whether the best was
// beaten.
//
// Kirkpatrick, Gelatt and Vecchi, Optimization by simulated annealing, 1983 (from memory).
func (s *search) anneal(n int) bool {
	if n%cycle == 0 {
		s.backToBest()
	}
	if n > 0 && n%boundEvery == 0 {
		s.raiseBound()
	}
	return s.move(heat * (1 - float64(n%cycle)/cycle))
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

// atBound reports whether the best is proved to be.
func (s *search) atBound() bool {
	cost, least := s.sums()
	return cost <= least
}

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

// move takes up one net, with those that its cheapest way would cross, and lays them anew. What is
// dearer stays only by chance, the rarer the more it costs over the heat. It reports whether the best
// was beaten.
func (s *search) move(heat float64) bool {
	loose := s.loose()
	if len(loose) == 0 {
		return false
	}
	change := s.mend
	if s.random.IntN(4) == 0 {
		change = s.try
	}
	return change(s.choose(loose), heat) && s.keepBest()
}

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
// when it was too dear.
func (s *search) try(i int, heat float64) bool {
	s.trespass = trespasses[s.random.IntN(len(trespasses))]
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
	if after > before && !s.bears(after-before, heat) {
		for _, j := range moved {
			s.take(j)
		}
		for _, j := range moved {
			s.put(j, old[j])
		}
	}
	return after < before
}

// mend takes one to three wires of net i away and joins what falls apart by the cheapest way, over
// other nets' runs too. Those nets lose the wires that are in the way, and are joined anew.
func (s *search) mend(i int, heat float64) bool {
	s.trespass = trespasses[s.random.IntN(len(trespasses))]
	old := map[int]layout{i: s.take(i)}
	l := s.regrow(i, s.random.IntN(max(1, len(s.tasks[i].groups))), s.without(old[i].pieces), true)
	if l.failed || len(l.crossed) > mostMended {
		s.put(i, old[i])
		return false
	}
	order := l.crossed
	for _, j := range order {
		old[j] = s.take(j)
	}
	s.put(i, l)
	s.random.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
	kept := map[int][]piece{}
	for _, j := range order { // what they keep must not be taken by those that are joined before
		kept[j] = s.clearOf(old[j].pieces, i)
		s.put(j, layout{claimed: s.freeClasses(kept[j])})
	}
	before, after := old[i].price, l.price
	for _, j := range order {
		s.take(j)
		s.put(j, s.regrow(j, s.random.IntN(max(1, len(s.tasks[j].groups))), kept[j], false))
		before += old[j].price
		after += s.layouts[j].price
	}
	if after > before && !s.bears(after-before, heat) {
		for j := range old {
			s.take(j)
		}
		for j, l := range old {
			s.put(j, l)
		}
	}
	return after < before
}

// clearOf leaves out the pieces that lie on copper of task i.
func (s *search) clearOf(pieces []piece, i int) []piece {
	return slices.DeleteFunc(slices.Clone(pieces), func(pc piece) bool {
		return slices.ContainsFunc(s.fd.touched(&pc), func(c spot) bool { return s.owner[c] == int16(i+1) })
	})
}

// freeClasses lists the classes of pieces that are nobody's by themselves.
func (s *search) freeClasses(pieces []piece) []spot {
	var list []spot
	for n := range pieces {
		for _, c := range s.fd.touched(&pieces[n]) {
			if s.fixed[c] == nobody {
				list = append(list, c)
			}
		}
	}
	return list
}

// without leaves out one to three pieces, insulated wires rather than others.
func (s *search) without(pieces []piece) []piece {
	kept := slices.Clone(pieces)
	for range 1 + s.random.IntN(3)*s.random.IntN(2) {
		if len(kept) == 0 {
			break
		}
		n := s.random.IntN(len(kept))
		if s.random.IntN(2) == 0 {
			if k := slices.IndexFunc(kept[n:], func(pc piece) bool { return pc.kind == Insulated }); k >= 0 {
				n += k
			}
		}
		kept = slices.Delete(kept, n, n+1)
	}
	return kept
}

// bears reports whether a loss is borne this time.
func (s *search) bears(loss price, heat float64) bool {
	return heat > 0 && s.random.Float64() < math.Exp(-float64(loss)/heat)
}
