package pinning

import (
	"fmt"
	"slices"

	"fascia/design/part"
)

var ordinals = [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
	"eleventh", "twelfth"}

func ordinal(i int) string {
	if i < len(ordinals) {
		return ordinals[i]
	}
	return fmt.Sprintf("number %d", i+1)
}

// function names what the pin does for signal s.
func (t *task) function(s, pin int) string {
	if want := t.signals[s]; want.Run != "" {
		return "PIO " + want.Direction
	}
	return t.can[s][pin].Name
}

// reason says why signal s has its pin, given the pins of all.
func (t *task) reason(s int, at []int) string {
	if t.lock[s] >= 0 {
		return "locked by you"
	}
	for _, run := range t.runs {
		if i := slices.Index(run, s); i >= 0 && len(run) > 1 {
			return t.runReason(run, i, at)
		}
	}
	what := t.purpose(s, at[s])
	nearer := t.nearerFree(s, at)
	if len(nearer) == 0 || t.signals[s].Wants == part.PWM {
		return "nearest free pin" + what
	}
	if left := t.leftFor(nearer, s, at); left != "" {
		return fmt.Sprintf("nearest free pin%s, with %s left for %s", what, t.named(nearer), left)
	}
	return "free pin" + what
}

// leftFor says what all of the pins are left alone for by signal s, "" when one is not.
func (t *task) leftFor(pins []int, s int, at []int) string {
	var names []string
	for _, pin := range pins {
		what, ok := t.whySpared(s, pin, at)
		if !ok {
			return ""
		}
		if name := leftNames[what]; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return listed(names)
}

var leftNames = [...]string{"the serial console", "analogue signals", "an I2C bus"}

// whySpared is the wish that signal s would spoil on a pin where it is not.
func (t *task) whySpared(s, pin int, at []int) (spare, bool) {
	moved := slices.Clone(at)
	moved[s] = pin
	for _, what := range t.spares {
		if t.spoils(what, s, pin) || what == spareI2C && t.spared(what, at) && !t.spared(what, moved) {
			return what, true
		}
	}
	return 0, false
}

func (t *task) runReason(run []int, i int, at []int) string {
	first, last := at[run[0]], at[run[0]]
	for _, s := range run {
		first, last = min(first, at[s]), max(last, at[s])
	}
	return fmt.Sprintf("%s of the run %s-%s for the %s", ordinal(at[run[i]]-first), t.pins[first].Name, t.pins[last].Name, t.signals[run[i]].Run)
}

// purpose says what the pin must be able to do, when not every pin can.
func (t *task) purpose(s, pin int) string {
	switch t.signals[s].Wants {
	case part.DigitalIn, part.DigitalOut:
		return ""
	case part.PWM:
		return " with a PWM slice to itself"
	case part.ADC:
		return " with an analogue input"
	}
	return " that can be " + t.function(s, pin)
}

// nearerFree lists the pins that nothing uses, that could carry signal s in place of its own, and
// that lie nearer.
func (t *task) nearerFree(s int, at []int) (nearer []int) {
	for pin := range t.pins {
		if !t.able(s, pin) || t.kept[pin] || t.joined[pin] || slices.Contains(at, pin) || t.line[s][pin].steps >= t.line[s][at[s]].steps {
			continue
		}
		if t.signals[s].Bus != "" && t.can[s][pin].Instance != t.can[s][at[s]].Instance {
			continue
		}
		nearer = append(nearer, pin)
	}
	return nearer
}

func (t *task) named(pins []int) string {
	var names []string
	for _, pin := range pins {
		names = append(names, t.pins[pin].Name)
	}
	return listed(names)
}
