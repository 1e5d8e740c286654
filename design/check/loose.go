package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/part"
)

// lonelySaid are the codes by which a stage has said why a part is joined to nothing.
var lonelySaid = []string{"net-lonely", "net-lamp-unwired", "scan-lamp-alone", "scan-lamp-missing", "scan-lamp-many"}

var looseRules = []Rule{
	{Code: "terminal-adrift", Severity: finding.Stop, Says: "Every terminal is on a net or left open on purpose.", Source: "common practice, no source", look: terminalAdrift},
	{Code: "terminal-twice", Severity: finding.Stop, Says: "No terminal is on two nets.", Source: "common practice, no source", look: terminalTwice},
	{Code: "metal-apart", Severity: finding.Stop, Says: "Terminals that are one metal are on one net.",
		Source: "B3F data sheet for switch legs", Instead: []string{"net-short"}, look: metalApart},
	{Code: "part-unused", Severity: finding.Mind, Says: "Every part is joined to something.", Source: "common practice, no source",
		Instead: lonelySaid, look: partUnused},
	{Code: "part-half-used", Severity: finding.Mind, Says: "A part with two ends has both joined.", Source: "common practice, no source",
		Instead: lonelySaid, look: partHalfUsed},
}

// terminalAdrift finds terminals that the net list forgot. Without a net list there are none.
func terminalAdrift(v *view) []finding.Finding {
	if v.Nets == nil {
		return nil
	}
	open := map[panel.TerminalRef]bool{}
	for _, o := range v.nets.Open {
		open[o.TerminalRef] = true
	}
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		var adrift []string
		for _, t := range it.def.Terminals {
			if ref := (panel.TerminalRef{Ref: it.Ref, Terminal: t.Name}); v.netOf[ref] == nil && !open[ref] && !t.Open {
				adrift = append(adrift, t.Name)
			}
		}
		if len(adrift) > 0 {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("%s of %s %s on no net and not left open.", finding.Names(adrift), it.name(), are(len(adrift))),
				Fix:  "Join it with something, or let its definition leave it open."})
		}
	}
	return found
}

func are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func terminalTwice(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.nets.Nets {
		n := &v.nets.Nets[i]
		for _, t := range n.Terminals {
			if other := v.netOf[t.TerminalRef]; other != n {
				found = append(found, finding.Finding{Where: finding.Where{Refs: []string{t.Ref}, Net: n.Name},
					Text: fmt.Sprintf("%s is on net %s and on net %s.", t.TerminalRef, n.Name, other.Name),
					Fix:  "Change the join that puts it there."})
			}
		}
	}
	return found
}

func metalApart(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		for _, set := range it.def.Joined {
			first, name := "", ""
			for _, t := range set {
				n := v.net(it.Ref, t)
				switch {
				case n == nil || n.Name == name:
				case name == "":
					first, name = t, n.Name
				default:
					found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref}, Net: n.Name},
						Text: fmt.Sprintf("%s and %s of %s are one metal, but are wired to %s and %s.", first, t, it.name(), name, n.Name),
						Fix:  "Use legs from the two sides of the contact, or turn the part."})
				}
			}
		}
	}
	return found
}

// needsCompany are the kinds of part that do nothing alone.
var needsCompany = []part.Kind{part.Resistor, part.LED, part.Diode, part.Capacitor, part.Transistor, part.Piezo, part.Buzzer}

// wired lists the terminals of a part that are on a net, and those that are not and should be.
func (v *view) wired(it *item) (on, off []string) {
	for _, t := range it.def.Terminals {
		if v.net(it.Ref, t.Name) != nil {
			on = append(on, t.Name)
		} else if !t.Open {
			off = append(off, t.Name)
		}
	}
	return on, off
}

// noPins reports whether the pin wishes clash: then nothing can have its pin, and that is said
// elsewhere.
func (v *view) noPins() bool { return v.Pins != nil && len(v.Pins.Conflict) > 0 }

func partUnused(v *view) []finding.Finding {
	if v.noPins() {
		return nil
	}
	var found []finding.Finding
	for _, it := range v.ofKind(needsCompany...) {
		if on, _ := v.wired(it); len(on) == 0 {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("%s is placed and joined to nothing.", capital(it.name())),
				Fix:  "Join it with something, or take it away."})
		}
	}
	return found
}

func partHalfUsed(v *view) []finding.Finding {
	if v.noPins() {
		return nil
	}
	var found []finding.Finding
	for _, it := range v.ofKind(needsCompany...) {
		if on, off := v.wired(it); len(on) > 0 && len(off) > 0 && !slices.Contains([]part.Kind{part.Transistor}, it.def.Kind) {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("%s of %s %s joined to nothing.", finding.Names(off), it.name(), are(len(off))),
				Fix:  "Join it with something, or take the part away."})
		}
	}
	return found
}
