package pinning

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"fascia/design/panel"
	"fascia/design/search"
)

// A Concession is a change of one wish of a clash, after which all that is asked holds as long as the
// keys are read as they are; or, where no single change is enough, of several wishes together.
type Concession struct {
	Wish   string          `json:"wish"`           // the wish that changes, as the conflict says it; "" when several do
	Change string          `json:"change"`         // what to do, in a sentence or two
	Edit   json.RawMessage `json:"edit,omitempty"` // the edit of the panel that does it, when one does
	Cost   float64         `json:"cost"`           // holes from pins to what they serve, then
	Proved bool            `json:"proved"`         // no assignment costs less, then

	kind wishKind
}

// concessionOrder lists what to give up, what is easiest first.
var concessionOrder = []wishKind{wishKept, wishLock, wishRun, wishPin, wishPWM, wishADC, wishBus}

// offer tries a change of each wish by itself, and of several together when no single one is enough.
func (t *task) offer(wishes []wish) []Concession {
	var list []Concession
	seen := map[string]bool{}
	for _, w := range wishes {
		c, ok := t.giveUp(w)
		if !ok || seen[c.says] {
			continue
		}
		seen[c.says] = true
		best := t.after(c).quick()
		if best.answer.Verdict != search.Found {
			continue
		}
		list = append(list, best.concession(c))
		if instead, ok := t.relock(c, w, best); ok {
			list = append(list, best.concession(instead))
		}
	}
	if len(list) == 0 {
		return t.offerSeveral(wishes)
	}
	slices.SortStableFunc(list, func(a, b Concession) int {
		return cmp.Or(cmp.Compare(slices.Index(concessionOrder, a.kind), slices.Index(concessionOrder, b.kind)), cmp.Compare(a.Cost, b.Cost))
	})
	return list
}

// several is how many changes are offered together at most.
const several = 6

// offerSeveral changes one wish after the other, the easiest of each clash that is left, and takes back
// what proves needless in the end.
func (t *task) offerSeveral(wishes []wish) []Concession {
	var changes []change
	now := t
	for range several {
		c, ok := now.easiest(wishes)
		if !ok {
			return nil
		}
		changes = append(changes, c)
		now = t.after(changes...)
		if best := now.quick(); best.answer.Verdict == search.Found {
			return t.offerTogether(changes, best)
		}
		if wishes = now.clashing(); len(wishes) == 0 {
			return nil
		}
	}
	return nil
}

// offerTogether offers the changes that are needed out of some that are enough.
func (t *task) offerTogether(changes []change, best solution) []Concession {
	for i := 0; i < len(changes) && len(changes) > 1; {
		fewer := slices.Delete(slices.Clone(changes), i, i+1)
		if again := t.after(fewer...).quick(); again.answer.Verdict == search.Found {
			changes, best = fewer, again
			continue
		}
		i++
	}
	whole := change{kind: changes[0].kind, edit: together(changes)}
	if len(changes) == 1 {
		whole.wish = changes[0].wish
	}
	var says []string
	for _, c := range changes {
		says = append(says, c.says)
	}
	whole.says = strings.Join(says, " ")
	return []Concession{best.concession(whole)}
}

// easiest is the first change that any of the wishes has.
func (t *task) easiest(wishes []wish) (change, bool) {
	wishes = slices.Clone(wishes)
	slices.SortStableFunc(wishes, func(a, b wish) int {
		return slices.Index(concessionOrder, a.kind) - slices.Index(concessionOrder, b.kind)
	})
	for _, w := range wishes {
		if c, ok := t.giveUp(w); ok {
			return c, true
		}
	}
	return change{}, false
}

// concession offers a change, given what the pins are after it.
func (s *solution) concession(c change) Concession {
	cost, bound := s.holes()
	out := Concession{Wish: c.wish, Change: c.says, Cost: cost, Proved: cost == bound, kind: c.kind}
	if c.edit != nil {
		out.Edit = encoded(c.edit)
	}
	return out
}

// relock ties a signal to the pin that it gets when its lock goes.
func (t *task) relock(c change, w wish, best solution) (change, bool) {
	if w.kind != wishLock || best.at[w.signals[0]] < 0 {
		return change{}, false
	}
	name := t.pins[best.at[w.signals[0]]].Name
	c.says = fmt.Sprintf("Lock %s to %s in place of %s.", t.called(w), name, t.pins[w.pin].Name)
	c.edit = &panel.LockPin{Signal: w.name, GPIO: name}
	return c, true
}

// together is one edit for all the changes; nil when there is a change that no edit makes.
func together(changes []change) panel.Edit {
	all := panel.Together{What: "Make room for the pins"}
	for _, c := range changes {
		if c.edit == nil {
			return nil
		}
		all.Edits = append(all.Edits, encoded(c.edit))
	}
	if len(changes) == 1 {
		return changes[0].edit
	}
	return &all
}

// encoded writes an edit of this package's making, which can always be written.
func encoded(e panel.Edit) []byte {
	text, err := panel.EncodeEdit(e)
	if err != nil {
		panic(err)
	}
	return text
}
