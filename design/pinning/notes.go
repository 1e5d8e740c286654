package pinning

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/search"
)

// spoilt says what was to be spared and is not, and what it gave way to.
func (t *task) spoilt(at []int) (list []finding.Finding) {
	for i, what := range t.spares {
		if t.spared(what, at) {
			continue
		}
		signals := t.spoilers(what, at)
		f := finding.Finding{Severity: finding.Note, Code: spoiltCodes[what], Where: finding.Where{Refs: []string{t.ref}}}
		var holes []grid.Hole
		for _, s := range signals {
			holes = append(holes, t.hole[at[s]])
		}
		f.Where.Holes = holes
		f.Text = fmt.Sprintf("%s, as %s.", t.loss(what, signals, at), t.cause(i, signals, at))
		f.Fix = spoiltFixes[what]
		list = append(list, f)
	}
	return list
}

var (
	spoiltCodes = [...]string{"pin-serial-used", "pin-analogue-used", "pin-i2c-used"}
	spoiltFixes = [...]string{
		"Watch the program over USB, or free a pin.",
		"Free a pin if you want to measure more later.",
		"Free a pin if you want to add an I2C part of another bus later.",
	}
)

// loss says what there is no more.
func (t *task) loss(what spare, signals, at []int) string {
	switch what {
	case spareSerial:
		return "There is no serial console on GP0 and GP1"
	case spareAnalogue:
		var pins []int
		for _, s := range signals {
			pins = append(pins, at[s])
		}
		slices.Sort(pins)
		return verb(t.named(pins), len(pins), "is no analogue input any more", "are no analogue inputs any more")
	}
	return "No I2C bus is left to use"
}

// cause says what wish i to spare something gave way to: to locks, to signals that had no other pin,
// to optional signals that would have gone without, or to wishes that come before it.
func (t *task) cause(i int, signals, at []int) string {
	var nets, pins []string
	for _, s := range signals {
		if t.lock[s] >= 0 {
			nets, pins = append(nets, t.net(s)), append(pins, t.pins[at[s]].Name)
		}
	}
	if len(nets) > 0 && len(nets) == len(signals) {
		return fmt.Sprintf("you locked %s to %s", listed(nets), listed(pins))
	}
	what := t.spares[i]
	if !t.canSpare([]spare{what}, t.mustHold()) {
		if what == spareI2C {
			return t.busesTaken(at)
		}
		return fmt.Sprintf("%s had no other pin", t.nets(t.unlocked(signals)))
	}
	seated := t.wishes(func(s int) bool { return t.required(s) || at[s] >= 0 })
	if optional := t.optionalOn(at); !t.canSpare([]spare{what}, seated) {
		return fmt.Sprintf("%s would go without a pin otherwise", t.nets(optional))
	}
	var first []string
	for _, above := range t.spares[:i] {
		first = append(first, spareWords[above])
	}
	if len(first) == 0 {
		return "the time to find a way round ran out"
	}
	return fmt.Sprintf("sparing %s comes first", listed(first))
}

var spareWords = [...]string{"the serial console", "the analogue pins", "an I2C bus"}

// busesTaken says why no I2C instance can be spared.
func (t *task) busesTaken(at []int) string {
	own := 0
	for instance := range instances {
		if t.ownBus(instance, at) {
			own++
		}
	}
	if own == instances {
		return "the panel's own buses use both"
	}
	if slices.Contains(t.kept, true) {
		return "signals that had no other pin and pins kept free leave none whole"
	}
	return "signals that had no other pin leave none whole"
}

func (t *task) unlocked(signals []int) []int {
	return slices.DeleteFunc(slices.Clone(signals), func(s int) bool { return t.lock[s] >= 0 })
}

// optionalOn lists the signals that have a pin and could go without.
func (t *task) optionalOn(at []int) (signals []int) {
	for s := range t.signals {
		if !t.required(s) && at[s] >= 0 {
			signals = append(signals, s)
		}
	}
	return signals
}

// canSpare reports whether the wishes can hold with everything spared, but for what locks take.
func (t *task) canSpare(wanted []spare, wishes []wish) bool {
	p := t.problem(wishes)
	for member, s := range p.members {
		if s < 0 || t.lock[s] >= 0 {
			continue
		}
		for pin := range t.pins {
			for _, what := range wanted {
				if t.spoils(what, s, pin) {
					p.Cost[member][pin] = search.Never
				}
			}
		}
		for j := len(t.pins); j < p.Slots; j++ {
			p.Cost[member][j] = search.Never // what has a pin is to keep it
		}
	}
	if slices.Contains(wanted, spareI2C) {
		p.reserve()
	}
	return search.Feasible(&p.Problem, oracle) != search.Impossible
}
