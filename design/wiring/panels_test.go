package wiring_test

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/signal"
	"fascia/design/wiring"
	"fascia/design/wiring/randompanel"
)

// A planned panel went through every stage up to the netlist.
type planned struct {
	fit  fit.Result
	scan scan.Result
	pins pinning.Result
	nets netlist.Result
}

func planUp(p *panel.Panel) planned {
	var module *controller.Module
	ref, free := "", 0
	for _, pl := range p.Modules() {
		d := p.Definition(pl)
		if m, err := controller.FromDefinition(&d); err == nil {
			module, ref = &m, pl.Ref
			for _, pin := range m.Pins {
				if !slices.Contains(p.Pins.KeepFree, pin.Name) {
					free++
				}
			}
			break
		}
	}
	var x planned
	x.fit = fit.Examine(p)
	var chip *controller.Chip
	if module != nil {
		chip = &module.Chip
	}
	x.scan = scan.Plan(p, chip, max(0, free-signal.PinsNeeded(p)))
	x.pins = pinning.Plan(p, module, ref, &x.scan)
	x.nets = netlist.List(p, &x.scan, &x.pins)
	return x
}

// TestRandomPanels holds 500 panels against the independent check.
func TestRandomPanels(t *testing.T) {
	const panels, shards = 500, 4
	for shard := range uint64(shards) {
		t.Run(fmt.Sprintf("part %d", shard+1), func(t *testing.T) {
			t.Parallel()
			wired := 0
			for seed := shard; seed < panels; seed += shards {
				wired += wirePanel(t, seed)
			}
			if wired < panels/shards*20 {
				t.Errorf("only %d wires in all", wired)
			}
		})
	}
}

// wirePanel takes one panel through all stages and returns how many wires it has.
func wirePanel(t *testing.T, seed uint64) int {
	p := randompanel.Make(seed)
	x := planUp(&p)
	eachOnce(t, seed, &p, &x.nets)
	r := wiring.Route(&p, &x.fit, &x.nets)
	for _, f := range r.Findings {
		if f.Severity == finding.Stop {
			t.Errorf("seed %d: %s: %s", seed, f.Code, f.Text)
		}
	}
	for _, wrong := range wiring.Verify(&p, &x.nets, r.Wires) {
		t.Errorf("seed %d: %s", seed, wrong)
	}
	if r.Bound > r.Cost+1e-9 || r.Proved != (r.Bound == r.Cost) {
		t.Errorf("seed %d: cost %.2f, bound %.2f, proved %v", seed, r.Cost, r.Bound, r.Proved)
	}
	return len(r.Wires)
}

// TestDemos holds the demo panels against the same check, and asks for no stop.
func TestDemos(t *testing.T) {
	for _, d := range demo.All() {
		x := planUp(&d.Panel)
		r := wiring.Route(&d.Panel, &x.fit, &x.nets)
		if wrong := wiring.Verify(&d.Panel, &x.nets, r.Wires); len(wrong) > 0 {
			t.Errorf("%s: %q", d.ID, wrong)
		}
		for _, f := range append(r.Findings, x.nets.Findings...) {
			if f.Severity == finding.Stop {
				t.Errorf("%s: %s: %s", d.ID, f.Code, f.Text)
			}
		}
		t.Logf("%s: cost %.1f, bound %.1f, gap %.0f %%", d.ID, r.Cost, r.Bound, 100*r.Gap)
	}
}

// eachOnce fails unless every terminal is in exactly one net, or open with a reason.
func eachOnce(t *testing.T, seed uint64, p *panel.Panel, n *netlist.Result) {
	t.Helper()
	seen := map[panel.TerminalRef]int{}
	names := map[string]bool{}
	for _, net := range n.Nets {
		if names[net.Name] {
			t.Errorf("seed %d: two nets are called %q", seed, net.Name)
		}
		names[net.Name] = true
		for _, term := range net.Terminals {
			seen[term.TerminalRef]++
		}
	}
	for _, o := range n.Open {
		seen[o.TerminalRef]++
		if o.Why == "" {
			t.Errorf("seed %d: %s is open without a reason", seed, o.TerminalRef)
		}
	}
	for i := range p.Placed {
		d := p.Definition(&p.Placed[i])
		for _, term := range d.Terminals {
			if n := seen[panel.TerminalRef{Ref: p.Placed[i].Ref, Terminal: term.Name}]; n != 1 {
				t.Errorf("seed %d: %s.%s is listed %d times", seed, p.Placed[i].Ref, term.Name, n)
			}
		}
	}
}
