package check

import (
	"fascia/design/netlist"
	"fascia/design/part"
)

// mostLogicVolts is what a GPIO bears: IOVDD may reach 3.63 V (RP2040 data sheet table 634, RP2350
// data sheet table 1438).
const mostLogicVolts = 3.63

// logicVolts is the level at which the modules run their pins.
const logicVolts = 3.3

// slackVolts is what two printed voltages may differ by and still be the same.
const slackVolts = 0.05

// A span is the least and the most voltage that a supply has in use.
type span struct{ low, high float64 }

// volts tells what a positive supply gives. USB is taken at 5 V, less a Schottky drop on VSYS; a
// cell goes from 3.0 to 4.2 V (LP-503759 cell specification).
func (v *view) volts(n *netlist.Net) (span, bool) {
	if n == nil {
		return span{}, false
	}
	switch n.Name {
	case part.Supply3V3:
		return span{logicVolts, logicVolts}, true
	case part.Supply5V:
		return span{5, 5}, true
	case part.VSYS:
		if len(v.ofKind(part.Battery, part.Charger)) > 0 {
			return span{3.0, 4.7}, true
		}
		return span{4.7, 4.7}, true
	case part.Charged, part.BatteryPlus:
		return span{3.0, 4.2}, true
	}
	return span{}, false
}

// isGround reports whether a net is the common ground.
func isGround(n *netlist.Net) bool { return n != nil && n.Name == part.Ground }

// isRail reports whether a net is ground or a positive supply.
func (v *view) isRail(n *netlist.Net) bool {
	_, positive := v.volts(n)
	return positive || isGround(n)
}

// takers are the kinds of part that draw from a supply terminal; the others give, switch or pass.
var takers = map[part.Kind]bool{part.Module: true, part.Charger: true, part.Display: true, part.Joystick: true,
	part.Encoder: true, part.Expander: true, part.Buzzer: true, part.Piezo: true, part.Other: true}

// supplyEnds lists the terminals by which a part is fed: those that are a positive supply by
// nature, else any that the maker joined to one. A module is fed by VSYS and a charger by 5V; their
// other supply terminals are outputs.
func (v *view) supplyEnds(it *item) []part.Terminal {
	if !takers[it.def.Kind] {
		return nil
	}
	var natural, joined []part.Terminal
	for _, t := range it.def.Terminals {
		switch t.Net {
		case "":
			if _, ok := v.volts(v.net(it.Ref, t.Name)); ok && !needs(it.def, t.Name) {
				joined = append(joined, t)
			}
		case part.Ground, part.BatteryMinus:
		default:
			if it.def.Kind == part.Module && t.Net != part.VSYS || it.def.Kind == part.Charger && t.Net != part.Supply5V {
				continue
			}
			natural = append(natural, t)
		}
	}
	if len(natural) > 0 || it.def.Kind == part.Module || it.def.Kind == part.Charger {
		return natural
	}
	return joined
}

func needs(d *part.Definition, terminal string) bool {
	for _, n := range d.Needs {
		if n.Terminal == terminal {
			return true
		}
	}
	return false
}

// fedWith is the highest voltage at the part's supply terminals, 0 when it has none.
func (v *view) fedWith(it *item) float64 {
	most := 0.0
	for _, t := range v.supplyEnds(it) {
		if s, ok := v.volts(v.net(it.Ref, t.Name)); ok {
			most = max(most, s.high)
		}
	}
	return most
}
