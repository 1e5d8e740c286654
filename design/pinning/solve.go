package pinning

import (
	"slices"

	"fascia/design/search"
)

// How much is spent on crossings: placements that a proof may try, and then how often the descent
// begins again.
const (
	nodes = 1000
	tries = 6
)

// A solution is what the search found for a task.
type solution struct {
	problem   *problem
	answer    search.Answer
	doubt     bool  // it is not proved that no wish to spare something could hold that does not
	at        []int // the pin of each signal, -1 for none; when found
	untangled bool
}

// solve gives every signal a pin, as Assign promises.
func (t *task) solve() solution {
	best := t.cheapest(budget)
	if best.answer.Verdict == search.Found {
		best.untangle()
	}
	return best
}

// quick gives every signal a pin at a cost that Assign would not better by much, crossings aside.
func (t *task) quick() solution { return t.cheapest(budget / 40) }

// cheapest gives every signal a pin at least cost, trying so many options at most.
func (t *task) cheapest(options int) solution {
	wishes := t.allWishes()
	p := t.problem(wishes)
	best := solution{problem: p, answer: search.Solve(&p.Problem, options)}
	if best.answer.Verdict == search.Found {
		best.at = p.at(best.answer.Slot)
		best = t.spareBus(best, wishes, options)
	}
	return best
}

// spareBus keeps an I2C instance free if the maker asks for that and nothing more important suffers.
func (t *task) spareBus(best solution, wishes []wish, options int) solution {
	if !slices.Contains(t.spares, spareI2C) || t.spared(spareI2C, best.at) {
		return best
	}
	p := t.problem(wishes)
	p.reserve()
	answer := search.Solve(&p.Problem, options)
	unit := t.weight.over(slices.Index(t.spares, spareI2C))
	switch {
	case answer.Verdict == search.Found && answer.Cost/unit == best.answer.Cost/unit:
		nodes := best.answer.Nodes
		best = solution{problem: p, answer: answer, at: p.at(answer.Slot), doubt: best.answer.Bound/unit < best.answer.Cost/unit}
		best.answer.Nodes += nodes
	case answer.Verdict == search.Undecided, answer.Verdict == search.Found && answer.Bound/unit == best.answer.Cost/unit:
		best.doubt = true
	}
	return best
}

// holes gives the distance of the solution, and the least of any that gives up as little of the wishes
// above it.
func (s *solution) holes() (cost, bound float64) {
	cost, bound = s.problem.holes(s.answer)
	if s.doubt {
		bound = 0
	}
	return cost, bound
}

// untangle goes on to an assignment of the same cost with fewer crossings.
func (s *solution) untangle() {
	t, p := s.problem.task, s.problem
	slot := s.answer.Slot
	if what := spareI2C; slices.Contains(t.spares, what) && t.spared(what, s.at) && !slices.Contains(p.members, -1) {
		p.reserve()
		slot = p.seatReserve(slot)
	}
	tangle := search.Tangle{Problem: &p.Problem, Unit: t.weight.hole, Odds: func(m, i, n, j int) bool {
		a, b := p.members[m], p.members[n]
		return a >= 0 && b >= 0 && i < len(t.pins) && j < len(t.pins) && t.cross(a, i, b, j)
	}}
	for _, s := range p.members {
		row := make([]int, p.Slots)
		for pin := range t.pins {
			if s >= 0 {
				row[pin] = t.number(s, pin)
			}
		}
		tangle.Last = append(tangle.Last, row)
	}
	slot, _, s.untangled = tangle.Loosen(slot, tries, nodes)
	s.at = p.at(slot)
}
