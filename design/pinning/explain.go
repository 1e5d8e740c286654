package pinning

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/search"
)

// oracle is how many options one question "do these wishes hold together" may try.
const oracle = 4_000

// explain names a smallest set of wishes that clash, and what to give up.
func (t *task) explain() clash {
	conflict := t.smallest()
	if len(conflict) == 0 || t.holds(conflict) {
		return unnamed()
	}
	sentences := t.sentences(conflict)
	c := clash{wishes: conflict, sentences: sentences, finding: finding.Finding{
		Severity: finding.Stop, Code: "pin-impossible", Where: t.whereAll(conflict),
		Text: "These wishes cannot all hold: " + strings.Join(sentences, " ") + t.runsLeft(conflict),
		Fix:  "Give up more than one of them.",
	}}
	if offers := t.offer(conflict); len(offers) > 0 {
		c.finding.Fix = offers[0].Change
		c.concessions = offers
	}
	return c
}

// blame lists orders in which wishes are blamed. A conflict avoids late wishes, so what stands early
// makes for another conflict, and perhaps a smaller one.
var blame = [...][]wishKind{
	{wishLock, wishKept, wishRun, wishBus, wishPWM, wishADC, wishPin},
	{wishRun, wishBus, wishADC, wishPWM, wishLock, wishKept, wishPin},
	{wishKept, wishLock, wishADC, wishPWM, wishBus, wishRun, wishPin},
	{wishPin, wishADC, wishPWM, wishBus, wishRun, wishKept, wishLock},
}

// How long a smallest conflict is looked for: so many more orders drawn by chance, unless the oracle has
// tried so many options before. A question counts as question options at least, since asking takes time.
const (
	shuffles = 8
	patience = 25_000
	question = 100
)

// smallest is the smallest of the conflicts that some orders of blame give, in order of the kinds of
// wishes; empty when the oracle cannot name one.
func (t *task) smallest() []wish {
	wishes := t.mustHold()
	var best []wish
	tried := 0
	try := func(order []wish) {
		if tried > patience {
			return
		}
		found := t.conflict(order, &tried)
		if len(found) > 0 && (best == nil || len(found) < len(best)) {
			best = found
		}
	}
	for _, kinds := range blame {
		order := slices.Clone(wishes)
		slices.SortStableFunc(order, func(a, b wish) int { return slices.Index(kinds, a.kind) - slices.Index(kinds, b.kind) })
		try(order)
	}
	chance := rand.New(rand.NewPCG(1, 2)) // a fixed seed: the same panel, the same conflict
	for range shuffles {
		if len(best) <= 2 {
			break
		}
		order := slices.Clone(wishes)
		chance.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		try(order)
	}
	slices.SortStableFunc(best, func(a, b wish) int { return int(a.kind) - int(b.kind) })
	return best
}

// clashing is some clash of the task: one that can be seen without a search, or the first that the
// oracle names.
func (t *task) clashing() []wish {
	if plain := t.plainClashes(); len(plain) > 0 {
		return plain[0].wishes
	}
	tried := 0
	return t.conflict(t.mustHold(), &tried)
}

// unnamed says that the wishes clash where the oracle, which may take fewer steps than the search
// that found out, cannot say which of them.
func unnamed() clash {
	text := "No way is left to give every signal a pin; which wishes clash was not worked out in time."
	return clash{sentences: []string{text}, finding: finding.Finding{
		Severity: finding.Stop, Code: "pin-impossible", Text: text,
		Fix: "Take a lock away, keep fewer pins free, or leave out a part.",
	}}
}

// conflict is a smallest clashing set, which avoids late wishes where it can. It adds what the oracle
// tried to tried.
func (t *task) conflict(wishes []wish, tried *int) []wish {
	var set []wish
	for _, i := range search.Conflict(len(wishes), func(kept []int) bool {
		some := make([]wish, len(kept))
		for i, k := range kept {
			some[i] = wishes[k]
		}
		answer := search.AnyAnswer(&t.problem(some).Problem, oracle)
		*tried += question + answer.Nodes
		return answer.Verdict != search.Impossible
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
