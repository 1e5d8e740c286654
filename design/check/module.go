package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
)

var moduleRules = []Rule{
	{Code: "module-missing", Severity: finding.Stop, Says: "What wants pins has a module to give them.",
		Source: "common practice, no source", Instead: []string{"pin-no-module"}, look: moduleMissing},
	{Code: "module-twice", Severity: finding.Stop, Says: "A panel has one module.",
		Source: "common practice, no source", look: moduleTwice},
	{Code: "module-ground", Severity: finding.Stop, Says: "The module's ground is wired.",
		Source: "common practice, no source", look: moduleGround},
	{Code: "module-serial", Severity: finding.Note, Says: "The default serial console keeps its pins.",
		Source: "pico-sdk 2.2.0, boards/pico.h: default UART0 on GP0 and GP1", Instead: []string{"pin-serial-used"}, look: moduleSerial},
}

func moduleMissing(v *view) []finding.Finding {
	if len(v.ofKind(part.Module)) > 0 {
		return nil
	}
	wants := len(v.keys) > 0
	for i := range v.items {
		wants = wants || len(v.items[i].def.Needs) > 0
	}
	if !wants {
		return nil
	}
	return []finding.Finding{{Text: "Nothing on this panel has a controller.", Fix: "Place a module."}}
}

func moduleTwice(v *view) []finding.Finding {
	all := v.ofKind(part.Module)
	if len(all) < 2 {
		return nil
	}
	refs := make([]string, len(all))
	for i, it := range all {
		refs[i] = it.Ref
	}
	return []finding.Finding{{Where: atParts(refs...),
		Text: fmt.Sprintf("%s are modules, and their 3V3 outputs would be joined.", finding.Names(refs)),
		Fix:  "Take all but one away."}}
}

func moduleGround(v *view) []finding.Finding {
	m := v.module()
	if m == nil {
		return nil
	}
	for _, t := range m.def.Terminals {
		if t.Net == part.Ground && isGround(v.net(m.Ref, t.Name)) {
			return nil
		}
	}
	if !v.wantsGround(m) {
		return nil
	}
	fix := "Check the joins at its ground terminals."
	if !hasNatural(m, part.Ground) {
		fix = "Mark its ground terminals in its definition."
	}
	return []finding.Finding{{Where: atParts(m.Ref), Text: fmt.Sprintf("No terminal of module %s is on ground.", m.Ref), Fix: fix}}
}

// wantsGround reports whether something beside the module is, or should be, on ground.
func (v *view) wantsGround(m *item) bool {
	if slices.ContainsFunc(v.nets.Nets, func(n netlist.Net) bool { return isGround(&n) }) {
		return true
	}
	return slices.ContainsFunc(v.items, func(it item) bool { return it.Ref != m.Ref && hasNatural(&it, part.Ground) })
}

func hasNatural(it *item, net string) bool {
	for _, t := range it.def.Terminals {
		if t.Net == net {
			return true
		}
	}
	return false
}

func moduleSerial(v *view) []finding.Finding {
	var found []finding.Finding
	for _, p := range v.pins.Pins {
		if p.GPIO == "GP0" || p.GPIO == "GP1" {
			found = append(found, finding.Finding{Where: finding.Where{Refs: []string{v.pins.Module}, Pin: p.GPIO, Net: p.Net},
				Text: fmt.Sprintf("%s has %s, a pin of the default serial console.", capital(p.Signal), p.GPIO),
				Fix:  fmt.Sprintf("Keep %s free if you want to print over its UART; over USB it makes no difference.", p.GPIO)})
		}
	}
	return found
}
