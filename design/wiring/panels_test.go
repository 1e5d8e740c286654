package wiring_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
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

// TestRandomPanels holds 1,000 panels with nets by chance against the independent check, and 40 with
// the nets that the other stages give them.
func TestRandomPanels(t *testing.T) {
	const panels, whole, shards = 1000, 40, 4
	for shard := range uint64(shards) {
		t.Run(fmt.Sprintf("part %d", shard+1), func(t *testing.T) {
			t.Parallel()
			wired, stopped, cuts := 0, 0, 0
			for seed := shard; seed < panels; seed += shards {
				p := randompanel.Make(seed)
				random := rand.New(rand.NewPCG(seed, 11))
				chanceWishes(random, &p)
				nets := chanceNets(random, &p)
				f := fit.Examine(&p)
				o := wiring.Options{Quick: seed/shards%8 != 0}
				if seed/shards%12 == 0 {
					o.Moves = 40
				}
				r := wiring.RouteWith(&p, &f, &nets, o)
				wired += len(r.Wires)
				cuts += len(r.Cuts)
				stopped += holdPanel(t, seed, &p, &nets, &r)
			}
			for seed := shard; seed < whole; seed += shards {
				p := randompanel.Make(seed)
				x := planUp(&p)
				eachOnce(t, seed, &p, &x.nets)
				r := wiring.Route(&p, &x.fit, &x.nets)
				if holdPanel(t, seed, &p, &x.nets, &r) > 0 {
					t.Errorf("seed %d: %v", seed, r.Findings)
				}
			}
			if wired < panels/shards*20 || stopped*50 > panels/shards || cuts < 100 {
				t.Errorf("%d wires and %d cuts in all, %d panels that cannot be wired", wired, cuts, stopped)
			}
		})
	}
}

// holdPanel holds one wire list against the independent check. It returns 1 for a panel that cannot
// be wired and says so, which only wishes may bring about.
func holdPanel(t *testing.T, seed uint64, p *panel.Panel, n *netlist.Result, r *wiring.Result) int {
	t.Helper()
	stops := 0
	for _, f := range r.Findings {
		if f.Severity == finding.Stop {
			stops = 1
			if f.Code != "wire-no-way" || len(p.Wires.NoRuns) == 0 {
				t.Errorf("seed %d: %s: %s", seed, f.Code, f.Text)
			}
		}
	}
	for _, wrong := range wiring.Verify(p, n, r.Wires, r.Cuts...) {
		if stops == 0 || !strings.HasPrefix(wrong, "open: ") {
			t.Errorf("seed %d: %s", seed, wrong)
		}
	}
	if faults := wiring.Faults(p, n, r); len(faults) != stops {
		t.Errorf("seed %d: the stage says %v of %d stops", seed, faults, stops)
	}
	if r.Bound > r.Cost+1e-9 || r.Proved != (r.Bound == r.Cost && stops == 0) || r.Counts.Insulated < r.InsulatedBound && stops == 0 {
		t.Errorf("seed %d: cost %.2f, bound %.2f, proved %v; %d insulated wires, bound %d", seed, r.Cost, r.Bound, r.Proved, r.Counts.Insulated, r.InsulatedBound)
	}
	return stops
}

// chanceNets gives the panel's terminals to 2 to 80 nets by chance, and leaves some open.
func chanceNets(random *rand.Rand, p *panel.Panel) netlist.Result {
	var r netlist.Result
	nets := make([]netlist.Net, 2+random.IntN(79))
	for i := range nets {
		nets[i] = netlist.Net{Name: fmt.Sprintf("net %d", i), Class: []netlist.Class{netlist.Signal, netlist.Ground, netlist.Row, netlist.Link}[i%4]}
	}
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Definition(pl)
		chosen := map[string]int{}
		for _, t := range d.Terminals {
			metal := d.Metal(t.Name)[0]
			if _, ok := chosen[metal]; !ok {
				chosen[metal] = random.IntN(len(nets)*9/8+1) - 1 // some stay open
			}
			ref := panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name}
			h, _ := p.HoleOf(ref)
			if n := chosen[metal]; n >= 0 && n < len(nets) {
				nets[n].Terminals = append(nets[n].Terminals, netlist.Terminal{TerminalRef: ref, Hole: h, Face: pl.Face.Other(), OneNode: p.BoardAt(h).OneNode()})
				continue
			}
			r.Open = append(r.Open, netlist.Open{TerminalRef: ref, Hole: h, Why: "by chance"})
		}
	}
	for _, n := range nets {
		if len(n.Terminals) > 0 {
			slices.SortFunc(n.Terminals, func(s, t netlist.Terminal) int { return s.TerminalRef.Compare(t.TerminalRef) })
			r.Nets = append(r.Nets, n)
		}
	}
	return r
}

// chanceWishes adds wishes about all wires to some panels, and takes the maker's cuts from others.
func chanceWishes(random *rand.Rand, p *panel.Panel) {
	if random.IntN(2) == 0 {
		for i := range p.Boards {
			p.Boards[i].Cuts = nil
		}
	}
	if random.IntN(8) == 0 {
		p.Wires.NoRuns = []grid.Face{grid.Face(random.IntN(2))}
	}
	if random.IntN(4) == 0 {
		p.Wires.Ends = 2 + random.IntN(2)
	}
	if random.IntN(4) == 0 {
		p.Wires.Costs = &panel.WireCosts{Bend: float64(random.IntN(20)) / 7, Solder: float64(random.IntN(30)) / 10,
			Insulated: float64(random.IntN(30)), PerHole: float64(random.IntN(30)) / 10, Through: float64(random.IntN(10))}
	}
	for i := range random.IntN(4) {
		p.Wires.Nets = append(p.Wires.Nets, panel.NetWish{Net: fmt.Sprintf("net %d", i), Insulated: random.IntN(2) == 0, Colour: "GD", Gauge: 22})
	}
	for range random.IntN(4) { // solder beside a lead, where another may be or not
		if len(p.Placed) == 0 {
			break
		}
		pl := &p.Placed[random.IntN(len(p.Placed))]
		from := pl.Pose().Hole(p.Parts[pl.Part].Terminals[0].Offset())
		to := from.Add(grid.Offset{Cols: 1 + random.IntN(2)})
		if to.Valid() {
			p.Wires.Locked = append(p.Wires.Locked, panel.LockedWire{From: from, To: to, Kind: "solder", Face: pl.Face.Other()})
		}
	}
	for i := range p.Wires.Locked {
		if l := &p.Wires.Locked[i]; random.IntN(3) == 0 && l.From.Col != l.To.Col && l.From.Row != l.To.Row && l.Kind == "bare" {
			l.Path = []grid.Hole{l.From, {Col: l.From.Col, Row: l.To.Row}, l.To}
		}
	}
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
