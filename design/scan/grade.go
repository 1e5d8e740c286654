package scan

import "fmt"

// grade says how good the arrangement is.
func (pl *planner) grade(c candidate) {
	r := &pl.result
	length := pl.m.length(c.shape, c.cell)
	bound := pl.m.task.bound(c.shape)
	if _, shortest, ok := pl.m.exact(c.shape); ok {
		bound = shortest
	}
	r.Cost, r.Bound = float64(length), float64(bound)
	if bound > 0 {
		r.Gap = (r.Cost - r.Bound) / r.Bound
	}
	r.Proved = length == bound
	if pl.everyKey() {
		r.DiodeBound, r.DiodesProved = len(pl.m.keys), true
		return
	}
	r.DiodesProved = len(c.diodes) == 0
}

// String writes rows x columns.
func (s shape) String() string { return fmt.Sprintf("%d x %d", s.rows, s.columns) }
