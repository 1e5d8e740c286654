package scan

import "math/bits"

// A chordState counts the elbows of an arrangement: keys that have a row-mate and a column-mate in
// one chord. In a matrix without empty cells exactly these ghost, or take a diode; with empty cells
// no others do.
type chordState struct {
	*task
	weight  int64
	elbow   []uint64   // by chord: which of its first 64 members are elbows
	times   []int      // by key: in how many chords it is one
	total   int        // keys that are one
	lines   [2][]uint8 // by cell: its row, its column
	count   [2][]int8
	stirred []int // chords that the open exchange touches
	was     []uint64
	isIn    []bool
}

func newChordState(t *task, s shape) chordState {
	c := chordState{task: t}
	if t.apart {
		c.weight = elbowCost
	}
	c.elbow, c.isIn = make([]uint64, len(t.chords)), make([]bool, len(t.chords))
	c.times = make([]int, len(t.keys))
	c.count = [2][]int8{make([]int8, 256), make([]int8, 256)}
	for side := range 2 {
		c.lines[side] = make([]uint8, s.cells())
		for cell := range c.lines[side] {
			c.lines[side][cell] = uint8(s.line(side, cell))
		}
	}
	return c
}

func (c *chordState) begin() {
	c.end()
	c.was = c.was[:0]
}

// stir notes that key k moves.
func (c *chordState) stir(k int) {
	if c.weight == 0 {
		return
	}
	for _, chord := range c.inChords[k] {
		if !c.isIn[chord] {
			c.isIn[chord] = true
			c.stirred = append(c.stirred, chord)
		}
	}
}

// settle counts the elbows of all chords stirred and returns the change of energy.
func (c *chordState) settle(cell []int) int64 {
	change := int64(0)
	for _, chord := range c.stirred {
		c.was = append(c.was, c.elbow[chord])
		change += c.set(chord, c.elbows(chord, cell))
	}
	return change
}

// end closes an exchange, settled or not.
func (c *chordState) end() {
	for _, chord := range c.stirred {
		c.isIn[chord] = false
	}
	c.stirred = c.stirred[:0]
}

// revert takes back what settle counted.
func (c *chordState) revert() {
	for i, was := range c.was {
		c.set(c.stirred[i], was)
	}
}

// elbows finds a chord's elbows, a bit for each of its first 64 members. Matrices over 256 lines
// are not told apart: they have no room on a panel.
func (c *chordState) elbows(chord int, cell []int) uint64 {
	members := c.chords[chord]
	rowAt, columnAt, rows, columns := c.lines[rowSide], c.lines[columnSide], c.count[rowSide][:256], c.count[columnSide][:256]
	for _, k := range members {
		rows[rowAt[cell[k]]]++
		columns[columnAt[cell[k]]]++
	}
	found := uint64(0)
	for i, k := range members {
		if rows[rowAt[cell[k]]] > 1 && columns[columnAt[cell[k]]] > 1 {
			found |= 1 << i
		}
	}
	for _, k := range members {
		rows[rowAt[cell[k]]] = 0
		columns[columnAt[cell[k]]] = 0
	}
	return found
}

// set replaces a chord's elbows and returns the change of energy: each key counts once, however
// many chords it is an elbow of.
func (c *chordState) set(chord int, now uint64) int64 {
	change := int64(0)
	was := c.elbow[chord]
	c.elbow[chord] = now
	for diff := was ^ now; diff != 0; diff &= diff - 1 {
		i := bits.TrailingZeros64(diff)
		k := c.chords[chord][i]
		if now>>i&1 == 1 {
			if c.times[k]++; c.times[k] == 1 {
				c.total++
				change += c.weight
			}
		} else if c.times[k]--; c.times[k] == 0 {
			c.total--
			change -= c.weight
		}
	}
	return change
}

// strained reports whether chords that are to be kept apart still have elbows.
func (a *arrangement) strained() bool { return a.apart && a.chord.total > 0 }
