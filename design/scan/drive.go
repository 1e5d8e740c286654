package scan

import (
	"math"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/part"
)

// Microseconds that a reading takes. After a column is let go, its rows need time to rise: 10 us
// cover the internal pulls (80 k and 100 pF reach 2.0 V in 7.5 us) and 2 us an external 10 k
// (0.9 us): computed from RC and V_IH, RP2040 data sheet table 622. The reader's own
// instructions are estimates: a handful of state machine cycles, or a short loop in C.
const (
	settleInternal = 10.0
	settleExternal = 2.0
	readDirect     = 1.0
	stepPIO        = 0.1 // each column
	stepPolled     = 1.0 // each column
)

// A drive is how lines are held and read.
type drive struct{ active, pulls, reader string }

// driveOf settles the wishes that say auto. Low with internal pulls works on every chip; the
// pull-downs that active high needs are faulty on some steppings.
func driveOf(w panel.Scan, chip *controller.Chip, supply map[string]bool) drive {
	d := drive{w.Active, w.Pulls, w.Reader}
	if d.reader != "polled" {
		d.reader = "pio"
	}
	if d.active != "low" && d.active != "high" {
		d.active = "low"
		if !supply[part.Ground] && supply[part.Supply3V3] {
			d.active = "high"
		}
	}
	if d.pulls != "internal" && d.pulls != "external" {
		d.pulls = "internal"
		if d.active == "high" && chip != nil && len(chip.PullDownFaulty) > 0 {
			d.pulls = "external"
		}
	}
	return d
}

// period is how long one reading of a matrix of this many columns and of the direct keys takes,
// to a tenth of a microsecond.
func (d drive) period(columns, direct int) float64 {
	settle, step := settleInternal, stepPIO
	if d.pulls == "external" {
		settle = settleExternal
	}
	if d.reader == "polled" {
		step = stepPolled
	}
	t := float64(columns) * (settle + step)
	if direct > 0 {
		t += readDirect
	}
	return math.Round(t*10) / 10
}
