package netlist

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/part"
)

// supplies lists the nets by nature in the order in which they are listed.
var supplies = []string{part.Ground, part.Supply3V3, part.Supply5V, part.VSYS, part.Charged,
	part.BatteryPlus, part.BatteryMinus}

// power says which supply nets are one on this panel.
type power struct{ hasCharger, hasSwitch bool }

func powerOf(p *panel.Panel) power {
	return power{len(p.OfKind(part.Charger)) > 0, len(p.OfKind(part.PowerSwitch)) > 0}
}

// name returns what a supply net is called here. Without a charger the cell feeds the load
// directly; without a power switch the charged supply is VSYS.
func (w power) name(net string) string {
	if net == part.BatteryMinus && !w.hasCharger {
		return part.Ground
	}
	if net == part.BatteryPlus && !w.hasCharger {
		net = part.Charged
	}
	if net == part.Charged && !w.hasSwitch {
		net = part.VSYS
	}
	return net
}

// supply returns the node of a supply net, by its name in part.
func (b *builder) supply(net string) int {
	name := b.power.name(net)
	class := Supply
	if name == part.Ground {
		class = Ground
	}
	return b.net(name, class, orderSupply)
}

// addSupplies gives every terminal that is a supply by nature its net; address pins follow the
// address that the part is set to.
func (b *builder) addSupplies() {
	for n, e := range b.ends {
		if e.part.Net != "" {
			d := b.p.Definition(e.of)
			b.attach(n, b.supply(d.NetAt(e.part, e.of.Address)))
		}
	}
}

// feeds lists the kinds of part that a supply may come from. Headers and parts of kind Other may
// bring in any supply, since only the maker knows what is behind them.
var feeds = map[string][]part.Kind{
	part.Ground:       {part.Module, part.Battery, part.Charger},
	part.Supply3V3:    {part.Module},
	part.Supply5V:     {part.Module},
	part.VSYS:         {part.Module, part.Battery, part.Charger, part.PowerSwitch},
	part.Charged:      {part.Charger, part.Battery},
	part.BatteryPlus:  {part.Battery},
	part.BatteryMinus: {part.Battery},
}

// reportSources says which supplies are wanted and come from nowhere.
func (b *builder) reportSources(nodes map[int][]int) {
	for _, name := range supplies {
		n, ok := b.nodeOf[name]
		if !ok {
			continue
		}
		var users []string
		fed := false
		for _, m := range nodes[b.find(n)] {
			e := b.ends[m]
			fed = fed || e.kind == part.Header || e.kind == part.Other || slices.Contains(feeds[name], e.kind)
			if !slices.Contains(users, e.Ref) {
				users = append(users, e.Ref)
			}
		}
		if fed || len(users) == 0 {
			continue
		}
		b.note(finding.Finding{Severity: finding.Stop, Code: "net-no-source",
			Where: finding.Where{Refs: users, Net: name},
			Text:  fmt.Sprintf("%s %s %s and no part gives it.", and(users), verb(users), name),
			Fix:   sourceFix[name]})
	}
}

var sourceFix = map[string]string{
	part.Ground:       "Place the module.",
	part.Supply3V3:    "Place a module with a 3V3 terminal, or join a supply of your own through a header.",
	part.Supply5V:     "Place a module with a 5V terminal, or join a supply of your own through a header.",
	part.VSYS:         "Place the module or a battery connector.",
	part.Charged:      "Place a charger or a battery connector.",
	part.BatteryPlus:  "Place a battery connector.",
	part.BatteryMinus: "Place a battery connector.",
}

func verb(subjects []string) string {
	if len(subjects) == 1 {
		return "wants"
	}
	return "want"
}
