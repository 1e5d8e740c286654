package search

import (
	"cmp"
	"iter"
	mathbits "math/bits"
	"slices"
)

// A choice is one option of a group, priced.
type choice struct {
	slots  []int
	mask   uint64
	tokens uint64
	cost   int // scaled by grain
	extra  int // cost when the prices of what it takes are given back
}

func (c *choice) reduced(w *prices) int {
	r := c.cost
	for _, j := range c.slots {
		r -= w.slot[j]
	}
	for t := range bits(c.tokens) {
		r -= w.token[t]
	}
	return r
}

// A seats is a group. One of a single member, with one option a slot, is loose: it can be matched
// like a free member as long as tokens do not get in the way.
type seats struct {
	members []int
	options []choice
	loose   bool
	row     []int    // when loose: what each slot costs, scaled by grain
	tokens  []uint64 // when loose: what each slot takes
}

// A solver is one run of Solve.
type solver struct {
	problem *Problem
	groups  []seats
	free    []int    // members of no group
	single  [][]int  // their costs, scaled by grain
	allowed []uint64 // the slots each of them may take
	tokens  uint64   // every token in use
	prices  prices
	worth   int // the bound of the prices
	ranked  [][]rank
	matcher *matcher
	rows    [][]int // scratch: what free members and loose groups pay for the open slots
	open    []int   // scratch: the slots that no group holds
	late    []int   // scratch: the loose groups matched after the free members
	loose   [][]int // scratch: rows for them
	nothing []int   // a row of zeros
	guess   []int   // scratch: prices of the open slots
	wishes  []uint64

	budget, nodes int
	found         bool
	limited       bool
	best          int // scaled: of the answer found, before that the limit
	slot          []int
	chosen        []int // option of each group on the way down
	dead          map[state]bool
	anyAnswer     bool // the first answer is enough
}

// A rank is one slot of a free member, by reduced cost.
type rank struct{ slot, extra int }

// A state is all that the rest of the search depends on.
type state struct{ groups, slots, tokens uint64 }

// bits yields the numbers of the bits that are set, ascending.
func bits(set uint64) iter.Seq[int] {
	return func(yield func(int) bool) {
		for ; set != 0; set &= set - 1 {
			if !yield(mathbits.TrailingZeros64(set)) {
				return
			}
		}
	}
}

// seat builds the groups, leaving out options that use a slot twice or one that is forbidden. It
// reports false when a group has none left.
func (s *solver) seat() bool {
	for _, g := range s.problem.Groups {
		group := seats{members: g.Members}
		for _, o := range g.Options {
			c := choice{slots: o.Slots, tokens: o.Tokens}
			if g.AnyOrder {
				c.slots = s.inOrder(&g, o.Slots)
			}
			if c.add(s.problem, g.Members) {
				group.options = append(group.options, c)
				s.tokens |= o.Tokens
			}
		}
		if len(group.options) == 0 {
			return false
		}
		group.loosen(s.problem.Slots)
		s.groups = append(s.groups, group)
	}
	return true
}

// add works out what the choice takes and costs, and reports false when it is none.
func (c *choice) add(p *Problem, members []int) bool {
	possible := len(c.slots) == len(members)
	for i, j := range c.slots {
		cost := p.Cost[members[i]][j]
		possible = possible && cost != Never && c.mask>>j&1 == 0
		c.mask |= 1 << j
		c.cost += cost * grain
	}
	return possible
}

// inOrder shares slots among the members of g at least cost; nil when that cannot be done.
func (s *solver) inOrder(g *Group, slots []int) []int {
	cost := make([][]int, len(slots))
	for i, m := range g.Members {
		cost[i] = make([]int, len(slots))
		for k, j := range slots {
			cost[i][k] = s.problem.Cost[m][j]
		}
	}
	m, ok := Match(cost)
	if !ok {
		return nil
	}
	ordered := make([]int, len(slots))
	for i, k := range m.Of {
		ordered[i] = slots[k]
	}
	return ordered
}

// loosen finds out whether the group is loose.
func (g *seats) loosen(slots int) {
	if len(g.members) != 1 {
		return
	}
	g.row, g.tokens = slices.Repeat([]int{Never}, slots), make([]uint64, slots)
	for _, o := range g.options {
		j := o.slots[0]
		if g.row[j] != Never {
			return
		}
		g.row[j], g.tokens[j] = o.cost, o.tokens
	}
	g.loose = true
}

// rank sorts every choice by what it costs beyond the prices, so that the first that is still
// possible is the cheapest.
func (s *solver) rank() {
	for g := range s.groups {
		options := s.groups[g].options
		for o := range options {
			options[o].extra = options[o].reduced(&s.prices)
		}
		slices.SortStableFunc(options, func(a, b choice) int { return cmp.Compare(a.extra, b.extra) })
	}
	s.ranked = make([][]rank, len(s.single))
	s.allowed = make([]uint64, len(s.single))
	for i, row := range s.single {
		for j, c := range row {
			if c != Never {
				s.allowed[i] |= 1 << j
				s.ranked[i] = append(s.ranked[i], rank{j, c - s.prices.slot[j]})
			}
		}
		slices.SortStableFunc(s.ranked[i], func(a, b rank) int { return cmp.Compare(a.extra, b.extra) })
	}
}
