package plan_test

import (
	"slices"
	"testing"

	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/pinning"
	"fascia/design/plan"
)

// reachable is a demo with a kept pin and a few ties, so that every kind of bar occurs.
func reachable(t *testing.T, id string, ties map[string]string, kept ...string) panel.Panel {
	t.Helper()
	for _, d := range demo.All() {
		if d.ID == id {
			p := d.Panel.Clone()
			for name, gpio := range ties {
				p.Pins.Locked[name] = gpio
			}
			p.Pins.KeepFree = append(p.Pins.KeepFree, kept...)
			return p
		}
	}
	t.Fatalf("no demo %s", id)
	return panel.Panel{}
}

// A pin that a signal can reach can be tied to it and the plan finds pins for all the others; a pin
// that is barred cannot.
func TestReachIsWhatTheAssignmentAllows(t *testing.T) {
	tests := map[string]panel.Panel{
		"as it comes": reachable(t, "lantern-run", nil),
		"with ties":   reachable(t, "hive-notebook", map[string]string{"U2.SDA": "GP26", "row 1": "GP7", "D1.A": "GP22"}, "GP13"),
	}
	for name, p := range tests {
		pl := plan.Make(&p)
		if len(pl.Pins.Conflict) > 0 {
			t.Fatalf("%s: %q", name, pl.Pins.Conflict)
		}
		for _, r := range pl.Reach() {
			holds := func(gpio string) bool {
				q := p.Clone()
				for _, tie := range r.Ties {
					delete(q.Pins.Locked, tie)
				}
				q.Pins.Locked[r.Signal] = gpio
				got := pinning.Plan(&q, pl.Module, pl.Pins.Module, &pl.Scan)
				return len(got.Conflict) == 0
			}
			for _, gpio := range r.Able {
				if !holds(gpio) {
					t.Errorf("%s: %s is said to reach %s", name, r.Signal, gpio)
				}
			}
			for _, b := range r.Bars {
				for _, gpio := range b.GPIOs {
					if holds(gpio) {
						t.Errorf("%s: %s is said not to reach %s, which %s", name, r.Signal, gpio, b.Why)
					}
				}
			}
		}
	}
}

// Each kind of bar, in its words.
func TestReachSaysWhatBars(t *testing.T) {
	p := reachable(t, "hive-notebook", map[string]string{"U2.SDA": "GP26", "row 1": "GP7", "LS1.1": "GP22"}, "GP13")
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	p.Joins = append(p.Joins, panel.Join{Name: "lamp", Terminals: []string{"U1.GP9", "R2.2"}})
	pl := plan.Make(&p)
	tests := []struct{ signal, gpio, why string }{
		{"U2.SDA", "GP3", "cannot be I2C SDA"},
		{"D1.A", "GP9", "is used by a connection of your own"},
		{"D1.A", "GP13", "is kept free by you"},
		{"D1.A", "GP26", "has display SDA tied to it by you"},
		{"row 0", "GP1", "has no 4 consecutive pins about it for the rows"},
		{"U2.SCL", "GP5", "is not of I2C1, to which display SDA is tied by you"},
		{"D1.A", "GP5", "would leave no 4 consecutive pins for the rows"},
		{"D1.A", "GP4", ""},
		{"row 0", "GP5", ""},
	}
	for _, tt := range tests {
		why, found := "", false
		for _, r := range pl.Reach() {
			if r.Signal != tt.signal {
				continue
			}
			found = slices.Contains(r.Able, tt.gpio)
			for _, b := range r.Bars {
				if slices.Contains(b.GPIOs, tt.gpio) {
					why, found = b.Why, true
				}
			}
		}
		if !found || why != tt.why {
			t.Errorf("%s on %s: %q, want %q", tt.signal, tt.gpio, why, tt.why)
		}
	}
	empty := panel.New("empty")
	if got := plan.Make(&empty).Reach(); got != nil {
		t.Errorf("without a module signals reach %v", got)
	}
}
