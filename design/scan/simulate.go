package scan

import (
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

// partsBudget bounds the parts of one chord that Verify holds.
const partsBudget = 60000

// Verify holds every chord of the panel, and every part of it, on the simulated matrix and returns
// each ghost whose held keys contain no smaller ghost: by chord, fewest keys first. Keys are held in
// the order of Cells. Of chords with very many parts those of fewest keys are tried.
func Verify(p *panel.Panel, r *Result) []Ghost {
	b := benchOf(r)
	var ghosts []Ghost
	for i := range p.Chords {
		h := b.handOf(&p.Chords[i])
		ghosts = append(ghosts, b.haunt(p.Chords[i].Name, h)...)
	}
	return ghosts
}

// A hand is the keys of one chord, as places in Cells, and how it may hold them.
type hand struct {
	keys  []int
	fixed []bool // held in any case
	under [][]int
	room  []int // by choice: how many keys it asks for
}

func (b bench) handOf(c *panel.Chord) hand {
	var h hand
	for _, id := range c.All() {
		if i, ok := b.number[id]; ok {
			h.keys = append(h.keys, i)
		}
	}
	slices.Sort(h.keys)
	h.fixed, h.under = make([]bool, len(h.keys)), make([][]int, len(h.keys))
	for i, k := range h.keys {
		id := b.result.Cells[k].Key
		h.fixed[i] = slices.Contains(c.Keys, id)
		for n, a := range c.Any {
			if slices.Contains(a.Of, id) {
				h.under[i] = append(h.under[i], n)
			}
		}
	}
	for _, a := range c.Any {
		h.room = append(h.room, a.Count)
	}
	return h
}

// holds reports whether the keys at some places may be held together, by trying to count each under
// one of its choices.
func (h *hand) holds(places []int) bool {
	if len(places) == 0 {
		return true
	}
	i, rest := places[0], places[1:]
	if h.fixed[i] {
		return h.holds(rest)
	}
	for _, n := range h.under[i] {
		if h.room[n] > 0 {
			h.room[n]--
			ok := h.holds(rest)
			h.room[n]++
			if ok {
				return true
			}
		}
	}
	return false
}

// haunt tries the parts of one chord.
func (b bench) haunt(name string, h hand) []Ghost {
	var ghosts []Ghost
	var guilty [][]int
	left := partsBudget
	for size := 3; size <= len(h.keys) && left > 0; size++ {
		smaller := guilty
		eachPart(len(h.keys), size, func(part []int) bool {
			left -= 1 + len(smaller)/8
			innocent := !slices.ContainsFunc(smaller, func(g []int) bool { return subset(g, part) })
			if innocent && h.holds(part) {
				phantoms := b.phantoms(h.pick(part))
				for _, i := range phantoms {
					ghosts = append(ghosts, b.ghost(name, h.pick(part), i))
				}
				if len(phantoms) > 0 {
					guilty = append(guilty, slices.Clone(part))
				}
			}
			return left > 0
		})
	}
	return ghosts
}

// phantoms lists the cells that read as pressed and are not held.
func (b bench) phantoms(held []int) []int {
	return slices.DeleteFunc(b.read(held), func(i int) bool { return slices.Contains(held, i) })
}

func (h *hand) pick(places []int) []int {
	list := make([]int, len(places))
	for i, p := range places {
		list[i] = h.keys[p]
	}
	return list
}

func (b bench) ghost(chord string, held []int, phantom int) Ghost {
	at := b.result.Cells[phantom]
	g := Ghost{Chord: chord, Phantom: at.Key, Row: at.Row, Column: at.Column}
	for _, i := range held {
		g.Pressed = append(g.Pressed, b.result.Cells[i].Key)
	}
	return g
}

// eachPart gives every set of size numbers below n, in order, until try says no.
func eachPart(n, size int, try func(part []int) bool) {
	part := make([]int, size)
	for i := range part {
		part[i] = i
	}
	for size <= n && try(part) {
		i := size - 1
		for i >= 0 && part[i] == n-size+i {
			i--
		}
		if i < 0 {
			return
		}
		part[i]++
		for j := i + 1; j < size; j++ {
			part[j] = part[j-1] + 1
		}
	}
}

// subset reports whether all of one ascending list is in another.
func subset(small, large []int) bool {
	i := 0
	for _, v := range large {
		if i < len(small) && small[i] == v {
			i++
		}
	}
	return i == len(small)
}
