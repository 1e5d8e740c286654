package scan

import (
	"math/bits"
	"slices"

	"fascia/design/panel"
)

// A bench is the wires of a result as the controller meets them: which keys join which lines. It
// knows nothing of how cells were chosen or ghosts foretold.
type bench struct {
	result *Result
	number map[string]int // matrix keys by place in Cells
	inLine [][]int        // by column: its cells
}

func benchOf(r *Result) bench {
	b := bench{r, make(map[string]int, len(r.Cells)), make([][]int, r.Columns)}
	for i, c := range r.Cells {
		b.number[c.Key] = i
		b.inLine[c.Column] = append(b.inLine[c.Column], i)
	}
	return b
}

// Reads returns the keys that read as pressed while the given keys are held, by logic levels: the
// columns are selected one after the other, and a row reads pressed if current can flow between it
// and the selected column through held keys, those with a diode one way only. Keys of the matrix
// come first in the order of Cells, then keys with pins of their own. Unknown names are ignored.
func Reads(r *Result, pressed []string) []string {
	b := benchOf(r)
	var held []int
	for _, id := range pressed {
		if i, ok := b.number[id]; ok {
			held = append(held, i)
		}
	}
	var read []string
	for _, i := range b.read(held) {
		read = append(read, r.Cells[i].Key)
	}
	for _, d := range r.Direct {
		if slices.Contains(pressed, d.Key) {
			read = append(read, d.Key)
		}
	}
	return read
}

// read returns the cells that read as pressed, in order.
func (b bench) read(held []int) []int {
	var list []int
	for column, cells := range b.inLine {
		rows := b.follow(column, held)
		if rows == nil {
			continue
		}
		for _, i := range cells {
			if slices.Contains(rows, b.result.Cells[i].Row) {
				list = append(list, i)
			}
		}
	}
	slices.Sort(list)
	return list
}

// follow drives one column and returns the rows that follow it. A diode lets a row follow its
// column, never a column its row.
func (b bench) follow(column int, held []int) []int {
	columns, rows := []int{column}, []int(nil)
	for grown := true; grown; {
		grown = false
		for _, i := range held {
			c := b.result.Cells[i]
			inColumns, inRows := slices.Contains(columns, c.Column), slices.Contains(rows, c.Row)
			if inColumns && !inRows {
				rows = append(rows, c.Row)
				grown = true
			}
			if inRows && !inColumns && !c.Diode {
				columns = append(columns, c.Column)
				grown = true
			}
		}
	}
	return rows
}

// Verify holds every chord of the panel, and every part of it, on the simulated matrix and returns
// each ghost whose held keys contain no smaller ghost: by chord, fewest keys first. Keys are held
// in the order of Cells. Of chords with more than ten keys only parts of three are tried.
func Verify(p *panel.Panel, r *Result) []Ghost {
	b := benchOf(r)
	var ghosts []Ghost
	for _, c := range p.Chords {
		var keys []int
		for _, id := range c.Keys {
			if i, ok := b.number[id]; ok && !slices.Contains(keys, i) {
				keys = append(keys, i)
			}
		}
		slices.Sort(keys)
		ghosts = append(ghosts, b.haunt(c.Name, keys)...)
	}
	return ghosts
}

// haunt tries the parts of one chord.
func (b bench) haunt(name string, keys []int) []Ghost {
	var ghosts []Ghost
	var guilty []uint64
	most := len(keys)
	if most > maxChord {
		most = 3
	}
	for size := 3; size <= most; size++ {
		for part, more := firstPart(size, len(keys)); more; part, more = nextPart(part, len(keys)) {
			if slices.ContainsFunc(guilty, func(g uint64) bool { return g&^part == 0 }) {
				continue
			}
			held := pick(keys, part)
			for _, i := range b.read(held) {
				if slices.Contains(held, i) {
					continue
				}
				guilty = append(guilty, part)
				ghosts = append(ghosts, b.ghost(name, held, i))
			}
		}
	}
	return ghosts
}

func (b bench) ghost(chord string, held []int, phantom int) Ghost {
	at := b.result.Cells[phantom]
	g := Ghost{Chord: chord, Phantom: at.Key, Row: at.Row, Column: at.Column}
	for _, i := range held {
		g.Pressed = append(g.Pressed, b.result.Cells[i].Key)
	}
	return g
}

// firstPart is the least number with size bits, nextPart the next with as many (HAKMEM item 175,
// Beeler, Gosper, Schroeppel, 1972); false past the last of width bits.
func firstPart(size, width int) (uint64, bool) { return 1<<size - 1, size <= width }

func nextPart(part uint64, width int) (uint64, bool) {
	low := part & -part
	ripple := part + low
	if ripple == 0 {
		return 0, false
	}
	next := ripple | (part^ripple)>>(2+bits.TrailingZeros64(low))
	return next, width >= 64 || next>>width == 0
}

func pick(keys []int, part uint64) []int {
	var list []int
	for ; part != 0; part &= part - 1 {
		list = append(list, keys[bits.TrailingZeros64(part)])
	}
	return list
}
