package circuit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// hump drives a node between 1 V and 2 V with 1 mA, and with less beside that: 0 A below 0.8 V and
// above 2.2 V.
var hump = NewLaw(Point{0.8, 0}, Point{1, 1e-3}, Point{2, 1e-3}, Point{2.2, 0})

func TestLaw(t *testing.T) {
	for volts, want := range map[float64]float64{-1: 0, 0.8: 0, 0.9: 0.5e-3, 1: 1e-3, 1.5: 1e-3, 2.1: 0.5e-3, 2.2: 0, 9: 0} {
		if got := hump.At(volts); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %g V %g A, want %g (straight lines between the points)", volts, got, want)
		}
	}
	if got := NewLaw(Point{1, 2}).At(-5); got != 2 {
		t.Errorf("a law of one point gives %g A, want 2 everywhere", got)
	}
}

// TestRestsWhereItCameFrom has a node that can rest in two ways: the answer is the one on its side
// of the hump, as of a pin with a little capacitance. Voltages are where the straight lines cross.
func TestRestsWhereItCameFrom(t *testing.T) {
	tests := []struct {
		name              string
		ohms, start, want float64
	}{
		{"weak pull, from below", 10e3, 0, 0},
		{"weak pull, from just below the hump", 10e3, 0.79, 0},
		{"weak pull, from above", 10e3, 3.3, 2.2 * (10e3 / (10e3 + 200))}, // v/R = (2.2-v)/200
		{"weak pull, from the middle", 10e3, 1.5, 2.2 * (10e3 / (10e3 + 200))},
		{"middling pull, from above", 1500, 3.3, 1.5}, // v/R = 1 mA
		{"strong pull, from above", 900, 3.3, 0},      // the hump lies below the pull all along
		{"strong pull, from the middle", 900, 1.5, 0},
		{"pull that the rising part all but outruns", 1000 * 1.0001, 3.3, 1.0001}, // v/R = 1 mA, a hair above 1 V
	}
	for _, tt := range tests {
		c := &Circuit{}
		n := c.Node()
		c.Resistor(n, Ground, tt.ohms)
		b := c.Leak(n, hump)
		var s Solver
		got := s.Solve(c, []float64{0, tt.start})
		if got.Verdict != Settled || math.Abs(got.Volts[n]-tt.want) > 1e-5 {
			t.Errorf("%s: %s at %.6f V after %d iterations, want %.6f", tt.name, got.Verdict, got.Volts[n], got.Iterations, tt.want)
		}
		if want := hump.At(got.Volts[n]); math.Abs(got.Amps[b]-want) > 1e-9 {
			t.Errorf("%s: the leak gives %g A, want %g", tt.name, got.Amps[b], want)
		}
	}
}

// TestLevels reads voltages against the limits of an input.
func TestLevels(t *testing.T) {
	limits := Thresholds{Low: 0.8, High: 2}
	for volts, want := range map[float64]Level{-0.1: Low, 0: Low, 0.8: Low, 0.8001: Undefined, 1.9999: Undefined, 2: High, 3.3: High} {
		if got := limits.Level(volts); got != want {
			t.Errorf("%g V reads %s, want %s (RP2040 data sheet table 622: VIL 0.8 V, VIH 2.0 V)", volts, got, want)
		}
	}
	if got := limits.Level(math.NaN()); got != Undefined {
		t.Errorf("no number reads %s", got)
	}
}

// TestRestsInOrder compares the rests of random circuits with humps: the one from below all rails lies
// nowhere above the one from above them, a rest from anywhere lies between, and all are rests. A rest at which the rising current
// barely dies away is found to a fraction of a millivolt only.
func TestRestsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		for i := range r.elements {
			if r.elements[i].kind == isLeak {
				r.elements[i].law = hump
			}
		}
		c, at := r.build(counting(len(r.rails)+r.free), counting(len(r.elements)))
		from := func(volts float64) []float64 {
			start := make([]float64, c.Nodes())
			for n := range start {
				start[n] = volts
			}
			return new(Solver).Solve(c, start).Volts
		}
		low, high := from(-2), from(3.3)
		some := new(Solver).Solve(c, rapid.SliceOfN(rapid.Float64Range(-2, 3.3), c.Nodes(), c.Nodes()).Draw(t, "start"))
		if some.Verdict != Settled {
			t.Fatalf("%s after %d iterations", some.Verdict, some.Iterations)
		}
		for n := range low {
			if v := some.Volts[n]; low[n] > v+1e-3 || v > high[n]+1e-3 {
				t.Fatalf("node %d rests at %.6f V from below, %.6f from anywhere, %.6f from above", n, low[n], v, high[n])
			}
		}
		for i, e := range r.elements {
			if e.kind == isLeak && math.Abs(some.Amps[i]-hump.At(some.Volts[at[e.a]])) > 1e-7 {
				t.Fatalf("leak %d gives %g A at %g V, want %g", i, some.Amps[i], some.Volts[at[e.a]], hump.At(some.Volts[at[e.a]]))
			}
		}
	})
}
