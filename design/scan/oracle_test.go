package scan

import (
	"math/bits"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
)

// wireBetween is the shortest walk between the legs of two keys on one side, straight from the
// panel.
func wireBetween(p *panel.Panel, a, b panel.KeyRef, side int) int {
	least := 1 << 20
	for _, g := range legsOf(p, a, side) {
		for _, h := range legsOf(p, b, side) {
			least = min(least, g.Steps(h))
		}
	}
	return least
}

func legsOf(p *panel.Panel, k panel.KeyRef, side int) []grid.Hole {
	d := p.Parts[p.Find(k.Ref).Part]
	var holes []grid.Hole
	for _, name := range d.Metal(k.Contact.Between[side]) {
		h, _ := p.HoleOf(panel.TerminalRef{Ref: k.Ref, Terminal: name})
		holes = append(holes, h)
	}
	return holes
}

// treeLength is the shortest tree over some keys by Kruskal's method, to set against Prim's.
func treeLength(p *panel.Panel, keys []panel.KeyRef, side int) int {
	type pair struct{ a, b, length int }
	var pairs []pair
	for a := range keys {
		for b := range a {
			pairs = append(pairs, pair{a, b, wireBetween(p, keys[a], keys[b], side)})
		}
	}
	slices.SortFunc(pairs, func(x, y pair) int { return x.length - y.length })
	group := make([]int, len(keys))
	for i := range group {
		group[i] = i
	}
	total := 0
	for _, e := range pairs {
		if from, to := group[e.a], group[e.b]; from != to {
			total += e.length
			for i := range group {
				if group[i] == from {
					group[i] = to
				}
			}
		}
	}
	return total
}

// measured is the wire that a result's cells take, from the panel and the result alone.
func measured(p *panel.Panel, r *Result) int {
	byID := map[string]panel.KeyRef{}
	for _, k := range p.Keys() {
		byID[k.ID] = k
	}
	rows, columns := make([][]panel.KeyRef, r.Rows), make([][]panel.KeyRef, r.Columns)
	for _, c := range r.Cells {
		rows[c.Row] = append(rows[c.Row], byID[c.Key])
		columns[c.Column] = append(columns[c.Column], byID[c.Key])
	}
	total := 0
	for _, line := range rows {
		total += treeLength(p, line, rowSide)
	}
	for _, line := range columns {
		total += treeLength(p, line, columnSide)
	}
	return total
}

// shortest tries every way to put the keys into a full matrix and returns the least wire.
func shortest(p *panel.Panel, rows, columns int) int {
	keys := p.Keys()
	known := [2]map[int]int{{}, {}}
	length := func(side, set int) int {
		if v, ok := known[side][set]; ok {
			return v
		}
		var line []panel.KeyRef
		for k := range keys {
			if set>>k&1 == 1 {
				line = append(line, keys[k])
			}
		}
		known[side][set] = treeLength(p, line, side)
		return known[side][set]
	}
	best := 1 << 30
	order := make([]int, len(keys))
	for i := range order {
		order[i] = i
	}
	var try func(i int)
	try = func(i int) {
		if i < len(order) {
			for j := i; j < len(order); j++ {
				order[i], order[j] = order[j], order[i]
				try(i + 1)
				order[i], order[j] = order[j], order[i]
			}
			return
		}
		total := 0
		for r := range rows {
			set := 0
			for c := range columns {
				set |= 1 << order[r*columns+c]
			}
			total += length(rowSide, set)
		}
		for c := range columns {
			set := 0
			for r := range rows {
				set |= 1 << order[r*columns+c]
			}
			total += length(columnSide, set)
		}
		best = min(best, total)
	}
	try(0)
	return best
}

// joinedRows says by repeated merging which cells of a matrix without diodes read as pressed: those
// whose row and column lie in one cluster of the pressed cells.
func joinedCells(rows, columns int, pressed []int) []int {
	group := make([]int, rows+columns)
	for i := range group {
		group[i] = i
	}
	for _, cell := range pressed {
		from, to := group[cell/columns], group[rows+cell%columns]
		for i := range group {
			if group[i] == from {
				group[i] = to
			}
		}
	}
	var read []int
	for cell := range rows * columns {
		if group[cell/columns] == group[rows+cell%columns] {
			read = append(read, cell)
		}
	}
	return read
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

// together are chords of which all keys are held at once.
func together(sets ...[]int) []*family {
	var list []*family
	for _, set := range sets {
		c := chord{keys: slices.Sorted(slices.Values(set))}
		list = append(list, c.family())
	}
	return list
}
