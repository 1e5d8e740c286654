package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

var diodeRules = []Rule{
	{Code: "diode-reversed", Severity: finding.Stop, Says: "Key diodes conduct from the line that rests high to the line that is driven low.",
		Source: "computed from the scan; common practice, no source", look: diodeReversed},
	{Code: "diode-mixed", Severity: finding.Stop, Says: "All key diodes point the same way along their keys' current.", Source: "common practice, no source", look: diodeMixed},
	{Code: "diode-direction", Severity: finding.Note, Says: "The direction of all key diodes is stated once for the board.", Source: "common practice, no source", look: diodeDirection},
	{Code: "diode-power", Severity: finding.Mind, Says: "Key diodes are signal diodes.", Source: "1N5817-1N5819 data sheet; leakage from memory", look: diodePower},
}

// A keyDiode is a diode between a line and a key that is read through it.
type keyDiode struct {
	it       *item
	key      panel.KeyRef
	cell     scan.Cell
	line     *netlist.Net
	reversed bool
}

// findKeyDiodes lists the diodes of the keys and whether each points the wrong way. Current flows from
// the row side of a key to its column side when the selected line is low, and back when it is high;
// where lines both read and select, each key has a direction of its own.
func (v *view) findKeyDiodes() []keyDiode {
	ends := v.keyEnds()
	var found []keyDiode
	for _, it := range v.ofKind(part.Diode) {
		for _, pair := range [2][2]string{{"A", "K"}, {"K", "A"}} {
			line, link := v.net(it.Ref, pair[0]), v.net(it.Ref, pair[1])
			e, ok := ends[link]
			if !isLine(line) || isLine(link) || !ok {
				continue
			}
			anodeWanted := (e.side == 0) != (v.scan.Active == "high")
			found = append(found, keyDiode{it, e.key, e.cell, line, (pair[0] == "A") != anodeWanted})
			break
		}
	}
	return found
}

func isLine(n *netlist.Net) bool {
	return n != nil && (n.Class == netlist.Row || n.Class == netlist.Column)
}

// A keyEnd is one side of a key that has a cell.
type keyEnd struct {
	key  panel.KeyRef
	cell scan.Cell
	side int
}

// keyEnds gives the first end of a key with a cell on each net.
func (v *view) keyEnds() map[*netlist.Net]keyEnd {
	cells := map[string]scan.Cell{}
	for _, c := range v.scan.Cells {
		cells[c.Key] = c
	}
	ends := map[*netlist.Net]keyEnd{}
	for _, k := range v.keys {
		c, ok := cells[k.ID]
		for side, end := range k.Contact.Between {
			n := v.net(k.Ref, end)
			if _, taken := ends[n]; ok && n != nil && !taken {
				ends[n] = keyEnd{k, c, side}
			}
		}
	}
	return ends
}

func diodeReversed(v *view) []finding.Finding {
	var found []finding.Finding
	for _, d := range v.keyDiodes {
		if !d.reversed {
			continue
		}
		text := fmt.Sprintf("Diode %s on %s blocks the current of its key, so the key is never seen.", d.it.Ref, d.line.Name)
		if read, driven := v.scan.RowNet(d.cell.Row), v.scan.ColumnNet(d.cell.Column); v.scan.Style == "lines" {
			text = fmt.Sprintf("Diode %s points the other way: %s answers on %s while %s is selected, not on %s while %s is.",
				d.it.Ref, keyName(d.key), driven, read, read, driven)
		}
		found = append(found, finding.Finding{Where: finding.Where{Refs: []string{d.it.Ref}, Net: d.line.Name}, Text: text, Fix: "Turn it round."})
	}
	return found
}

func diodeMixed(v *view) []finding.Finding {
	var wrong, right []string
	for _, d := range v.keyDiodes {
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

// diodeDirection says where the bands point, as long as none points elsewhere.
func diodeDirection(v *view) []finding.Finding {
	all := v.keyDiodes
	if len(all) == 0 || slices.ContainsFunc(all, func(d keyDiode) bool { return d.reversed }) {
		return nil
	}
	refs := make([]string, len(all))
	for i, d := range all {
		refs[i] = d.it.Ref
	}
	text := fmt.Sprintf("All %d key diodes point one way: the band (cathode) towards %s.", len(all), netlist.BandTowards(v.scan))
	if len(all) == 1 {
		text = fmt.Sprintf("The key diode %s has its band (cathode) towards %s.", refs[0], netlist.BandTowards(v.scan))
	}
	return []finding.Finding{{Where: atParts(refs...), Text: text, Fix: "Look at the band before you solder it."}}
}

// powerDiodeMA is the rated current from which a diode counts as a power part.
const powerDiodeMA = 500

func diodePower(v *view) []finding.Finding {
	var found []finding.Finding
	for _, d := range v.keyDiodes {
		if d.it.def.Facts.ForwardMA >= powerDiodeMA {
			found = append(found, finding.Finding{Where: atParts(d.it.Ref),
				Text: fmt.Sprintf("Diode %s (%s) is a power part; when warm it leaks enough to press keys by itself.", d.it.Ref, d.it.def.Name),
				Fix:  "Take a 1N4148 or a small Schottky diode."})
		}
	}
	return found
}
