package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
)

var supplyRules = []Rule{
	{Code: "supply-high", Severity: finding.Stop, Says: "No part gets more volts than it bears.",
		Source: "the part's own data sheet, in its definition", look: supplyHigh},
	{Code: "supply-low", Severity: finding.Stop, Says: "Every part gets the volts it needs.",
		Source: "the part's own data sheet, in its definition", look: supplyLow},
	{Code: "supply-missing", Severity: finding.Stop, Says: "Every supply that a part wants comes from somewhere.",
		Source: "common practice, no source", Instead: []string{"net-no-source"}, look: supplyMissing},
	{Code: "ground-missing", Severity: finding.Stop, Says: "Every ground terminal is on the module's ground.",
		Source: "common practice, no source", Instead: []string{"net-no-source"}, look: groundMissing},
	{Code: "supply-short", Severity: finding.Stop, Says: "No join ties two supplies together.",
		Source: "common practice, no source", Instead: []string{"net-short"}, look: supplyShort},
	{Code: "logic-high", Severity: finding.Stop, Says: "No part puts more than 3.63 V on a GPIO.",
		Source: "RP2040 data sheet table 634; RP2350 data sheet table 1438", look: logicHigh},
	{Code: "joystick-supply", Severity: finding.Stop, Says: "A joystick hangs on the supply of the analogue inputs.",
		Source: "RP2040 data sheet table 634: ADC pins stay below IOVDD + 0.3 V", look: joystickSupply},
}

// eachSupply calls say for every supply terminal of every part that is on a supply.
func (v *view) eachSupply(say func(it *item, t part.Terminal, net string, s span)) {
	for i := range v.items {
		it := &v.items[i]
		for _, t := range v.supplyEnds(it) {
			n := v.net(it.Ref, t.Name)
			if s, ok := v.volts(n); ok {
				say(it, t, n.Name, s)
			}
		}
	}
}

// wants writes the supply that a part asks for.
func (it *item) wants() string {
	f := it.def.Facts
	switch {
	case f.SupplyMinVolts == 0 || f.SupplyMinVolts == f.SupplyMaxVolts:
		return "at most " + figure(f.SupplyMaxVolts) + " V"
	case f.SupplyMaxVolts == 0:
		return "at least " + figure(f.SupplyMinVolts) + " V"
	}
	return figure(f.SupplyMinVolts) + " to " + figure(f.SupplyMaxVolts) + " V"
}

func supplyHigh(v *view) []finding.Finding {
	var found []finding.Finding
	v.eachSupply(func(it *item, t part.Terminal, net string, s span) {
		if most := it.def.Facts.SupplyMaxVolts; most > 0 && s.high > most+slackVolts {
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref}, Net: net},
				Text: fmt.Sprintf("%s bears %s and its %s is on %s, which reaches %s V.", capital(it.name()), it.wants(), t.Name, net, figure(s.high)),
				Fix:  "Feed it from 3V3, or choose a part for that voltage."})
		}
	})
	return found
}

func supplyLow(v *view) []finding.Finding {
	var found []finding.Finding
	v.eachSupply(func(it *item, t part.Terminal, net string, s span) {
		if least := it.def.Facts.SupplyMinVolts; s.low < least-slackVolts {
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref}, Net: net},
				Text: fmt.Sprintf("%s needs %s and its %s is on %s, which may be only %s V.", capital(it.name()), it.wants(), t.Name, net, figure(s.low)),
				Fix:  fmt.Sprintf("Feed it from a supply of at least %s V, or choose a part for that voltage.", figure(least))})
		}
	})
	return found
}

// givers are the kinds of part that a supply may come from.
var givers = []part.Kind{part.Module, part.Charger, part.Battery, part.PowerSwitch, part.Header, part.Other}

func supplyMissing(v *view) []finding.Finding {
	if v.module() == nil {
		return nil // said by module-missing
	}
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		if it.def.Kind == part.Module {
			continue
		}
		for _, t := range v.supplyEnds(it) {
			n := v.net(it.Ref, t.Name)
			if t.Open && n == nil || n != nil && v.isGiven(n, it.Ref) {
				continue
			}
			wants := t.Net
			if n != nil {
				wants = n.Name
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref}, Net: wants},
				Text: fmt.Sprintf("%s %s wants %s, and nothing on this panel gives it.", capital(it.name()), t.Name, wants),
				Fix:  fmt.Sprintf("Place a part that gives %s, or join one through a header.", wants)})
		}
	}
	return found
}

// isGiven reports whether a part other than ref may feed the net.
func (v *view) isGiven(n *netlist.Net, ref string) bool {
	return slices.ContainsFunc(n.Terminals, func(t netlist.Terminal) bool {
		it := v.byRef[t.Ref]
		return t.Ref != ref && it != nil && slices.Contains(givers, it.def.Kind)
	})
}

func groundMissing(v *view) []finding.Finding {
	m := v.module()
	if m == nil {
		return nil
	}
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		for _, t := range it.def.Terminals {
			n := v.net(it.Ref, t.Name)
			if it.natural(t) != part.Ground || it.def.Kind == part.Module || t.Open && n == nil {
				continue
			}
			if n != nil && slices.ContainsFunc(n.Terminals, func(o netlist.Terminal) bool { return o.Ref == m.Ref }) {
				continue
			}
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("%s %s is a ground and is not on the ground of module %s.", capital(it.name()), t.Name, m.Ref),
				Fix:  "Join the two, or check the joins that keep them apart."})
		}
	}
	return found
}

// supplyShort finds nets that hold terminals of two supplies that must stay apart.
func supplyShort(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.nets.Nets {
		n := &v.nets.Nets[i]
		first := map[string]string{}
		var order []string
		for _, t := range n.Terminals {
			it := v.byRef[t.Ref]
			if it == nil {
				continue
			}
			term, _ := it.def.Terminal(t.Terminal)
			rail := v.rail(it.natural(term))
			if rail != "" && first[rail] == "" {
				first[rail] = t.TerminalRef.String()
				order = append(order, rail)
			}
		}
		if len(order) > 1 {
			a, b := order[0], order[1]
			found = append(found, finding.Finding{Where: finding.Where{Net: n.Name},
				Text: fmt.Sprintf("Net %s ties %s (%s) to %s (%s).", n.Name, first[a], a, first[b], b),
				Fix:  "Take one of them out of the join."})
		}
	}
	return found
}

// rail is the supply that a natural net stands for here: what a cell, a charger and a power switch
// pass on are one, as far as no part stands between them.
func (v *view) rail(net string) string {
	switch net {
	case part.VSYS, part.Charged, part.BatteryPlus:
		return part.VSYS
	case part.BatteryMinus:
		return part.Ground
	}
	return net
}

// logicHigh finds signals that a part lifts to a supply above what pins bear. I2C lines are left
// to the rule about their pull-ups.
func logicHigh(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		volts := v.fedWith(it)
		if !it.def.Facts.LogicFromSupply || volts <= mostLogicVolts {
			continue
		}
		for _, need := range it.def.Needs {
			pin := v.gpio(v.net(it.Ref, need.Terminal))
			if pin == "" || need.Signal == part.I2CSDA || need.Signal == part.I2CSCL {
				continue
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref}, Pin: pin},
				Text: fmt.Sprintf("%s puts %s V on %s through its %s; the pin bears %s V.", capital(it.name()), figure(volts), pin, need.Terminal, figure(mostLogicVolts)),
				Fix:  "Feed the part from 3V3, or put a level shifter between."})
			break // one finding a part
		}
	}
	return found
}

func joystickSupply(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Joystick) {
		if volts := v.fedWith(it); volts > mostLogicVolts {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("Joystick %s hangs on %s V, so its sliders would put that on the analogue inputs.", it.Ref, figure(volts)),
				Fix:  "Feed it from 3V3."})
		}
	}
	return found
}
