package scan

import "fmt"

// grade says how good the arrangement is.
func (pl *planner) grade(c candidate) {
	r := &pl.result
	length := pl.m.length(c.shape, c.cell)
	bound := pl.m.least(c, length)
	r.Cost, r.Bound = float64(length), float64(bound)
	if bound > 0 {
		r.Gap = (r.Cost - r.Bound) / r.Bound
	}
	r.Proved = length == bound
	r.DiodeBound, r.DiodesProved = c.floor, c.floor == len(c.diodes)
	if pl.everyKey() {
		r.DiodeBound, r.DiodesProved = len(pl.m.keys), true
	}
}

// least is the best bound known on the length of any arrangement with as few diodes as c, which
// takes length.
func (m *matrices) least(c candidate, length int) int {
	if c.shortest {
		return length
	}
	clean := m.apart && len(c.diodes) == 0
	bound, prices := m.bound(c.shape, length, clean)
	if bound == length {
		return bound
	}
	free := *m.task
	free.apart = clean && !m.sparse(c.shape)
	if cell, ok := free.exact(prices, c.shape, 0, length); ok {
		bound = max(bound, length)
		if cell != nil {
			bound = max(bound, free.length(c.shape, cell))
		}
	}
	return bound
}

// String writes rows x columns.
func (s shape) String() string { return fmt.Sprintf("%d x %d", s.rows, s.columns) }
