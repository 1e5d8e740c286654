package search

// grain is how many steps a unit of cost is divided into, so that prices may be fractions.
const grain = 32

// prices put a value on each slot and token; none is positive. Whatever the prices, no answer costs
// less than their sum plus what each group and each free member pays at least when it is given back
// the prices of what it takes (Lagrangian relaxation of "no slot and no token twice").
//
// Geoffrion, Lagrangean relaxation for integer programming (1974), from memory; the step is that of
// Held, Wolfe and Crowder (1974), doi:10.1007/BF01580223, from memory.
type prices struct {
	slot, token [64]int
}

// sum is what the prices add to the bound.
func (w *prices) sum() int {
	n := 0
	for i := range w.slot {
		n += w.slot[i] + w.token[i]
	}
	return n
}

// bound works out the bound that w gives, and how often each slot and token is wanted at it.
func (s *solver) bound(w *prices, wanted *prices) int {
	total := w.sum()
	for g := range s.groups {
		best, at := Never, -1
		for o := range s.groups[g].options {
			if r := s.groups[g].options[o].reduced(w); r < best {
				best, at = r, o
			}
		}
		total += best
		for _, j := range s.groups[g].options[at].slots {
			wanted.slot[j]++
		}
		for t := range bits(s.groups[g].options[at].tokens) {
			wanted.token[t]++
		}
	}
	for _, row := range s.single {
		best, at := Never, -1
		for j, c := range row {
			if c != Never && c-w.slot[j] < best {
				best, at = c-w.slot[j], j
			}
		}
		total += best
		wanted.slot[at]++
	}
	return total
}

// price moves the prices uphill from start, at most so many times, and keeps the best. goal is the
// cost of the best answer known.
func (s *solver) price(start prices, goal, rounds int) {
	now, pace, stale := start, 16, 0
	s.worth = -1
	for range rounds {
		var wanted prices
		b := s.bound(&now, &wanted)
		stale++
		if b > s.worth {
			s.worth, s.prices, stale = b, now, 0
		}
		if stale == 20 {
			now, pace, stale = s.prices, pace/2, 0
			continue
		}
		if b >= goal || pace == 0 {
			return
		}
		if !now.move(&wanted, s, (goal-b)*pace/16) {
			return
		}
	}
}

// move lowers the price of what is wanted more than once and raises that of what nobody wants. It
// reports false when everything priced is wanted exactly once: then the bound cannot be bettered.
func (w *prices) move(wanted *prices, s *solver, distance int) bool {
	squares := 0
	for j := range s.problem.Slots {
		squares += slope(w.slot[j], wanted.slot[j]) * slope(w.slot[j], wanted.slot[j])
	}
	for t := range bits(s.tokens) {
		squares += slope(w.token[t], wanted.token[t]) * slope(w.token[t], wanted.token[t])
	}
	if squares == 0 {
		return false
	}
	step := max(1, distance/squares)
	for j := range s.problem.Slots {
		w.slot[j] = min(0, w.slot[j]+step*slope(w.slot[j], wanted.slot[j]))
	}
	for t := range bits(s.tokens) {
		w.token[t] = min(0, w.token[t]+step*slope(w.token[t], wanted.token[t]))
	}
	return true
}

// slope is how the bound changes with the price of something wanted so often; a price cannot rise
// above zero.
func slope(price, wanted int) int {
	if price == 0 && wanted == 0 {
		return 0
	}
	return 1 - wanted
}
