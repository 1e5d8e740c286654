package scan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"fascia/design/panel"
)

// everyArrangement tries all ways to put n keys into cells, rows and columns that differ only in
// their numbers counted once: a key opens the next row or column, or lies in one that is open.
func everyArrangement(n, rows, columns int, try func(cell []int)) {
	cell := make([]int, n)
	taken := make([]bool, rows*columns)
	var put func(k, openRows, openColumns int)
	put = func(k, openRows, openColumns int) {
		if k == n {
			try(cell)
			return
		}
		for r := range min(openRows+1, rows) {
			for c := range min(openColumns+1, columns) {
				if at := r*columns + c; !taken[at] {
					taken[at], cell[k] = true, at
					put(k+1, max(openRows, r+1), max(openColumns, c+1))
					taken[at] = false
				}
			}
		}
	}
	put(0, 0, 0)
}

// A trial is a small panel and the best that trying everything finds: the fewest diodes in any cells,
// and of the arrangements with so many the least wire.
type trial struct {
	panel  *panel.Panel
	shape  shape
	sets   [][]int // keys held together
	chords []chord
	parts  []int // of three keys and more, a bit for each key
	known  [2][]int
}

// newTrial draws chords, some with choices.
func newTrial(n int, s shape, seed uint64) trial {
	r := rand.New(rand.NewPCG(seed, uint64(n)))
	t := trial{panel: scatteredKeys(n, seed), shape: s}
	for i := range r.IntN(5) {
		c := chord{name: fmt.Sprint("c", i), keys: r.Perm(n)[:min(n, r.IntN(5))]}
		if r.IntN(3) == 0 {
			of := r.Perm(n)[:1+r.IntN(min(n, 4))]
			c.choices = append(c.choices, choice{1 + r.IntN(len(of)), of})
		}
		c = chord{name: c.name, keys: inOrder(c.keys), choices: c.choices}
		c.settle()
		sets, _ := c.sets()
		t.chords, t.sets = append(t.chords, c), append(t.sets, sets...)
	}
	seen := map[int]bool{}
	for _, set := range t.sets {
		for size := 3; size <= len(set); size++ {
			eachPart(len(set), size, func(places []int) bool {
				part := 0
				for _, p := range places {
					part |= 1 << set[p]
				}
				if !seen[part] {
					seen[part] = true
					t.parts = append(t.parts, part)
				}
				return true
			})
		}
	}
	keys := t.panel.Keys()
	for side := range 2 {
		for set := range 1 << n {
			var line []panel.KeyRef
			for k := range n {
				if set>>k&1 == 1 {
					line = append(line, keys[k])
				}
			}
			if len(line) > max(s.rows, s.columns) {
				line = nil
			}
			t.known[side] = append(t.known[side], treeLength(t.panel, line, side))
		}
	}
	return t
}

// lines gives the keys of each row and each column, a bit for each.
func (t *trial) lines(cell []int) (rows, columns [6]int) {
	for k, c := range cell {
		rows[c/t.shape.columns] |= 1 << k
		columns[c%t.shape.columns] |= 1 << k
	}
	return rows, columns
}

// length is the wire of an arrangement.
func (t *trial) length(cell []int) int {
	rows, columns := t.lines(cell)
	total := 0
	for r := range t.shape.rows {
		total += t.known[rowSide][rows[r]]
	}
	for c := range t.shape.columns {
		total += t.known[columnSide][columns[c]]
	}
	return total
}

// elbows counts keys with a row-mate and a column-mate in a set. Without empty cells so many diodes
// are needed: held against the simulator by TestElbowsAreTheFewestDiodesOfAFullMatrix.
func (t *trial) elbows(cell []int) int {
	rows, columns := t.lines(cell)
	found := 0
	for _, set := range t.sets {
		held := 0
		for _, k := range set {
			held |= 1 << k
		}
		for _, k := range set {
			others := held &^ (1 << k)
			if rows[cell[k]/t.shape.columns]&others != 0 && columns[cell[k]%t.shape.columns]&others != 0 {
				found |= 1 << k
			}
		}
	}
	n := 0
	for ; found != 0; found &= found - 1 {
		n++
	}
	return n
}

// diodes counts the diodes of an arrangement by trying sets of them, the smallest first, up to most;
// more if those are not enough.
func (t *trial) diodes(cell []int, most int) int {
	if len(cell) == t.shape.cells() || t.elbows(cell) == 0 {
		return t.elbows(cell)
	}
	for size := 0; size <= most; size++ {
		for d, more := firstPart(size, len(cell)); more; d, more = nextPart(d, len(cell)) {
			if !t.haunted(cell, int(d)) {
				return size
			}
			if size == 0 {
				break
			}
		}
	}
	return most + 1
}

// haunted reports whether, with diodes at the keys of one set, some part of a chord makes another key
// read as pressed.
func (t *trial) haunted(cell []int, diodes int) bool {
	occupied, _ := t.across(cell, 1<<len(cell)-1)
	for _, part := range t.parts {
		leads, back := t.across(cell, part)
		_, barred := t.across(cell, part&diodes)
		for r := range t.shape.rows {
			reached := leads[r]
			for before := 0; before != reached; {
				before = reached
				for from := range t.shape.rows {
					for c := range t.shape.columns {
						if reached>>c&1 == 1 && back[c]&^barred[c]>>from&1 == 1 {
							reached |= leads[from]
						}
					}
				}
			}
			if reached&occupied[r]&^leads[r] != 0 {
				return true
			}
		}
	}
	return false
}

// across gives the columns that some keys lie in, by row, and the rows by column.
func (t *trial) across(cell []int, keys int) (columns, rows [6]int) {
	for k, at := range cell {
		if keys>>k&1 == 1 {
			columns[at/t.shape.columns] |= 1 << (at % t.shape.columns)
			rows[at%t.shape.columns] |= 1 << (at / t.shape.columns)
		}
	}
	return columns, rows
}

func (t *trial) best() (diodes, length int) {
	diodes = 1 << 30
	everyArrangement(len(t.panel.Keys()), t.shape.rows, t.shape.columns, func(cell []int) {
		l := t.length(cell)
		if l >= length && diodes == 0 {
			return
		}
		if d := t.diodes(cell, min(diodes, len(cell))); d < diodes || d == diodes && l < length {
			diodes, length = d, l
		}
	})
	return diodes, length
}

// found is the best that the planner finds.
func (t *trial) found() (m matrices, c candidate, clear bool) {
	keys := keysOf(t.panel)
	m = matrices{task: newTask(keys, share(t.panel, keys).lines, familiesOf(t.chords), true)}
	c, _ = m.draft(t.shape)
	return m, m.improve(c), !c.regular
}

// Every matrix up to 3 x 4, full and with one cell empty, with random chords: the fewest diodes, be
// that none, and the least wire by trying all arrangements.
func TestCellsAndDiodesEqualBruteForce(t *testing.T) {
	for rows := 1; rows <= 3; rows++ {
		for columns := 1; columns <= 4; columns++ {
			s := shape{rows, columns}
			for _, empty := range []int{0, 1} {
				n := s.cells() - empty
				for seed := range uint64(trials(n, empty)) {
					t.Run(fmt.Sprintf("%v with %d empty, seed %d", s, empty, seed), func(t *testing.T) { compareBrute(t, n, s, seed) })
				}
			}
		}
	}
	for _, s := range []shape{{3, 2}, {4, 2}} {
		for seed := range uint64(6) {
			t.Run(fmt.Sprintf("%v, seed %d", s, seed), func(t *testing.T) { compareBrute(t, s.cells(), s, seed) })
		}
	}
}

// trials is how many panels are tried: fewer where there are many arrangements.
func trials(n, empty int) int {
	switch {
	case n == 0 || n == 11:
		return 0
	case n > 8:
		return 3 - n/12*2
	case empty > 0 && n > 5:
		return 2
	}
	return 8
}

func compareBrute(t *testing.T, n int, s shape, seed uint64) {
	trial := newTrial(n, s, seed)
	m, c, clear := trial.found()
	if !clear {
		return // the layout is a matrix, which is kept
	}
	diodes, length := trial.best()
	if len(c.diodes) != diodes || c.floor > diodes || n == s.cells() && c.floor < diodes {
		t.Errorf("chords %v: %d diodes, at least %d; brute force %d", trial.chords, len(c.diodes), c.floor, diodes)
	}
	if bound := m.least(c, c.length); c.length != length || bound != length || !c.shortest {
		t.Errorf("chords %v: length %d, at least %d (shortest: %v); brute force %d", trial.chords, c.length, bound, c.shortest, length)
	}
	if bound, _ := m.bound(s, length, diodes == 0); bound > length {
		t.Errorf("chords %v: bound %d; brute force %d", trial.chords, bound, length)
	}
}
