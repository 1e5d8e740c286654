package circuit

import (
	"fmt"
	"math"
)

// Small1N4148 is a small-signal silicon diode. IS 2.52 nA, n 1.752 and RS 0.568 ohm are the figures
// in common SPICE libraries for the 1N4148; they give 0.44 V at 50 uA, 0.60 V at 1 mA.
var Small1N4148 = Diode{2.52e-9, 1.752, 0.568}

// SchottkyBAT85 is a small Schottky diode, fitted to the greatest forward voltages of the BAT85 data
// sheet (0.24 V at 0.1 mA, 0.32 V at 1 mA, 0.50 V at 30 mA), within 25 mV at 10 mA.
var SchottkyBAT85 = Diode{80e-9, 1.3, 2.5}

// Power1N5819 is a Schottky power diode: figures in common SPICE libraries for the 1N5819. It leaks
// 30 uA, as much as a pull-up gives.
var Power1N5819 = Diode{31.7e-6, 1.373, 0.051}

// ledEmission and ledSeriesOhms shape the curve of an LED round its planned point. Common practice,
// no source: n of 2 makes 0.12 V a decade.
const (
	ledEmission   = 2.0
	ledSeriesOhms = 4.0
)

// LED is a light-emitting diode that drops volts at amps. It panics unless both are positive and
// its series resistance leaves some of the voltage to the junction.
func LED(volts, amps float64) Diode {
	return Fitted(volts, amps, ledEmission, ledSeriesOhms)
}

// Fitted is a diode with that emission coefficient and series resistance that drops volts at amps.
// It panics unless all are finite, volts and amps are positive, and the junction gets a part of the
// voltage.
func Fitted(volts, amps, emission, seriesOhms float64) Diode {
	across := volts - amps*seriesOhms
	if !(amps > 0) || !(across > 0) {
		panic(fmt.Sprintf("circuit: no diode drops %g V at %g A", volts, amps))
	}
	d := Diode{1, emission, seriesOhms}
	d.SaturationAmps = amps / math.Expm1(across/d.slope())
	if !d.valid() {
		panic(fmt.Sprintf("circuit: no diode drops %g V at %g A", volts, amps))
	}
	return d
}
