package scan

import (
	"fmt"

	"fascia/design/finding"
)

// wishedShapes lists the shapes that keep to the wishes about rows and columns; when none does,
// those that keep to the rows alone, then to the columns, then to neither.
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
	pl.refused = rows > 0 || columns > 0
	return tight, loose
}

// refuseWish says that no matrix keeps to the wishes about its shape, and what s does instead.
func (pl *planner) refuseWish(s shape) {
	n, rows, columns := len(pl.matrix), pl.wishes.Rows, pl.wishes.Columns
	asked := count(columns, "column")
	switch {
	case rows > 0 && columns > 0:
		asked = fmt.Sprintf("%d x %d cells", rows, columns)
	case rows > 0:
		asked = count(rows, "row")
	}
	text := fmt.Sprintf("%s can't hold %s", asked, count(n, "matrix key"))
	if (rows <= 0 || columns <= 0 || rows*columns >= n) && pl.m.anyBound() {
		text += ": contacts that share a terminal must lie in one line"
	}
	pl.say(finding.Stop, "scan-wish", nil, text+".",
		fmt.Sprintf("Ask for %s and %s, or let Fascia choose both.", count(s.rows, "row"), count(s.columns, "column")))
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
