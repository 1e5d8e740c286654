package lend_test

import (
	"strings"
	"testing"

	"fascia/design/lend"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/design/wiring"
)

// A demo with the proposed lamps, or read by the proposed expanders, is a panel that can be built: no
// stop in any stage, each lamp on its line, each key read by a line of its own, wires as the nets want.
func TestProposalsPlan(t *testing.T) {
	for _, d := range demo.All() {
		before := plan.Make(&d.Panel)
		expanders, why := lend.Expander(&d.Panel, &before.Fit)
		if expanders == nil {
			t.Fatalf("%s: %s", d.ID, why)
		}
		after := planned(t, d.ID, d.Panel, expanders)
		vias := map[string]bool{}
		for _, k := range after.Scan.Direct {
			if k.Via != "" {
				vias[k.Via] = true
			}
		}
		if after.Scan.Style != "expander" || len(vias) != len(after.Panel.Keys()) {
			t.Errorf("%s: %d lines of expanders for %d keys, style %s", d.ID, len(vias), len(after.Panel.Keys()), after.Scan.Style)
		}
		if before.Scan.Columns == 0 {
			continue
		}
		p := d.Panel
		lamps, why := lend.Lamps(&p, &before.Fit, &before.Scan, &before.Nets)
		if strings.Contains(why, "would move what the keys read") {
			p, before = withDiodes(t, p)
			lamps, why = lend.Lamps(&p, &before.Fit, &before.Scan, &before.Nets)
		}
		if lamps == nil {
			t.Fatalf("%s: %s", d.ID, why)
		}
		after = planned(t, d.ID, p, lamps)
		if len(after.Scan.Lamps) != after.Scan.Columns {
			t.Errorf("%s: %d lamps on %d columns", d.ID, len(after.Scan.Lamps), after.Scan.Columns)
		}
		for _, l := range after.Scan.Lamps {
			if net := after.Nets.NetOf(panel.TerminalRef{Ref: l.LED, Terminal: "K"}); net != after.Scan.ColumnNet(l.Line) {
				t.Errorf("%s: the cathode of %s is on %q, want %q", d.ID, l.LED, net, after.Scan.ColumnNet(l.Line))
			}
		}
	}
}

func planned(t *testing.T, id string, p panel.Panel, edit *panel.Together) *plan.Plan {
	t.Helper()
	after, _, err := panel.Apply(p, edit)
	if err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	pl := plan.Make(&after)
	noStops(t, id+" after "+edit.What, pl.Findings)
	for _, wrong := range wiring.Verify(&after, &pl.Nets, pl.Wiring.Wires) {
		t.Errorf("%s after %s: %s", id, edit.What, wrong)
	}
	return pl
}
