package bom_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/design/wiring"
)

// The totals of the demos, added up again from the runs alone. An insulated wire takes its way along
// the grid, twice 4 mm of strip and 3 mm of slack, and 5 % of all that; a bare run nothing but 3 mm
// at each end, and a link through a board of 1.6 mm those and the board (common practice, no source).
// Each length is cut to the whole millimetre above.
func TestTotalsOfTheDemos(t *testing.T) {
	for _, d := range demo.All() {
		p := d.Panel
		made := plan.Make(&p)
		want := map[string]float64{} // millimetres by gauge and colour
		bridges := 0
		for _, w := range made.Wiring.Wires {
			steps := w.From.Steps(w.To)
			if w.Kind == wiring.Bare {
				steps = len(w.Path) - 1
			}
			mm := 2.54 * float64(steps)
			switch w.Kind {
			case wiring.Insulated:
				want[w.Gauge+" "+w.Colour] += math.Ceil((mm+14)*1.05 - 1e-6)
			case wiring.Bare:
				if w.Through {
					mm = 1.6
				}
				want[w.Gauge+" "] += math.Ceil(mm + 6 - 1e-6)
			case wiring.Solder:
				bridges++
			}
		}
		reels := 0
		for _, l := range made.BOM {
			var gauge, colour string
			switch {
			case strings.HasPrefix(l.Part, "bare wire, "):
				gauge = strings.TrimPrefix(l.Part, "bare wire, ")
			case strings.HasPrefix(l.Part, "insulated wire, "):
				gauge, colour, _ = strings.Cut(strings.TrimPrefix(l.Part, "insulated wire, "), ", ")
				_, colour, _ = strings.Cut(strings.TrimSuffix(colour, ")"), "(")
			case l.Part == "solder":
				if n := fmt.Sprint(bridges); bridges > 0 && !strings.HasPrefix(l.Note, n+" ") {
					t.Errorf("%s: %q, the list has %d bridges", d.ID, l.Note, bridges)
				}
				continue
			default:
				continue
			}
			reels++
			if metres := fmt.Sprintf("%.2f m", math.Ceil(want[gauge+" "+colour]/10)/100); l.Value != metres {
				t.Errorf("%s: %s %s, want %s", d.ID, l.Part, l.Value, metres)
			}
		}
		if reels != len(want) || reels == 0 {
			t.Errorf("%s: %d reels on the list, %d in the wiring", d.ID, reels, len(want))
		}
	}
}
