package pinning

import (
	"fmt"
	"slices"

	"fascia/design/controller"
)

// runsLeft says why a run of the clash does not fit: which of its lines are locked too far apart or too
// near what others have, else the longest runs that locks and kept pins leave.
func (t *task) runsLeft(conflict []wish) string {
	i := slices.IndexFunc(conflict, func(w wish) bool { return w.kind == wishRun })
	if i < 0 {
		return ""
	}
	run := conflict[i]
	var own []int // pins that lines of the run are locked to
	closed := slices.Clone(t.joined)
	for _, w := range conflict {
		switch {
		case w.kind == wishLock && slices.Contains(run.signals, w.signals[0]):
			own = append(own, w.pin)
		case w.kind == wishLock, w.kind == wishKept:
			closed[w.pin] = true
		}
	}
	if len(own) > 0 {
		return t.runThrough(own, len(run.signals))
	}
	longest, names := longestRuns(t.pins, closed)
	switch {
	case len(names) == 0:
		return fmt.Sprintf(" There is no free run of %d consecutive GPIOs: there is no free GPIO.", len(run.signals))
	case longest < len(run.signals):
		return fmt.Sprintf(" There is no free run of %d consecutive GPIOs: the longest %s.", len(run.signals), verb("", len(names), "is", "are")[1:]+" "+listed(names))
	}
	return " The longest runs left are " + listed(names) + "."
}

// runThrough says that a run of n lines cannot hold the pins that lines of it are locked to.
func (t *task) runThrough(own []int, n int) string {
	slices.Sort(own)
	if t.pins[own[len(own)-1]].GPIO-t.pins[own[0]].GPIO >= n {
		return fmt.Sprintf(" %s lie farther apart than %d consecutive GPIOs reach.", t.named(own), n)
	}
	return fmt.Sprintf(" No free run of %d consecutive GPIOs holds %s.", n, t.named(own))
}

// longestRuns names up to three maximal runs of consecutive GPIOs, longest first.
// It returns the length of the longest, too.
func longestRuns(pins []controller.Pin, blocked []bool) (longest int, names []string) {
	type stretch struct{ first, n int }
	var runs []stretch
	for i := range pins {
		if blocked[i] {
			continue
		}
		if i > 0 && !blocked[i-1] && pins[i].GPIO == pins[i-1].GPIO+1 {
			runs[len(runs)-1].n++
			continue
		}
		runs = append(runs, stretch{i, 1})
	}
	slices.SortStableFunc(runs, func(a, b stretch) int { return b.n - a.n })
	for _, r := range runs[:min(3, len(runs))] {
		longest = max(longest, r.n)
		if r.n == 1 {
			names = append(names, pins[r.first].Name+" (1)")
			continue
		}
		names = append(names, fmt.Sprintf("%s-%s (%d)", pins[r.first].Name, pins[r.first+r.n-1].Name, r.n))
	}
	return longest, names
}
