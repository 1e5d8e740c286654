package scan

import (
	"fmt"
	"strings"

	"fascia/design/finding"
	"fascia/design/part"
)

// tooFew says that the keys take more pins than are free, and what would fit.
func (pl *planner) tooFew(need int) {
	room := pl.free - len(pl.direct)
	least := pl.leastMatrix()
	fits := least.cells() > 0 && pl.pins(least) <= pl.free
	text := fmt.Sprintf("%s need %s, and %s.", count(len(pl.keys), "key"), count(need, "pin"), areFree(pl.free))
	other := pl.otherWays()
	var fix string
	switch holds := matrixHolds(max(0, room)); {
	case pl.result.Style == "expander":
		fix = fmt.Sprintf("Place enough expanders for all keys, or free %s.", count(need-pl.free, "pin"))
	case len(pl.matrix) == 0:
		fix = fmt.Sprintf("Let keys give up pins of their own, or free %s.", count(need-pl.free, "pin")) + other
	case fits && !pl.byMatrix():
		fix = fmt.Sprintf("Let the style be auto: a matrix of %d x %d takes %s.", least.rows, least.columns, count(pl.pins(least), "pin"))
	case fits && (pl.wishes.Rows > 0 || pl.wishes.Columns > 0):
		fix = "Let Fascia choose rows and columns."
	case other == "":
		text += " " + pl.beyondAll()
		fix = fmt.Sprintf("Free %s, or take keys away.", count(pl.leastPins()-pl.free, "pin"))
	case room < 2:
		fix = "Let keys give up pins of their own, or free some pins." + other
	default:
		fix = fmt.Sprintf("A matrix on %s holds %s: take %s away, or free %s.", count(room, "pin"), count(holds, "key"),
			count(max(1, len(pl.matrix)-holds), "key"), count(need-pl.free, "pin")) + other
	}
	pl.say(finding.Stop, "scan-pins", nil, text, fix)
}

// otherWays tells what ways with parts of their own would fit, "" when none does.
func (pl *planner) otherWays() string {
	var ways []string
	if r := pl.linesRow(); len(pl.lines.pool) > 0 && r.Fits && !r.Chosen {
		ways = append(ways, fmt.Sprintf("lines with %s take %s", count(r.Diodes, "diode"), count(r.Pins, "pin")))
	}
	if r := pl.expanderRow(); r.Fits && !r.Chosen {
		pins := count(r.Pins, "pin")
		if r.Pins == 0 {
			pins = "no pin more"
		}
		ways = append(ways, fmt.Sprintf("%s %s", takes(pl.expanding.chips(len(pl.keys))), pins))
	}
	if len(ways) == 0 {
		return ""
	}
	return " Or change the style: " + strings.Join(ways, ", ") + "."
}

func takes(chips int) string {
	if chips == 1 {
		return "1 expander takes"
	}
	return fmt.Sprintf("%d expanders take", chips)
}

// beyondAll says how many keys each method reads on the pins that are free, when none reads all.
func (pl *planner) beyondAll() string {
	room := max(0, pl.free-len(pl.direct))
	text := fmt.Sprintf("No method fits: beside %s with %s, a matrix holds %d and lines with diodes %d", count(len(pl.direct), "key"), ownPins(len(pl.direct)), matrixHolds(room), linesHold(room))
	if len(pl.direct) == 0 {
		text = fmt.Sprintf("No method fits: a pin each reads %d, a matrix %d and lines with diodes %d", pl.free, matrixHolds(room), linesHold(room))
	}
	x := &pl.expanding
	if most := x.most() * x.each(); len(pl.keys) > most {
		return text + fmt.Sprintf(", and expanders read %d.", most)
	}
	return text + "; an expander takes 2 pins for its bus."
}

// leastPins is the fewest pins that any method takes.
func (pl *planner) leastPins() int {
	least := len(pl.keys)
	if s := pl.leastMatrix(); s.cells() > 0 {
		least = min(least, pl.pins(s))
	}
	for _, r := range []row{pl.linesRow(), pl.expanderRow()} {
		if r.barred == "" && r.Method != "" && (r.Pins > 0 || r.Method == methodExpander) {
			least = min(least, r.Pins)
		}
	}
	return least
}

// leastMatrix is the smallest matrix for the keys, whatever the wishes about its shape; an empty one
// when there is none.
func (pl *planner) leastMatrix() shape {
	if len(pl.matrix) == 0 {
		return shape{}
	}
	tight, _ := shapes(len(pl.matrix), 0, 0, func(s shape) bool { _, ok := pl.m.place(s); return ok })
	if len(tight) == 0 {
		return shape{}
	}
	return tight[0]
}

func areFree(n int) string {
	if n == 1 {
		return "1 is free"
	}
	return fmt.Sprintf("%d are free", n)
}

// checkSupply says when keys tied to a supply can't be read at the level that presses give.
func (pl *planner) checkSupply(supply map[string]bool, expander bool) {
	active := pl.result.Active
	if active == "low" && !supply[part.Supply3V3] || active == "high" && !supply[part.Ground] {
		return
	}
	net, fix := part.Supply3V3, "Let keys be active high, or use a switch with both contacts free."
	switch {
	case active == "high":
		net, fix = part.Ground, "Let keys be active low, or use a switch with both contacts free."
	case expander:
		fix = "Use a switch with both contacts free, or let the style be auto."
	}
	pl.say(finding.Stop, "scan-active", nil, fmt.Sprintf("A key switches to %s by nature, and keys are read active %s.", net, active), fix)
}
