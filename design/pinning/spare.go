package pinning

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
)

// A spare is something that the pins are to be chosen round: a soft wish.
type spare uint8

const (
	spareSerial   spare = iota // the two pins of the default serial console
	spareAnalogue              // the analogue inputs, but for analogue signals
	spareI2C                   // both lines of an I2C instance that the panel does not use itself
)

var spareNames = [...]string{panel.SerialConsole, panel.AnaloguePins, panel.I2CBus}

// readSpares takes the maker's order, each wish once.
func (t *task) readSpares() {
	for _, name := range t.panel.Pins.Prefer {
		if i := slices.Index(spareNames[:], name); i >= 0 && !slices.Contains(t.spares, spare(i)) {
			t.spares = append(t.spares, spare(i))
		}
	}
}

// spoils reports whether signal s on pin takes something from what is to be spared. An I2C bus is
// not any one pin's to spoil.
func (t *task) spoils(what spare, s, pin int) bool {
	switch what {
	case spareSerial:
		return t.serial(pin)
	case spareAnalogue:
		return t.analogue(pin) && t.signals[s].Wants != part.ADC
	}
	return false
}

// spoilers lists the signals on pins that something was to be spared.
func (t *task) spoilers(what spare, at []int) (signals []int) {
	for s, pin := range at {
		if pin >= 0 && t.spoils(what, s, pin) {
			signals = append(signals, s)
		}
	}
	return signals
}

// spared reports whether nothing is taken from what was to be spared.
func (t *task) spared(what spare, at []int) bool {
	if what == spareI2C {
		return t.freeBus(at) >= 0
	}
	return len(t.spoilers(what, at)) == 0
}

// freeBus is an I2C instance with a free pin for either line, which no bus of the panel's uses; -1
// when there is none.
func (t *task) freeBus(at []int) int {
	for instance := range instances {
		if t.ownBus(instance, at) {
			continue
		}
		data, clock := t.freeLines(instance, at)
		if len(data) > 0 && len(clock) > 0 {
			return instance
		}
	}
	return -1
}

// instances is how many there are of a peripheral that buses use.
const instances = 2

// ownBus reports whether a bus of the panel's is on an I2C instance.
func (t *task) ownBus(instance int, at []int) bool {
	for _, bus := range t.buses {
		for _, s := range bus {
			if onI2C(t.signals[s].Wants) && at[s] >= 0 && t.can[s][at[s]].Instance == instance {
				return true
			}
		}
	}
	return false
}

// freeLines lists the pins that could be the data and the clock line of an I2C instance and that
// nothing uses or wants free.
func (t *task) freeLines(instance int, at []int) (data, clock []int) {
	for pin := range t.pins {
		if t.joined[pin] || t.kept[pin] || slices.Contains(at, pin) {
			continue
		}
		if f, ok := t.chip.Can(t.pins[pin].GPIO, part.I2CSDA); ok && f.Instance == instance {
			data = append(data, pin)
		}
		if f, ok := t.chip.Can(t.pins[pin].GPIO, part.I2CSCL); ok && f.Instance == instance {
			clock = append(clock, pin)
		}
	}
	return data, clock
}

func onI2C(s part.Signal) bool { return s == part.I2CSDA || s == part.I2CSCL }

// given tells which of the wishes to spare hold, by their names.
func (t *task) gaveWay(at []int) (names []string) {
	for _, what := range t.spares {
		if !t.spared(what, at) {
			names = append(names, spareNames[what])
		}
	}
	return names
}
