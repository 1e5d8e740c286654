package pinning

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fascia/design/panel"
	"fascia/design/signal"
)

// A change is what one wish would have to become.
type change struct {
	kind wishKind
	wish string // the wish in a sentence
	says string
	edit panel.Edit // nil when no one edit does it

	lock, keep string   // names of the lock and of the pin kept free that go
	spare      string   // what need not be spared
	polled     bool     // the keys are read without state machines
	refs       []string // parts that are left out
	ids        []string // signals that are left out
}

// giveUp is the change that does without a wish; false when there is none. A run that is given up
// still wants its lines, anywhere.
func (t *task) giveUp(w wish) (change, bool) {
	c := change{kind: w.kind, wish: t.sentence(w)}
	switch w.kind {
	case wishKept:
		c.keep = t.pins[w.pin].Name
		c.says = fmt.Sprintf("Let %s be used.", c.keep)
		c.edit = &panel.KeepFree{GPIO: c.keep}
	case wishLock:
		c.lock = w.name
		c.says = fmt.Sprintf("Take the lock of %s away.", t.called(w))
		c.edit = &panel.LockPin{Signal: c.lock}
	case wishRun:
		c.polled = true
		c.says = "Read the keys by polling, which takes any pins, in place of the state machines."
		scan := t.panel.Scan
		scan.Reader = "polled"
		c.edit = &panel.SetScan{Scan: scan}
	default:
		return t.leaveOut(c, w)
	}
	return c, true
}

// leaveOut does without the parts that want the pins of a wish, and so without all their signals. Lines
// that several keys share are not a part's to leave out.
func (t *task) leaveOut(c change, w wish) (change, bool) {
	for _, s := range w.signals {
		if t.ofKeys(s) && t.signals[s].Net != "key "+t.signals[s].ID {
			return change{}, false
		}
		c.ids = append(c.ids, t.signals[s].ID)
		for _, ref := range t.where(s).Refs {
			if !slices.Contains(c.refs, ref) {
				c.refs = append(c.refs, ref)
			}
		}
	}
	c.says = fmt.Sprintf("Leave out %s.", listed(c.refs))
	if len(c.refs) == 0 {
		c.says = fmt.Sprintf("Leave out %s.", t.nets(w.signals))
	}
	return c, true
}

// after gives the task with some changes made.
func (t *task) after(changes ...change) *task {
	p, signals := *t.panel, t.signals
	p.Pins.Locked = maps.Clone(p.Pins.Locked)
	for _, c := range changes {
		delete(p.Pins.Locked, c.lock)
		p.Pins.KeepFree = slices.DeleteFunc(slices.Clone(p.Pins.KeepFree), func(g string) bool { return g == c.keep })
		p.Pins.Prefer = slices.DeleteFunc(slices.Clone(p.Pins.Prefer), func(name string) bool { return name == c.spare })
		if c.polled {
			signals = polling(signals)
		}
		signals = slices.DeleteFunc(slices.Clone(signals), c.leavesOut)
	}
	maps.DeleteFunc(p.Pins.Locked, func(name, _ string) bool { return t.goes(name, changes) })
	return newTask(&p, t.module, t.ref, signals)
}

// leavesOut reports whether a signal goes with the parts that are left out: all that it serves does.
func (c *change) leavesOut(s signal.Signal) bool {
	if slices.Contains(c.ids, s.ID) {
		return true
	}
	stays := func(at panel.TerminalRef) bool { return !slices.Contains(c.refs, at.Ref) }
	return len(s.Terminals) > 0 && !slices.ContainsFunc(s.Terminals, stays)
}

// goes reports whether a lock speaks of a part or a signal that changes leave out.
func (t *task) goes(name string, changes []change) bool {
	ref, _, _ := strings.Cut(name, ".")
	i := slices.IndexFunc(t.locks, func(l lock) bool { return l.name == name })
	return slices.ContainsFunc(changes, func(c change) bool {
		return slices.Contains(c.refs, ref) || i >= 0 && slices.Contains(c.ids, t.signals[t.locks[i].signal].ID)
	})
}

// polling gives the signals without their runs.
func polling(signals []signal.Signal) []signal.Signal {
	signals = slices.Clone(signals)
	for i := range signals {
		signals[i].Run = ""
	}
	return signals
}
