package scan

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/part"
)

// light gives the columns of a matrix the LEDs that the maker lists, in order. A line that is read
// can't have one: its LED would feed the key's diode with milliamperes and hold the line near 0.8 V,
// where V_IL ends; so lines that both read and select have none.
func (pl *planner) light() {
	lamps, r := pl.wishes.Lamps, &pl.result
	if len(lamps) == 0 {
		return
	}
	if !pl.byMatrix() {
		pl.sayLamps(finding.Mind, "scan-lamp-alone", lamps,
			fmt.Sprintf("%s %s to light with the columns of a matrix, and the keys are read without one.", finding.Names(lamps), isOrAre(len(lamps))),
			"Let the style be matrix, or take the LEDs off the list of lamps.")
		return
	}
	for i, led := range lamps {
		if !pl.isLamp(led) {
			pl.sayLamps(finding.Stop, "scan-lamp-missing", []string{led},
				fmt.Sprintf("%s is to light with column %d, and no LED of that name with terminals A and K is placed.", led, i),
				"Place the LED, or take it off the list of lamps.")
		} else if i < r.Columns {
			r.Lamps = append(r.Lamps, Lamp{Line: i, LED: led})
		}
	}
	switch over := len(lamps) - r.Columns; {
	case over > 0:
		pl.sayLamps(finding.Mind, "scan-lamp-many", lamps[r.Columns:],
			fmt.Sprintf("%s for %s: %s never %s.", count(len(lamps), "lamp"), count(r.Columns, "column"), finding.Names(lamps[r.Columns:]), shines(over)),
			fmt.Sprintf("Take %s off the list of lamps, or ask for more columns.", count(over, "LED")))
	case over < 0:
		pl.sayLamps(finding.Note, "scan-lamp-few", lamps,
			fmt.Sprintf("%s for %s: nothing shows when the last %s selected.", count(len(lamps), "lamp"), count(r.Columns, "column"), isLast(-over)),
			fmt.Sprintf("List %s more, or leave it so.", count(-over, "LED")))
	}
}

// isLamp reports whether ref is a placed LED with one colour.
func (pl *planner) isLamp(ref string) bool {
	placed := pl.panel.Find(ref)
	if placed == nil {
		return false
	}
	d := pl.panel.Definition(placed)
	_, anode := d.Terminal("A")
	_, cathode := d.Terminal("K")
	return d.Kind == part.LED && anode && cathode
}

func (pl *planner) sayLamps(sev finding.Severity, code string, refs []string, text, fix string) {
	pl.result.Findings = append(pl.result.Findings, finding.Finding{Severity: sev, Code: code, Where: finding.Where{Refs: refs}, Text: text, Fix: fix})
}

func isOrAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func shines(n int) string {
	if n == 1 {
		return "lights"
	}
	return "light"
}

func isLast(n int) string {
	if n == 1 {
		return "one is"
	}
	return fmt.Sprintf("%d are", n)
}
