package reading_test

import (
	"math"
	"testing"

	"fascia/design/circuit"
)

// A twin writes one circuit twice: for the solver and as a deck.
type twin struct {
	c     circuit.Circuit
	d     deck
	nodes map[string]circuit.Node
	names []string
}

func (w *twin) node(name string) circuit.Node {
	if n, ok := w.nodes[name]; ok {
		return n
	}
	n := w.c.Node()
	w.nodes[name] = n
	w.names = append(w.names, name)
	return n
}

func newTwin() *twin {
	w := &twin{nodes: map[string]circuit.Node{"0": circuit.Ground}}
	w.nodes["vdd"] = w.c.Rail(3.3)
	return w
}

func (w *twin) resistor(a, b string, ohms float64) circuit.Branch {
	w.d.resistor(a, b, ohms)
	return w.c.Resistor(w.node(a), w.node(b), ohms)
}

func (w *twin) diode(a, k, name string, ohms float64, of circuit.Diode) {
	w.d.diode(a, k, name, ohms, of)
	w.c.Diode(w.node(a), w.node(k), of.InSeries(ohms))
}

// The models of the table: the small-signal silicon diode is the 1N4148; the Schottky diode and the LED
// are those that give the published figures (IS 0.195 uA, n 1.044; IS 4.6e-18 A, n 2).
var (
	tableSchottky = circuit.Diode{SaturationAmps: 0.195e-6, Emission: 1.044, SeriesOhms: 2}
	tableLED      = circuit.Diode{SaturationAmps: 4.6e-18, Emission: 2, SeriesOhms: 4}
)

// three holds the keys (0,0), (1,0) and (1,1) of a 2 x 2 matrix, column 1 driven low through 40 ohms,
// column 0 let go (1 gigohm). Contacts are 1 ohm, beside a diode 0.1 ohm, and 100 megohms where the key
// is open. first, elbow and last name the diodes of the three, "" for none.
func three(pull float64, first, elbow, last string) func(w *twin) {
	return func(w *twin) {
		w.resistor("vdd", "r0", pull)
		w.resistor("vdd", "r1", pull)
		w.resistor("c0", "0", 1e9)
		w.resistor("c1", "0", 40)
		key := func(row, column, diode string) {
			switch diode {
			case "":
				w.resistor(row, column, 1)
			case "silicon":
				w.diode(row, column, "silicon", 0.1, circuit.Small1N4148)
			default:
				w.diode(row, column, "schottky", 0.1, tableSchottky)
			}
		}
		w.resistor("r0", "c1", 100e6)
		key("r0", "c0", first)
		key("r1", "c0", elbow)
		key("r1", "c1", last)
	}
}

// chain is a line that reaches a driven one through n diodes and the lines between, all pulled up.
func chain(n int) func(w *twin) {
	return func(w *twin) {
		at := []string{"r1", "a", "b", "c"}
		for i := range n {
			w.resistor("vdd", at[i], 65e3)
			w.diode(at[i], at[i+1], "silicon", 1, circuit.Small1N4148)
		}
		w.resistor(at[n], "0", 40)
	}
}

// TestWorkedFigures holds the worked figures of a 2 x 2 matrix against the solver, and against ngspice
// run here and now.
func TestWorkedFigures(t *testing.T) {
	const source = "ngspice 39 run, figures of the deck stated above each case"
	type volts map[string]float64
	tests := []struct {
		name   string
		build  func(w *twin)
		want   volts
		within float64 // half of the last printed digit, and a little
	}{
		{"no diode: a ghost", three(65e3, "", "", ""), volts{"r0": 0.0043, "r1": 0.0042}, 0.6e-4},
		{"a diode at each of the three", three(65e3, "silicon", "silicon", "silicon"), volts{"r0": 3.2975, "r1": 0.4443}, 3e-4},
		{"a diode at the elbow only", three(65e3, "", "silicon", ""), volts{"r0": 3.2975, "r1": 0.0020}, 3e-4},
		{"diodes at the other two", three(65e3, "silicon", "", "silicon"), volts{"r0": 0.908, "r1": 0.473}, 6e-4},
		{"the same, pull 50k", three(50e3, "silicon", "", "silicon"), volts{"r0": 0.932}, 6e-4},
		{"the same, pull 80k", three(80e3, "silicon", "", "silicon"), volts{"r0": 0.889}, 6e-4},
		{"Schottky at each of the three", three(65e3, "schottky", "schottky", "schottky"), volts{"r0": 3.285, "r1": 0.151}, 2e-3},
		{"silicon, pull 4.7k", three(4.7e3, "silicon", "silicon", "silicon"), volts{"r0": 3.2998, "r1": 0.583}, 6e-4},
		{"silicon, pull 1k", three(1e3, "silicon", "silicon", "silicon"), volts{"r0": 3.3000, "r1": 0.731}, 6e-4},
		{"one diode in line", chain(1), volts{"r1": 0.444}, 6e-4},
		{"two diodes in line", chain(2), volts{"r1": 0.908}, 6e-4},
		{"three diodes in line", chain(3), volts{"r1": 1.374}, 6e-4},
		{"an LED and 330 ohms from a row to ground", func(w *twin) {
			w.resistor("vdd", "r0", 65e3)
			w.diode("r0", "0", "led", 330, tableLED)
		}, volts{"r0": 1.53}, 6e-3},
		{"an LED and 330 ohms from the supply to a column let go", func(w *twin) {
			w.resistor("vdd", "r0", 65e3)
			w.resistor("c0", "0", 1e9)
			w.resistor("r0", "c0", 1)
			w.diode("vdd", "c0", "led", 330, tableLED)
		}, volts{"r0": 3.30}, 6e-3},
		{"columns driven against each other", func(w *twin) {
			w.resistor("vdd", "r0", 65e3)
			w.resistor("vdd", "c0", 40)
			w.resistor("c1", "0", 40)
			w.resistor("r0", "c0", 0.1)
			w.resistor("r0", "c1", 0.1)
		}, volts{"r0": 1.65}, 6e-3},
	}
	for _, tt := range tests {
		w := newTwin()
		tt.build(w)
		got := circuit.Solve(&w.c)
		other := w.d.run(t, w.names, "")
		for name, want := range tt.want {
			if v := got.Volts[w.nodes[name]]; math.Abs(v-want) > tt.within {
				t.Errorf("%s: %s at %.5f V, want %.5f (%s)", tt.name, name, v, want, source)
			}
		}
		for _, name := range w.names {
			if v := got.Volts[w.nodes[name]]; math.Abs(v-other[name]) > 3e-4 {
				t.Errorf("%s: %s at %.6f V, ngspice says %.6f now", tt.name, name, v, other[name])
			}
		}
	}
}

// TestContention is why a line that is not selected is let go and not driven: two drivers against each
// other through two keys of one row carry 41 mA.
func TestContention(t *testing.T) {
	w := newTwin()
	w.resistor("vdd", "c0", 40)
	w.resistor("c0", "r0", 0.1)
	w.resistor("r0", "c1", 0.1)
	into := w.resistor("c1", "0", 40)
	if got := circuit.Solve(&w.c).Amps[into] * 1000; math.Abs(got-41) > 0.5 {
		t.Errorf("%.1f mA, want 41 (Ohm's law: 3.3 V over 80.2 ohms)", got)
	}
}
