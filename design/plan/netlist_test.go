package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/ipc356"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/design/wiring/randompanel"
)

// Both netlists of a plan hold the terminals of nets.csv, each on its net, and no other.
func TestNetlistsSayWhatNetsSays(t *testing.T) {
	panels := []panel.Panel{randompanel.Make(3), randompanel.Make(8)}
	for _, d := range demo.All() {
		panels = append(panels, d.Panel)
	}
	for _, p := range panels {
		files := filesOf(t, plan.Make(&p))
		var want []string
		for _, r := range rows(t, files["nets.csv"]) {
			want = append(want, fmt.Sprintf("%s: %s.%s", r["net"], r["ref"], r["terminal"]))
		}
		for _, name := range []string{"nets.ipc", "nets-mm.ipc"} {
			f, err := ipc356.Parse(files[name].Data)
			if err != nil {
				t.Fatalf("%s: %s: %v", p.Name, name, err)
			}
			var got []string
			for _, n := range f.Nets() {
				for _, q := range n.Points {
					got = append(got, fmt.Sprintf("%s: %s.%s", n.Name, q.Ref, q.Pin))
				}
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: %s says %q, nets.csv %q", p.Name, name, got, want)
			}
		}
	}
}
