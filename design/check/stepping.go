package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
	"fascia/design/scan"
)

const steppingSource = "RP2350 data sheet, appendix E, RP2350-E9"

// mostFaultyPullDown is the largest pull-down that holds a pin low against RP2350-E9.
const mostFaultyPullDown = 8200

var steppingRules = []Rule{
	{Code: "stepping-pull-down", Severity: finding.Stop, Says: "A stepping with RP2350-E9 uses no internal pull-downs.", Source: steppingSource, look: steppingPullDown},
	{Code: "stepping-unknown", Severity: finding.Mind, Says: "Internal pull-downs want a known stepping.", Source: steppingSource, look: steppingUnknown},
	{Code: "stepping-pull-down-weak", Severity: finding.Mind, Says: "Pull-downs against RP2350-E9 are 8.2 kilohms or less.", Source: steppingSource, look: steppingPullDownWeak},
}

// pulledDown names what the controller's own pull-downs hold low: key lines or pins; "" for none.
func (v *view) pulledDown() string {
	if v.scan.Active == "high" && v.scan.Pulls == "internal" && len(v.scan.Cells)+len(v.ownPins()) > 0 {
		return "the key lines"
	}
	for _, p := range v.pins.Pins {
		if p.Pull == "down" {
			return p.Signal
		}
	}
	return ""
}

// isFaulty reports whether some steppings of the chip have faulty pull-downs, and whether the
// maker's is one of them or not written down.
func (v *view) isFaulty() (faulty, unknown bool) {
	m := v.module()
	if m == nil || v.Module == nil || len(v.Module.Chip.PullDownFaulty) == 0 {
		return false, false
	}
	return slices.Contains(v.Module.Chip.PullDownFaulty, m.Value), m.Value == ""
}

func steppingPullDown(v *view) []finding.Finding {
	faulty, _ := v.isFaulty()
	what := v.pulledDown()
	if !faulty || what == "" {
		return nil
	}
	m := v.module()
	return []finding.Finding{{Where: atParts(m.Ref),
		Text: fmt.Sprintf("The internal pull-downs of %s stepping %s cannot hold %s low: a released key would stay pressed.", v.Module.Chip.Name, m.Value, what),
		Fix:  "Read the keys active low with pull-ups, or place pull-down resistors of 8.2 kilohms or less."}}
}

func steppingUnknown(v *view) []finding.Finding {
	_, unknown := v.isFaulty()
	what := v.pulledDown()
	if !unknown || what == "" {
		return nil
	}
	m := v.module()
	return []finding.Finding{{Where: atParts(m.Ref),
		Text: fmt.Sprintf("The stepping of module %s is not known; on %s the internal pull-downs cannot hold %s low.", m.Ref, finding.Names(v.Module.Chip.PullDownFaulty), what),
		Fix:  "Write the stepping on the module (A2, A3 or A4, printed on the chip), or read the keys active low."}}
}

func steppingPullDownWeak(v *view) []finding.Finding {
	faulty, unknown := v.isFaulty()
	if !(faulty || unknown) || v.scan.Active != "high" || v.scan.Pulls != "external" {
		return nil
	}
	var found []finding.Finding
	for _, n := range v.keyLines() {
		for _, r := range v.links(n, part.Resistor) {
			ohms, ok := r.it.ohms()
			if !ok || !isGround(r.far) || ohms <= mostFaultyPullDown {
				continue
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{r.it.Ref}, Net: n.Name},
				Text: fmt.Sprintf("Resistor %s pulls %s down with %s, too weak against the input current of a faulty stepping.", r.it.Ref, n.Name, resistance(ohms)),
				Fix:  "Take 8.2 kilohms or less."})
		}
	}
	return found
}

// ownPins lists the keys with a pin of the controller's to themselves: an expander's lines have pulls
// of its own.
func (v *view) ownPins() []scan.Direct {
	var own []scan.Direct
	for _, d := range v.scan.Direct {
		if d.Via == "" {
			own = append(own, d)
		}
	}
	return own
}

// keyLines lists the nets on which the controller reads keys: rows, and the lines of direct keys.
func (v *view) keyLines() []*netlist.Net {
	var lines []*netlist.Net
	for i := range v.nets.Nets {
		if v.nets.Nets[i].Class == netlist.Row {
			lines = append(lines, &v.nets.Nets[i])
		}
	}
	for _, d := range v.ownPins() {
		for _, k := range v.keys {
			if n := v.directLine(k); k.ID == d.Key && n != nil && !slices.Contains(lines, n) {
				lines = append(lines, n)
			}
		}
	}
	return lines
}
