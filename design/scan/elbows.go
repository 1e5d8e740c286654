package scan

import "math/bits"

// A chordState counts the elbows of an arrangement: keys that may be held together with a row-mate
// and a column-mate. In a matrix without empty cells exactly these ghost, or take a diode; with empty
// cells no others do.
type chordState struct {
	*task
	weight  int64
	elbow   []places   // by chord: which of its keys are elbows
	times   []int      // by key: in how many chords it is one
	total   int        // keys that are one
	lines   [2][]uint8 // by cell: its row, its column
	count   [2][]int16
	once    [2][]uint16 // by line: the kinds of keys in it
	twice   [2][]uint16 // and those of which there are two or more
	stirred []int       // chords that the open exchange touches
	was     []places
	isIn    []bool
}

// places is some of a chord's keys, by place in it. Those after the 256th are not told: no panel has
// as many.
type places [4]uint64

func newChordState(t *task, s shape) chordState {
	c := chordState{task: t}
	if t.apart {
		c.weight = elbowCost
	}
	c.elbow, c.isIn = make([]places, len(t.chords)), make([]bool, len(t.chords))
	c.times = make([]int, len(t.keys))
	for side := range 2 {
		c.count[side] = make([]int16, 256)
		c.once[side], c.twice[side] = make([]uint16, 256), make([]uint16, 256)
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

// elbows finds a chord's elbows. Matrices over 256 lines are not told apart: they have no room on a
// panel.
func (c *chordState) elbows(chord int, cell []int) places {
	f := c.chords[chord]
	if !f.plain {
		return c.chosenElbows(f, cell)
	}
	rowAt, columnAt, rows, columns := c.lines[rowSide], c.lines[columnSide], c.count[rowSide][:256], c.count[columnSide][:256]
	for _, k := range f.keys {
		rows[rowAt[cell[k]]]++
		columns[columnAt[cell[k]]]++
	}
	var found places
	for i, k := range f.keys[:min(len(f.keys), 256)] {
		if rows[rowAt[cell[k]]] > 1 && columns[columnAt[cell[k]]] > 1 {
			found[i>>6&3] |= 1 << (i & 63)
		}
	}
	for _, k := range f.keys {
		rows[rowAt[cell[k]]] = 0
		columns[columnAt[cell[k]]] = 0
	}
	return found
}

// chosenElbows is elbows for a chord with choices: mates count only where they may be held together.
func (c *chordState) chosenElbows(f *family, cell []int) places {
	for i, k := range f.keys {
		bit := uint16(1) << f.kind[i]
		for side := range 2 {
			l := c.lines[side][cell[k]]
			c.twice[side][l] |= c.once[side][l] & bit
			c.once[side][l] |= bit
		}
	}
	var found places
	for i, k := range f.keys[:min(len(f.keys), 256)] {
		var mates [2]uint16
		for side := range 2 {
			l, own := c.lines[side][cell[k]], uint16(1)<<f.kind[i]
			mates[side] = c.once[side][l]&^own | c.twice[side][l]&own
		}
		if f.bends(f.kind[i], mates[rowSide], mates[columnSide]) {
			found[i>>6&3] |= 1 << (i & 63)
		}
	}
	for _, k := range f.keys {
		for side := range 2 {
			c.once[side][c.lines[side][cell[k]]], c.twice[side][c.lines[side][cell[k]]] = 0, 0
		}
	}
	return found
}

// set replaces a chord's elbows and returns the change of energy: each key counts once, however
// many chords it is an elbow of.
func (c *chordState) set(chord int, now places) int64 {
	change := int64(0)
	was := c.elbow[chord]
	c.elbow[chord] = now
	for w := range now {
		for diff := was[w] ^ now[w]; diff != 0; diff &= diff - 1 {
			i := bits.TrailingZeros64(diff)
			change += c.mark(c.chords[chord].keys[w<<6|i], now[w]>>i&1 == 1)
		}
	}
	return change
}

// mark counts key k as an elbow of one chord more or fewer.
func (c *chordState) mark(k int, is bool) int64 {
	if is {
		if c.times[k]++; c.times[k] == 1 {
			c.total++
			return c.weight
		}
	} else if c.times[k]--; c.times[k] == 0 {
		c.total--
		return -c.weight
	}
	return 0
}

// weighElbows changes what an elbow costs.
func (a *arrangement) weighElbows(weight int64) {
	if a.apart {
		a.energy += (weight - a.chord.weight) * int64(a.chord.total)
		a.chord.weight = weight
	}
}

// strained reports whether chords that are to be kept apart still have elbows.
func (a *arrangement) strained() bool { return a.apart && a.chord.total > 0 }
