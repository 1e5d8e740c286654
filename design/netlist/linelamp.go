package netlist

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/part"
	"fascia/design/scan"
)

// lightsWithLine reports whether an LED is one of those that light with the select lines, so that no
// pin of its own drives it.
func (b *builder) lightsWithLine(ref string) bool {
	return slices.Contains(b.p.Scan.Lamps, ref) ||
		slices.ContainsFunc(b.scan.Lamps, func(l scan.Lamp) bool { return l.LED == ref })
}

// lineLamps joins the LEDs of the select lines but for what comes between them and a resistor, and
// lists their anodes for that. A line that is selected low takes the current of an LED hung from
// 3V3; one that is selected high gives it to an LED that stands on ground.
func (b *builder) lineLamps() []lamp {
	var found []lamp
	for _, l := range b.scan.Lamps {
		anode, hasAnode := b.end(l.LED, "A")
		cathode, hasCathode := b.end(l.LED, "K")
		line := b.scan.ColumnNet(l.Line)
		switch {
		case !hasAnode || !hasCathode:
			b.noLamp(l.LED, fmt.Sprintf("%s is to light with %s, and has no terminals A and K.", l.LED, line), "Choose an LED of one colour.")
			continue
		case b.isAsked(anode) || b.isAsked(cathode):
			b.noLamp(l.LED, fmt.Sprintf("%s is to light with %s, and a join of yours holds it already.", l.LED, line), "Take it out of the join, or off the list of lamps.")
			continue
		}
		feed, drain := b.supply(part.Supply3V3), b.column(l.Line)
		if b.activeHigh() {
			feed, drain = b.column(l.Line), b.supply(part.Ground)
		}
		b.attach(cathode, drain)
		found = append(found, lamp{l.LED, l.LED + " series", anode, feed})
	}
	return found
}

func (b *builder) noLamp(led, text, fix string) {
	b.note(finding.Finding{Severity: finding.Mind, Code: "net-lamp-unwired", Where: finding.Where{Refs: []string{led}}, Text: text, Fix: fix})
}
