package pinning

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/part"
	"fascia/design/search"
)

// A wishKind says what a wish asks for. Wishes are blamed in this order.
type wishKind uint8

const (
	wishLock wishKind = iota // a signal on just this pin
	wishKept                 // a pin left alone
	wishRun                  // signals on consecutive GPIOs
	wishBus                  // signals on one peripheral instance
	wishPWM                  // a signal on a PWM slice of its own
	wishADC                  // a signal on an analogue pin
	wishPin                  // a signal on any pin
)

// A wish is one thing that the pins must do, which could be given up by itself.
type wish struct {
	kind    wishKind
	signals []int
	pin     int
	name    string // of a lock, as the maker wrote it
}

// allWishes lists every wish, those of optional signals included as far as the search has room.
func (t *task) allWishes() []wish {
	room := search.MaxSlots - len(t.pins)
	return t.wishes(func(s int) bool {
		if t.required(s) {
			return true
		}
		room--
		return room >= 0
	})
}

// mustHold lists the wishes that cannot go unfulfilled.
func (t *task) mustHold() []wish { return t.wishes(t.required) }

func (t *task) wishes(include func(s int) bool) []wish {
	var list []wish
	for _, l := range t.locks {
		list = append(list, wish{kind: wishLock, signals: []int{l.signal}, pin: l.pin, name: l.name})
	}
	for pin, kept := range t.kept {
		if kept {
			list = append(list, wish{kind: wishKept, pin: pin})
		}
	}
	grouped := make([]bool, len(t.signals))
	for _, set := range []struct {
		kind   wishKind
		groups [][]int
	}{{wishRun, t.runs}, {wishBus, t.buses}} {
		for _, group := range set.groups {
			w := wish{kind: set.kind}
			for _, s := range group {
				grouped[s] = true
				if include(s) {
					w.signals = append(w.signals, s)
				}
			}
			if len(w.signals) > 0 {
				list = append(list, w)
			}
		}
	}
	for s, want := range t.signals {
		if !grouped[s] && include(s) {
			list = append(list, wish{kind: alone(want.Wants), signals: []int{s}})
		}
	}
	slices.SortStableFunc(list, func(a, b wish) int { return int(a.kind) - int(b.kind) })
	return list
}

// alone is the kind of wish that a signal of no group makes.
func alone(s part.Signal) wishKind {
	switch s {
	case part.PWM:
		return wishPWM
	case part.ADC:
		return wishADC
	}
	return wishPin
}

// sentence says what the wish asks for.
func (t *task) sentence(w wish) string {
	switch w.kind {
	case wishLock:
		return fmt.Sprintf("%s is locked to %s.", t.called(w), t.pins[w.pin].Name)
	case wishKept:
		return fmt.Sprintf("%s is to be kept free.", t.pins[w.pin].Name)
	case wishRun:
		return fmt.Sprintf("%s want %d consecutive GPIOs.", capital(t.span(w.signals)), len(w.signals))
	case wishBus:
		return fmt.Sprintf("%s to be on one %s that nothing else uses.", verb(t.nets(w.signals), len(w.signals), "wants", "want"), t.busKind(w))
	case wishPWM:
		return fmt.Sprintf("%s wants a PWM slice to itself.", t.net(w.signals[0]))
	case wishADC:
		return fmt.Sprintf("%s wants an analogue pin.", t.net(w.signals[0]))
	}
	return fmt.Sprintf("%s wants a pin%s.", t.net(w.signals[0]), t.special(w.signals[0]))
}

// special names a function that a signal of no bus wants all the same.
func (t *task) special(s int) string {
	switch want := t.signals[s].Wants; want {
	case part.DigitalIn, part.DigitalOut:
		return ""
	default:
		return " that can be " + string(want)
	}
}

// called names a locked signal: by its net, and by the name of the lock when that says more.
func (t *task) called(w wish) string {
	s := t.signals[w.signals[0]]
	if w.name == s.ID || w.name == s.Net {
		return s.Net
	}
	return fmt.Sprintf("%s (%s)", s.Net, w.name)
}

func (t *task) busKind(w wish) string {
	kind, _, _ := strings.Cut(string(t.signals[w.signals[0]].Wants), " ")
	return kind
}

func (t *task) net(s int) string { return t.signals[s].Net }

// nets lists signals as a sentence does: a, b and c.
func (t *task) nets(signals []int) string {
	names := make([]string, len(signals))
	for i, s := range signals {
		names[i] = t.net(s)
	}
	return listed(names)
}

// span names the lines of a run by its first and last.
func (t *task) span(signals []int) string {
	if len(signals) == 1 {
		return t.net(signals[0])
	}
	return t.net(signals[0]) + " to " + t.net(signals[len(signals)-1])
}

func listed(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

func verb(subject string, n int, one, many string) string {
	if n == 1 {
		return subject + " " + one
	}
	return subject + " " + many
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func capital(s string) string { return strings.ToUpper(s[:min(1, len(s))]) + s[min(1, len(s)):] }
