package scan

import (
	"fmt"
	"strings"

	"fascia/design/finding"
)

// choices is the table that explains the decision: direct first, then the shapes by pins.
func (pl *planner) choices() []Choice {
	n := len(pl.keys)
	direct := Choice{Method: "direct", Pins: n, PeriodMicros: pl.drive.period(0, n), Fits: n <= pl.free, Chosen: pl.result.Style == "direct"}
	direct.Verdict = pl.verdictDirect(direct)
	list := []Choice{direct}
	for i, o := range pl.list {
		c := Choice{Method: "matrix", Rows: o.rows, Columns: o.columns, Pins: pl.pins(o.shape), Diodes: len(o.diodes), Length: float64(o.length),
			PeriodMicros: pl.drive.period(o.columns, len(pl.direct)), Fits: o.fits, Chosen: i == pl.chosen && pl.result.Style != "direct"}
		if pl.everyKey() {
			c.Diodes = len(pl.matrix)
		}
		c.Verdict = pl.verdict(o, c)
		list = append(list, c)
	}
	return list
}

func (pl *planner) verdictDirect(c Choice) string {
	switch {
	case c.Chosen && c.Fits:
		return "chosen: simplest, and no two keys can disturb each other"
	case c.Chosen:
		return fmt.Sprintf("chosen, but takes %s more than are free", count(c.Pins-pl.free, "pin"))
	case c.Fits && pl.wishes.Style == "matrix":
		return "would fit, but a matrix is asked for"
	case c.Fits:
		return "not possible: contacts share both their terminals"
	}
	return fmt.Sprintf("takes %s more than are free", count(c.Pins-pl.free, "pin"))
}

// verdict says in words how a shape compares with the one chosen.
func (pl *planner) verdict(o option, c Choice) string {
	var says []string
	if c.Chosen {
		says = append(says, "chosen")
	}
	if !c.Fits {
		says = append(says, fmt.Sprintf("takes %s more than are free", count(c.Pins-pl.free, "pin")))
	}
	if c.Diodes > 0 && pl.noDiodes() {
		says = append(says, fmt.Sprintf("ghosts without %s", count(c.Diodes, "diode")))
	} else if c.Diodes > 0 {
		says = append(says, count(c.Diodes, "diode"))
	}
	if o.regular && upright(pl.m.keys, o.shape) {
		says = append(says, "follows the layout")
	}
	if pl.chosen < 0 {
		return orElse(says, "would do")
	}
	best := pl.list[pl.chosen]
	if !c.Chosen {
		says = append(says, compare(o.pins()-best.pins(), "pin", "pins")...)
		if o.drafted {
			more := o.draft - best.draft // like with like: two drafts, or two final lengths
			if o.final && best.final {
				more = o.length - best.length
			}
			says = append(says, compare(more, "hole of wire", "holes of wire")...)
		}
	}
	return orElse(says, "no better")
}

func orElse(says []string, otherwise string) string {
	if len(says) == 0 {
		return otherwise
	}
	return strings.Join(says, "; ")
}

// compare says how many more or fewer; nothing when it is none.
func compare(more int, one, many string) []string {
	how, noun := "more", many
	if more < 0 {
		more, how = -more, "fewer"
	}
	if more == 1 {
		noun = one
	}
	if more == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%d %s %s", more, noun, how)}
}

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
	if r.Proved && r.Cost > 0 {
		text += fmt.Sprintf(" %g holes of wire; no arrangement takes fewer.", r.Cost)
	} else if r.Cost > 0 {
		text += fmt.Sprintf(" About %g holes of wire; no arrangement takes fewer than %g.", r.Cost, r.Bound)
	}
	if r.Active == "low" {
		text += fmt.Sprintf(" Active low with %s pull-ups works on every chip.", r.Pulls)
	}
	return text + pl.assumed()
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
