package lend_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/lend"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/plan"
	"fascia/design/scan"
)

// lit is a scan whose first lines light the LEDs that the panel names.
func lit(p *panel.Panel, s scan.Result) scan.Result {
	s.Lamps = nil
	for i, led := range p.Scan.Lamps {
		s.Lamps = append(s.Lamps, scan.Lamp{Line: i, LED: led})
	}
	return s
}

func noStops(t *testing.T, what string, found []finding.Finding) {
	t.Helper()
	for _, f := range found {
		if f.Severity == finding.Stop {
			t.Errorf("%s: %s %s: %s", what, f.Code, f.Where, f.Text)
		}
	}
}

// withDiodes asks for a diode at every key and takes the proposal.
func withDiodes(t *testing.T, p panel.Panel) (panel.Panel, *plan.Plan) {
	t.Helper()
	p = every(p)
	before := plan.Make(&p)
	after, _, err := panel.Apply(p, lend.Diodes(&p, &before.Fit, &before.Scan, &before.Nets))
	if err != nil {
		t.Fatal(err)
	}
	return after, plan.Make(&after)
}

// On each demo with a matrix, taking the proposal gives each column an LED with a resistor, none of
// them in anything's way or moving a reading; a second proposal has nothing to add. Where a reading
// would move, diodes at every key make way.
func TestLampsFit(t *testing.T) {
	tried := 0
	for _, d := range demo.All() {
		for _, active := range []string{"low", "high"} {
			p := d.Panel.Clone()
			p.Scan.Active, p.Scan.Pulls = active, "internal"
			before := plan.Make(&p)
			edit, why := lend.Lamps(&p, &before.Fit, &before.Scan, &before.Nets)
			if before.Scan.Columns == 0 {
				if edit != nil || !strings.Contains(why, "without select lines") {
					t.Errorf("%s: %v, %q without columns", d.ID, edit, why)
				}
				continue
			}
			if strings.Contains(why, "would move what the keys read") {
				p, before = withDiodes(t, p)
				edit, why = lend.Lamps(&p, &before.Fit, &before.Scan, &before.Nets)
			}
			if edit == nil {
				t.Fatalf("%s, active %s: %s", d.ID, active, why)
			}
			tried++
			after, _, err := panel.Apply(p, edit)
			if err != nil {
				t.Fatalf("%s: %v", d.ID, err)
			}
			if len(after.Scan.Lamps) != before.Scan.Columns {
				t.Errorf("%s: %d LEDs for %d columns", d.ID, len(after.Scan.Lamps), before.Scan.Columns)
			}
			f, s := fit.Examine(&after), lit(&after, before.Scan)
			noStops(t, d.ID+" after "+edit.What, f.Findings)
			pins := pinning.Plan(&after, before.Module, before.Pins.Module, &s)
			nets := netlist.List(&after, &s, &pins)
			noStops(t, d.ID+" after "+edit.What, nets.Findings)
			for _, led := range after.Scan.Lamps {
				if !slices.ContainsFunc(nets.Pairs, func(pair netlist.Pair) bool { return pair.Of == led && pair.With != "" }) {
					t.Errorf("%s: %s has no resistor", d.ID, led)
				}
			}
			if again, why := lend.Lamps(&after, &f, &s, &nets); again != nil || why != "" {
				t.Errorf("%s: proposed once more: %v %q", d.ID, again, why)
			}
		}
	}
	if tried < 2 {
		t.Errorf("only %d demos have columns", tried)
	}
}

// A resistor that lies idle is used before another is proposed, and an LED that is named but has no
// resistor gets one.
func TestLampsUseWhatIsThere(t *testing.T) {
	p := demo.All()[2].Panel // which has neither LEDs nor resistors
	before := plan.Make(&p)
	edit, _ := lend.Lamps(&p, &before.Fit, &before.Scan, &before.Nets)
	n := before.Scan.Columns
	if want := fmt.Sprintf("Place %d LEDs and %d resistors", n, n); edit.What != want {
		t.Fatalf("proposes %q, want %q", edit.What, want)
	}
	after, _, err := panel.Apply(p, edit)
	if err != nil {
		t.Fatal(err)
	}
	resistor := after.OfKind(part.Resistor)[0]
	idle, _, err := panel.Apply(p, &panel.Place{Placed: *resistor})
	if err != nil {
		t.Fatal(err)
	}
	pl := plan.Make(&idle)
	edit, why := lend.Lamps(&idle, &pl.Fit, &pl.Scan, &pl.Nets)
	if want := fmt.Sprintf("Place %d LEDs and %d resistors", n, n-1); edit == nil || edit.What != want {
		t.Errorf("with one idle: %v %q, want %q", edit, why, want)
	}
	short, _, err := panel.Apply(after, &panel.Remove{Refs: []string{resistor.Ref}})
	if err != nil {
		t.Fatal(err)
	}
	pl = plan.Make(&short)
	if edit, why := lend.Lamps(&short, &pl.Fit, &pl.Scan, &pl.Nets); edit == nil || edit.What != "Place 1 resistor" {
		t.Errorf("one resistor short: %v %q", edit, why)
	}
}

// full keeps every hole of a panel's first board clear.
func full(p panel.Panel) panel.Panel {
	p = p.Clone()
	for i := range p.Boards {
		b := &p.Boards[i]
		for c := range b.Columns {
			for r := range b.Rows {
				h := b.At
				h.Col, h.Row = h.Col+c, h.Row+r
				p.Wires.KeepOut = append(p.Wires.KeepOut, h)
			}
		}
	}
	return p
}

func TestNoRoom(t *testing.T) {
	p := full(demo.All()[0].Panel)
	pl := plan.Make(&p)
	if edit, why := lend.Lamps(&p, &pl.Fit, &pl.Scan, &pl.Nets); edit != nil || !strings.HasPrefix(why, "There is no room for an LED for column 0.") {
		t.Errorf("a full board: %v, %q", edit, why)
	}
	if edit, why := lend.Expander(&p, &pl.Fit); edit != nil || !strings.HasPrefix(why, "There is no room for expander 1 of 2, which takes 14 by 4 holes.") {
		t.Errorf("a full board: %v, %q", edit, why)
	}
}

func TestLinesHaveNoLamps(t *testing.T) {
	p := demo.All()[0].Panel
	pl := plan.Make(&p)
	s := scan.Result{Style: "lines", Rows: 5, Columns: 5}
	if edit, why := lend.Lamps(&p, &pl.Fit, &s, &pl.Nets); edit != nil || !strings.HasPrefix(why, "Lines that both read and select can have no LEDs") {
		t.Errorf("lines: %v, %q", edit, why)
	}
}

func BenchmarkLamps(b *testing.B) {
	p := demo.All()[0].Panel
	pl := plan.Make(&p)
	n := 0
	for b.Loop() {
		edit, _ := lend.Lamps(&p, &pl.Fit, &pl.Scan, &pl.Nets)
		n = len(edit.Edits)
	}
	b.ReportMetric(float64(n), "edits")
}
