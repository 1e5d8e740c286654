package scan

import (
	"fmt"

	"fascia/design/finding"
)

// wishedShapes lists the shapes that keep to the wishes about rows and columns; when none does, it
// says so and lists those that keep to the rows alone, then to the columns, then to neither.
func (pl *planner) wishedShapes(able func(shape) bool) (tight, loose []shape) {
	n := len(pl.matrix)
	rows, columns := max(0, pl.wishes.Rows), max(0, pl.wishes.Columns)
	tight, loose = shapes(n, rows, columns, able)
	if len(tight) > 0 {
		return tight, loose
	}
	for _, w := range [][2]int{{rows, 0}, {0, columns}, {0, 0}} {
		if tight, loose = shapes(n, w[0], w[1], able); len(tight) > 0 {
			break
		}
	}
	if pl.wishes.Style != "direct" && (rows > 0 || columns > 0) {
		pl.refuseWish(rows, columns, tight)
	}
	return tight, loose
}

func (pl *planner) refuseWish(rows, columns int, tight []shape) {
	n := len(pl.matrix)
	asked := count(columns, "column")
	if rows > 0 && columns > 0 {
		asked = fmt.Sprintf("%d x %d cells", rows, columns)
	} else if rows > 0 {
		asked = count(rows, "row")
	}
	text := fmt.Sprintf("%s can't hold %s.", asked, count(n, "matrix key"))
	if (rows == 0 || columns == 0 || rows*columns >= n) && pl.m.anyBound() {
		text = fmt.Sprintf("%s can't hold %s: contacts that share a terminal must lie in one line.", asked, count(n, "matrix key"))
	}
	fix := "Let Fascia choose both numbers."
	if len(tight) > 0 {
		fix = fmt.Sprintf("Ask for %d rows and %d columns, or let Fascia choose both.", tight[0].rows, tight[0].columns)
	}
	pl.say(finding.Stop, "scan-wish", nil, text, fix)
}

func (pl *planner) say(sev finding.Severity, code string, keys []string, text, fix string) {
	pl.result.Findings = append(pl.result.Findings, finding.Finding{Severity: sev, Code: code, Where: finding.Where{Keys: keys}, Text: text, Fix: fix})
}

// count writes a number with its noun.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
