package check

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/part"
)

const cellSource = "500 mAh LiPo product page, safety notes"

var powerRules = []Rule{
	{Code: "battery-polarity", Severity: finding.Mind, Says: "The cell's plug is checked against the connector.", Source: cellSource, look: batteryPolarity},
	{Code: "battery-care", Severity: finding.Note, Says: "A cell is treated as what it is.", Source: cellSource, look: batteryCare},
	{Code: "battery-usb", Severity: finding.Mind, Says: "USB does not feed back into a cell.",
		Source: "40-pin RP2040 module data sheet: VBUS reaches VSYS through a diode (from memory)", look: batteryUSB},
	{Code: "battery-switch", Severity: finding.Note, Says: "A panel with a cell can be switched off.", Source: "common practice, no source", look: batterySwitch},
	{Code: "charger-current", Severity: finding.Note, Says: "The charger's current suits the cell.",
		Source: "TP4056 usage note; LP-503759 cell specification: 1 C at most", look: chargerCurrent},
}

func batteryPolarity(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Battery) {
		found = append(found, finding.Finding{Where: atParts(it.Ref),
			Text: fmt.Sprintf("Sellers wire plugs for %s either way round, and a reversed cell destroys the board.", it.name()),
			Fix:  "Measure your cell's plug and compare it with the plan before it goes in."})
	}
	return found
}

func batteryCare(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Battery) {
		found = append(found, finding.Finding{Where: atParts(it.Ref),
			Text: "Never solder on a cell, and never short, bend, crush or pierce it.",
			Fix:  "Unplug cell and USB before soldering or probing; charge attended, and with a charger for that kind of cell."})
	}
	return found
}

// batteryUSB finds a cell on the same VSYS that the module feeds from USB.
func batteryUSB(v *view) []finding.Finding {
	m := v.module()
	if m == nil || len(v.ofKind(part.Battery)) == 0 || !hasNatural(m, part.Supply5V) {
		return nil
	}
	for _, t := range m.def.Terminals {
		n := v.net(m.Ref, t.Name)
		if t.Net != part.VSYS || n == nil {
			continue
		}
		for _, o := range n.Terminals {
			it := v.byRef[o.Ref]
			if it == nil || it.def.Kind != part.Battery && it.def.Kind != part.Charger && it.def.Kind != part.PowerSwitch {
				continue
			}
			fix := "Unplug the cell before you plug USB in, or put a Schottky diode between it and VSYS."
			if it.def.Kind == part.PowerSwitch {
				fix = fmt.Sprintf("Switch %s off before you plug USB in, or put a Schottky diode between it and VSYS.", it.Ref)
			}
			return []finding.Finding{{Where: finding.Where{Refs: []string{it.Ref, m.Ref}, Net: n.Name},
				Text: fmt.Sprintf("With USB plugged in, module %s puts about 4.7 V on %s and through %s towards the cell.", m.Ref, n.Name, it.Ref), Fix: fix}}
		}
	}
	return nil
}

func batterySwitch(v *view) []finding.Finding {
	cells := v.ofKind(part.Battery)
	if len(cells) == 0 || len(v.ofKind(part.PowerSwitch)) > 0 {
		return nil
	}
	return []finding.Finding{{Where: atParts(cells[0].Ref), Text: "The panel has a cell and no power switch, so it is always on.",
		Fix: "Place a power switch, or unplug the cell after use."}}
}

func chargerCurrent(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Charger) {
		found = append(found, finding.Finding{Where: atParts(it.Ref),
			Text: fmt.Sprintf("Charger modules such as %s come set to 1 A, too much for a cell under 1000 mAh.", it.Ref),
			Fix:  "Change its current resistor: 2.4 kilohms for 0.5 A, 4.8 for 0.25 A, 10 for 0.12 A."})
	}
	return found
}
