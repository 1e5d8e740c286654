package search

import mathbits "math/bits"

// A prover tries every answer that costs as many units as the best one known, and keeps the one with
// the fewest pairs at odds, then the least of Last. Groups of a fixed order, and where groups of a
// free one sit, are chosen by the search's own descent; then members are placed one by one.
type prover struct {
	*weaver
	solver *solver
	goal   int // units that every answer costs
	nodes  int // left
	best   []int
	odds   int
	last   int

	now    []int // slot of each member, -1 while it has none
	single []int // members placed one by one
	field  []uint64
	excess [][]int // by member, then slot: units beyond the potentials
	met    [][]int // by member, then slot: placed members at odds with it
}

// prove goes through the answers from best on, trying so many placements at most. It reports whether
// that was enough to see all, so that the best answer is as good as any.
func (w *weaver) prove(best []int, odds, last, nodes int) (slot []int, left int, complete bool) {
	p := &prover{weaver: w, nodes: nodes, best: best, odds: odds, last: last}
	for m, j := range best {
		p.goal += w.units[m][j]
	}
	if p.begin() {
		p.seatGroups(state{}, p.solver.prices.sum())
	}
	return p.best, p.odds, p.nodes >= 0
}

// begin sets the descent up on whole units. It reports false when there is nothing to try.
func (p *prover) begin() bool {
	q := &Problem{Slots: p.Problem.Slots, Cost: p.units, Groups: p.Problem.Groups}
	s := &solver{problem: q, dead: map[state]bool{}, best: (p.goal + 1) * grain, limited: true}
	p.solver = s
	if len(q.Cost) == 0 || !s.seat() {
		return false
	}
	relaxed, ok := Match(s.relaxation())
	if !ok {
		return false
	}
	s.chosen = make([]int, len(s.groups))
	copy(s.prices.slot[:], relaxed.Column)
	s.worth = s.bound(&s.prices, &prices{})
	s.price(s.prices, p.goal*grain, 60)
	s.rank()
	p.now = make([]int, len(q.Cost))
	p.excess, p.met = table(len(q.Cost), q.Slots), table(len(q.Cost), q.Slots)
	p.field = make([]uint64, len(q.Cost))
	return true
}

func table(rows, columns int) [][]int {
	t := make([][]int, rows)
	for i := range t {
		t[i] = make([]int, columns)
	}
	return t
}

// seatGroups chooses an option for every group of several members.
func (p *prover) seatGroups(at state, paid int) {
	if p.nodes--; p.nodes < 0 {
		return
	}
	s := p.solver
	next, _, ok := s.look(at, paid)
	if !ok {
		return
	}
	if next < 0 {
		p.placeAll(at)
		return
	}
	for o := range s.groups[next].options {
		c := &s.groups[next].options[o]
		if c.mask&at.slots != 0 || c.tokens&at.tokens != 0 {
			continue
		}
		s.chosen[next] = o
		p.seatGroups(state{at.groups | 1<<next, at.slots | c.mask, at.tokens | c.tokens}, paid+c.extra)
		if p.nodes < 0 {
			return
		}
	}
}

// placeAll places the members that the groups' options leave open: those of no group, those of loose
// groups, and those that share an option's slots in any order.
func (p *prover) placeAll(at state) {
	p.single = p.single[:0]
	fixed := 0
	for m, g := range p.group {
		p.now[m] = -1
		switch {
		case g < 0 || at.groups>>g&1 == 0:
			p.open(m, ^at.slots)
		case p.Problem.Groups[g].AnyOrder:
			p.open(m, p.solver.groups[g].options[p.solver.chosen[g]].mask)
		default:
			p.now[m] = p.chosenSlot(m, g)
			fixed += p.units[m][p.now[m]]
		}
	}
	slack, ok := p.measure(p.goal - fixed)
	if !ok {
		return
	}
	odds, last := p.meetFixed()
	p.place(at.tokens, slack, odds, last)
}

func (p *prover) open(m int, field uint64) {
	p.single = append(p.single, m)
	p.field[m] = 0
	g := p.group[m]
	for j, u := range p.units[m] {
		if field>>j&1 != 0 && u != Never && (g < 0 || !p.solver.groups[g].loose || p.solver.groups[g].row[j] != Never) {
			p.field[m] |= 1 << j
		}
	}
}

func (p *prover) chosenSlot(m, g int) int {
	for i, member := range p.Problem.Groups[g].Members {
		if member == m {
			return p.solver.groups[g].options[p.solver.chosen[g]].slots[i]
		}
	}
	panic("search: a member is not in its group")
}

// measure works out how many units each open member pays for each slot beyond what the cheapest
// placement makes it worth, and how many units there are to spend so; false when there are too few.
func (p *prover) measure(units int) (slack int, ok bool) {
	cost := make([][]int, len(p.single))
	for k, m := range p.single {
		cost[k] = make([]int, p.Problem.Slots)
		for j := range cost[k] {
			cost[k][j] = Never
			if p.field[m]>>j&1 != 0 {
				cost[k][j] = p.units[m][j]
			}
		}
	}
	found, ok := Match(cost)
	if !ok || found.Cost > units {
		return 0, false
	}
	for k, m := range p.single {
		for j := range bits(p.field[m]) {
			p.excess[m][j] = p.units[m][j] - found.Row[k] - found.Column[j]
			if p.excess[m][j] > units-found.Cost {
				p.field[m] &^= 1 << j
			}
		}
	}
	return units - found.Cost, true
}

// meetFixed counts the pairs at odds among members that have their slot, and for each open one.
func (p *prover) meetFixed() (odds, last int) {
	for _, m := range p.single {
		clear(p.met[m])
	}
	for m, j := range p.now {
		if j < 0 {
			continue
		}
		last += p.Last[m][j]
		for n := range m {
			if p.now[n] >= 0 && p.atOdds(m, j, n, p.now[n]) {
				odds++
			}
		}
		p.meet(m, j, 1)
	}
	return odds, last
}

// meet adds to what open members meet with m in slot j.
func (p *prover) meet(m, j, change int) {
	for _, n := range p.single {
		if p.now[n] >= 0 {
			continue
		}
		for i := range bits(p.field[n]) {
			if p.atOdds(m, j, n, i) {
				p.met[n][i] += change
			}
		}
	}
}

// place puts the open member with the fewest choices into each of its slots in turn, and goes on.
func (p *prover) place(tokens uint64, slack, odds, last int) {
	if p.nodes--; p.nodes < 0 {
		return
	}
	next, choices, ok := p.tightest(tokens, slack, odds, last)
	if !ok {
		return
	}
	if next < 0 {
		p.keep(odds, last)
		return
	}
	for j := range bits(choices) {
		p.now[next] = j
		p.meet(next, j, 1)
		p.place(tokens|p.tokensAt(next, j), slack-p.excess[next][j], odds+p.met[next][j], last+p.Last[next][j])
		p.meet(next, j, -1)
		p.now[next] = -1
		if p.nodes < 0 {
			return
		}
	}
}

// tightest finds the open member with the fewest slots left, and those slots; -1 when none is open. It
// reports false when no placement of the rest betters the best.
func (p *prover) tightest(tokens uint64, slack, odds, last int) (next int, choices uint64, ok bool) {
	var taken uint64
	for _, j := range p.now {
		if j >= 0 {
			taken |= 1 << j
		}
	}
	next = -1
	for _, m := range p.single {
		if p.now[m] >= 0 {
			continue
		}
		left, fewest, least := uint64(0), Never, Never
		for j := range bits(p.field[m] &^ taken) {
			if p.excess[m][j] > slack || p.tokensAt(m, j)&tokens != 0 {
				continue
			}
			left |= 1 << j
			fewest, least = min(fewest, p.met[m][j]), min(least, p.Last[m][j])
		}
		if left == 0 {
			return 0, 0, false
		}
		odds, last = odds+fewest, last+least
		if next < 0 || mathbits.OnesCount64(left) < mathbits.OnesCount64(choices) {
			next, choices = m, left
		}
	}
	return next, choices, odds < p.odds || odds == p.odds && last < p.last
}

// tokensAt is what a member of a loose group takes with slot j.
func (p *prover) tokensAt(m, j int) uint64 {
	if g := p.group[m]; g >= 0 && p.solver.groups[g].loose {
		return p.solver.groups[g].tokens[j]
	}
	return 0
}

// keep takes the placement as the best, if it costs what it must.
func (p *prover) keep(odds, last int) {
	units := 0
	for m, j := range p.now {
		units += p.units[m][j]
	}
	if units == p.goal {
		p.best, p.odds, p.last = append([]int{}, p.now...), odds, last
	}
}
