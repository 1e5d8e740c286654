package bench_test

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/bench"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/plan"
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
