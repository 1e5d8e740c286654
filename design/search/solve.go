package search

import "math"

// Solve finds a cheapest answer to p, trying at most budget options. Equal problems have equal
// answers. It panics when p is not as its type says.
func Solve(p *Problem, budget int) Answer { return run(p, budget, Never, false) }

// AnyAnswer finds some answer to p, whatever its cost, trying at most budget options. The cost and the
// bound that it returns say nothing.
func AnyAnswer(p *Problem, budget int) Answer { return run(p, budget, Never, true) }

// Feasible reports whether p has any answer.
func Feasible(p *Problem, budget int) Verdict { return AnyAnswer(p, budget).Verdict }

// run searches for an answer that costs less than limit.
func run(p *Problem, budget, limit int, anyAnswer bool) Answer {
	if len(p.Cost) > p.Slots {
		return Answer{Verdict: Impossible}
	}
	p.check()
	s := &solver{problem: p, budget: budget, anyAnswer: anyAnswer, dead: map[state]bool{}, slot: make([]int, len(p.Cost)),
		best: Never, limited: limit < Never}
	if s.limited {
		s.best = limit * grain
	}
	if !s.seat() {
		return Answer{Verdict: Impossible}
	}
	relaxed, ok := Match(s.relaxation())
	if !ok {
		return Answer{Verdict: Impossible}
	}
	s.chosen = make([]int, len(s.groups))
	s.matcher, s.nothing = newMatcher(p.Slots, p.Slots), make([]int, p.Slots)
	s.rows = make([][]int, len(s.free), p.Slots)
	s.loose = make([][]int, len(s.groups))
	for i := range s.loose {
		s.loose[i] = make([]int, 0, p.Slots)
	}
	copy(s.prices.slot[:], relaxed.Column)
	s.worth = s.bound(&s.prices, &prices{})
	s.rank()
	for _, phase := range phases {
		if !s.descendWithin(phase.nodes) || anyAnswer && s.found {
			break
		}
		if s.found && s.worth < s.best {
			s.price(s.prices, s.best, phase.rounds)
			s.rank()
		}
	}
	return s.answer()
}

// relaxation is the matching problem that is left when groups and tokens are forgotten: each member
// may take any slot that one of its group's options gives it.
func (s *solver) relaxation() [][]int {
	cost := make([][]int, len(s.problem.Cost))
	s.free = s.problem.free()
	for _, m := range s.free {
		cost[m] = make([]int, s.problem.Slots)
		for j, c := range s.problem.Cost[m] {
			cost[m][j] = c
			if c != Never {
				cost[m][j] = c * grain
			}
		}
		s.single = append(s.single, cost[m])
	}
	for _, g := range s.groups {
		for i, m := range g.members {
			cost[m] = make([]int, s.problem.Slots)
			for j := range cost[m] {
				cost[m][j] = Never
			}
			for _, o := range g.options {
				cost[m][o.slots[i]] = s.problem.Cost[m][o.slots[i]] * grain
			}
		}
	}
	return cost
}

// phases are how the search goes on: so many options are tried, and when they were not enough the
// prices are moved for so many rounds and the search begins again.
var phases = [...]struct{ nodes, rounds int }{{200, 100}, {1_000, 300}, {4_000, 1_000}, {math.MaxInt, 0}}

// descendWithin searches from the top with at most so many nodes, and reports whether they were not
// enough though the budget was.
func (s *solver) descendWithin(nodes int) bool {
	whole := s.budget
	s.budget = min(whole, s.nodes+min(nodes, whole))
	s.descend(state{}, s.prices.sum())
	short := s.spent()
	s.budget = whole
	return short && !s.spent()
}

func (s *solver) answer() Answer {
	a := Answer{Nodes: s.nodes}
	switch {
	case s.found:
		a.Verdict, a.Slot, a.Cost = Found, s.slot, s.best/grain
		a.Bound = a.Cost
		if s.spent() {
			a.Bound = min(a.Cost, max(0, (s.worth+grain-1)/grain))
		}
	case !s.spent():
		a.Verdict = Impossible
	}
	return a
}

func (s *solver) spent() bool { return s.nodes > s.budget }

// descend tries every way to seat the groups that at.groups does not hold yet. paid is the sum of
// the prices and of the extra costs chosen so far.
func (s *solver) descend(at state, paid int) {
	if s.nodes++; s.spent() || s.anyAnswer && s.found {
		return
	}
	next, floor, ok := s.look(at, paid)
	if !ok || !s.found && s.dead[at] {
		return
	}
	if next < 0 {
		if next = s.finish(at); next < 0 {
			return
		}
	}
	group := &s.groups[next]
	least := -1
	for o := range group.options {
		c := &group.options[o]
		if c.mask&at.slots != 0 || c.tokens&at.tokens != 0 {
			continue
		}
		if least < 0 {
			least = c.extra
		}
		if floor-least+c.extra >= s.best {
			return
		}
		s.chosen[next] = o
		s.descend(state{at.groups | 1<<next, at.slots | c.mask, at.tokens | c.tokens}, paid+c.extra)
		if s.spent() || s.anyAnswer && s.found {
			return
		}
	}
	if !s.found && !s.limited {
		s.dead[at] = true
	}
}

// look finds the open group with the fewest choices left, -1 when all but loose ones are seated, and
// the least that any answer below costs. It reports false when nothing below can be better than what is known.
func (s *solver) look(at state, paid int) (next, floor int, ok bool) {
	next, floor = -1, paid
	for i := range s.ranked {
		least := Never
		for _, r := range s.ranked[i] {
			if at.slots>>r.slot&1 == 0 {
				least = r.extra
				break
			}
		}
		if least == Never {
			return 0, 0, false
		}
		floor += least
	}
	fewest := 0
	for g := range s.groups {
		if at.groups>>g&1 != 0 {
			continue
		}
		least, count := Never, 0
		for o := range s.groups[g].options {
			c := &s.groups[g].options[o]
			if c.mask&at.slots != 0 || c.tokens&at.tokens != 0 {
				continue
			}
			if count == 0 {
				least = c.extra
			}
			count++
		}
		if count == 0 {
			return 0, 0, false
		}
		floor += least
		if !s.groups[g].loose && (next < 0 || count < fewest) {
			next, fewest = g, count
		}
	}
	if s.found || floor >= s.best {
		return next, floor, floor < s.best
	}
	return next, floor, s.seatable(at)
}
