package scan

import (
	"slices"

	"fascia/design/panel"
)

// Exchanges tried for each key, and at most: by the draft of each shape, and by each of the runs
// that improve the best two. With them Plan takes about 30 ms for 20 keys, 60 ms for 30 and 0.25 s for 60.
const (
	draftMoves, draftMost = 300, 9000
	finalMoves, finalMost = 2000, 200000
	finalRuns             = 2
)

// polishUpTo is the most keys for which every run is polished, and not the last alone.
const polishUpTo = 64

// A candidate is one shape with an arrangement for it.
type candidate struct {
	shape
	cell    []int
	length  int   // holes of wire
	diodes  []int // keys that need one for the chords
	regular bool  // the layout is a matrix of this shape
	moved   []int // keys that left their place in it to keep chords apart
	least   bool  // no fewer diodes would do in these cells
	floor   int   // no cells in this shape do with fewer diodes
	// shortest says that no cells in this shape take less wire, those aside that need more diodes.
	shortest bool
}

// matrices tries shapes for one set of keys.
type matrices struct {
	*task
	feeder int // holes from a key to the module, on average
}

// draft finds an arrangement for one shape; ok is false when the forced lines leave none.
func (m *matrices) draft(s shape) (candidate, bool) {
	cell, ok := m.place(s)
	if !ok {
		return candidate{}, false
	}
	home, regular := m.home(s)
	if regular {
		cell = home
	}
	a := m.arrange(s, cell, home)
	if regular {
		a.descend()
	}
	if !regular || a.strained() {
		a.anneal(m.moves(draftMoves, draftMost), 1)
		if len(m.keys) <= polishUpTo {
			a.polish()
		}
	}
	return m.judge(a, regular), true
}

// home is the cell of every key when the layout is a matrix of shape s and forced lines agree.
func (m *matrices) home(s shape) (cell []int, ok bool) {
	cell, ok = lattice(m.keys, s)
	if !ok {
		return nil, false
	}
	var at [2]map[int]int
	for side := range 2 {
		at[side] = map[int]int{}
		for k := range m.keys {
			forced, line := m.keys[k].line[side], s.line(side, cell[k])
			if first, ok := at[side][forced]; ok && first != line && forced >= 0 {
				return nil, false
			}
			at[side][forced] = line
		}
	}
	return cell, true
}

// improve looks longer at a candidate's shape and returns the best arrangement found.
func (m *matrices) improve(c candidate) candidate {
	home, regular := m.home(c.shape)
	a := m.arrange(c.shape, c.cell, home)
	if regular && !a.strained() {
		return c
	}
	best, least := slices.Clone(a.cell), a.energy
	for run := range finalRuns {
		if run > 0 && a.strained() {
			a.weighElbows(mildElbow)
		}
		a.anneal(m.moves(finalMoves, finalMost), uint64(run+2))
		a.weighElbows(elbowCost)
		if run == finalRuns-1 || len(m.keys) <= polishUpTo {
			a.polish()
		}
		if a.energy < least {
			least = a.energy
			copy(best, a.cell)
		}
	}
	a.take(best)
	c = m.judge(a, regular)
	if !regular && !m.sparse(c.shape) {
		m.perfect(a, &c)
	}
	m.fewer(a, &c)
	m.trim(&c)
	if !regular && m.sparse(c.shape) {
		m.perfect(a, &c)
	}
	return c
}

// perfect replaces c by the best arrangement there is, where keys are few enough to find it.
func (m *matrices) perfect(a *arrangement, c *candidate) {
	search, counted := m.exact, true
	if m.sparse(c.shape) {
		search, counted = m.exactSparing, false // which doesn't look for fewer diodes
	}
	if !m.exactFor(c.shape) {
		return
	}
	bound, prices := m.bound(c.shape, c.length, m.apart && len(c.diodes) == 0)
	if bound == c.length && len(c.diodes) == 0 {
		c.shortest = true
		return
	}
	cell, ok := search(prices, c.shape, len(c.diodes), c.length)
	if !ok {
		return
	}
	floor := c.floor
	if cell != nil {
		a.take(cell)
		*c = m.judge(a, false)
	}
	c.shortest, c.floor = true, max(c.floor, floor)
	if counted {
		c.floor = len(c.diodes)
	}
}

// sparse reports whether empty cells let elbows be harmless.
func (m *matrices) sparse(s shape) bool {
	return m.apart && len(m.chords) > 0 && len(m.keys) < s.cells()
}

// moves is how many exchanges a run tries: fewer when each has many chords to look at, or moves many
// keys that share a terminal.
func (m *matrices) moves(perKey, most int) int {
	load := 0
	for _, chord := range m.chords {
		load += len(chord.keys) * len(chord.keys)
	}
	for _, lines := range m.tied {
		for _, keys := range lines {
			load += len(keys) * len(keys)
		}
	}
	n := len(m.keys)
	return min(perKey*n, most) * 16 / (16 + load/n)
}

func (m *matrices) judge(a *arrangement, regular bool) candidate {
	c := candidate{shape: a.shape, cell: slices.Clone(a.cell), regular: regular}
	for k := range c.cell {
		if a.strayed(k) > 0 {
			c.moved = append(c.moved, k)
		}
	}
	c.length = m.task.length(c.shape, c.cell)
	c.diodes, c.least = fieldOf(c.shape, c.cell).diodes(m.chords)
	return c
}

// What a diode and a pin weigh against wire, in holes: a diode is a part and two joints; a pin is
// one that the maker can't use for something else, and its wire comes on top.
const (
	perDiode = 20
	perPin   = 15
)

// score compares candidates; the least is best. A matrix that is the layout may take a third more
// wire, since it is easier to solder and to follow with a meter.
func (m *matrices) score(c candidate) int {
	length := c.length
	if c.regular && upright(m.keys, c.shape) {
		length = length * 3 / 4
	}
	return length + (m.feeder+perPin)*c.pins() + perDiode*len(c.diodes)
}

// feederOf is the average walking distance from the keys to the module, in holes; a guess when
// there is none.
func feederOf(p *panel.Panel, keys []key) int {
	const guess = 12
	modules := p.Modules()
	if len(modules) == 0 || len(keys) == 0 {
		return guess
	}
	d := p.Definition(modules[0])
	x, y := 0, 0
	for _, t := range d.Terminals {
		h := modules[0].Pose().Hole(t.Offset())
		x, y = x+h.Col*4, y+h.Row*4
	}
	n := len(d.Terminals)
	total := 0
	for _, k := range keys {
		total += max(k.x-x/n, x/n-k.x) + max(k.y-y/n, y/n-k.y)
	}
	return total / 4 / len(keys)
}
