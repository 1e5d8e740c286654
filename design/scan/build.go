package scan

import (
	"cmp"
	"slices"

	"fascia/design/finding"
)

// matrixless gives every key a pin of its own.
func (pl *planner) matrixless() {
	r := &pl.result
	r.Style = "direct"
	all := make([]int, len(pl.keys))
	for i := range all {
		all[i] = i
	}
	pl.giveDirect(all)
	r.PeriodMicros = pl.drive.period(0, len(all))
	r.Proved, r.DiodesProved = true, true
	if len(all) > pl.free {
		pl.tooFew(len(all))
	}
	r.Why = pl.whyDirect()
}

// build makes the matrix.
func (pl *planner) build() {
	r := &pl.result
	if pl.chosen < 0 {
		// No shape at all: contacts tie rows and columns together in a way no matrix has.
		pl.say(finding.Stop, "scan-line", idsOf(pl.keys, pl.matrix), "The contacts share terminals in a way that no matrix can follow.",
			"Take away the joins between them.")
		pl.matrixless()
		return
	}
	pl.chosen = pl.m.settle(pl.list, pl.noDiodes())
	best := pl.m.compact(pl.list[pl.chosen].candidate)
	if best.shape != pl.list[pl.chosen].shape {
		pl.say(finding.Mind, "scan-wish-empty", nil, "The rows or columns asked for are more than hold keys.", "Ask for fewer, or let Fascia choose.")
	}
	if pl.refused {
		pl.refuseWish(best.shape)
	}
	pl.list[pl.chosen].candidate = best
	pl.m.renumber(&best)
	r.Style = "matrix"
	if len(pl.direct) > 0 {
		r.Style = "mixed"
	}
	r.Rows, r.Columns = best.rows, best.columns
	r.PeriodMicros = pl.drive.period(best.columns, len(pl.direct))
	pl.fill(best)
	pl.giveDirect(pl.direct)
	pl.grade(best)
	pl.judgeChords(best)
	if pl.pins(best.shape) > pl.free {
		pl.tooFew(pl.pins(best.shape))
	}
	r.Why = pl.whyMatrix(best)
}

// giveDirect lists keys with pins of their own, with codes after the matrix.
func (pl *planner) giveDirect(list []int) {
	r := &pl.result
	for i, n := range list {
		k := &pl.keys[n]
		r.Direct = append(r.Direct, Direct{Key: k.ID, Legend: k.Legend, Code: r.Rows*r.Columns + i, Usage: k.Usage,
			Pin: k.terminal(k.pin).String(), Return: k.terminal(1 - k.pin).String()})
	}
}

// fill lists the matrix keys by row, then column.
func (pl *planner) fill(c candidate) {
	for i, k := range pl.m.keys {
		diode := pl.everyKey() || !pl.noDiodes() && slices.Contains(c.diodes, i)
		pl.result.Cells = append(pl.result.Cells, Cell{Key: k.ID, Legend: k.Legend, Usage: k.Usage,
			Row: c.cell[i] / c.columns, Column: c.cell[i] % c.columns, Code: c.cell[i], Diode: diode})
	}
	slices.SortFunc(pl.result.Cells, func(a, b Cell) int { return cmp.Compare(a.Code, b.Code) })
}

// compact drops lines that hold no key.
func (m *matrices) compact(c candidate) candidate {
	var to [2][]int
	var used [2]int
	for side, lines := range [2]int{c.rows, c.columns} {
		to[side] = make([]int, lines)
		held := make([]bool, lines)
		for _, cell := range c.cell {
			held[c.line(side, cell)] = true
		}
		for l := range lines {
			to[side][l] = used[side]
			if held[l] {
				used[side]++
			}
		}
	}
	smaller := shape{used[rowSide], used[columnSide]}
	if smaller == c.shape {
		return c
	}
	cells := make([]int, len(c.cell))
	for k, cell := range c.cell {
		cells[k] = to[rowSide][cell/c.columns]*smaller.columns + to[columnSide][cell%c.columns]
	}
	c.shape, c.cell = smaller, cells
	return c
}

// renumber counts rows from the top and columns from the left of the board, by the average place
// of their keys.
func (m *matrices) renumber(c *candidate) {
	var to [2][]int
	for side, lines := range [2]int{c.rows, c.columns} {
		order := make([]int, lines)
		x, y, n := make([]int, lines), make([]int, lines), make([]int, lines)
		for k, cell := range c.cell {
			l := c.line(side, cell)
			x[l], y[l], n[l] = x[l]+m.keys[k].x, y[l]+m.keys[k].y, n[l]+1
		}
		for l := range order {
			order[l] = l
		}
		byMean := func(sum []int, a, b int) int { return cmp.Compare(sum[a]*n[b], sum[b]*n[a]) }
		slices.SortStableFunc(order, func(a, b int) int {
			if side == rowSide {
				return cmp.Or(byMean(y, a, b), byMean(x, a, b))
			}
			return cmp.Or(byMean(x, a, b), byMean(y, a, b))
		})
		to[side] = make([]int, lines)
		for place, l := range order {
			to[side][l] = place
		}
	}
	for k, cell := range c.cell {
		c.cell[k] = to[rowSide][cell/c.columns]*c.columns + to[columnSide][cell%c.columns]
	}
}
