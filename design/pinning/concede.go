package pinning

import (
	"fmt"
	"slices"
	"strings"
)

// concessionOrder lists what to give up, cheapest first.
var concessionOrder = []wishKind{wishKept, wishLock, wishRun, wishPin, wishPWM, wishADC, wishBus}

// concessions says what to give up: the cheapest wish of the conflict without which all the others
// hold, else a few, one from each conflict that is left.
func (t *task) concessions(wishes, conflict []wish) string {
	offers := cheapestFirst(conflict)
	for _, w := range offers {
		if t.holds(t.without(wishes, w)) {
			return t.giveUp(w)
		}
	}
	var given []string
	for range 4 {
		if len(offers) == 0 {
			break // the oracle ran out of steps before it could name another clash
		}
		given = append(given, t.giveUp(offers[0]))
		if wishes = t.without(wishes, offers[0]); t.holds(wishes) {
			return strings.Join(given, " ")
		}
		offers = cheapestFirst(t.conflict(wishes))
	}
	return strings.Join(given, " ") + " More will have to go."
}

func cheapestFirst(wishes []wish) []wish {
	wishes = slices.Clone(wishes)
	slices.SortStableFunc(wishes, func(a, b wish) int {
		return slices.Index(concessionOrder, a.kind) - slices.Index(concessionOrder, b.kind)
	})
	return wishes
}

// without gives up one of the wishes. A run that is given up still wants its lines, anywhere.
func (t *task) without(wishes []wish, w wish) (rest []wish) {
	for _, other := range wishes {
		switch {
		case !other.same(w):
			rest = append(rest, other)
		case w.kind == wishRun:
			for _, s := range w.signals {
				rest = append(rest, wish{kind: alone(t.signals[s].Wants), signals: []int{s}})
			}
		}
	}
	return rest
}

func (w wish) same(v wish) bool {
	return w.kind == v.kind && w.pin == v.pin && slices.Equal(w.signals, v.signals) && w.name == v.name
}

// giveUp says how to do without a wish.
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
