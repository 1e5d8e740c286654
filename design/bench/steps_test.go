package bench_test

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/bench"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/plan"
	"fascia/design/scan"
	"fascia/design/wiring"
)

// Each part and each wire is one step, no two steps share an id, and what covers a joint comes
// after it.
func TestOrder(t *testing.T) {
	for _, d := range demo.All() {
		p := d.Panel
		pl := plan.Make(&p)
		place := map[string]int{}
		for i, s := range pl.Steps {
			if _, twice := place[s.ID]; twice {
				t.Errorf("%s: two steps are %q", d.ID, s.ID)
			}
			place[s.ID] = i
		}
		solder := map[string]int{}
		wire := map[int]int{}
		for i, s := range pl.Steps {
			if strings.HasPrefix(s.ID, "part ") {
				solder[s.Refs[0]] = i
			}
			if s.Wire > 0 {
				wire[s.Wire] = i
			}
		}
		if len(solder) != len(p.Placed) {
			t.Errorf("%s: %d of %d parts have a step", d.ID, len(solder), len(p.Placed))
		}
		for _, o := range pl.Fit.Orders {
			if solder[o.First] > solder[o.Then] {
				t.Errorf("%s: %s is soldered after %s, which covers its joint at %s", d.ID, o.First, o.Then, o.Hole)
			}
		}
		for _, w := range pl.Wiring.Wires {
			if _, ok := wire[w.Step]; !ok && w.Kind != wiring.Leg {
				t.Errorf("%s: wire %d of %s has no step", d.ID, w.Step, w.Net)
			}
		}
		if pl.Steps[0].Stage != bench.Safety {
			t.Errorf("%s: the work begins with %q, not with the cautions", d.ID, pl.Steps[0].Stage)
		}
	}
}

// A resistor that lies flat under a socketed module is soldered before the module's sockets.
func TestLowestFirst(t *testing.T) {
	p := demo.All()[0].Panel
	pl := plan.Make(&p)
	var order []string
	for _, s := range pl.Steps {
		if strings.HasPrefix(s.ID, "part ") {
			order = append(order, s.Refs[0])
		}
	}
	if slices.Index(order, "R1") > slices.Index(order, "S1") || slices.Index(order, "S20") > slices.Index(order, "U2") {
		t.Errorf("order is %v: want resistors, then keys, then the display", order)
	}
	last := pl.Steps[len(pl.Steps)-1]
	if last.Stage != bench.Plug || last.Refs[0] != "U1" {
		t.Errorf("the last step is %q; want the module plugged in after the meter", last.Title)
	}
}

// A cell brings its own caution before the work, and its connector comes after all other soldering.
func TestCellCautions(t *testing.T) {
	p, _, err := panel.Apply(demo.All()[0].Panel, &panel.Place{Placed: panel.Placed{Ref: "J1", Part: "battery-ph2", At: grid.MustHole("AA45")}})
	if err != nil {
		t.Fatal(err)
	}
	steps := plan.Make(&p).Steps
	if !slices.ContainsFunc(steps, func(s bench.Step) bool { return s.ID == "safety cell" && strings.Contains(s.Caution, "swollen") }) {
		t.Error("no caution speaks of the cell")
	}
	i := slices.IndexFunc(steps, func(s bench.Step) bool { return slices.Contains(s.Refs, "J1") })
	for _, s := range steps[i+1:] {
		if len(s.Refs) > 0 && s.Stage != bench.Plug && p.Definition(p.Find(s.Refs[0])).Kind != part.Battery {
			t.Errorf("%s is soldered after the cell's connector", s.Refs[0])
		}
	}
}

// The direction of the key diodes is said once, before the first of them, and each diode's step names
// the hole of its band. That the band marks the cathode is common practice, no source.
func TestKeyDiodesPointOneWay(t *testing.T) {
	p := panel.New("x")
	p.Parts["diode"] = part.BuiltIn()["diode-1n4148"]
	p.Placed = []panel.Placed{{Ref: "D1", Part: "diode", At: grid.MustHole("C5")}, {Ref: "D2", Part: "diode", At: grid.MustHole("H9"), Turn: 2}}
	f := fit.Examine(&p)
	tests := []struct {
		name string
		scan scan.Result
		want string
	}{
		{"columns driven low", scan.Result{Style: "matrix", Active: "low"}, "All 2 key diodes point one way: the band (cathode) towards its column."},
		{"columns driven high", scan.Result{Style: "matrix", Active: "high"}, "towards its key."},
		{"lines", scan.Result{Style: "lines", Active: "low"}, "towards the line that selects it."},
	}
	for _, tt := range tests {
		tt.scan.Cells = []scan.Cell{{Key: "S1", Diode: true}, {Key: "S2", Diode: true}, {Key: "S3"}}
		steps := bench.Order(&p, &f, &tt.scan, &wiring.Result{})
		said := slices.IndexFunc(steps, func(s bench.Step) bool { return s.ID == "key diodes" })
		if said < 0 || !strings.Contains(steps[said].Text, tt.want) {
			t.Fatalf("%s: step %d of %v does not say %q", tt.name, said, steps, tt.want)
		}
		for ref, band := range map[string]string{"D1": "K, in F5", "D2": "K, in E9"} {
			i := slices.IndexFunc(steps, func(s bench.Step) bool { return slices.Contains(s.Refs, ref) })
			if i < said || !strings.Contains(steps[i].Text, band) {
				t.Errorf("%s: %s is step %d, %q; want it after %d with %q", tt.name, ref, i, steps[i].Text, said, band)
			}
		}
	}
	for _, s := range bench.Order(&p, &f, &scan.Result{Cells: []scan.Cell{{Key: "S1"}}}, &wiring.Result{}) {
		if s.ID == "key diodes" {
			t.Error("without key diodes their direction is spoken of")
		}
	}
}

func TestExpanderSaysItsAddress(t *testing.T) {
	p := panel.New("x")
	p.Parts["port"] = part.BuiltIn()["expander-i2c16"]
	for address, want := range map[string]string{
		"":     "Its address 0x20 comes from A0, A1 and A2 on ground.",
		"0x25": "Its address 0x25 comes from A0 and A2 on 3V3 and A1 on ground.",
		"0x27": "Its address 0x27 comes from A0, A1 and A2 on 3V3.",
		"0x55": "The notch lies at the end of pin 1. Solder",
	} {
		p.Placed = []panel.Placed{{Ref: "U3", Part: "port", At: grid.MustHole("C3"), Address: address}}
		f := fit.Examine(&p)
		steps := bench.Order(&p, &f, &scan.Result{}, &wiring.Result{})
		if !slices.ContainsFunc(steps, func(s bench.Step) bool { return strings.Contains(s.Text, want) }) {
			t.Errorf("address %q: no step says %q", address, want)
		}
	}
}
