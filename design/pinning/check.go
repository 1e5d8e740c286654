package pinning

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// Check says in what way pins break the hard rules, in any order of pins; nil when they keep them.
// It shares nothing with Assign but the chip's function table, and takes the module to be the only
// one placed.
func Check(p *panel.Panel, m *controller.Module, signals []signal.Signal, pins []Pin) []string {
	c := checker{panel: p, module: m, pins: map[string]Pin{}}
	c.places(signals, pins)
	for _, s := range signals {
		c.signal(s)
	}
	c.together(signals)
	c.wishes(signals)
	return c.faults
}

type checker struct {
	panel  *panel.Panel
	module *controller.Module
	pins   map[string]Pin // by signal id
	faults []string
}

func (c *checker) fault(text string) { c.faults = append(c.faults, text) }

// places looks at each pin by itself, and that none is used twice.
func (c *checker) places(signals []signal.Signal, pins []Pin) {
	known, users := map[string]bool{}, map[string]string{}
	for _, s := range signals {
		known[s.ID] = true
	}
	for _, pin := range pins {
		if !known[pin.Signal] {
			c.fault(fmt.Sprintf("%s is no signal", pin.Signal))
		}
		if _, again := c.pins[pin.Signal]; again {
			c.fault(fmt.Sprintf("%s has two pins", pin.Signal))
		}
		if user := users[pin.GPIO]; user != "" {
			c.fault(fmt.Sprintf("%s and %s both have %s", user, pin.Signal, pin.GPIO))
		}
		c.pins[pin.Signal], users[pin.GPIO] = pin, pin.Signal
		out, ok := c.module.Pin(pin.GPIO)
		if !ok || out.Terminal != pin.Terminal || out.Number != pin.ModulePin || out.GPIO != pin.Number {
			c.fault(fmt.Sprintf("%s of %s is not what the module brings out there", pin.GPIO, pin.Signal))
		}
		for _, free := range c.panel.Pins.KeepFree {
			if free == pin.GPIO {
				c.fault(fmt.Sprintf("%s has %s, which is to be kept free", pin.Signal, pin.GPIO))
			}
		}
		c.joins(pin)
	}
}

// joins refuses a pin that the maker joined to something else.
func (c *checker) joins(pin Pin) {
	for _, module := range c.panel.Modules() {
		if h, ok := c.panel.HoleOf(panel.TerminalRef{Ref: module.Ref, Terminal: pin.Terminal}); !ok || h != pin.Hole {
			c.fault(fmt.Sprintf("%s of %s is not in hole %s", pin.GPIO, pin.Signal, pin.Hole))
		}
		for _, j := range c.panel.Joins {
			for _, t := range j.Terminals {
				if t == module.Ref+"."+pin.Terminal {
					c.fault(fmt.Sprintf("%s has %s, which join %s uses", pin.Signal, pin.GPIO, j.Name))
				}
			}
		}
	}
}

// signal looks at whether a signal has what it wants.
func (c *checker) signal(s signal.Signal) {
	pin, ok := c.pins[s.ID]
	if !ok {
		if !s.Optional {
			c.fault(fmt.Sprintf("%s has no pin", s.ID))
		}
		return
	}
	f, can := c.module.Can(pin.GPIO, s.Wants)
	if !can {
		c.fault(fmt.Sprintf("%s cannot be %s for %s", pin.GPIO, s.Wants, s.ID))
	}
	name := f.Name
	if s.Run != "" {
		name = "PIO " + s.Direction
	}
	if pin.Function != name {
		c.fault(fmt.Sprintf("%s is said to be %q, is %q", pin.GPIO, pin.Function, name))
	}
	if pull := s.Pull; pin.Pull != pull && !(pull == "" && pin.Pull == "none") {
		c.fault(fmt.Sprintf("%s pulls %s, is to pull %q", s.ID, pin.Pull, pull))
	}
}

// together looks at runs, buses and PWM slices.
func (c *checker) together(signals []signal.Signal) {
	c.runs(signals)
	for i, s := range signals {
		a, ok := c.pins[s.ID]
		if !ok {
			continue
		}
		for _, t := range signals[i+1:] {
			if b, ok := c.pins[t.ID]; ok {
				c.pair(s, t, a, b)
			}
		}
	}
}

// pair looks at two signals and their pins.
func (c *checker) pair(s, t signal.Signal, a, b Pin) {
	fa, _ := c.module.Can(a.GPIO, s.Wants)
	fb, _ := c.module.Can(b.GPIO, t.Wants)
	switch {
	case s.Wants == part.PWM && t.Wants == part.PWM && fa.Instance == fb.Instance:
		c.fault(fmt.Sprintf("%s and %s share a PWM slice", s.ID, t.ID))
	case s.Bus == "" || t.Bus == "" || kindOf(s) != kindOf(t) || s.Run+t.Run != "":
	case kindOf(s) != "I2C" && kindOf(s) != "SPI":
	case (s.Bus == t.Bus) != (fa.Instance == fb.Instance):
		c.fault(fmt.Sprintf("%s of bus %s and %s of bus %s are on %s and %s", s.ID, s.Bus, t.ID, t.Bus, fa.Name, fb.Name))
	}
}

// runs looks at whether the lines of each run have consecutive GPIOs.
func (c *checker) runs(signals []signal.Signal) {
	least, most, lines := map[string]int{}, map[string]int{}, map[string]int{}
	for _, s := range signals {
		pin, ok := c.pins[s.ID]
		if s.Run == "" || !ok {
			continue
		}
		if lines[s.Run] == 0 {
			least[s.Run], most[s.Run] = pin.Number, pin.Number
		}
		least[s.Run], most[s.Run] = min(least[s.Run], pin.Number), max(most[s.Run], pin.Number)
		lines[s.Run]++
	}
	for _, name := range slices.Sorted(maps.Keys(lines)) {
		if most[name]-least[name] >= lines[name] {
			c.fault(fmt.Sprintf("the %d %s lie between GP%d and GP%d", lines[name], name, least[name], most[name]))
		}
	}
}

// kindOf is the kind of bus, I2C or SPI.
func kindOf(s signal.Signal) string {
	kind, _, _ := strings.Cut(string(s.Wants), " ")
	return kind
}

// wishes looks at whether locks hold: each that names a signal and a pin of the module.
func (c *checker) wishes(signals []signal.Signal) {
	for _, name := range slices.Sorted(maps.Keys(c.panel.Pins.Locked)) {
		gpio := c.panel.Pins.Locked[name]
		s, known := named(signals, name)
		if _, out := c.module.Pin(gpio); known && out && c.pins[s.ID].GPIO != gpio {
			c.fault(fmt.Sprintf("%s is locked to %s, has %q", s.ID, gpio, c.pins[s.ID].GPIO))
		}
	}
}

// named finds the signal that has a name as its id, else the first that serves a terminal of that
// name.
func named(signals []signal.Signal, name string) (signal.Signal, bool) {
	for _, s := range signals {
		if s.ID == name {
			return s, true
		}
	}
	for _, s := range signals {
		for _, t := range s.Terminals {
			if t.String() == name {
				return s, true
			}
		}
	}
	return signal.Signal{}, false
}
