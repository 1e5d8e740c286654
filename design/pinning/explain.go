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
		Fix:  t.concession(wishes, conflict),
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

// runsLeft names the longest runs that locks and kept pins leave, when a run is among the clash.
func (t *task) runsLeft(conflict []wish) string {
	if !slices.ContainsFunc(conflict, func(w wish) bool { return w.kind == wishRun }) {
		return ""
	}
	blocked := slices.Clone(t.joined)
	for _, w := range conflict {
		if w.kind == wishLock || w.kind == wishKept {
			blocked[w.pin] = true
		}
	}
	var names []string
	for _, r := range longestRuns(t.pins, blocked) {
		names = append(names, r)
	}
	if len(names) == 0 {
		return ""
	}
	return " The longest runs left are " + listed(names) + "."
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

// concession names the cheapest wish of the conflict without which all the others hold.
func (t *task) concession(wishes, conflict []wish) string {
	for _, kind := range []wishKind{wishKept, wishLock, wishRun, wishPin, wishPWM, wishADC, wishBus} {
		for _, w := range conflict {
			if w.kind != kind {
				continue
			}
			var rest []wish
			for _, other := range wishes {
				switch {
				case !other.same(w):
					rest = append(rest, other)
				case kind == wishRun: // polled reading wants the same lines, anywhere
					for _, s := range w.signals {
						rest = append(rest, wish{kind: alone(t.signals[s].Wants), signals: []int{s}})
					}
				}
			}
			if t.holds(rest) {
				return t.giveUp(w)
			}
		}
	}
	return "Give up one of these wishes; another may have to go too."
}

func (w wish) same(v wish) bool {
	return w.kind == v.kind && w.pin == v.pin && slices.Equal(w.signals, v.signals) && w.name == v.name
}

func (t *task) giveUp(w wish) string {
	switch w.kind {
	case wishKept:
		return fmt.Sprintf("Let %s be used.", t.pins[w.pin].Name)
	case wishLock:
		return fmt.Sprintf("Take the lock of %s away.", t.called(w))
	case wishRun:
		return "Read the keys by polling, which takes any pins, in place of the state machines."
	}
	return fmt.Sprintf("Leave out %s.", t.nets(w.signals))
}
