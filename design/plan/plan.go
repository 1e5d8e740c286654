// Package plan runs the stages in order: a panel in, everything worked out from it. The same panel
// gives the same plan, and the same files, to the byte.
package plan

import (
	"slices"
	"sync"

	"fascia/design/bench"
	"fascia/design/bom"
	"fascia/design/check"
	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/keymap"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/sheet"
	"fascia/design/signal"
	"fascia/design/wiring"
)

// A Plan is everything worked out from Panel. It is read-only once made; it is not copied.
type Plan struct {
	Panel    *panel.Panel
	Module   *controller.Module // nil when no module with a known chip is placed
	Fit      fit.Result
	Scan     scan.Result
	Pins     pinning.Result
	Nets     netlist.Result
	Wiring   wiring.Result
	Findings []finding.Finding // of every stage and rule, worst first
	Steps    []bench.Step
	BOM      []bom.Line
	Keymap   keymap.Map

	priced sync.Once
	prices []pinning.Price
}

// Make works the plan out. p must be valid and must not change while the plan is in use.
func Make(p *panel.Panel) *Plan {
	pl := &Plan{Panel: p}
	var ref string
	pl.Module, ref = moduleOf(p)
	pl.Fit = fit.Examine(p)
	pl.Scan = scan.Plan(p, chipOf(pl.Module), freePins(p, pl.Module))
	pl.Pins = pinning.Plan(p, pl.Module, ref, &pl.Scan)
	pl.Nets = netlist.List(p, &pl.Scan, &pl.Pins)
	pl.Wiring = wiring.Route(p, &pl.Fit, &pl.Nets)
	pl.Wiring.Findings = append(pl.Wiring.Findings, wiring.Faults(p, &pl.Nets, &pl.Wiring)...)
	pl.Findings = check.Collect(&check.Case{Panel: p, Module: pl.Module, Fit: &pl.Fit, Scan: &pl.Scan, Pins: &pl.Pins, Nets: &pl.Nets, Wiring: &pl.Wiring})
	pl.Steps = bench.Order(p, &pl.Fit, &pl.Scan, &pl.Wiring)
	pl.BOM = bom.Of(p, &pl.Wiring)
	pl.Keymap = keymap.Of(p, &pl.Scan, &pl.Pins)
	return pl
}

// Stops counts the findings that will not work or can do harm.
func (pl *Plan) Stops() int { return finding.Count(pl.Findings, finding.Stop) }

// Drawing is what there is to draw of the plan.
func (pl *Plan) Drawing() sheet.Drawing {
	return sheet.Drawing{Panel: pl.Panel, Fit: &pl.Fit, Scan: &pl.Scan, Pins: &pl.Pins, Nets: &pl.Nets, Wiring: &pl.Wiring, Findings: pl.Findings}
}

// moduleOf is the first placed module whose chip is known; a second one is a finding elsewhere.
func moduleOf(p *panel.Panel) (*controller.Module, string) {
	for _, pl := range p.Modules() {
		d := p.Definition(pl)
		if m, err := controller.FromDefinition(&d); err == nil {
			return &m, pl.Ref
		}
	}
	return nil, ""
}

func chipOf(m *controller.Module) *controller.Chip {
	if m == nil {
		return nil
	}
	return &m.Chip
}

// freePins counts the pins left for keys: brought out, not kept free, not wanted by other parts.
func freePins(p *panel.Panel, m *controller.Module) int {
	if m == nil {
		return 0
	}
	free := -signal.PinsNeeded(p)
	for _, pin := range m.Pins {
		if !slices.Contains(p.Pins.KeepFree, pin.Name) {
			free++
		}
	}
	return max(0, free)
}
