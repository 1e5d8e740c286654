package reading_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/controller"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/reading"
	"fascia/design/scan"
)

// TestDemoPanels reads the demo panels as they are planned: every key by itself, and every chord that
// has no ghost, just as it is held.
func TestDemoPanels(t *testing.T) {
	for _, d := range demo.All() {
		p := d.Panel
		placed := p.Modules()[0]
		def := p.Definition(placed)
		module, err := controller.FromDefinition(&def)
		if err != nil {
			t.Fatal(err)
		}
		s := scan.Plan(&p, &module.Chip, len(module.Pins))
		pins := pinning.Plan(&p, &module, placed.Ref, &s)
		nets := netlist.List(&p, &s, &pins)
		r := reading.New(&p, &s, &nets, &module.Chip)
		if m := r.Margins(nil); !m.Low.Proper || !m.High.Proper || m.Low.Spare < 0.1 || m.High.Spare < 0.5 {
			t.Errorf("%s: margins %+v", d.ID, m)
		}
		for _, c := range p.Chords {
			keys := c.All()
			logic := scan.Reads(&s, keys)
			got := r.Read(keys)
			if len(logic) == len(keys) && !got.Faithful(keys) {
				t.Errorf("%s, chord %s: %v reads %+v", d.ID, c.Name, keys, got.Keys)
			}
		}
		for _, line := range r.Selects() {
			if line.MostMA <= 0 || line.MostMA > 12 {
				t.Errorf("%s: %+v, want a current between 0 and the 12 mA of the strongest drive", d.ID, line)
			}
		}
	}
}

// TestAnyResult reads scans that make no sense: nothing may panic, and what has no line reads nothing.
func TestAnyResult(t *testing.T) {
	names := []string{"S1", "S2", "S3", "D1", "U1", "R1", "", "S1.A", "."}
	name := rapid.SampledFrom(names)
	rapid.Check(t, func(t *rapid.T) {
		p := panel.New("any")
		for _, ref := range names[:6] {
			if rapid.Bool().Draw(t, "placed") {
				p.Placed = append(p.Placed, panel.Placed{Ref: ref, Part: ref, Value: rapid.SampledFrom([]string{"", "blue", "violet", "4k7", "A2", "x"}).Draw(t, "value"),
					Key: &panel.Key{Legend: ref}})
				p.Parts[ref] = part.Definition{Name: rapid.SampledFrom([]string{"", "BAT85"}).Draw(t, "name"), Kind: rapid.SampledFrom(part.Kinds).Draw(t, "kind"),
					Contacts:  []part.Contact{{Name: "press", Between: [2]string{"A", "B"}}},
					Terminals: []part.Terminal{{Name: "A", Net: rapid.SampledFrom([]string{"", "ground", "3V3"}).Draw(t, "net")}, {Name: "B"}},
					Facts: part.Facts{Ohms: rapid.Float64Range(0, 1e6).Draw(t, "ohms"), ForwardVolts: rapid.Float64Range(0, 9).Draw(t, "volts"),
						ForwardMA: rapid.Float64Range(0, 1e4).Draw(t, "mA"), Chip: "RP2350"}}
			}
		}
		s := &scan.Result{Style: rapid.SampledFrom([]string{"matrix", "mixed", "lines", "direct", "expander", "none", ""}).Draw(t, "style"),
			Rows: rapid.IntRange(-1, 3).Draw(t, "rows"), Columns: rapid.IntRange(-1, 3).Draw(t, "columns"),
			Active: rapid.SampledFrom([]string{"low", "high", ""}).Draw(t, "active"), Pulls: rapid.SampledFrom([]string{"internal", "external", ""}).Draw(t, "pulls")}
		for range rapid.IntRange(0, 5).Draw(t, "cells") {
			s.Cells = append(s.Cells, scan.Cell{Key: name.Draw(t, "key"), Row: rapid.IntRange(-2, 4).Draw(t, "row"), Column: rapid.IntRange(-2, 4).Draw(t, "column"), Diode: rapid.Bool().Draw(t, "diode")})
		}
		for range rapid.IntRange(0, 3).Draw(t, "direct") {
			s.Direct = append(s.Direct, scan.Direct{Key: name.Draw(t, "key"), Pin: name.Draw(t, "pin"), Return: name.Draw(t, "return"), Via: name.Draw(t, "via")})
		}
		for range rapid.IntRange(0, 3).Draw(t, "lamps") {
			s.Lamps = append(s.Lamps, scan.Lamp{Line: rapid.IntRange(-1, 4).Draw(t, "line"), LED: name.Draw(t, "led")})
		}
		var n *netlist.Result
		if rapid.Bool().Draw(t, "nets") {
			n = &netlist.Result{}
			for range rapid.IntRange(0, 4).Draw(t, "pairs") {
				n.Pairs = append(n.Pairs, netlist.Pair{Of: name.Draw(t, "of"), With: name.Draw(t, "with")})
			}
		}
		var chip *controller.Chip
		if c, ok := controller.ChipNamed(rapid.SampledFrom([]string{"", "RP2040", "RP2350"}).Draw(t, "chip")); ok {
			chip = &c
		}
		r := reading.New(&p, s, n, chip)
		got := r.Read(rapid.SliceOf(name).Draw(t, "held"))
		if len(s.Cells) == 0 && len(s.Direct) == 0 && len(got.Keys) > 0 {
			t.Fatalf("no key and %+v", got)
		}
		r.Margins([][]string{{"S1", "S2"}})
		r.Selects()
	})
}

// TestNetwork drives pins as a program may and compares with Ohm's law.
func TestNetwork(t *testing.T) {
	r := full(1, 2, "")
	n := r.reader().Network(reading.Nominal)
	if got := n.Pins(); !slices.Equal(got, []string{"row 0", "column 0", "column 1"}) {
		t.Fatalf("pins %v", got)
	}
	row, _ := n.Pin("row 0")
	left, _ := n.Pin("column 0")
	right, _ := n.Pin("column 1")
	for _, id := range []string{"S1", "S2"} {
		k, ok := n.Key(id)
		if !ok {
			t.Fatalf("no key %s", id)
		}
		n.Press(k, true)
	}
	if _, ok := n.Pin("row 1"); ok {
		t.Error("there is no row 1")
	}
	tests := []struct {
		name             string
		row, left, right reading.Drive
		want             float64
		milliamp         float64 // into column 0
	}{
		{"nothing holds it", reading.HiZ, reading.HiZ, reading.HiZ, 0, 0},
		{"pulled up", reading.PullUp, reading.HiZ, reading.HiZ, 3.3, 0},
		{"pulled down against a column that is high", reading.PullDown, reading.DriveHigh, reading.HiZ, 3.3, -3.3 / 65},
		{"a pull beside a driver", reading.DriveLow | reading.PullUp, reading.HiZ, reading.HiZ, 0, 0},
		{"both pulls", reading.PullUp | reading.PullDown, reading.HiZ, reading.HiZ, 1.65, 0},
		{"columns against each other", reading.PullUp, reading.DriveLow, reading.DriveHigh, 1.65, 3300 / 80.2},
	}
	for _, tt := range tests {
		n.Set(row, tt.row)
		n.Set(left, tt.left)
		n.Set(right, tt.right)
		got := n.Solve()
		if v, ma := got.Volts[row], n.Sinks(left); v < tt.want-0.01 || v > tt.want+0.01 || ma < tt.milliamp-0.1 || ma > tt.milliamp+0.1 {
			t.Errorf("%s: row 0 at %.4f V, column 0 sinks %.3f mA; want %.2f V and %.3f mA (Ohm's law)", tt.name, v, ma, tt.want, tt.milliamp)
		}
		again := fmt.Sprint(n.Solve())
		if first := fmt.Sprint(got); again != first {
			t.Errorf("%s: solved again without a change: %s, then %s", tt.name, first, again)
		}
	}
	n.Set(row, reading.HiZ)
	n.Set(left, reading.HiZ)
	n.Set(right, reading.HiZ)
	if got := n.Solve(); got.Held[row] || got.Levels[row].String() != "undefined" {
		t.Errorf("a row that nothing holds reads %s at %.3f V", got.Levels[row], got.Volts[row])
	}
}
