package pinning

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"fascia/design/panel"
	"fascia/design/search"
	"fascia/design/signal"
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

// A change is what one wish would have to become.
type change struct {
	wish    wish
	says    string
	edit    panel.Edit // nil when no one edit does it
	panel   *panel.Panel
	signals []signal.Signal
}

// apply gives the task after a change.
func (t *task) apply(c change) *task {
	return newTask(c.panel, t.module, t.ref, c.signals)
}

// concessionOrder lists what to give up, what is easiest first.
var concessionOrder = []wishKind{wishKept, wishLock, wishRun, wishPin, wishPWM, wishADC, wishBus}

// offer tries a change of each wish of a clash by itself, and of several together when no single one
// is enough.
func (t *task) offer(conflict []wish) []Concession {
	var list []Concession
	seen := map[string]bool{}
	for _, w := range conflict {
		c, ok := t.giveUp(w)
		if !ok || seen[c.says] {
			continue
		}
		seen[c.says] = true
		after := t.apply(c)
		best := after.quick()
		if best.answer.Verdict != search.Found {
			continue
		}
		list = append(list, t.concession(c, best))
		if instead, ok := t.relock(c, after, best); ok {
			list = append(list, instead)
		}
	}
	if len(list) == 0 {
		return t.offerSeveral(conflict)
	}
	slices.SortStableFunc(list, func(a, b Concession) int {
		return cmp.Or(cmp.Compare(slices.Index(concessionOrder, a.kind), slices.Index(concessionOrder, b.kind)), cmp.Compare(a.Cost, b.Cost))
	})
	return list
}

// several is how many changes are offered together at most.
const several = 6

// offerSeveral changes one wish after the other, the easiest of each clash that is left.
func (t *task) offerSeveral(conflict []wish) []Concession {
	var says []string
	var edits []panel.Edit
	whole := true // every change is an edit
	now := t
	for range several {
		c, ok := now.easiest(conflict)
		if !ok {
			return nil
		}
		says = append(says, c.says)
		edits, whole = append(edits, c.edit), whole && c.edit != nil
		now = now.apply(c)
		best := now.quick()
		if best.answer.Verdict == search.Found {
			cost, bound := best.holes()
			offer := Concession{Change: strings.Join(says, " "), Cost: cost, Proved: cost == bound}
			if whole {
				offer.Edit = encoded(together(edits))
			}
			return []Concession{offer}
		}
		if conflict = now.clashing(); len(conflict) == 0 {
			return nil
		}
	}
	return nil
}

// easiest is the first change that any wish of a clash has.
func (t *task) easiest(conflict []wish) (change, bool) {
	conflict = slices.Clone(conflict)
	slices.SortStableFunc(conflict, func(a, b wish) int {
		return slices.Index(concessionOrder, a.kind) - slices.Index(concessionOrder, b.kind)
	})
	for _, w := range conflict {
		if c, ok := t.giveUp(w); ok {
			return c, true
		}
	}
	return change{}, false
}

func (t *task) concession(c change, best solution) Concession {
	cost, bound := best.holes()
	out := Concession{Wish: t.sentence(c.wish), Change: c.says, Cost: cost, Proved: cost == bound, kind: c.wish.kind}
	if c.edit != nil {
		out.Edit = encoded(c.edit)
	}
	return out
}

// relock offers to lock a signal to the pin that it gets when its lock goes.
func (t *task) relock(c change, after *task, best solution) (Concession, bool) {
	if c.wish.kind != wishLock {
		return Concession{}, false
	}
	pin := best.at[c.wish.signals[0]]
	if pin < 0 {
		return Concession{}, false
	}
	name := after.pins[pin].Name
	c.says = fmt.Sprintf("Lock %s to %s in place of %s.", t.called(c.wish), name, t.pins[c.wish.pin].Name)
	c.edit = &panel.LockPin{Signal: c.wish.name, GPIO: name}
	return t.concession(c, best), true
}

// giveUp is the change that does without a wish; false when there is none. A run that is given up
// still wants its lines, anywhere.
func (t *task) giveUp(w wish) (change, bool) {
	c := change{wish: w, panel: t.panel, signals: t.signals}
	switch w.kind {
	case wishKept:
		gpio := t.pins[w.pin].Name
		c.says = fmt.Sprintf("Let %s be used.", gpio)
		c.edit = &panel.KeepFree{GPIO: gpio}
		c.panel = t.withoutKept(gpio)
	case wishLock:
		c.says = fmt.Sprintf("Take the lock of %s away.", t.called(w))
		c.edit = &panel.LockPin{Signal: w.name}
		c.panel = t.withoutLock(w.name)
	case wishRun:
		c.says = "Read the keys by polling, which takes any pins, in place of the state machines."
		polled := t.panel.Scan
		polled.Reader = "polled"
		c.edit = &panel.SetScan{Scan: polled}
		c.signals = polling(t.signals)
	default:
		return t.leaveOut(w)
	}
	return c, true
}

func (t *task) withoutLock(name string) *panel.Panel {
	p := *t.panel
	p.Pins.Locked = maps.Clone(p.Pins.Locked)
	delete(p.Pins.Locked, name)
	return &p
}

func (t *task) withoutKept(gpio string) *panel.Panel {
	p := *t.panel
	p.Pins.KeepFree = slices.DeleteFunc(slices.Clone(p.Pins.KeepFree), func(g string) bool { return g == gpio })
	return &p
}

// polling gives the signals without their runs.
func polling(signals []signal.Signal) []signal.Signal {
	signals = slices.Clone(signals)
	for i := range signals {
		signals[i].Run = ""
	}
	return signals
}

// leaveOut does without the parts that want the pins of a wish, and so without all their signals. Lines
// of a matrix are not a part's to leave out.
func (t *task) leaveOut(w wish) (change, bool) {
	var refs []string
	for _, s := range w.signals {
		if t.ofKeys(s) && !t.direct(s) {
			return change{}, false
		}
		for _, ref := range t.where(s).Refs {
			if !slices.Contains(refs, ref) {
				refs = append(refs, ref)
			}
		}
	}
	c := change{wish: w, panel: t.panel, says: fmt.Sprintf("Leave out %s.", listed(refs))}
	if len(refs) == 0 {
		c.says = fmt.Sprintf("Leave out %s.", t.nets(w.signals))
	}
	for s, want := range t.signals {
		served := slices.ContainsFunc(want.Terminals, func(at panel.TerminalRef) bool { return !slices.Contains(refs, at.Ref) })
		if slices.Contains(w.signals, s) || len(want.Terminals) > 0 && !served {
			continue
		}
		c.signals = append(c.signals, want)
	}
	c.panel = t.withoutLocksOf(refs, w)
	return c, true
}

// direct reports whether a signal is a key with a pin of its own.
func (t *task) direct(s int) bool { return t.signals[s].Net == "key "+t.signals[s].ID }

// withoutLocksOf takes away the locks that speak of parts, or of the signals of a wish.
func (t *task) withoutLocksOf(refs []string, w wish) *panel.Panel {
	p := *t.panel
	p.Pins.Locked = map[string]string{}
	for name, gpio := range t.panel.Pins.Locked {
		ref, _, _ := strings.Cut(name, ".")
		gone := slices.Contains(refs, ref)
		for _, l := range t.locks {
			gone = gone || l.name == name && slices.Contains(w.signals, l.signal)
		}
		if !gone {
			p.Pins.Locked[name] = gpio
		}
	}
	return &p
}

func together(edits []panel.Edit) panel.Edit {
	if len(edits) == 1 {
		return edits[0]
	}
	all := panel.Together{What: "Make room for the pins"}
	for _, e := range edits {
		all.Edits = append(all.Edits, encoded(e))
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
