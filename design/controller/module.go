package controller

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fascia/design/part"
)

// ParseGPIO reads a GPIO's name: GP0 to GP99, written without leading zeros.
func ParseGPIO(name string) (gpio int, ok bool) {
	digits, ok := strings.CutPrefix(name, "GP")
	if !ok || len(digits) == 0 || len(digits) > 2 || (len(digits) == 2 && digits[0] == '0') {
		return 0, false
	}
	for _, r := range digits {
		if r < '0' || r > '9' {
			return 0, false
		}
	}
	gpio, err := strconv.Atoi(digits)
	return gpio, err == nil
}

// GPIOName names a GPIO: GP4 for 4.
func GPIOName(gpio int) string { return "GP" + strconv.Itoa(gpio) }

// FromDefinition reads a module off its part definition: the chip from facts.chip, and a pin for
// each terminal that has a gpio. It errs when the chip is not known, when a GPIO is not one of the
// chip's, or when two terminals claim the same one.
func FromDefinition(d *part.Definition) (Module, error) {
	chip, ok := ChipNamed(d.Facts.Chip)
	if !ok {
		return Module{}, fmt.Errorf("%s: chip %q is not known: %s are", d.Name, d.Facts.Chip, strings.Join(ChipNames(), " and "))
	}
	m := Module{Chip: chip}
	for _, t := range d.Terminals {
		if t.GPIO == "" {
			continue
		}
		gpio, ok := ParseGPIO(t.GPIO)
		if !ok || gpio >= chip.GPIOs {
			return Module{}, fmt.Errorf("%s: terminal %s: %s has no GPIO called %q", d.Name, t.Name, chip.Name, t.GPIO)
		}
		if old, taken := m.Pin(t.GPIO); taken {
			return Module{}, fmt.Errorf("%s: terminals %s and %s both bring out %s", d.Name, old.Terminal, t.Name, t.GPIO)
		}
		m.Pins = append(m.Pins, Pin{GPIO: gpio, Name: t.GPIO, Terminal: t.Name, Number: t.Pin})
	}
	slices.SortFunc(m.Pins, func(a, b Pin) int { return a.GPIO - b.GPIO })
	return m, nil
}

// Pin returns the pin that brings out the GPIO with that name, such as GP4.
func (m *Module) Pin(gpioName string) (Pin, bool) {
	for _, p := range m.Pins {
		if p.Name == gpioName {
			return p, true
		}
	}
	return Pin{}, false
}

// Can returns the function by which the pin that brings out gpioName can carry s. It is false
// when the module does not bring that GPIO out.
func (m *Module) Can(gpioName string, s part.Signal) (Function, bool) {
	p, ok := m.Pin(gpioName)
	if !ok {
		return Function{}, false
	}
	return m.Chip.Can(p.GPIO, s)
}
