package reading_test

import (
	"math"
	"slices"
	"testing"

	"fascia/design/circuit"
	"fascia/design/netlist"
	"fascia/design/reading"
	"fascia/design/scan"
)

// TestMargins compares the nearest readings with figures worked out by hand.
func TestMargins(t *testing.T) {
	plain := full(4, 5, "")
	silicon := full(4, 5, "1N4148")
	schottky := full(4, 5, "BAT85")
	high := full(4, 5, "1N4148")
	high.high = true
	leaky := full(4, 5, "1N4148")
	leaky.high, leaky.chip, leaky.stepping = true, "RP2350", "A2"
	tests := []struct {
		name      string
		rig       *rig
		chords    [][]string
		low, high float64
		within    float64
		proper    bool
		source    string
	}{
		{"no diodes", plain, nil, 3.3 * 225 / 50225, 3.3 * (1 - 2*80e3/100e6), 1e-4, true, "Ohm's law: 100 and 125 ohms under 50 k; 80 k against 100 M at the row and at the held key's column"},
		{"silicon", silicon, nil, 0.454 + 57e-6*225, 3.2947, 2e-3, true, "n Vt ln(57 uA / IS) = 0.454 V, over 225 ohms"},
		{"Schottky", schottky, nil, 0.223 + 61e-6*225, 3.296, 2e-3, true, "n Vt ln(61 uA / IS) = 0.223 V, over 225 ohms"},
		{"silicon, active high", high, nil, 0, 3.3 - 0.454 - 57e-6*270, 2e-3, true, "the same from the supply, 270 ohms"},
		{"three keys of a rectangle", plain, [][]string{{"S1", "S2", "S6"}}, 0.0148, 0.003, 0.05, false, "the fourth reads pressed: a ghost"},
		{"a leaking chip", leaky, nil, 2.165, 2.82, 0.03, false, "RP2350 data sheet, appendix E: parks near 2.2 V"},
	}
	for _, tt := range tests {
		m := tt.rig.reader().Margins(tt.chords)
		if math.Abs(m.Low.Volts-tt.low) > tt.within || math.Abs(m.High.Volts-tt.high) > tt.within || (m.Low.Proper && m.High.Proper) != tt.proper {
			t.Errorf("%s: low at most %.4f V (%v), high at least %.4f V (%v); want %.4f and %.4f, proper %v (%s)",
				tt.name, m.Low.Volts, m.Low.Proper, m.High.Volts, m.High.Proper, tt.low, tt.high, tt.proper, tt.source)
		}
		if m.Low.Limit != 0.8 || m.High.Limit != 2 || math.Abs(m.Low.Spare-(0.8-m.Low.Volts)) > 1e-12 || math.Abs(m.High.Spare-(m.High.Volts-2)) > 1e-12 {
			t.Errorf("%s: margins %+v do not fit VIL 0.8 V and VIH 2.0 V (RP2040 data sheet table 622)", tt.name, m)
		}
	}
}

// TestLampUpsets weighs LEDs on select lines: their current lifts a line that is driven low. At 2 mA the
// worst driver (0.5 V at 4 mA) adds 0.25 V to the diode's drop, which still reads low; at 4 mA it does
// not surely.
func TestLampUpsets(t *testing.T) {
	for _, tt := range []struct {
		ohms   float64
		proper bool
	}{{680, true}, {220, false}} {
		r := full(3, 4, "1N4148")
		for j := range r.columns {
			r.lamps = append(r.lamps, rigLamp{j, "red", tt.ohms})
		}
		m := r.reader().Margins(nil)
		if m.Low.Proper != tt.proper || !m.High.Proper {
			t.Errorf("LEDs behind %g ohms: %+v, want proper %v (RP2040 data sheet table 622: VOL, VIL)", tt.ohms, m, tt.proper)
		}
	}
	r := full(1, 2, "") // no diodes: a held row joins both columns, and the lamp of one lifts the other
	r.lamps = []rigLamp{{0, "red", 220}, {1, "red", 220}}
	held := []string{"S1", "S2"}
	if got := r.reader().Read(held); got.Faithful(held) {
		t.Errorf("two keys of a row between two lamps read %+v, want doubt: each lamp also feeds the other's column", got.Keys)
	}
}

// TestSelects compares the currents of select lines with what can be worked out by hand.
func TestSelects(t *testing.T) {
	r := full(3, 2, "1N4148")
	r.lamps = []rigLamp{{1, "red", 330}}
	got := r.reader().Selects()
	if len(got) != 2 || got[0].Net != "column 0" || got[0].LED != "" || got[0].LampMA != 0 || got[1].LED != "D1" {
		t.Fatalf("selects %+v", got)
	}
	lamp := (3.3 - 1.86) / (330 + 40 + 4) * 1000
	keys := 3 * (3.3 - 0.45) / 50e3 * 1000
	for _, tt := range []struct {
		what      string
		got, want float64
		source    string
	}{
		{"lamp", got[1].LampMA, lamp, "Ohm's law: 1.86 V red LED at 3.8 mA, 330 and 40 ohms"},
		{"pin without lamp", got[0].PinMA, keys, "Ohm's law: three rows of 50 k through a diode each"},
		{"pin with lamp", got[1].PinMA, lamp + keys, "Kirchhoff: the sum"},
		{"every key held", got[1].MostMA, lamp + keys, "the diodes keep the other column out"},
	} {
		if math.Abs(tt.got-tt.want) > 0.03*tt.want {
			t.Errorf("%s: %.3f mA, want %.3f (%s)", tt.what, tt.got, tt.want, tt.source)
		}
	}
	r.high = true
	if got := r.reader().Selects()[1]; math.Abs(got.LampMA-lamp) > 0.03*lamp || got.PinMA < got.LampMA {
		t.Errorf("active high: %+v, want the lamp's %.3f mA given", got, lamp)
	}
}

// TestDirect reads keys that have lines of their own, on the chip and on an expander.
func TestDirect(t *testing.T) {
	r := full(0, 0, "")
	r.style = "direct"
	p, s, n, c := r.stages()
	s.Direct = []scan.Direct{{Key: "S1", Pin: "S1.A", Return: "S1.B"}, {Key: "S2", Pin: "S2.A", Return: "S2.B", Via: "U2.GPA0"}}
	got := reading.New(p, s, n, c).Read([]string{"S1", "S2"})
	if !got.Faithful([]string{"S1", "S2"}) || len(got.Lines) != 0 || len(got.Direct) != 2 {
		t.Errorf("both held: %+v", got)
	}
	got = reading.New(p, s, n, c).Read([]string{"S2", "S9"})
	if !got.Faithful([]string{"S2"}) || got.Direct[0].Net != "key S1" || got.Direct[0].Level != circuit.High {
		t.Errorf("S2 held: %+v", got)
	}
	// MCP23017 data sheet DS20001952, table 1-1: 43 to 125 k at 5 V, contact of 100 ohms at most.
	if v := got.Direct[1].Volts; v[1] > 3.3*100/43e3 || v[0] < 0 {
		t.Errorf("S2 held at %v V", v)
	}
}

// TestFloating leaves a line without its pull: what reads it may see anything.
func TestFloating(t *testing.T) {
	r := full(2, 2, "1N4148")
	r.pull = 10e3
	p, s, n, c := r.stages()
	n.Pairs = slices.DeleteFunc(n.Pairs, func(pair netlist.Pair) bool { return pair.Of == "row 1" })
	got := reading.New(p, s, n, c).Read(nil)
	for i, k := range got.Keys {
		want := reading.Released
		if r.keys[i].row == 1 {
			want = reading.Undefined
		}
		if k.State != want {
			t.Errorf("key %s reads %s, want %s: row 1 has no resistor", k.Key, k.State, want)
		}
	}
}
