package scan

import (
	"cmp"
	"slices"
)

// placeBudget bounds the search for a first arrangement that keeps forced lines together.
const placeBudget = 20000

// place returns a first arrangement for shape s, each key's cell: the keys dealt out by height into
// rows and from left to right within a row, or, when lines are forced, the first that keeps those
// together. ok is false when none was found.
func (t *task) place(s shape) (cell []int, ok bool) {
	if s.cells() < len(t.keys) {
		return nil, false
	}
	if !t.anyBound() {
		return t.deal(s), true
	}
	if t.hopeless(s) {
		return nil, false
	}
	p := placing{task: t, shape: s, cell: make([]int, len(t.keys)), taken: make([]bool, s.cells()), left: placeBudget}
	for side := range 2 {
		p.at[side] = make([]int, t.forced[side])
		for i := range p.at[side] {
			p.at[side][i] = -1
		}
	}
	p.order = t.boundFirst()
	if !p.put(0) {
		return nil, false
	}
	return p.cell, true
}

// hopeless reports whether a forced line is longer than any line of s, or two keys share both.
func (t *task) hopeless(s shape) bool {
	across := [2]int{s.columns, s.rows}
	pairs := map[[2]int]bool{}
	for _, k := range t.keys {
		if k.line[0] >= 0 && k.line[1] >= 0 {
			if pairs[k.line] {
				return true
			}
			pairs[k.line] = true
		}
	}
	for side, sizes := range t.forcedSizes() {
		for _, n := range sizes {
			if n > across[side] {
				return true
			}
		}
	}
	return false
}

// forcedSizes counts the keys of each forced line.
func (t *task) forcedSizes() [2][]int {
	var size [2][]int
	for side, lines := range t.tied {
		for _, keys := range lines {
			size[side] = append(size[side], len(keys))
		}
	}
	return size
}

func (t *task) deal(s shape) []int {
	order := make([]int, len(t.keys))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(t.keys[a].y, t.keys[b].y), cmp.Compare(t.keys[a].x, t.keys[b].x))
	})
	cell := make([]int, len(t.keys))
	for row := range s.rows {
		from, to := len(order)*row/s.rows, len(order)*(row+1)/s.rows
		line := order[from:to]
		slices.SortStableFunc(line, func(a, b int) int { return cmp.Compare(t.keys[a].x, t.keys[b].x) })
		for i, k := range line {
			cell[k] = row*s.columns + i
		}
	}
	return cell
}

// boundFirst orders keys so that those of one forced line follow each other, longest line first.
func (t *task) boundFirst() []int {
	size := t.forcedSizes()
	weight := func(k int) (row, column int) {
		if l := t.keys[k].line[0]; l >= 0 {
			row = size[0][l]
		}
		if l := t.keys[k].line[1]; l >= 0 {
			column = size[1][l]
		}
		return row, column
	}
	order := make([]int, len(t.keys))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		ar, ac := weight(a)
		br, bc := weight(b)
		return cmp.Or(cmp.Compare(br, ar), cmp.Compare(t.keys[a].line[0], t.keys[b].line[0]),
			cmp.Compare(bc, ac), cmp.Compare(t.keys[a].line[1], t.keys[b].line[1]))
	})
	return order
}

// placing is the state of the search by trial for a first arrangement.
type placing struct {
	*task
	shape
	order []int
	cell  []int
	taken []bool
	at    [2][]int // by side and forced line: the row or column it was given, or -1
	left  int
}

// put places the keys from the i-th of the order on.
func (p *placing) put(i int) bool {
	if i == len(p.order) {
		return true
	}
	k := p.order[i]
	row, column := p.fixed(k, rowSide), p.fixed(k, columnSide)
	for r := range p.rows {
		if row >= 0 && r != row {
			continue
		}
		for c := range p.columns {
			if column >= 0 && c != column || p.taken[r*p.columns+c] {
				continue
			}
			if p.left--; p.left < 0 {
				return false
			}
			p.set(k, r, c, row, column)
			if p.put(i + 1) {
				return true
			}
			p.unset(k, r, c, row, column)
		}
	}
	return false
}

// fixed is the line that key k must take on a side because a mate has it, or -1.
func (p *placing) fixed(k, side int) int {
	if l := p.keys[k].line[side]; l >= 0 {
		return p.at[side][l]
	}
	return -1
}

func (p *placing) set(k, r, c, row, column int) {
	p.cell[k] = r*p.columns + c
	p.taken[p.cell[k]] = true
	p.mark(k, rowSide, row, r)
	p.mark(k, columnSide, column, c)
}

func (p *placing) unset(k, r, c, row, column int) {
	p.taken[r*p.columns+c] = false
	p.mark(k, rowSide, row, -1)
	p.mark(k, columnSide, column, -1)
}

// mark notes that k opened or closed its forced line; a line that was open before stays.
func (p *placing) mark(k, side, before, now int) {
	if l := p.keys[k].line[side]; l >= 0 && before < 0 {
		p.at[side][l] = now
	}
}
