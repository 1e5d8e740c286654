package part

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestSeriesAgainstIEC60063 states the tables once more, E24 as IEC 60063 builds it from E12.
func TestSeriesAgainstIEC60063(t *testing.T) {
	between := Series{11, 13, 16, 20, 24, 30, 36, 43, 51, 62, 75, 91}
	both := slices.Sorted(slices.Values(slices.Concat(E12, between)))
	if !slices.Equal(both, E24) {
		t.Errorf("E24 = %v, want E12 and the values between: %v", E24, both)
	}
	for i, v := range E6 {
		if E12[2*i] != v {
			t.Errorf("E6 value %d is not every second of E12", v)
		}
	}
	if len(E6) != 6 || len(E12) != 12 || len(E24) != 24 {
		t.Errorf("lengths %d, %d, %d", len(E6), len(E12), len(E24))
	}
}

// TestSeriesAreNotRoundings: which values of E24 differ from the rounded power 10^(k/24). The list
// is that of the preferred values as standardised, against the formula; computed.
func TestSeriesAreNotRoundings(t *testing.T) {
	var differ Series
	for k, v := range E24 {
		if int(math.Round(10*math.Pow(10, float64(k)/24))) != v {
			differ = append(differ, v)
		}
	}
	if want := (Series{27, 30, 33, 36, 39, 43, 47, 82}); !slices.Equal(differ, want) {
		t.Errorf("values that are no plain roundings: %v, want %v", differ, want)
	}
}

// TestLEDResistor works the sums R = (Vs - VF) / I of the 5 mm LED page and picks from the IEC
// 60063 tables, the next higher each.
func TestLEDResistor(t *testing.T) {
	tests := []struct {
		supply, forward, milliamp, exact       float64
		e24, e24Milliamp, e12, e12Milliamp, mW float64
	}{
		{3.3, 1.8, 2, 750, 750, 2.00, 820, 1.83, 3.0},
		{3.3, 2.0, 5, 260, 270, 4.81, 270, 4.81, 6.3},
		{5.0, 2.0, 10, 300, 300, 10.0, 330, 9.09, 30},
		{3.3, 2.9, 2, 200, 200, 2.00, 220, 1.82, 0.8},
		{5.0, 3.2, 5, 360, 360, 5.00, 390, 4.62, 9.0},
	}
	for _, tt := range tests {
		r, ok := LEDResistor(tt.supply, tt.forward, tt.milliamp)
		if !ok || math.Abs(r-tt.exact) > 1e-6 {
			t.Errorf("LEDResistor(%g, %g, %g) = %g, %v; want %g", tt.supply, tt.forward, tt.milliamp, r, ok, tt.exact)
		}
		if got := E24.Next(r); got != tt.e24 {
			t.Errorf("E24 above %g = %g, want %g", r, got, tt.e24)
		}
		if got := E12.Next(r); got != tt.e12 {
			t.Errorf("E12 above %g = %g, want %g", r, got, tt.e12)
		}
		i := LEDCurrent(tt.supply, tt.forward, tt.e24)
		if math.Abs(i-tt.e24Milliamp) > 0.005 {
			t.Errorf("%g V, %g V, %g ohms: %.3f mA, want %.2f", tt.supply, tt.forward, tt.e24, i, tt.e24Milliamp)
		}
		if power := i * (tt.supply - tt.forward); math.Abs(power-tt.mW) > 0.05 {
			t.Errorf("%g ohms turn %.2f mW into heat, want %.1f", tt.e24, power, tt.mW)
		}
		if i := LEDCurrent(tt.supply, tt.forward, tt.e12); math.Abs(i-tt.e12Milliamp) > 0.005 {
			t.Errorf("%g V, %g V, %g ohms: %.3f mA, want %.2f", tt.supply, tt.forward, tt.e12, i, tt.e12Milliamp)
		}
	}
}

// TestLEDSensitivity: a white LED on 3.3 V through 220 ohms (computed with the same formula).
func TestLEDSensitivity(t *testing.T) {
	for forward, want := range map[float64]float64{2.7: 2.7, 2.9: 1.8, 3.1: 0.9} {
		if got := LEDCurrent(3.3, forward, 220); math.Abs(got-want) > 0.05 {
			t.Errorf("forward %g V: %.2f mA, want %.1f", forward, got, want)
		}
	}
	if got := LEDCurrent(3.3, 3.4, 220); got != 0 {
		t.Errorf("above the supply: %g mA, want 0", got)
	}
	for _, bad := range [][3]float64{{3.3, 3.3, 2}, {3.3, 3.4, 2}, {3.3, 1.8, 0}, {3.3, 1.8, -1}, {math.NaN(), 1.8, 2}} {
		if r, ok := LEDResistor(bad[0], bad[1], bad[2]); ok {
			t.Errorf("LEDResistor%v = %g, want a refusal", bad, r)
		}
	}
}

func TestNearest(t *testing.T) {
	tests := []struct {
		series Series
		ohms   float64
		want   float64
		why    string // computed on a logarithmic scale
	}{
		{E12, 100, 100, "a preferred value is its own nearest"},
		{E12, 91, 100, "82 to 100 is split at 90.55"},
		{E12, 90, 82, "82 to 100 is split at 90.55"},
		{E6, 82, 68, "68 to 100 is split at 82.46, not at the middle 84"},
		{E6, 83, 100, "68 to 100 is split at 82.46"},
		{E24, 0.105, 0.11, "0.10 to 0.11 is split at 0.10488"},
		{E24, 4700, 4700, "a preferred value is its own nearest"},
		{E12, 5.13e6, 4.7e6, "4.7 to 5.6 is split at 5.1303"},
	}
	for _, tt := range tests {
		if got := tt.series.Nearest(tt.ohms); math.Abs(got/tt.want-1) > 1e-12 {
			t.Errorf("nearest to %g = %g, want %g: %s", tt.ohms, got, tt.want, tt.why)
		}
	}
}

// TestSeriesProperties: Next is a preferred value, not below what was asked, and nothing preferred
// lies between; Nearest is Next or the value below it.
func TestSeriesProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]Series{E6, E12, E24}).Draw(t, "series")
		ohms := math.Pow(10, rapid.Float64Range(-2.9, 11.9).Draw(t, "log"))
		next := s.Next(ohms)
		if next < ohms*(1-1e-8) || s.Next(next) != next {
			t.Fatalf("Next(%g) = %g, whose own next is %g", ohms, next, s.Next(next))
		}
		if below := next * 0.99; s.Next(below) != next {
			t.Fatalf("Next(%g) = %g, though Next(%g) = %g", ohms, next, below, s.Next(below))
		}
		near := s.Nearest(ohms)
		if near != next && s.Next(near*1.001) != next {
			t.Fatalf("Nearest(%g) = %g is not beside Next = %g", ohms, near, next)
		}
	})
}

func TestSeriesPanicsOnNoResistance(t *testing.T) {
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), 1e-4} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("Next(%g) did not panic", bad)
				}
			}()
			E24.Next(bad)
		}()
	}
}
