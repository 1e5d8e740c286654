package circuit

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestSolve compares with formulas that can be worked out by hand.
func TestSolve(t *testing.T) {
	tests := []struct {
		name, source string
		build        func(c *Circuit) Node
		want         float64
		within       float64
	}{
		{"divider", "Ohm's law: 3.3 V x 2k / 3k", func(c *Circuit) Node {
			n := c.Node()
			c.Source(n, 3.3, 1000)
			c.Resistor(n, Ground, 2000)
			return n
		}, 2.2, 1e-6},
		{"bridge in balance", "Wheatstone: no current in the middle", func(c *Circuit) Node {
			n, m := c.Node(), c.Node()
			c.Source(n, 3, 100)
			c.Resistor(n, Ground, 200)
			c.Source(m, 3, 1000)
			c.Resistor(m, Ground, 2000)
			c.Resistor(n, m, 7)
			return m
		}, 2, 1e-6},
		{"node that nothing holds", "leakage of 1e-12 S to ground at both ends", func(c *Circuit) Node {
			n, m := c.Node(), c.Node()
			c.Resistor(n, m, 10)
			return n
		}, 0, 1e-9},
		{"ideal diode under a current of 1 mA", "V = n Vt ln(I / IS + 1)", func(c *Circuit) Node {
			n := c.Node()
			c.Leak(n, NewLaw(Point{0, 1e-3}))
			c.Diode(n, Ground, Diode{1e-14, 1, 0})
			return n
		}, 0.02586499 * math.Log(1e11+1), 1e-5},
		{"reverse diode", "I = -IS over 10 megohms", func(c *Circuit) Node {
			n := c.Node()
			c.Resistor(n, Ground, 1e7)
			c.Diode(n, c.Rail(3.3), Small1N4148)
			return n
		}, 2.52e-9 * 1e7, 1e-4},
		{"both ends on one node", "carries nothing", func(c *Circuit) Node {
			n := c.Node()
			c.Source(n, 1, 50)
			c.Resistor(n, n, 1)
			c.Diode(n, n, Small1N4148)
			c.Resistor(n, Ground, 50)
			return n
		}, 0.5, 1e-6},
	}
	for _, tt := range tests {
		c := &Circuit{}
		n := tt.build(c)
		got := Solve(c)
		if got.Verdict != Settled || math.Abs(got.Volts[n]-tt.want) > tt.within {
			t.Errorf("%s: %s, %.6f V after %d iterations; want %.6f (%s)", tt.name, got.Verdict, got.Volts[n], got.Iterations, tt.want, tt.source)
		}
	}
}

// TestCurrentsSumToNothing checks Kirchhoff's current law at every free node of random circuits,
// each current worked out anew from the voltages.
func TestCurrentsSumToNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		c, at := r.build(counting(len(r.rails)+r.free), counting(len(r.elements)))
		got := Solve(c)
		if got.Verdict != Settled {
			t.Fatalf("%s after %d iterations", got.Verdict, got.Iterations)
		}
		into := make([]float64, c.Nodes())
		most := make([]float64, c.Nodes())
		flow := func(a, b Node, amps float64) {
			into[a], into[b] = into[a]-amps, into[b]+amps
			most[a], most[b] = max(most[a], math.Abs(amps)), max(most[b], math.Abs(amps))
		}
		for i, e := range r.elements {
			a, b := at[e.a], at[e.b]
			var amps float64
			switch e.kind {
			case isResistor:
				amps = (got.Volts[a] - got.Volts[b]) / e.ohms
				flow(a, b, amps)
			case isDiode:
				amps = through(e.model, got.Volts[a]-got.Volts[b])
				flow(a, b, amps)
			case isLeak:
				amps = e.law.At(got.Volts[a])
				flow(Ground, a, amps)
			}
			if told := got.Amps[i]; math.Abs(told-amps) > 1e-10+1e-4*math.Abs(amps) {
				t.Fatalf("branch %d carries %g A, the voltages say %g", i, told, amps)
			}
		}
		for n := Node(1); int(n) < c.Nodes(); n++ {
			if _, fixed := c.fixed(n); !fixed && math.Abs(into[n]-got.Volts[n]*nodeSiemens) > 1e-11+1e-6*most[n] {
				t.Fatalf("%g A flow into node %d at %g V, of %g A", into[n], n, got.Volts[n], most[n])
			}
		}
	})
}

// TestOrderDoesNotMatter builds a circuit twice, its nodes and elements in different orders.
func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		names, order := counting(len(r.rails)+r.free), counting(len(r.elements))
		c, at := r.build(names, order)
		d, there := r.build(rapid.Permutation(names).Draw(t, "names"), rapid.Permutation(order).Draw(t, "order"))
		one, two := Solve(c), Solve(d)
		for i := range at {
			if v, w := one.Volts[at[i]], two.Volts[there[i]]; math.Abs(v-w) > 1e-5 {
				t.Fatalf("node %d has %.7f V in one order and %.7f V in another", i, v, w)
			}
		}
	})
}

// TestStartDoesNotMatter begins from random voltages and with a solver that was used before.
func TestStartDoesNotMatter(t *testing.T) {
	var used Solver
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		c, _ := r.build(counting(len(r.rails)+r.free), counting(len(r.elements)))
		cold := Solve(c)
		start := rapid.SliceOfN(rapid.Float64Range(-6, 6), 0, c.Nodes()+2).Draw(t, "start")
		warm := used.Solve(c, start)
		if warm.Verdict != Settled {
			t.Fatalf("%s after %d iterations", warm.Verdict, warm.Iterations)
		}
		for n := range cold.Volts {
			if math.Abs(cold.Volts[n]-warm.Volts[n]) > 1e-5 {
				t.Fatalf("node %d has %.7f V from nothing and %.7f V from %v", n, cold.Volts[n], warm.Volts[n], start)
			}
		}
		again := used.Solve(c, warm.Volts)
		if !slices.EqualFunc(again.Volts, cold.Volts, func(v, w float64) bool { return math.Abs(v-w) < 1e-5 }) {
			t.Fatalf("from its own answer: %v, want %v", again.Volts, cold.Volts)
		}
	})
}

// TestVoltagesStayBetween makes sure that no node of a circuit without leaks leaves its rails.
func TestVoltagesStayBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		r.elements = slices.DeleteFunc(r.elements, func(e ingredient) bool { return e.kind == isLeak })
		c, _ := r.build(counting(len(r.rails)+r.free), counting(len(r.elements)))
		for n, v := range Solve(c).Volts {
			if v > 3.3+1e-5 || v < -2-1e-5 {
				t.Fatalf("node %d has %g V between rails of -2 and 3.3 V", n, v)
			}
		}
	})
}

// TestHeld tells which nodes an input's leakage could move.
func TestHeld(t *testing.T) {
	c := &Circuit{}
	pulled, far, weak, behind, lit, loose := c.Node(), c.Node(), c.Node(), c.Node(), c.Node(), c.Node()
	c.Source(pulled, 3.3, 80e3)
	c.Resistor(pulled, far, 100)
	c.Source(weak, 3.3, 100e6)
	c.Diode(behind, pulled, Small1N4148) // backward
	c.Diode(c.Rail(3.3), lit, LED(1.8, 2e-3).InSeries(330))
	c.Resistor(lit, Ground, 1000)
	c.Resistor(loose, weak, 1)
	got := Solve(c)
	want := map[Node]bool{Ground: true, pulled: true, far: true, weak: false, behind: false, lit: true, loose: false}
	for n, held := range want {
		if got.Held[n] != held {
			t.Errorf("node %d held: %v, want %v", n, got.Held[n], held)
		}
	}
}

// TestRefusals makes sure that a circuit that makes no sense is the caller's bug.
func TestRefusals(t *testing.T) {
	for name, deed := range map[string]func(c *Circuit){
		"no resistance":       func(c *Circuit) { c.Resistor(c.Node(), Ground, 0) },
		"not a number":        func(c *Circuit) { c.Resistor(c.Node(), Ground, math.NaN()) },
		"endless rail":        func(c *Circuit) { c.Rail(math.Inf(1)) },
		"node of another":     func(c *Circuit) { c.Resistor(7, Ground, 1) },
		"diode of nothing":    func(c *Circuit) { c.Diode(c.Node(), Ground, Diode{}) },
		"leak without a law":  func(c *Circuit) { c.Leak(c.Node(), nil) },
		"law that goes back":  func(*Circuit) { NewLaw(Point{1, 0}, Point{1, 1}) },
		"law without points":  func(*Circuit) { NewLaw() },
		"LED without current": func(*Circuit) { LED(1.8, 0) },
		"LED of no voltage":   func(*Circuit) { LED(0.001, 2e-3) },
		"backward forward":    func(*Circuit) { Small1N4148.Volts(-1) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			deed(&Circuit{})
		})
	}
}
