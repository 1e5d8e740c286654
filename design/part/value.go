package part

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// multipliers of IEC 60062 and the SI prefixes that parts carry.
var multipliers = map[rune]float64{'p': 1e-12, 'n': 1e-9, 'u': 1e-6, 'µ': 1e-6, 'm': 1e-3,
	'R': 1, 'r': 1, 'k': 1e3, 'K': 1e3, 'M': 1e6}

// ParseValue reads a component value: 220, 4.7k, 4k7, 220R, 100n, 2u2, 1M. The letter may stand in
// place of the decimal point, as IEC 60062 writes it. The value must be positive and finite.
func ParseValue(text string) (float64, error) {
	s := strings.TrimSpace(text)
	for _, unit := range []string{"ohm", "Ohm", "Ω", "F"} {
		s = strings.TrimSpace(strings.TrimSuffix(s, unit))
	}
	scale, digits := 1.0, s
	for i, r := range s {
		m, ok := multipliers[r]
		if !ok {
			continue
		}
		scale = m
		tail := s[i+len(string(r)):]
		digits = strings.TrimSpace(s[:i])
		if tail != "" {
			digits += "." + tail
		}
		break
	}
	if strings.ContainsAny(digits, "eExX_+-") {
		return 0, fmt.Errorf("value %q: write a number such as 220, 4.7k, 4k7 or 100n", text)
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil || !(v*scale > 0) || math.IsInf(v*scale, 0) {
		return 0, fmt.Errorf("value %q: write a number such as 220, 4.7k, 4k7 or 100n", text)
	}
	return v * scale, nil
}

// A Colour is one colour of LED with the forward voltage to plan with at 2 to 5 mA.
type Colour struct {
	Name       string
	PlanVolts  float64
	RangeVolts [2]float64 // at 20 mA
}

// Colours lists the LED colours. Ranges: colour table of a 5 mm LED; plan values from memory.
var Colours = []Colour{
	{"red", 1.8, [2]float64{1.63, 2.03}},
	{"orange", 1.9, [2]float64{2.03, 2.10}},
	{"yellow", 2.0, [2]float64{2.10, 2.18}},
	{"green", 2.0, [2]float64{1.7, 2.6}},
	{"bright green", 2.8, [2]float64{2.8, 3.4}},
	{"blue", 2.8, [2]float64{2.48, 3.7}},
	{"white", 2.9, [2]float64{3.2, 3.6}},
	{"violet", 3.1, [2]float64{2.76, 4.0}},
	{"infrared", 1.2, [2]float64{1.1, 1.6}},
}

// ColourNamed returns the LED colour called name.
func ColourNamed(name string) (Colour, bool) {
	for _, c := range Colours {
		if c.Name == name {
			return c, true
		}
	}
	return Colour{}, false
}
