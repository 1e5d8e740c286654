package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
)

var soundRules = []Rule{
	{Code: "buzzer-direct", Severity: finding.Stop, Says: "A magnetic buzzer is driven through a transistor.", Source: "from memory: 16 to 42 ohms, 30 to 80 mA", look: buzzerDirect},
	{Code: "buzzer-flyback", Severity: finding.Mind, Says: "A coil has a diode across it.", Source: "common practice, no source", look: buzzerFlyback},
}

// drawsMuch reports whether a buzzer takes more than a pin gives, or its draw is not known.
func drawsMuch(it *item) bool {
	return it.def.Facts.DriveMA == 0 || it.def.Facts.DriveMA > mostDriveMA
}

func buzzerDirect(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Buzzer) {
		if !drawsMuch(it) {
			continue
		}
		for _, t := range it.def.Terminals {
			pin := v.gpio(v.net(it.Ref, t.Name))
			if pin == "" {
				continue
			}
			draws := "more than a pin gives"
			if it.def.Facts.DriveMA > 0 {
				draws = fmt.Sprintf("%s mA; a pin gives %d mA", figure(it.def.Facts.DriveMA), mostDriveMA)
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref}, Pin: pin},
				Text: fmt.Sprintf("Buzzer %s hangs on %s and draws %s.", it.Ref, pin, draws),
				Fix:  "Drive it through a transistor with a resistor of 1 kilohm at its base, or take a piezo."})
			break
		}
	}
	return found
}

func buzzerFlyback(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Buzzer) {
		var ends []*netlist.Net
		direct := false
		for _, t := range it.def.Terminals {
			n := v.net(it.Ref, t.Name)
			if n != nil && !slices.Contains(ends, n) {
				ends = append(ends, n)
			}
			direct = direct || v.gpio(n) != ""
		}
		if !drawsMuch(it) || direct || len(ends) != 2 {
			continue
		}
		if !slices.ContainsFunc(v.links(ends[0], part.Diode), func(d link) bool { return d.far == ends[1] }) {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("Buzzer %s has no diode across its coil; its kick can destroy the transistor.", it.Ref),
				Fix:  "Place a diode across it, cathode to the supply."})
		}
	}
	return found
}
