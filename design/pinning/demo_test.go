package pinning_test

import (
	"slices"
	"testing"

	"fascia/design/controller"
	"fascia/design/panel/demo"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/signal"
)

// Every demo panel gets pins that keep the rules, proved best.
func TestDemos(t *testing.T) {
	for _, d := range demo.All() {
		t.Run(d.ID, func(t *testing.T) {
			p := &d.Panel
			placed := p.Modules()[0]
			definition := p.Definition(placed)
			m, err := controller.FromDefinition(&definition)
			if err != nil {
				t.Fatal(err)
			}
			s := scan.Plan(p, &m.Chip, len(m.Pins)-signal.PinsNeeded(p))
			r := pinning.Plan(p, &m, placed.Ref, &s)
			if len(r.Pins) == 0 || !r.Proved {
				t.Errorf("%d pins, cost %v, bound %v: %v", len(r.Pins), r.Cost, r.Bound, r.Findings)
			}
			wanted := slices.Concat(signal.OfParts(p), pinning.KeySignals(p, &s))
			if faults := pinning.Check(p, &m, wanted, r.Pins); faults != nil {
				t.Errorf("faults: %v", faults)
			}
		})
	}
}
