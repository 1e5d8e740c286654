package scan

import (
	"cmp"
	"slices"
)

// fewer looks for cells that need fewer diodes than c, and sets c's floor to what is proved. a is the
// arrangement of c.
func (m *matrices) fewer(a *arrangement, c *candidate) {
	if !m.apart || len(c.diodes) == 0 || c.floor == len(c.diodes) {
		return
	}
	c.floor = max(c.floor, m.leastDiodes(c.shape))
	q, ok := newSeating(m.task, c.shape, c.cell, len(c.diodes))
	if c.floor == len(c.diodes) || !ok {
		return
	}
	s := sparing{matrices: m, seating: q, floor: c.floor, least: len(c.diodes)}
	first := slices.Clone(q.guess)
	s.raise(askedFirst) // is it possible with none?
	copy(q.guess, first)
	s.lower(askedNext)
	s.raise(askedLast)
	c.floor = s.floor
	if s.found != nil {
		m.settleIn(a, c, s.found)
	}
}

// How many literals may be followed for each question in turn.
const (
	askedFirst = 500000
	askedNext  = 400000
	askedLast  = 300000
)

// A sparing narrows down the fewest diodes from both ends.
type sparing struct {
	*matrices
	seating *seating
	floor   int   // no cells do with fewer
	least   int   // so many do
	found   []int // cells that do with them, or nil when they were known before
}

// raise asks whether as few do as are not ruled out, as long as the answer is no.
func (s *sparing) raise(budget int) {
	s.seating.left = budget
	for s.floor < s.least {
		switch s.ask(s.floor) {
		case undecided:
			return
		case impossible:
			s.floor++
		}
	}
}

// lower asks whether fewer do than are known to, as long as the answer is yes.
func (s *sparing) lower(budget int) {
	s.seating.left = budget
	for s.floor < s.least {
		switch s.ask(s.least - 1) {
		case undecided:
			return
		case impossible:
			s.floor = s.least
		}
	}
}

// ask looks for cells that do with some number of diodes, and keeps them.
func (s *sparing) ask(diodes int) verdict {
	for range seatingRounds {
		v := s.seating.solve(yes(s.seating.many[diodes]).no())
		if v != possible {
			return v
		}
		cell := s.seating.answer()
		f := fieldOf(s.seating.shape, cell)
		list, _ := f.diodes(s.chords)
		if len(list) < s.least {
			s.least, s.found = len(list), cell
		}
		if len(list) <= diodes {
			return possible
		}
		s.seating.forbidAll(f)
	}
	return undecided
}

// forbidAll rules out the detours that are open with the diodes of an answer: they are longer than
// those written down before.
func (q *seating) forbidAll(f *field) {
	has := q.diodes()
	var paths [][]int
	for _, fam := range q.chords {
		o := newOpenWays(f, fam, has)
		o.left = detourBudget
		found, _ := o.find()
		paths = append(paths, found...)
	}
	for _, path := range paths {
		q.forbid(path)
	}
}

// settleIn moves a to cells that need fewer diodes, shortens its wires as far as that stays so, and
// makes c of it.
func (m *matrices) settleIn(a *arrangement, c *candidate, cell []int) {
	a.take(cell)
	if len(m.keys) == c.cells() {
		a.anneal(m.moves(finalMoves, finalMost), 1)
		a.polish()
	}
	better := m.judge(a, c.regular)
	better.floor = c.floor
	m.trim(&better)
	*c = better
}

// trim exchanges keys as long as that saves wire and asks for no more diodes. Where cells are empty
// an elbow may be harmless, which annealing does not know.
func (m *matrices) trim(c *candidate) {
	if !m.sparse(c.shape) || len(m.keys) > trimUpTo {
		return
	}
	free := *m.task
	free.apart = false
	home, _ := m.home(c.shape)
	a := free.arrange(c.shape, c.cell, home)
	for gained := true; gained; {
		gained = false
		a.eachExchange(func(int, int, int) bool {
			if a.settle() >= 0 {
				return false
			}
			list, _ := fieldOf(c.shape, a.cell).diodes(m.chords)
			won := len(list) <= len(c.diodes)
			gained = gained || won
			return won
		})
	}
	floor := c.floor
	*c = m.judge(a, c.regular)
	c.floor = max(c.floor, floor)
}

// trimUpTo is the most keys that are trimmed, since diodes are worked out for each exchange.
const trimUpTo = 40

// leastDiodes is how many diodes chords ask for in any cells of a matrix without empty ones: each at
// least the elbows it has in its best cells, and chords without common keys together.
func (t *task) leastDiodes(s shape) int {
	if len(t.keys) < s.cells() {
		return 0
	}
	type need struct {
		elbows int
		keys   []int
	}
	var needs []need
	for _, f := range t.chords {
		if f.allBend() {
			needs = append(needs, need{s.leastElbows(len(f.keys)), f.keys})
		}
	}
	slices.SortStableFunc(needs, func(a, b need) int { return cmp.Compare(b.elbows, a.elbows) })
	taken := make([]bool, len(t.keys))
	total := 0
	for _, n := range needs {
		if n.elbows > 0 && !slices.ContainsFunc(n.keys, func(k int) bool { return taken[k] }) {
			total += n.elbows
			for _, k := range n.keys {
				taken[k] = true
			}
		}
	}
	return total
}

// leastElbows is how many of n keys that are held together are elbows at least. Say x of them are
// alone in their columns and y, not among those, alone in their rows: the others lie in the columns
// and the rows that are left.
func (s shape) leastElbows(n int) int {
	most := 0
	for x := range min(n, s.columns) + 1 {
		for y := range min(n-x, s.rows) + 1 {
			fits := n-x-y <= (s.columns-x)*(s.rows-y)
			if fits && (x == 0 || y < s.rows) && (y == 0 || x < s.columns) {
				most = max(most, x+y)
			}
		}
	}
	return n - most
}
