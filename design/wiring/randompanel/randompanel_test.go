package randompanel

import (
	"reflect"
	"testing"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/panel"
)

// TestMakeIsValid holds panels against the panel's own rules, and against fit for what must not be.
func TestMakeIsValid(t *testing.T) {
	copper, parts, twoBoards := map[panel.Copper]int{}, 0, 0
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
