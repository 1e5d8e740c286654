package pinning

import (
	"fmt"
	"maps"
	"slices"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/panel"
)

// readLocks turns the maker's locks into indices. A lock that names nothing is a finding, and is
// left out.
func (t *task) readLocks() {
	byName := map[string]int{}
	for i := len(t.signals) - 1; i >= 0; i-- {
		for _, served := range t.signals[i].Terminals {
			byName[served.String()] = i
		}
	}
	for i := len(t.signals) - 1; i >= 0; i-- {
		byName[t.signals[i].ID] = i
	}
	t.lock = slices.Repeat([]int{-1}, len(t.signals))
	for _, name := range slices.SortedFunc(maps.Keys(t.panel.Pins.Locked), panel.CompareRefs) {
		gpio := t.panel.Pins.Locked[name]
		s, known := byName[name]
		pin := t.pinNamed(gpio)
		switch {
		case !known:
			t.findings = append(t.findings, t.lockOfNothing(name, gpio))
		case pin < 0:
			t.findings = append(t.findings, t.lockToNothing(s, name, gpio))
		default:
			t.locks = append(t.locks, lock{name, s, pin})
			if t.lock[s] < 0 {
				t.lock[s] = pin
			}
		}
	}
}

func (t *task) pinNamed(gpio string) int {
	return slices.IndexFunc(t.pins, func(p controller.Pin) bool { return p.Name == gpio })
}

func (t *task) lockOfNothing(name, gpio string) finding.Finding {
	text := fmt.Sprintf("%s is locked to %s, but nothing called %s wants a pin.", name, gpio, name)
	where := finding.Where{Pin: gpio}
	if i := slices.IndexFunc(t.panel.Keys(), func(k panel.KeyRef) bool { return k.ID == name }); i >= 0 {
		text = fmt.Sprintf("%s is locked to %s, but that key is read through a row and a column.", name, gpio)
		where.Keys = []string{name}
	}
	return finding.Finding{Severity: finding.Mind, Code: "pin-lock-unknown", Where: where, Text: text,
		Fix: fmt.Sprintf("Take the lock of %s away.", name)}
}

func (t *task) lockToNothing(s int, name, gpio string) finding.Finding {
	text := fmt.Sprintf("%s is locked to %s, which %s does not bring out.", name, gpio, t.ref)
	if n, ok := controller.ParseGPIO(gpio); !ok || n >= t.chip.GPIOs {
		text = fmt.Sprintf("%s is locked to %s, but the %s has no such GPIO.", name, gpio, t.chip.Name)
	}
	return finding.Finding{Severity: finding.Mind, Code: "pin-lock-unknown", Where: t.where(s), Text: text,
		Fix: fmt.Sprintf("Lock it to %s, or take the lock away.", t.ableNames(s))}
}

// readKept reports names that can be kept free of nothing.
func (t *task) readKept() {
	for _, name := range t.panel.Pins.KeepFree {
		if n, ok := controller.ParseGPIO(name); !ok || n >= t.chip.GPIOs {
			t.findings = append(t.findings, finding.Finding{Severity: finding.Mind, Code: "pin-keep-unknown",
				Where: finding.Where{Pin: name},
				Text:  fmt.Sprintf("%s is to be kept free, but the %s has no such GPIO.", name, t.chip.Name),
				Fix:   "Name a GPIO such as GP0, or take the wish away."})
		}
	}
}
