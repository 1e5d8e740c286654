package scan

import (
	"math"
	"slices"
	"testing"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
)

func rp2350() *controller.Chip {
	chip, _ := controller.ChipNamed("RP2350")
	return &chip
}

// Twelve keys as 3 x 4, computed by hand from the figures named.
func TestWakeAndCurrents(t *testing.T) {
	const pulls = "3.3 V over the strongest pull: RP2040 data sheet table 625, RP2350 data sheet tables 1436"
	wired := func() *panel.Panel { return regularKeys(3, 4) }
	tests := []struct {
		name, source       string
		p                  *panel.Panel
		chip               *controller.Chip
		active, pulls      string
		method             string
		wake, idle, pulled float64
	}{
		{"direct", pulls, wired(), rp2040(), "low", "internal", methodDirect, 1 + 1, 12, 66},
		{"matrix, one scan of 3 or 4 columns", pulls, wired(), rp2040(), "low", "internal", methodMatrix, 1 + 4*10.1, 7, 66},
		{"RP2350 pulls harder", pulls, wired(), rp2350(), "low", "internal", methodMatrix, 1 + 4*10.1, 7, 103.1},
		{"active high", pulls, wired(), rp2040(), "high", "internal", methodMatrix, 1 + 4*10.1, 7, 66},
		{"10 k outside", "3.3 V / 10 k", wired(), rp2040(), "low", "external", methodMatrix, 1 + 4*2.1, 7, 330},
		{"pull-downs of at most 8.2 k", "RP2350 data sheet, RP2350-E9: 0.4 mA", wired(), rp2350(), "high", "auto", methodMatrix, 1 + 4*2.1, 7, 402.4},
		{"lines scan on: 100 pF charged to 3.3 V each 10.1 us, a quarter of the pull", "RP2040 data sheet table 625; charge over time", wired(), rp2040(), "low", "internal", methodLines, 4 * 10.1, 4 + 32.7, 66.0 / 4},
		{"expander that rings", "MCP23017 data sheet DS20001952C D005, D060, D070; UM10204 table 10", wired(), rp2040(), "low", "internal", methodExpander, 0.6 + 1 + 117.5, 3 + 12 + 1, 75.9},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.p.Scan.Active, tt.p.Scan.Pulls, tt.p.Scan.Columns = tt.active, tt.pulls, 4
			r := Plan(tt.p, tt.chip, 20)
			i := slices.IndexFunc(r.Choices, func(c Choice) bool { return c.Method == tt.method })
			c := r.Choices[i]
			if near(c.WakeMicros, tt.wake) && near(c.IdleMicroamp, tt.idle) && near(c.HeldMicroamp-c.IdleMicroamp, tt.pulled) {
				return
			}
			t.Errorf("%d x %d wakes in %g us and draws %g and %g more; want %g, %g and %g (%s)", c.Rows, c.Columns,
				c.WakeMicros, c.IdleMicroamp, c.HeldMicroamp-c.IdleMicroamp, tt.wake, tt.idle, tt.pulled, tt.source)
		})
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 0.11 }

// Without a pin for its interrupt an expander is read without rest: 1 mA at most (MCP23017 data sheet
// DS20001952C D004), and two bus lines held low half the time against 4.7 k.
func TestExpanderWithoutInterrupt(t *testing.T) {
	p := withExpanders(regularKeys(3, 4), grid.Hole{Col: 60})
	p.Scan.Style = "expander"
	r := Plan(p, rp2040(), 0)
	i := slices.IndexFunc(r.Choices, func(c Choice) bool { return c.Chosen })
	c := r.Choices[i]
	if want := 12 + 1000 + 3.3/4.7e3*1e6; c.Method != methodExpander || c.WakeMicros != 117.5 || !near(c.IdleMicroamp, want) {
		t.Errorf("%s wakes in %g us and draws %g uA; want 117.5 and %g", c.Method, c.WakeMicros, c.IdleMicroamp, want)
	}
}

// A matrix whose shape is fixed wakes the sooner the fewer columns it has, and nothing wakes before it
// has been read.
func TestWakeFollowsPeriod(t *testing.T) {
	r := Plan(regularKeys(4, 5), rp2040(), 26)
	for _, c := range r.Choices {
		switch {
		case c.Method == methodExpander && c.WakeMicros < busRead:
			t.Errorf("%s wakes in %g us, and one reading takes %g", c.Method, c.WakeMicros, busRead)
		case c.Method != methodExpander && c.WakeMicros < c.PeriodMicros:
			t.Errorf("%s %d x %d wakes in %g us and takes %g for a reading", c.Method, c.Rows, c.Columns, c.WakeMicros, c.PeriodMicros)
		case c.HeldMicroamp <= c.IdleMicroamp:
			t.Errorf("%s draws %g uA with a key held, %g without", c.Method, c.HeldMicroamp, c.IdleMicroamp)
		}
	}
}
