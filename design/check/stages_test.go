package check_test

import (
	"encoding/json"
	"strings"
	"testing"

	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/design/wiring/randompanel"
)

// Whatever panel the stages have worked on: findings are sorted, whole, said once, and writable.
func TestFindingsOfWholePlans(t *testing.T) {
	for seed := range uint64(20) {
		p := randompanel.Make(seed)
		found := plan.Make(&p).Findings
		seen := map[string]bool{}
		for i, f := range found {
			line := f.Code + " " + f.Where.String() + " " + f.Text
			if seen[line] {
				t.Errorf("panel %d says twice: %s", seed, line)
			}
			seen[line] = true
			if i > 0 && f.Severity > found[i-1].Severity {
				t.Errorf("panel %d: %s comes after something milder", seed, line)
			}
			if !strings.HasSuffix(f.Text, ".") || !strings.HasSuffix(f.Fix, ".") || strings.Contains(f.Text, "%!") {
				t.Errorf("panel %d: %s is no sentence: %q %q", seed, f.Code, f.Text, f.Fix)
			}
		}
		if _, err := json.Marshal(found); err != nil {
			t.Errorf("panel %d: %v", seed, err)
		}
	}
}

// The demos are buildable: nothing in them will not work.
func TestDemosHaveNoStop(t *testing.T) {
	for _, d := range demo.All() {
		p := d.Panel
		for _, f := range plan.Make(&p).Findings {
			if f.Severity.String() == "stop" {
				t.Errorf("%s: %s %s: %s", d.ID, f.Code, f.Where, f.Text)
			}
		}
	}
}
