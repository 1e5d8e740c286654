package lend_test

import (
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/lend"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/plan"
)

// every asks for a diode at every key of a panel.
func every(p panel.Panel) panel.Panel {
	p = p.Clone()
	p.Scan.Diodes = "every key"
	return p
}

// On each demo, asking for a diode at every key, or for lines, which want one at every key, and taking
// the proposal leaves no key without one, and brings no new stop.
func TestProposalsFit(t *testing.T) {
	for _, d := range demo.All() {
		for _, p := range []panel.Panel{every(d.Panel), lines(d.Panel)} {
			before := plan.Make(&p)
			edit := lend.Diodes(&p, &before.Fit, &before.Scan, &before.Nets)
			if edit == nil {
				t.Fatalf("%s, %s: nothing is proposed", d.ID, before.Scan.Style)
			}
			lacking := 0
			for _, f := range before.Findings {
				if f.Code == "net-diode-missing" {
					lacking += len(f.Where.Keys)
				}
			}
			if len(edit.Edits) != lacking {
				t.Errorf("%s, %s: %d diodes are proposed for %d keys", d.ID, before.Scan.Style, len(edit.Edits), lacking)
			}
			after, _, err := panel.Apply(p, edit)
			if err != nil {
				t.Fatalf("%s: %v", d.ID, err)
			}
			for _, f := range plan.Make(&after).Findings {
				if f.Severity == finding.Stop && f.Code != "scan-ghost" { // which diodes on lines do not all prevent
					t.Errorf("%s, %s, after %q: %s %s: %s", d.ID, before.Scan.Style, edit.What, f.Code, f.Where, f.Text)
				}
			}
		}
	}
}

// lines asks for lines that both read and select.
func lines(p panel.Panel) panel.Panel {
	p = p.Clone()
	p.Scan.Style = "lines"
	return p
}

func TestNothingToPropose(t *testing.T) {
	p := demo.All()[0].Panel
	pl := plan.Make(&p)
	if edit := lend.Diodes(&p, &pl.Fit, &pl.Scan, &pl.Nets); edit != nil {
		t.Errorf("no key lacks a diode, yet %q is proposed", edit.What)
	}
}

// Where a board is full nothing is proposed, rather than something that does not fit.
func TestFullBoard(t *testing.T) {
	p := every(demo.All()[1].Panel)
	p.Placed = slices.DeleteFunc(p.Placed, func(pl panel.Placed) bool { return pl.Ref == "D1" })
	for c := range p.Boards[0].Columns {
		for r := range p.Boards[0].Rows {
			h := p.Boards[0].At
			h.Col, h.Row = h.Col+c, h.Row+r
			p.Wires.KeepOut = append(p.Wires.KeepOut, h)
		}
	}
	pl := plan.Make(&p)
	if edit := lend.Diodes(&p, &pl.Fit, &pl.Scan, &pl.Nets); edit != nil {
		t.Errorf("every hole is kept clear, yet %q is proposed", edit.What)
	}
}

func BenchmarkDiodes(b *testing.B) {
	p := every(demo.All()[0].Panel)
	pl := plan.Make(&p)
	n := 0
	for b.Loop() {
		n = len(lend.Diodes(&p, &pl.Fit, &pl.Scan, &pl.Nets).Edits)
	}
	b.ReportMetric(float64(n), "diodes")
}
