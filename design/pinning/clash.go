package pinning

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/signal"
)

// A clash is one reason why there are no pins.
type clash struct {
	wishes      []wish   // that clash
	sentences   []string // what they ask for
	finding     finding.Finding
	concessions []Concession // worked out for a clash that took a search
}

// plainClashes lists the clashes that can be seen without a search, each with words of its own.
func (t *task) plainClashes() []clash {
	var list []clash
	for i, l := range t.locks {
		if c, bad := t.lockClash(l, t.locks[:i]); bad {
			list = append(list, c)
		}
	}
	if c, bad := t.tooFew(); bad {
		list = append(list, c)
	}
	return list
}

// lockClash looks at one lock by itself and beside those before it.
func (t *task) lockClash(l lock, earlier []lock) (clash, bool) {
	w := wish{kind: wishLock, signals: []int{l.signal}, pin: l.pin, name: l.name}
	pin, says := t.pins[l.pin].Name, t.sentence(w)
	where := t.where(l.signal)
	where.Pin = pin
	refuse := func(code, text, fix string, other wish) (clash, bool) {
		return clash{wishes: []wish{w, other}, sentences: []string{says, t.sentence(other)},
			finding: finding.Finding{Severity: finding.Stop, Code: code, Where: where, Text: text, Fix: fix}}, true
	}
	net := t.net(l.signal)
	if !t.able(l.signal, l.pin) {
		return refuse("pin-lock-function", fmt.Sprintf("%s is locked to %s, which cannot be %s.", net, pin, t.signals[l.signal].Wants),
			fmt.Sprintf("Lock it to %s, or take the lock away.", t.ableNames(l.signal)), t.wishOf(l.signal))
	}
	if t.joined[l.pin] {
		c, _ := refuse("pin-lock-joined", fmt.Sprintf("%s is locked to %s, which one of your joins uses.", net, pin),
			fmt.Sprintf("Take the lock of %s away, or the join.", net), w)
		c.wishes = c.wishes[:1]
		c.sentences[1] = fmt.Sprintf("A join of yours uses %s.", pin)
		return c, true
	}
	if t.kept[l.pin] {
		return refuse("pin-lock-kept", fmt.Sprintf("%s is locked to %s, which is to be kept free.", net, pin),
			fmt.Sprintf("Take the lock of %s away, or let %s be used.", net, pin), wish{kind: wishKept, pin: l.pin})
	}
	for _, e := range earlier {
		other := wish{kind: wishLock, signals: []int{e.signal}, pin: e.pin, name: e.name}
		switch {
		case e.pin == l.pin && e.signal != l.signal:
			for _, ref := range t.where(e.signal).Refs {
				if !slices.Contains(where.Refs, ref) {
					where.Refs = append(where.Refs, ref)
				}
			}
			return refuse("pin-lock-twice", fmt.Sprintf("%s and %s are both locked to %s.", t.net(e.signal), net, pin),
				fmt.Sprintf("Take the lock of %s away, or that of %s.", net, t.net(e.signal)), other)
		case e.signal == l.signal && e.pin != l.pin:
			return refuse("pin-lock-twice", fmt.Sprintf("%s is locked both to %s and to %s.", net, t.pins[e.pin].Name, pin),
				fmt.Sprintf("Take the lock of %s or of %s away.", e.name, l.name), other)
		}
	}
	return clash{}, false
}

// wishOf is the wish that a signal is part of by what it is.
func (t *task) wishOf(s int) wish {
	for _, w := range t.mustHold() {
		if w.kind != wishLock && slices.Contains(w.signals, s) {
			return w
		}
	}
	return wish{kind: alone(t.signals[s].Wants), signals: []int{s}}
}

// ableNames lists GPIOs that could carry a signal, five at most.
func (t *task) ableNames(s int) string {
	var names []string
	for pin := range t.pins {
		if t.able(s, pin) && !t.kept[pin] && !t.joined[pin] {
			names = append(names, t.pins[pin].Name)
		}
	}
	switch n := len(names); {
	case n == 0:
		return "another pin"
	case n == 1:
		return names[0]
	case n > 5:
		return strings.Join(names[:5], ", ") + " or another that can be " + string(t.signals[s].Wants)
	default:
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
}

// tooFew counts. What is said is no more than it takes: wishes of parts or of keys are left out when the
// others alone are too many, and so are pins kept free.
func (t *task) tooFew() (clash, bool) {
	keys, parts := 0, 0
	for s := range t.signals {
		switch {
		case !t.required(s):
		case t.ofKeys(s):
			keys++
		default:
			parts++
		}
	}
	free, kept, joined := 0, 0, 0
	for pin := range t.pins {
		switch {
		case t.joined[pin]:
			joined++
		case t.kept[pin]:
			kept++
		default:
			free++
		}
	}
	short := keys + parts - free
	if short <= 0 {
		return clash{}, false
	}
	brings := fmt.Sprintf("%s brings out %d", t.ref, len(t.pins))
	if len(t.pins) == 0 {
		brings = fmt.Sprintf("%s brings out none", t.ref)
	}
	if kept > 0 && keys+parts <= free+kept {
		brings += fmt.Sprintf(", of which %s to be kept free", plural(kept, "is", "are"))
	}
	if joined > 0 && keys+parts <= free+kept+joined {
		brings += fmt.Sprintf(", of which your joins use %d", joined)
	}
	fix := fmt.Sprintf("Read the keys as a matrix with fewer lines, or leave out parts that want %s.", plural(short, "pin", "pins"))
	switch {
	case len(t.pins) == 0:
		fix = "Place a module that brings GPIOs out."
	case kept >= short:
		fix = fmt.Sprintf("Let %d of those kept free be used, or leave out a part.", short)
	}
	return clash{
		wishes: t.mustHold(), sentences: append(t.demands(parts, keys, free+kept+joined), brings+"."),
		finding: finding.Finding{Severity: finding.Stop, Code: "pin-too-few", Where: finding.Where{Refs: []string{t.ref}},
			Text: fmt.Sprintf("The panel needs %s; %s.", plural(keys+parts, "pin", "pins"), brings), Fix: fix},
	}, true
}

// demands says how many pins parts and keys want, leaving out those without which there are too many.
func (t *task) demands(parts, keys, pins int) []string {
	ofParts := fmt.Sprintf("The parts want %s.", plural(parts, "pin", "pins"))
	ofKeys := fmt.Sprintf("The keys want %s.", plural(keys, "pin", "pins"))
	switch {
	case keys > pins || parts == 0:
		return []string{ofKeys}
	case parts > pins || keys == 0:
		return []string{ofParts}
	}
	return []string{ofParts, ofKeys}
}

// ofKeys reports whether a signal reads keys: its id names a line or a key, not a terminal it serves.
func (t *task) ofKeys(s int) bool {
	want := t.signals[s]
	return len(want.Terminals) == 0 || want.ID != want.Terminals[0].String()
}

// undecided says that the search gave up. It is not known whether the wishes clash.
func undecided(signals []signal.Signal) clash {
	return clash{
		sentences: []string{fmt.Sprintf("No pins were found for %s in the time given.", plural(len(signals), "signal", "signals"))},
		finding: finding.Finding{Severity: finding.Stop, Code: "pin-undecided",
			Text: fmt.Sprintf("No pins were found for %s, nor was it shown that there are none.", plural(len(signals), "signal", "signals")),
			Fix:  "Take a lock away, or leave out a part."},
	}
}
