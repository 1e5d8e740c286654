package scan

import (
	"fmt"

	"fascia/design/finding"
)

func (pl *planner) whyDirect() string {
	n := len(pl.keys)
	switch {
	case n > pl.free:
		return fmt.Sprintf("%s with a pin each take more than the %d that are free.", count(n, "key"), pl.free) + pl.assumed()
	case pl.wishes.Style == "direct":
		return fmt.Sprintf("A pin for each of %s, as asked: no ghosts, no diodes.", count(n, "key")) + pl.assumed()
	case len(pl.matrix) == 0:
		return "Every key asks for a pin of its own: no ghosts, no diodes." + pl.assumed()
	}
	return fmt.Sprintf("%s fit on %s, one each: no ghosts, no diodes, all read in %g us.", count(n, "key"), count(pl.free, "free pin"), pl.result.PeriodMicros) + pl.assumed()
}

func (pl *planner) whyMatrix(c candidate) string {
	r := &pl.result
	text := fmt.Sprintf("%s take %s as %s x %s", count(len(pl.matrix), "key"), count(c.pins(), "pin"), count(c.rows, "row"), count(c.columns, "column"))
	if len(pl.direct) > 0 {
		text += fmt.Sprintf(", beside %s with %s", count(len(pl.direct), "key"), ownPins(len(pl.direct)))
	}
	switch {
	case pl.wishes.Style == "matrix":
		text += "; a matrix is asked for."
	case len(pl.keys) > pl.free:
		text += fmt.Sprintf("; a pin each would take %d, and %s.", len(pl.keys), areFree(pl.free))
	default:
		text += "."
	}
	if c.regular && upright(pl.m.keys, c.shape) {
		text += " Rows and columns follow the layout"
		if len(c.moved) > 0 {
			text += fmt.Sprintf(", but for %s, exchanged to keep chords apart", finding.Names(idsOf(pl.m.keys, c.moved)))
		}
		text += "."
	}
	text += pl.wireWords()
	if r.Active == "low" {
		text += fmt.Sprintf(" Active low with %s pull-ups works on every chip.", r.Pulls)
	}
	return text + pl.assumed()
}

// wireWords says how much wire there is and how near that is to the least.
func (pl *planner) wireWords() string {
	r := &pl.result
	switch {
	case r.Cost == 0:
		return ""
	case r.Proved:
		return fmt.Sprintf(" %g holes of wire; no arrangement takes fewer.", r.Cost)
	}
	return fmt.Sprintf(" About %g holes of wire; no arrangement takes fewer than %g.", r.Cost, r.Bound)
}

func ownPins(n int) string {
	if n == 1 {
		return "a pin of its own"
	}
	return "pins of their own"
}

func (pl *planner) assumed() string {
	if pl.known {
		return ""
	}
	return fmt.Sprintf(" There is no module yet; %d free pins are assumed.", AssumedPins)
}
