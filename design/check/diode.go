package check

import (
	"fmt"
	"math"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
)

var diodeRules = []Rule{
	{Code: "diode-reversed", Severity: finding.Stop, Says: "Key diodes conduct from the line that rests high to the line that is driven low.",
		Source: "computed from the scan; common practice, no source", look: diodeReversed},
	{Code: "diode-mixed", Severity: finding.Stop, Says: "All key diodes point the same way.", Source: "common practice, no source", look: diodeMixed},
	{Code: "diode-forward", Severity: finding.Mind, Says: "A key diode leaves a pressed key below the input's low level.",
		Source: "RP2040 data sheet table 622: VIL 0.8 V; 1N4148 data sheet for the slope", look: diodeForward},
	{Code: "diode-power", Severity: finding.Mind, Says: "Key diodes are signal diodes.", Source: "1N5817-1N5819 data sheet; leakage from memory", look: diodePower},
}

// A keyDiode is a diode with one end on a line of the matrix.
type keyDiode struct {
	it       *item
	line     *netlist.Net
	reversed bool
}

// keyDiodes lists the diodes of the matrix and whether each points the wrong way. Current flows from
// row to column when the selected column is low, and from column to row when it is high.
func (v *view) keyDiodes() []keyDiode {
	var found []keyDiode
	for _, it := range v.ofKind(part.Diode) {
		for _, end := range []string{"A", "K"} {
			n := v.net(it.Ref, end)
			if n == nil || n.Class != netlist.Row && n.Class != netlist.Column {
				continue
			}
			anodeWanted := (n.Class == netlist.Row) != (v.scan.Active == "high")
			found = append(found, keyDiode{it, n, (end == "A") != anodeWanted})
			break
		}
	}
	return found
}

func diodeReversed(v *view) []finding.Finding {
	var found []finding.Finding
	for _, d := range v.keyDiodes() {
		if d.reversed {
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{d.it.Ref}, Net: d.line.Name},
				Text: fmt.Sprintf("Diode %s on %s blocks the current of its key, so the key is never seen.", d.it.Ref, d.line.Name),
				Fix:  "Turn it round."})
		}
	}
	return found
}

func diodeMixed(v *view) []finding.Finding {
	var wrong, right []string
	for _, d := range v.keyDiodes() {
		if d.reversed {
			wrong = append(wrong, d.it.Ref)
		} else {
			right = append(right, d.it.Ref)
		}
	}
	if len(wrong) == 0 || len(right) == 0 {
		return nil
	}
	return []finding.Finding{{Where: atParts(append(wrong, right...)...),
		Text: fmt.Sprintf("%s point one way and %s the other.", finding.Names(wrong), finding.Names(right)),
		Fix:  fmt.Sprintf("Turn %s round.", finding.Names(wrong))}}
}

// voltsPerDecade is how much a silicon diode's forward voltage falls with each tenth of current:
// 0.72 V at 10 mA, 0.5 V at 0.1 mA (1N4148, curve reading, from memory).
const voltsPerDecade = 0.11

// lowLevel is the voltage that an input sees through a diode and a pressed key: the diode's drop
// at the small current of a pull-up.
func lowLevel(forward, atMA, pullOhms float64) float64 {
	ma := logicVolts / pullOhms * 1000
	if atMA > ma {
		forward -= voltsPerDecade * math.Log10(atMA/ma)
	}
	return max(forward, 0)
}

func diodeForward(v *view) []finding.Finding {
	if v.Module == nil {
		return nil
	}
	pull := v.Module.Chip.PullUpOhms[0]
	for _, n := range v.keyLines() {
		if ohms := v.leastPull(n); ohms > 0 && ohms < pull {
			pull = ohms
		}
	}
	var found []finding.Finding
	for _, d := range v.keyDiodes() {
		f := d.it.def.Facts
		if f.ForwardVolts == 0 || pull == 0 {
			continue
		}
		if low := lowLevel(f.ForwardVolts, f.ForwardMA, pull); low > v.Module.Chip.VILVolts {
			found = append(found, finding.Finding{Where: atParts(d.it.Ref),
				Text: fmt.Sprintf("Through diode %s a pressed key reads %s V; the input wants %s V or less for a low.", d.it.Ref, figure(low), figure(v.Module.Chip.VILVolts)),
				Fix:  "Take a 1N4148 or a small Schottky diode."})
		}
	}
	return found
}

// powerDiodeMA is the rated current from which a diode counts as a power part.
const powerDiodeMA = 500

func diodePower(v *view) []finding.Finding {
	var found []finding.Finding
	for _, d := range v.keyDiodes() {
		if d.it.def.Facts.ForwardMA >= powerDiodeMA {
			found = append(found, finding.Finding{Where: atParts(d.it.Ref),
				Text: fmt.Sprintf("Diode %s (%s) is a power part; when warm it leaks enough to press keys by itself.", d.it.Ref, d.it.def.Name),
				Fix:  "Take a 1N4148 or a small Schottky diode."})
		}
	}
	return found
}
