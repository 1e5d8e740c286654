package wiring

import (
	"math"
	"strconv"
	"strings"

	"fascia/design/netlist"
)

// annealedCopper is the resistivity of annealed copper at 20 °C in ohm metres (International
// Annealed Copper Standard, from memory).
const annealedCopper = 1.7241e-8

// bareMM is the diameter of tinned wire for bare runs in millimetres (common practice, no source).
const bareMM = 0.5

// GaugeMM is the diameter in millimetres of a solid wire of American wire gauge n: 0.127 mm at 36,
// and a ratio of 92 over 39 steps.
//
// ASTM B258, definition by geometric progression.
func GaugeMM(n int) float64 { return 0.127 * math.Pow(92, float64(36-n)/39) }

// OhmPerMetre is the resistance of a solid copper wire of this diameter in millimetres at 20 °C.
func OhmPerMetre(diameterMM float64) float64 {
	r := diameterMM / 2 / 1000
	return annealedCopper / (math.Pi * r * r)
}

// gaugeNumber is the gauge of insulated wire for a class of net. Supplies take more copper; matrix
// lines are many and carry microamperes (common practice, no source).
func gaugeNumber(c netlist.Class) int {
	switch c {
	case netlist.Ground, netlist.Supply:
		return 24
	case netlist.Row, netlist.Column:
		return 30
	}
	return 28
}

// awg comes before the number in a wire's gauge.
const awg = "AWG "

// gauge is the number of an insulated wire's gauge: what it says, else the usual one of its class.
func (w *Wire) gauge() int {
	if number, ok := strings.CutPrefix(w.Gauge, awg); ok {
		if n, err := strconv.Atoi(number); err == nil {
			return n
		}
	}
	return gaugeNumber(w.Class)
}

// Ohms is the resistance of a bare or insulated wire from end to end; 0 for legs and bridges.
func (w *Wire) Ohms() float64 {
	switch w.Kind {
	case Bare:
		return OhmPerMetre(bareMM) * w.LengthMM / 1000
	case Insulated:
		return OhmPerMetre(GaugeMM(w.gauge())) * w.LengthMM / 1000
	}
	return 0
}

// MillivoltsLost is the voltage lost in the wire at a current in milliamperes.
func (w *Wire) MillivoltsLost(milliamp float64) float64 { return w.Ohms() * milliamp }
