package randompanel

import (
	"reflect"
	"testing"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/panel"
	"fascia/design/part"
)

// TestMakeIsValid holds panels against the panel's own rules, and against fit for what must not be.
func TestMakeIsValid(t *testing.T) {
	copper, parts, twoBoards := map[panel.Copper]int{}, 0, 0
	styles, wishes := map[string]int{}, map[string]int{}
	for seed := range uint64(300) {
		p := Make(seed)
		if err := p.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for _, f := range fit.Examine(&p).Findings {
			if f.Severity == finding.Stop {
				t.Errorf("seed %d: %s %s: %s", seed, f.Code, f.Where, f.Text)
			}
		}
		copper[p.Boards[0].Copper]++
		parts += len(p.Placed)
		twoBoards += len(p.Boards) - 1
		styles[p.Scan.Style]++
		if p.Scan.Style == "expander" {
			wishes["expanders"] += len(p.OfKind(part.Expander))
		}
		for _, c := range p.Chords {
			wishes["choices"] += len(c.Any)
			wishes["sets"] += min(1, len(c.Keys))
		}
		wishes["lamps"] += len(p.Scan.Lamps)
		wishes["orders of what to spare"] += min(1, len(p.Pins.Prefer))
	}
	for _, style := range panel.Styles {
		if styles[style] < 15 {
			t.Errorf("only %d panels of style %s", styles[style], style)
		}
	}
	for _, what := range []string{"expanders", "choices", "sets", "lamps", "orders of what to spare"} {
		if wishes[what] < 20 {
			t.Errorf("only %d %s in all", wishes[what], what)
		}
	}
	if len(copper) != 3 || parts < 300*8 || twoBoards == 0 {
		t.Errorf("panels lack variety: copper %v, %d parts, %d second boards", copper, parts, twoBoards)
	}
}

func TestMakeIsReproducible(t *testing.T) {
	for seed := range uint64(20) {
		if a, b := Make(seed), Make(seed); !reflect.DeepEqual(a, b) {
			t.Errorf("seed %d gave two panels", seed)
		}
	}
}
