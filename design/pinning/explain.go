package pinning

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/search"
)

// oracle is how many options one question "do these wishes hold together" may try.
const oracle = 4_000

// explain finds a smallest set of wishes that clash, and one to give up.
func (t *task) explain() clash {
	wishes := t.mustHold()
	conflict := t.conflict(wishes)
	if len(conflict) == 0 {
		return t.unnamed()
	}
	for _, order := range [][]wishKind{
		{wishRun, wishBus, wishADC, wishPWM, wishLock, wishKept, wishPin},
		{wishKept, wishLock, wishADC, wishPWM, wishBus, wishRun, wishPin},
		{wishPin, wishADC, wishPWM, wishBus, wishRun, wishKept, wishLock},
	} {
		again := slices.Clone(wishes)
		slices.SortStableFunc(again, func(a, b wish) int { return slices.Index(order, a.kind) - slices.Index(order, b.kind) })
		if other := t.conflict(again); len(other) < len(conflict) {
			conflict = other
		}
	}
	slices.SortStableFunc(conflict, func(a, b wish) int { return int(a.kind) - int(b.kind) })
	sentences := t.sentences(conflict)
	return clash{sentences, finding.Finding{
		Severity: finding.Stop, Code: "pin-impossible", Where: t.whereAll(conflict),
		Text: "These wishes cannot all hold: " + strings.Join(sentences, " ") + t.runsLeft(conflict),
		Fix:  t.concessions(wishes, conflict),
	}}
}

// unnamed says that the wishes clash where the oracle, which may take fewer steps than the search
// that found out, cannot say which of them.
func (t *task) unnamed() clash {
	text := "No way is left to give every signal a pin; which wishes clash was not worked out in time."
	return clash{[]string{text}, finding.Finding{
		Severity: finding.Stop, Code: "pin-impossible", Text: text,
		Fix: "Take a lock away, keep fewer pins free, or leave out a part.",
	}}
}

// conflict is a smallest clashing set, which avoids late wishes where it can.
func (t *task) conflict(wishes []wish) []wish {
	var set []wish
	for _, i := range search.Conflict(len(wishes), func(kept []int) bool {
		some := make([]wish, len(kept))
		for i, k := range kept {
			some[i] = wishes[k]
		}
		return t.holds(some)
	}) {
		set = append(set, wishes[i])
	}
	return set
}

// holds reports whether the wishes hold together, or at least were not shown to clash.
func (t *task) holds(wishes []wish) bool {
	return search.Feasible(&t.problem(wishes).Problem, oracle) != search.Impossible
}

// sentences says the wishes, those for any pin together when there are many.
func (t *task) sentences(wishes []wish) []string {
	var list []string
	var plain []int
	for _, w := range wishes {
		if w.kind == wishPin && t.special(w.signals[0]) == "" {
			plain = append(plain, w.signals[0])
			continue
		}
		list = append(list, t.sentence(w))
	}
	if len(plain) > 3 {
		return append(list, fmt.Sprintf("%d others want a pin each: %s.", len(plain), t.nets(plain)))
	}
	for _, s := range plain {
		list = append(list, t.sentence(wish{kind: wishPin, signals: []int{s}}))
	}
	return list
}

func (t *task) whereAll(wishes []wish) finding.Where {
	var all finding.Where
	for _, w := range wishes {
		if w.kind == wishLock && all.Pin == "" {
			all.Pin = t.pins[w.pin].Name
		}
		for _, s := range w.signals {
			for _, ref := range t.where(s).Refs {
				if !slices.Contains(all.Refs, ref) {
					all.Refs = append(all.Refs, ref)
				}
			}
		}
	}
	return all
}

// runsLeft says why a run of the clash does not fit: where a lock on one of its lines would put it,
// else the longest runs that locks and kept pins leave.
func (t *task) runsLeft(conflict []wish) string {
	i := slices.IndexFunc(conflict, func(w wish) bool { return w.kind == wishRun })
	if i < 0 {
		return ""
	}
	for _, w := range conflict {
		if place := slices.Index(conflict[i].signals, first(w.signals)); w.kind == wishLock && place >= 0 {
			return t.runAt(t.pins[w.pin].GPIO-place, conflict[i], w)
		}
	}
	blocked := slices.Clone(t.joined)
	for _, w := range conflict {
		if w.kind == wishLock || w.kind == wishKept {
			blocked[w.pin] = true
		}
	}
	names := longestRuns(t.pins, blocked)
	if len(names) == 0 {
		return ""
	}
	return " The longest runs left are " + listed(names) + "."
}

func first(signals []int) int {
	if len(signals) == 0 {
		return -1
	}
	return signals[0]
}

// runAt says where a lock on one line of a run would put all of it.
func (t *task) runAt(gpio int, run, lock wish) string {
	given := fmt.Sprintf(" With %s on %s the run would", t.net(lock.signals[0]), t.pins[lock.pin].Name)
	if gpio < 0 {
		return given + " have to begin before GP0."
	}
	return fmt.Sprintf("%s be GP%d to GP%d.", given, gpio, gpio+len(run.signals)-1)
}

// longestRuns names up to three maximal runs of consecutive GPIOs, longest first.
func longestRuns(pins []controller.Pin, blocked []bool) []string {
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
	var names []string
	for _, r := range runs[:min(3, len(runs))] {
		if r.n == 1 {
			names = append(names, pins[r.first].Name+" (1)")
			continue
		}
		names = append(names, fmt.Sprintf("%s-%s (%d)", pins[r.first].Name, pins[r.first+r.n-1].Name, r.n))
	}
	return names
}
