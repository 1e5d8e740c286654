package wiring_test

import (
	"slices"
	"testing"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/wiring"
)

// Lengths, cuts and gauges. Cut of an insulated wire: way, 2 x (strip 4 + slack 3), and 5 % of all;
// of a bare run: way and 2 x 3. Both common practice, no source; rounded up to whole millimetres.
func TestLengths(t *testing.T) {
	tests := []struct {
		name        string
		pic         picture
		kind        wiring.Kind
		length, cut float64
		gauge       string
	}{
		{"bare run of 3 holes", picture{rows: []string{"A..A"}}, wiring.Bare, 7.62, 14, "0.5 mm tinned"},
		{"insulated wire of 4 holes", picture{board: oneFace, rows: []string{"A.x.A", "..x.."}}, wiring.Insulated, 10.16, 26, "AWG 28"},
		{"solder", picture{rows: []string{"AA"}}, wiring.Solder, 2.54, 0, ""},
		{"leg across 3 by 2 holes", picture{metal: [][]string{{"A1", "A2"}}, rows: []string{"A...", "....", "...A"}}, wiring.Leg, 9.16, 0, ""},
	}
	for _, tt := range tests {
		d := tt.pic.draw()
		r := d.route()
		if len(r.Wires) != 1 {
			t.Errorf("%s: %d wires", tt.name, len(r.Wires))
			continue
		}
		w := r.Wires[0]
		if w.Kind != tt.kind || w.LengthMM != tt.length || w.CutMM != tt.cut || w.Gauge != tt.gauge {
			t.Errorf("%s: %s %v mm, cut %v mm, %q; want %s %v, %v, %q", tt.name, w.Kind, w.LengthMM, w.CutMM, w.Gauge, tt.kind, tt.length, tt.cut, tt.gauge)
		}
	}
}

// TestThroughLink: a link through one hole of an unplated board.
func TestThroughLink(t *testing.T) {
	d := picture{board: unplated, rows: []string{"A..a"}}.draw()
	r := d.route()
	i := slices.IndexFunc(r.Wires, func(w wiring.Wire) bool { return w.Through })
	if i < 0 {
		t.Fatalf("no link in %q", spell(r.Wires))
	}
	w := r.Wires[i]
	if w.From != w.To || len(w.Path) != 1 || w.Path[0] != w.From || w.Face != grid.Back || w.LengthMM != 0 || w.CutMM != 8 || w.Kind != wiring.Bare {
		t.Errorf("link %+v; want bare, one hole, back, length 0, cut 8 mm: laminate of 1.6 and 2 x 3", w)
	}
}

// TestColours: letters of IEC 60757; which colour for what is common practice, no source.
func TestColours(t *testing.T) {
	shelf := part.BuiltIn()
	p := panel.New("colours")
	p.Boards[0].Columns, p.Boards[0].Rows = 60, 60
	for i, pl := range []panel.Placed{
		{Ref: "U1", Part: "module40-rp2040"}, {Ref: "U2", Part: "oled096-spi7"}, {Ref: "U3", Part: "oled096-i2c"},
		{Ref: "D1", Part: "led5"}, {Ref: "LS1", Part: "piezo12"}, {Ref: "S1", Part: "tact6"}, {Ref: "ENC1", Part: "encoder-push"},
		{Ref: "J1", Part: "joystick-carrier"},
	} {
		pl.At = grid.Hole{Col: 2, Row: 2 * i}
		p.Parts[pl.Part] = shelf[pl.Part]
		p.Placed = append(p.Placed, pl)
	}
	term := func(ref, name string) netlist.Terminal {
		h, ok := p.HoleOf(panel.TerminalRef{Ref: ref, Terminal: name})
		if !ok {
			t.Fatalf("no %s.%s", ref, name)
		}
		return netlist.Terminal{TerminalRef: panel.TerminalRef{Ref: ref, Terminal: name}, Hole: h, OneNode: true}
	}
	tests := []struct {
		name  string
		class netlist.Class
		end   [2]string
		want  string
	}{
		{"ground", netlist.Ground, [2]string{"U2", "GND"}, "BK"}, {"3V3", netlist.Supply, [2]string{"U2", "VCC"}, "OG"},
		{"5V", netlist.Supply, [2]string{"U2", "VCC"}, "RD"}, {"VSYS", netlist.Supply, [2]string{"U2", "VCC"}, "RD"},
		{"battery +", netlist.Supply, [2]string{"U2", "VCC"}, "RD"}, {"row 0", netlist.Row, [2]string{"S1", "A1"}, "WH"},
		{"column 0", netlist.Column, [2]string{"S1", "B1"}, "BU"}, {"display SCL", netlist.Signal, [2]string{"U3", "SCL"}, "YE"},
		{"display SDA", netlist.Signal, [2]string{"U3", "SDA"}, "GN"}, {"display D0", netlist.Signal, [2]string{"U2", "D0"}, "YE"},
		{"display D1", netlist.Signal, [2]string{"U2", "D1"}, "GN"}, {"display DC", netlist.Signal, [2]string{"U2", "DC"}, "GY"},
		{"LED A", netlist.Signal, [2]string{"D1", "A"}, "VT"}, {"piezo 1", netlist.Signal, [2]string{"LS1", "1"}, "BN"},
		{"key S1", netlist.Signal, [2]string{"S1", "A1"}, "PK"}, {"encoder S1", netlist.Signal, [2]string{"ENC1", "S1"}, "PK"},
		{"encoder A", netlist.Signal, [2]string{"ENC1", "A"}, "TQ"}, {"joystick X", netlist.Signal, [2]string{"J1", "X"}, "TQ"},
	}
	for _, tt := range tests {
		n := netlist.Net{Name: tt.name, Class: tt.class, Terminals: []netlist.Terminal{term(tt.end[0], tt.end[1]), term("U1", "GP0")}}
		if got := wiring.Colour(&p, &n); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

// TestOrderOfWork: bridges and bare runs before insulated wires; matrix lines, supplies, signals.
// Order of assembly: common practice, no source.
func TestOrderOfWork(t *testing.T) {
	p := console(3, 4)
	x := planUp(p)
	r := wiring.Route(p, &x.fit, &x.nets)
	rank := map[netlist.Class]int{netlist.Row: 0, netlist.Column: 1, netlist.Ground: 2, netlist.Supply: 3, netlist.Signal: 4, netlist.Link: 5}
	step, last := 0, -1
	for _, w := range r.Wires {
		if w.Kind == wiring.Leg {
			if w.Step != 0 || step > 0 {
				t.Errorf("leg bridge %s-%s has step %d after step %d", w.From, w.To, w.Step, step)
			}
			continue
		}
		step++
		if w.Step != step {
			t.Errorf("step %d comes as number %d", w.Step, step)
		}
		at := rank[w.Class]
		if w.Kind == wiring.Insulated {
			at += 10
		}
		if at < last {
			t.Errorf("step %d, %s of %s, comes too late", w.Step, w.Kind, w.Net)
		}
		last = at
	}
}

func TestRouteRepeats(t *testing.T) {
	p := console(4, 6)
	x := planUp(p)
	a, b := wiring.Route(p, &x.fit, &x.nets), wiring.Route(p, &x.fit, &x.nets)
	if !slices.EqualFunc(a.Wires, b.Wires, func(v, w wiring.Wire) bool {
		return v.Net == w.Net && v.Kind == w.Kind && v.Step == w.Step && slices.Equal(v.Path, w.Path)
	}) || a.Cost != b.Cost {
		t.Error("two runs on one panel differ")
	}
}
