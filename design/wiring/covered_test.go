package wiring_test

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/design/wiring"
)

// The iron must get at both ends of an insulated wire: no end lies under a body that leaves less
// room than a joint needs, and Verify sees one that does.
func TestEndsCanBeSoldered(t *testing.T) {
	flipped := 0
	for _, d := range demo.All() {
		p := d.Panel
		pl := plan.Make(&p)
		for i, w := range pl.Wiring.Wires {
			if w.Kind != wiring.Insulated {
				continue
			}
			for _, h := range w.Path {
				if ref, covered := pl.Fit.Covered(h, w.Face, fit.JointRoom); covered {
					t.Errorf("%s: wire %d of %s ends under %s at %s", d.ID, w.Step, w.Net, ref, h)
				}
			}
			other := slices.Clone(pl.Wiring.Wires)
			other[i].Face = w.Face.Other()
			hidden := slices.ContainsFunc(w.Path, func(h grid.Hole) bool {
				_, covered := pl.Fit.Covered(h, w.Face.Other(), fit.JointRoom)
				return covered
			})
			said := slices.ContainsFunc(wiring.Verify(&p, &pl.Nets, other), func(s string) bool { return strings.Contains(s, "cannot be soldered") })
			if hidden && !said {
				t.Errorf("%s: wire %d of %s on the %s ends where no iron gets, and Verify does not say so", d.ID, w.Step, w.Net, other[i].Face)
			}
			if hidden {
				flipped++
			}
		}
	}
	if flipped == 0 {
		t.Error("no wire of the demos would be covered on its other face, so this test shows nothing")
	}
}

// On a panel for hands, wires lie on the back wherever they can.
func TestWiresKeepToTheBack(t *testing.T) {
	front, all := 0, 0
	for _, d := range demo.All() {
		p := d.Panel
		for _, w := range plan.Make(&p).Wiring.Wires {
			if w.Kind == wiring.Insulated {
				all++
				if w.Face == grid.Front {
					front++
				}
			}
		}
	}
	if front*10 > all {
		t.Errorf("%d of %d insulated wires lie on the front", front, all)
	}
}
