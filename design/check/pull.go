package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
)

var pullRules = []Rule{
	{Code: "pull-missing", Severity: finding.Stop, Says: "External pulls that are asked for are placed.", Source: "common practice, no source",
		Instead: []string{"net-pull-missing"}, look: pullMissing},
	{Code: "encoder-pulls", Severity: finding.Mind, Says: "An encoder's contacts have pull-ups.", Source: "PEC11R encoder data sheet, suggested filter: 10 k pull-up", look: encoderPulls},
	{Code: "input-floating", Severity: finding.Mind, Says: "No input floats.", Source: "common practice, no source", look: inputFloating},
}

// directLine is the net on which a direct key is read: the side of its contact that is no rail.
func (v *view) directLine(k panel.KeyRef) *netlist.Net {
	for _, t := range k.Contact.Between {
		if n := v.net(k.Ref, t); n != nil && !v.isRail(n) {
			return n
		}
	}
	return nil
}

// hasPull reports whether a resistor ties the net to a rail.
func (v *view) hasPull(n *netlist.Net) bool {
	return slices.ContainsFunc(v.links(n, part.Resistor), func(r link) bool { return v.isRail(r.far) })
}

// leastPull is the smallest resistance that pulls the net to a rail: of placed resistors, else the
// controller's own pull; 0 when there is none or it is not known.
func (v *view) leastPull(n *netlist.Net) float64 {
	least := 0.0
	for _, r := range v.links(n, part.Resistor) {
		if ohms, ok := r.it.ohms(); ok && v.isRail(r.far) && (least == 0 || ohms < least) {
			least = ohms
		}
	}
	if least > 0 || n == nil || v.Module == nil {
		return least
	}
	if p := v.pinOf[n.Name]; p != nil && p.Pull == "up" {
		return v.Module.Chip.PullUpOhms[0]
	} else if p != nil && p.Pull == "down" {
		return v.Module.Chip.PullDownOhms[0]
	}
	return 0
}

func pullMissing(v *view) []finding.Finding {
	if v.scan.Pulls != "external" || v.module() == nil { // without a module there is no rail to pull to
		return nil
	}
	to := part.Supply3V3
	if v.scan.Active == "high" {
		to = part.Ground
	}
	var found []finding.Finding
	for _, n := range v.keyLines() {
		if !v.hasPull(n) {
			found = append(found, finding.Finding{Where: finding.Where{Net: n.Name},
				Text: fmt.Sprintf("Nothing pulls %s to %s, and the scan counts on a resistor there.", n.Name, to),
				Fix:  fmt.Sprintf("Place a resistor of 10 kilohms from %s to %s, or let the scan use internal pulls.", n.Name, to)})
		}
	}
	return found
}

// isPulled reports whether a resistor or the controller pulls the net.
func (v *view) isPulled(n *netlist.Net) bool {
	p := v.pinOf[n.Name]
	return v.hasPull(n) || p != nil && (p.Pull == "up" || p.Pull == "down")
}

func encoderPulls(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Encoder) {
		if it.def.Facts.PullUpOhms > 0 {
			continue
		}
		var open []string
		for _, need := range it.def.Needs {
			if n := v.net(it.Ref, need.Terminal); n != nil && need.Signal == part.DigitalIn && !v.isPulled(n) {
				open = append(open, need.Terminal)
			}
		}
		if len(open) > 0 {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("Nothing pulls %s of encoder %s up.", finding.Names(open), it.Ref),
				Fix:  "Let its definition ask for pull-ups, or place resistors of 10 kilohms to 3V3."})
		}
	}
	return found
}

// passive are the kinds of part that hold no level on a line by themselves.
var passive = map[part.Kind]bool{part.Module: true, part.Switch: true, part.Encoder: true, part.Joystick: true,
	part.Resistor: true, part.Capacitor: true, part.Diode: true, part.LED: true}

// inputFloating finds inputs with no pull on which nothing holds a level. Key lines with external
// pulls and encoders have rules of their own; a joystick's slider holds an analogue input.
func inputFloating(v *view) []finding.Finding {
	external := v.keyLines()
	if v.scan.Pulls != "external" {
		external = nil
	}
	var found []finding.Finding
	for i := range v.pins.Pins {
		p := &v.pins.Pins[i]
		n := v.net(v.pins.Module, p.Terminal)
		if p.Direction != "in" || isADC(p.Function) || n == nil || v.isPulled(n) || slices.Contains(external, n) || v.isHeld(n) {
			continue
		}
		found = append(found, finding.Finding{Where: finding.Where{Net: n.Name, Pin: p.GPIO},
			Text: fmt.Sprintf("%s reads %s, and nothing holds that line at a level.", p.GPIO, n.Name),
			Fix:  "Give it a pull-up, in the definition of the part or as a resistor of 10 kilohms to 3V3."})
	}
	return found
}

func isADC(function string) bool { return len(function) >= 3 && function[:3] == "ADC" }

// isHeld reports whether some part on the net drives it, or an encoder's own rule looks after it.
func (v *view) isHeld(n *netlist.Net) bool {
	return slices.ContainsFunc(n.Terminals, func(t netlist.Terminal) bool {
		it := v.byRef[t.Ref]
		return it != nil && (!passive[it.def.Kind] || it.def.Kind == part.Encoder || it.def.Facts.PullUpOhms > 0)
	})
}
