package lend

import (
	"fmt"

	"fascia/design/check"
	"fascia/design/controller"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
)

// leavesReadings reports whether the LEDs that an edit adds leave every reading as it is without them,
// as the check of the same name finds. Without a module there is nothing to read.
func (r *lamplighter) leavesReadings(edit *panel.Together) bool {
	after, _, err := panel.Apply(*r.p, edit)
	if err != nil {
		panic(fmt.Sprintf("lend: a proposal is refused: %v", err))
	}
	module, ref := moduleOf(&after)
	s := *r.scan
	s.Lamps = nil
	for i, led := range after.Scan.Lamps[:min(s.Columns, len(after.Scan.Lamps))] {
		s.Lamps = append(s.Lamps, scan.Lamp{Line: i, LED: led})
	}
	nets := netlist.List(&after, &s, &pinning.Result{Module: ref})
	c := check.Case{Panel: &after, Module: module, Scan: &s, Nets: &nets}
	for _, rule := range check.Rules() {
		if rule.Code == "level-lamp" && len(rule.Look(&c)) > 0 {
			return false
		}
	}
	return true
}

// moduleOf is the first placed module whose chip is known.
func moduleOf(p *panel.Panel) (*controller.Module, string) {
	for _, pl := range p.Modules() {
		d := p.Definition(pl)
		if m, err := controller.FromDefinition(&d); err == nil {
			return &m, pl.Ref
		}
	}
	return nil, ""
}
