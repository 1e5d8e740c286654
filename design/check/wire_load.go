package check

import (
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
)

// givenBy lists the kinds of part that feed a net, the first that is there counts. A header or a part
// of another kind may feed any.
var givenBy = map[string][]part.Kind{
	part.Supply3V3:   {part.Module},
	part.Supply5V:    {part.Module},
	part.VSYS:        {part.PowerSwitch, part.Charger, part.Battery, part.Module},
	part.Charged:     {part.Charger, part.Battery},
	part.BatteryPlus: {part.Battery},
}

// giver is the part that feeds a net, with its terminals there; nil when there is none.
func (v *view) giver(n *netlist.Net) (*item, []panel.TerminalRef) {
	for _, kind := range append(append([]part.Kind{}, givenBy[n.Name]...), part.Header, part.Other) {
		for _, it := range v.ofKind(kind) {
			if ends := v.endsOn(it, n); len(ends) > 0 {
				return it, ends
			}
		}
	}
	return nil, nil
}

// endsOn lists a part's terminals on a net: those that are a supply by nature, else all.
func (v *view) endsOn(it *item, n *netlist.Net) []panel.TerminalRef {
	var natural, all []panel.TerminalRef
	for _, t := range it.def.Terminals {
		if v.net(it.Ref, t.Name) != n {
			continue
		}
		ref := panel.TerminalRef{Ref: it.Ref, Terminal: t.Name}
		all = append(all, ref)
		if it.natural(t) != "" {
			natural = append(natural, ref)
		}
	}
	if len(natural) > 0 {
		return natural
	}
	return all
}

// A load is a current that leaves one net at a terminal and comes back to ground at another; from or
// to is the zero terminal where it does so inside the module.
type load struct {
	from, to panel.TerminalRef
	ma       float64
}

// loads lists what flows through supply wires with everything on: what parts draw, LEDs and what pins
// drive. A module that is fed by another part draws what it gives to the rest, too.
func (v *view) loads() []load {
	var all []load
	module := v.module()
	for i := range v.items {
		it := &v.items[i]
		if ref, fed := v.fedAt(it); fed && it != module && it.def.Facts.CurrentMA > 0 {
			all = append(all, load{ref, v.groundEnd(it), it.def.Facts.CurrentMA})
		}
	}
	for i := range v.lamps {
		if l := &v.lamps[i]; l.milliamps() > 0 {
			all = append(all, v.between(append([]*item{l.it}, l.resistors...), l.milliamps()))
		}
	}
	for _, d := range v.drives() {
		if it := v.byRef[d.ref]; it.def.Kind != part.LED {
			all = append(all, v.between([]*item{it}, d.ma))
		}
	}
	if module == nil {
		return all
	}
	if ref, fed := v.fedAt(module); fed {
		own := load{ref, v.groundEnd(module), module.def.Facts.CurrentMA}
		for _, l := range all {
			if n := v.netOf[l.from]; n == nil || n.Name == part.Supply3V3 {
				own.ma += l.ma
			}
		}
		all = append(all, own)
	}
	return all
}

// fedAt is the terminal at which a part takes its current, false when it takes none: its first supply
// terminal, since others, such as a reset or an address pin, only take a level.
func (v *view) fedAt(it *item) (panel.TerminalRef, bool) {
	ends := v.supplyEnds(it)
	if len(ends) == 0 {
		return panel.TerminalRef{}, false
	}
	return panel.TerminalRef{Ref: it.Ref, Terminal: ends[0].Name}, true
}

// between finds where parts in a row touch a supply and ground.
func (v *view) between(row []*item, ma float64) load {
	l := load{ma: ma}
	for _, it := range row {
		for _, t := range it.def.Terminals {
			n, ref := v.net(it.Ref, t.Name), panel.TerminalRef{Ref: it.Ref, Terminal: t.Name}
			if _, fed := v.volts(n); fed {
				l.from = ref
			} else if isGround(n) {
				l.to = ref
			}
		}
	}
	return l
}

// groundEnd is a part's terminal on ground; the zero terminal when it has none.
func (v *view) groundEnd(it *item) panel.TerminalRef {
	for _, t := range it.def.Terminals {
		if n := v.net(it.Ref, t.Name); isGround(n) {
			return v.endsOn(it, n)[0]
		}
	}
	return panel.TerminalRef{}
}
