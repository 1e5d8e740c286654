package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/part"
)

// Drive of one pin: 4 mA after reset, 12 mA at the highest setting (RP2040 data sheet table 625,
// RP2350 data sheet table 1436).
const (
	resetDriveMA = 4
	mostDriveMA  = 12
)

const gpioSource = "RP2040 data sheet tables 614 to 634; RP2350 data sheet tables 1433 to 1438"

var currentRules = []Rule{
	{Code: "current-source", Severity: finding.Stop, Says: "All pins together give no more than the chip can.", Source: gpioSource, look: currentSource},
	{Code: "current-sink", Severity: finding.Stop, Says: "All pins together take no more than the chip can.", Source: gpioSource, look: currentSink},
	{Code: "current-pin", Severity: finding.Stop, Says: "No pin drives more than 12 mA.", Source: gpioSource, look: currentPin},
	{Code: "current-drive", Severity: finding.Note, Says: "A pin that drives more than 4 mA has its drive raised.", Source: gpioSource, look: currentDrive},
	{Code: "current-3v3", Severity: finding.Stop, Says: "What hangs on 3V3 stays within what the module gives.",
		Source: "40-pin RP2350 module data sheet 3.1: 3V3(OUT) load below 300 mA", look: current3V3},
	{Code: "current-power-switch", Severity: finding.Mind, Says: "The power switch bears the whole current.",
		Source: "SSSF slide switch data sheet: 0.1 to 0.3 A", look: currentPowerSwitch},
	{Code: "current-contact", Severity: finding.Mind, Says: "A contact carries no more than it is rated for.",
		Source: "B3F tactile switch data sheet: 1 to 50 mA", look: currentContact},
}

// A drive is what one pin gives or takes for one part.
type drive struct {
	pin, ref string
	ma       float64
	sinks    bool
}

// drives lists what the pins drive when everything is on at once: LEDs by their resistors, other
// parts by what their definition says they draw from their pin.
func (v *view) drives() []drive {
	var all []drive
	for i := range v.lamps {
		if l := &v.lamps[i]; l.pin != "" && l.milliamps() > 0 {
			all = append(all, drive{l.pin, l.it.Ref, l.milliamps(), l.sinks})
		}
	}
	for i := range v.items {
		it := &v.items[i]
		if it.def.Facts.DriveMA <= 0 || it.def.Kind == part.LED {
			continue
		}
		for _, need := range it.def.Needs {
			if need.Signal != part.DigitalOut && need.Signal != part.PWM {
				continue
			}
			if pin := v.gpio(v.net(it.Ref, need.Terminal)); pin != "" {
				all = append(all, drive{pin, it.Ref, it.def.Facts.DriveMA, v.hangsFromSupply(it)})
				break // the current flows through the part once
			}
		}
	}
	return all
}

// hangsFromSupply reports whether a driven part's other ends are on a supply and none on ground,
// so that the pin takes its current.
func (v *view) hangsFromSupply(it *item) bool {
	positive, ground := false, false
	for _, t := range it.def.Terminals {
		n := v.net(it.Ref, t.Name)
		_, fed := v.volts(n)
		positive, ground = positive || fed, ground || isGround(n)
	}
	return positive && !ground
}

// sum adds up the drives that keep holds, and lists their parts.
func sum(all []drive, keep func(drive) bool) (ma float64, refs []string) {
	for _, d := range all {
		if keep(d) {
			ma += d.ma
			if !slices.Contains(refs, d.ref) {
				refs = append(refs, d.ref)
			}
		}
	}
	return ma, refs
}

func currentSource(v *view) []finding.Finding {
	ma, refs := sum(v.drives(), func(d drive) bool { return !d.sinks })
	if v.Module == nil || v.Module.Chip.SourceTotalMA == 0 || ma <= v.Module.Chip.SourceTotalMA {
		return nil
	}
	return []finding.Finding{{Where: atParts(refs...),
		Text: fmt.Sprintf("With everything on, the pins give %s mA to %s; an %s gives %s mA in all.",
			figure(ma), finding.Names(refs), v.Module.Chip.Name, figure(v.Module.Chip.SourceTotalMA)),
		Fix: "Take larger resistors, or switch the biggest load with a transistor."}}
}

func currentSink(v *view) []finding.Finding {
	ma, refs := sum(v.drives(), func(d drive) bool { return d.sinks })
	if v.Module == nil || v.Module.Chip.SinkTotalMA == 0 || ma <= v.Module.Chip.SinkTotalMA {
		return nil
	}
	return []finding.Finding{{Where: atParts(refs...),
		Text: fmt.Sprintf("With everything on, the pins take %s mA from %s; an %s takes %s mA in all.",
			figure(ma), finding.Names(refs), v.Module.Chip.Name, figure(v.Module.Chip.SinkTotalMA)),
		Fix: "Take larger resistors, or switch the biggest load with a transistor."}}
}

// eachPin calls say once for every pin that drives something, in order of first use.
func (v *view) eachPin(say func(pin string, ma float64, refs []string)) {
	all := v.drives()
	var done []string
	for _, d := range all {
		if slices.Contains(done, d.pin) {
			continue
		}
		done = append(done, d.pin)
		given, givenTo := sum(all, func(e drive) bool { return e.pin == d.pin && !e.sinks })
		taken, takenFrom := sum(all, func(e drive) bool { return e.pin == d.pin && e.sinks })
		if given >= taken { // a pin does one of the two at a time
			say(d.pin, given, givenTo)
		} else {
			say(d.pin, taken, takenFrom)
		}
	}
}

func currentPin(v *view) (found []finding.Finding) {
	v.eachPin(func(pin string, ma float64, refs []string) {
		if ma > mostDriveMA && !slices.ContainsFunc(refs, v.isLoudBuzzer) {
			found = append(found, finding.Finding{Where: finding.Where{Refs: refs, Pin: pin},
				Text: fmt.Sprintf("%s drives %s with %s mA; a pin drives %d mA at most.", pin, finding.Names(refs), figure(ma), mostDriveMA),
				Fix:  "Take a larger resistor, or a transistor between pin and part."})
		}
	})
	return found
}

// isLoudBuzzer reports whether a part is one that buzzer-direct speaks of.
func (v *view) isLoudBuzzer(ref string) bool {
	it := v.byRef[ref]
	return it.def.Kind == part.Buzzer && drawsMuch(it)
}

func currentDrive(v *view) (found []finding.Finding) {
	v.eachPin(func(pin string, ma float64, refs []string) {
		if ma > resetDriveMA && ma <= mostDriveMA {
			set := 8
			if ma > 8 {
				set = mostDriveMA
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: refs, Pin: pin},
				Text: fmt.Sprintf("%s drives %s with %s mA, more than the %d mA it is set to after reset.", pin, finding.Names(refs), figure(ma), resetDriveMA),
				Fix:  fmt.Sprintf("Set its drive strength to %d mA in your program, or take a larger resistor.", set)})
		}
	})
	return found
}

func current3V3(v *view) []finding.Finding {
	m := v.module()
	if m == nil || m.def.Facts.SupplyOutMA == 0 {
		return nil
	}
	ma := 0.0
	var refs []string
	for i := range v.items {
		it := &v.items[i]
		if it.def.Kind == part.Module || it.def.Facts.CurrentMA == 0 {
			continue
		}
		for _, t := range v.supplyEnds(it) {
			if n := v.net(it.Ref, t.Name); n != nil && n.Name == part.Supply3V3 {
				ma, refs = ma+it.def.Facts.CurrentMA, append(refs, it.Ref)
				break
			}
		}
	}
	for i := range v.lamps {
		if l := &v.lamps[i]; (l.pin == "" || l.sinks) && l.from == logicVolts {
			ma, refs = ma+l.milliamps(), append(refs, l.it.Ref)
		}
	}
	if ma <= m.def.Facts.SupplyOutMA {
		return nil
	}
	return []finding.Finding{{Where: finding.Where{Refs: refs, Net: part.Supply3V3},
		Text: fmt.Sprintf("%s draw %s mA from 3V3; module %s gives %s mA.", finding.Names(refs), figure(ma), m.Ref, figure(m.def.Facts.SupplyOutMA)),
		Fix:  "Feed the biggest of them from another supply."}}
}

// totalMA is what the whole panel draws with everything on.
func (v *view) totalMA() float64 {
	ma, _ := sum(v.drives(), func(drive) bool { return true })
	for i := range v.items {
		if it := &v.items[i]; takers[it.def.Kind] && it.def.Kind != part.Charger {
			ma += it.def.Facts.CurrentMA
		}
	}
	for i := range v.lamps {
		if l := &v.lamps[i]; l.pin == "" {
			ma += l.milliamps()
		}
	}
	return ma
}

func currentPowerSwitch(v *view) []finding.Finding {
	var found []finding.Finding
	total := v.totalMA()
	for _, it := range v.ofKind(part.PowerSwitch) {
		if most := it.def.Facts.ContactMA; most > 0 && total > most {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("Power switch %s bears %s mA, and the panel draws %s mA with everything on.", it.Ref, figure(most), figure(total)),
				Fix:  "Choose a larger switch, or let it switch the module's enable input."})
		}
	}
	return found
}

// currentContact compares the current that the pulls send through a pressed key with its rating.
func currentContact(v *view) []finding.Finding {
	var found []finding.Finding
	for _, k := range v.keys {
		it := v.byRef[k.Ref]
		if it.def.Facts.ContactMA == 0 {
			continue
		}
		ohms := v.leastPull(v.net(k.Ref, k.Contact.Between[0]))
		if ohms == 0 {
			continue
		}
		if ma := logicVolts / ohms * 1000; ma > it.def.Facts.ContactMA {
			found = append(found, finding.Finding{Where: atKeys(k.ID),
				Text: fmt.Sprintf("%s switches %s mA through its pull of %s; its contact is rated %s mA.", capital(keyName(k)), figure(ma), resistance(ohms), figure(it.def.Facts.ContactMA)),
				Fix:  "Take a pull resistor of about 10 kilohms."})
		}
	}
	return found
}
