package scan

// pressesUpTo is the most keys of a press that are counted, and the most keys they are taken from:
// 10.7 million presses of four.
const (
	pressesUpTo = 4
	pressedKeys = 128
)

// Presses counts the sets of n keys of the matrix and, of those, the ones that never ghost, in whatever
// order they are pressed: all, and safe. n is 2 to 4; of more than 128 keys, and of any other n, it
// counts none. All 91,390 sets of four in a matrix of 5 x 8 take some milliseconds.
func (r *Result) Presses(n int) (safe, all int) {
	if n < 2 || n > pressesUpTo || len(r.Cells) > pressedKeys || r.Columns > 64 || r.Style == "lines" {
		return 0, 0
	}
	c := pressCount{cells: make([]pressCell, len(r.Cells)), occupied: make([]uint64, r.Rows), most: n}
	for i, cell := range r.Cells {
		c.cells[i] = pressCell{cell.Row, 1 << cell.Column, cell.Diode}
		c.occupied[cell.Row] |= 1 << cell.Column
	}
	if n > 3 {
		c.countParts()
	}
	c.add(0)
	return c.safe, c.all
}

// A pressCell is a key for counting: its row, its column as a bit, and whether it lets current pass
// from the column to the row.
type pressCell struct {
	row    int
	column uint64
	diode  bool
}

// pressCount tries all sets of keys, each once, in order.
type pressCount struct {
	cells    []pressCell
	occupied []uint64 // by row: columns that have a key in it
	held     [pressesUpTo]int
	n, most  int
	guilty   []uint64 // bits of sets of three that ghost
	safe     int
	all      int
}

// countParts notes all sets of three that ghost.
func (c *pressCount) countParts() {
	n := len(c.cells)
	c.guilty = make([]uint64, (n*n*n+63)/64)
	parts := *c
	parts.most = 3
	parts.add(0)
}

// add goes on with keys from one on.
func (c *pressCount) add(from int) {
	for k := from; k < len(c.cells); k++ {
		c.held[c.n] = k
		c.n++
		if c.n < c.most {
			c.add(k + 1)
		} else {
			c.judge()
		}
		c.n--
	}
}

// judge counts the held keys.
func (c *pressCount) judge() {
	c.all++
	ghosts := c.most == 4 && c.partGhosts() || c.ghosts()
	if !ghosts {
		c.safe++
	} else if c.most == 3 && c.guilty != nil {
		c.mark(c.held[0], c.held[1], c.held[2])
	}
}

func (c *pressCount) place(a, b, k int) int {
	n := len(c.cells)
	return (a*n+b)*n + k
}

func (c *pressCount) mark(a, b, k int) {
	at := c.place(a, b, k)
	c.guilty[at>>6] |= 1 << (at & 63)
}

func (c *pressCount) isMarked(a, b, k int) bool {
	at := c.place(a, b, k)
	return c.guilty[at>>6]>>(at&63)&1 == 1
}

// partGhosts reports whether three of four held keys ghost.
func (c *pressCount) partGhosts() bool {
	h := &c.held
	return c.isMarked(h[0], h[1], h[2]) || c.isMarked(h[0], h[1], h[3]) || c.isMarked(h[0], h[2], h[3]) || c.isMarked(h[1], h[2], h[3])
}

// ghosts reports whether a key that is not held reads as pressed: from a row through held keys to
// their columns, back to the rows of held keys without a diode, and on.
func (c *pressCount) ghosts() bool {
	var keys [pressesUpTo]pressCell
	var leads [pressesUpTo]uint64 // by held key: the columns that its row leads to
	shared := false
	for i := range c.n {
		keys[i] = c.cells[c.held[i]]
		leads[i] = keys[i].column
		for j := range i {
			if keys[j].row == keys[i].row {
				shared = true
				leads[j] |= keys[i].column
				leads[i] |= keys[j].column
			}
		}
	}
	if !shared {
		return false // current that comes to a row goes no further
	}
	for i := range c.n {
		reached := leads[i]
		for before := uint64(0); reached != before; {
			before = reached
			for j := range c.n {
				if reached&keys[j].column != 0 && !keys[j].diode {
					reached |= leads[j]
				}
			}
		}
		if reached&c.occupied[keys[i].row]&^leads[i] != 0 {
			return true
		}
	}
	return false
}
