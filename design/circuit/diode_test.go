package circuit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestForwardVolts compares the named diodes with data sheets.
func TestForwardVolts(t *testing.T) {
	tests := []struct {
		name       string
		of         Diode
		amps, want float64
		within     float64
		source     string
	}{
		{"1N4148", Small1N4148, 0.1e-3, 0.5, 0.04, "1N4148 curve reading, from memory"},
		{"1N4148", Small1N4148, 1e-3, 0.6, 0.04, "1N4148 curve reading, from memory"},
		{"1N4148", Small1N4148, 10e-3, 0.72, 0.04, "1N4148 curve reading, from memory"},
		{"BAT85", SchottkyBAT85, 0.1e-3, 0.24, 0.01, "BAT85 data sheet, greatest forward voltage"},
		{"BAT85", SchottkyBAT85, 1e-3, 0.32, 0.01, "BAT85 data sheet, greatest forward voltage"},
		{"BAT85", SchottkyBAT85, 10e-3, 0.40, 0.025, "BAT85 data sheet, greatest forward voltage"},
		{"BAT85", SchottkyBAT85, 30e-3, 0.50, 0.025, "BAT85 data sheet, greatest forward voltage"},
		{"1N5819", Power1N5819, 1, 0.45, 0.15, "1N5819 data sheet: 0.60 V at most at 1 A"},
		{"1N5819", Power1N5819, 10e-3, 0.2, 0.05, "1N5819 at 10 to 100 mA, from memory"},
	}
	for _, tt := range tests {
		if got := tt.of.Volts(tt.amps); math.Abs(got-tt.want) > tt.within {
			t.Errorf("%s drops %.3f V at %g A, want %.3f within %g (%s)", tt.name, got, tt.amps, tt.want, tt.within, tt.source)
		}
	}
}

// TestFitted makes sure that a fitted diode goes through its point.
func TestFitted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		volts := rapid.Float64Range(0.2, 4).Draw(t, "volts")
		amps := rapid.Float64Range(1e-6, 20e-3).Draw(t, "amps")
		if got := LED(volts, amps).Volts(amps); math.Abs(got-volts) > 1e-9 {
			t.Fatalf("an LED of %g V at %g A drops %g V", volts, amps, got)
		}
	})
}

// TestJunction compares where the junction is taken to be with halving.
func TestJunction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(models).Draw(t, "diode")
		volts := rapid.Float64Range(-4, 4).Draw(t, "volts")
		amps, _ := d.at(d.junction(volts))
		if want := through(d, volts); math.Abs(amps-want) > 1e-12+1e-6*math.Abs(want) {
			t.Fatalf("%+v carries %g A at %g V, want %g", d, amps, volts, want)
		}
	})
}
