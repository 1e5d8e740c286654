package scan

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/part"
)

// tooFew says that the keys take more pins than are free, and what would fit.
func (pl *planner) tooFew(need int) {
	room := pl.free - len(pl.direct)
	text := fmt.Sprintf("%s need %s, and %s.", count(len(pl.keys), "key"), count(need, "pin"), areFree(pl.free))
	var fix string
	switch holds := (room / 2) * (room - room/2); {
	case pl.result.Style == "direct" && pl.leastPins() <= pl.free && pl.wishes.Style == "direct":
		fix = fmt.Sprintf("Let the style be auto: a matrix of %s takes %s.", pl.leastShape(), count(pl.leastPins(), "pin"))
	case pl.leastPins() <= pl.free && (pl.wishes.Rows > 0 || pl.wishes.Columns > 0):
		fix = "Let Fascia choose rows and columns."
	case room < 2:
		fix = "Let keys give up pins of their own, or free some pins."
	default:
		fix = fmt.Sprintf("A matrix on %s holds %s: take %s away, or free %s.", count(room, "pin"), count(holds, "key"),
			count(max(1, len(pl.matrix)-holds), "key"), count(need-pl.free, "pin"))
	}
	pl.say(finding.Stop, "scan-pins", nil, text, fix)
}

// leastPins is the fewest that the keys can do with, whatever the wishes about shape.
func (pl *planner) leastPins() int {
	s := pl.leastMatrix()
	return pl.pins(s)
}

func (pl *planner) leastShape() string {
	s := pl.leastMatrix()
	return fmt.Sprintf("%d x %d", s.rows, s.columns)
}

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

// checkSupply says when keys tied to a supply can't be read at the level asked for.
func (pl *planner) checkSupply(supply map[string]bool) {
	active := pl.drive.active
	if active == "low" && !supply[part.Supply3V3] || active == "high" && !supply[part.Ground] {
		return
	}
	net, other := part.Supply3V3, "high"
	if active == "high" {
		net, other = part.Ground, "low"
	}
	pl.say(finding.Stop, "scan-active", nil, fmt.Sprintf("A key switches to %s by nature, and keys are read active %s.", net, active),
		fmt.Sprintf("Let keys be active %s, or use a switch with both contacts free.", other))
}
