package scan

import "math/bits"

// A chordState counts the elbows of an arrangement: keys that have a row-mate and a column-mate in
// one chord. In a matrix without empty cells exactly these ghost, or take a diode; with empty cells
// no others do.
type chordState struct {
	*task
	weight  int64
	elbow   []uint64 // by chord: which of its first 64 members are elbows
	times   []int    // by key: in how many chords it is one
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
	c.count = [2][]int8{make([]int8, s.rows), make([]int8, s.columns)}
	return c
}

func (c *chordState) begin() { c.stirred, c.was = c.stirred[:0], c.was[:0] }

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
func (c *chordState) settle(s shape, cell []int) int64 {
	change := int64(0)
	for _, chord := range c.stirred {
		c.isIn[chord] = false
		c.was = append(c.was, c.elbow[chord])
		change += c.set(chord, c.elbows(chord, s, cell))
	}
	return change
}

func (c *chordState) revert() {
	for i, chord := range c.stirred {
		c.set(chord, c.was[i])
	}
}

// elbows finds a chord's elbows, a bit for each of its first 64 members.
func (c *chordState) elbows(chord int, s shape, cell []int) uint64 {
	members := c.chords[chord]
	for _, k := range members {
		c.count[rowSide][s.line(rowSide, cell[k])]++
		c.count[columnSide][s.line(columnSide, cell[k])]++
	}
	found := uint64(0)
	for i, k := range members {
		if c.count[rowSide][s.line(rowSide, cell[k])] > 1 && c.count[columnSide][s.line(columnSide, cell[k])] > 1 {
			found |= 1 << i
		}
	}
	for _, k := range members {
		c.count[rowSide][s.line(rowSide, cell[k])] = 0
		c.count[columnSide][s.line(columnSide, cell[k])] = 0
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
				change += c.weight
			}
		} else if c.times[k]--; c.times[k] == 0 {
			change -= c.weight
		}
	}
	return change
}

// strained reports whether chords that are to be kept apart still have elbows.
func (a *arrangement) strained() bool { return a.apart && a.chord.total() > 0 }

// total is how many keys are elbows.
func (c *chordState) total() int {
	n := 0
	for _, times := range c.times {
		if times > 0 {
			n++
		}
	}
	return n
}
