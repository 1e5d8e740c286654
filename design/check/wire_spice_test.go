package check_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/plan"
	"fascia/design/wiring"
	"fascia/design/wiring/randompanel"
)

// A harness is the ground and 3V3 wires of a plan as a circuit for ngspice, another program.
type harness struct {
	p    *panel.Panel
	same map[string]string
	deck strings.Builder
	n    int
}

func (h *harness) find(n string) string {
	for h.same[n] != "" {
		n = h.same[n]
	}
	return n
}

func (h *harness) unite(a, b string) {
	if a, b = h.find(a), h.find(b); a != b {
		h.same[a] = b
	}
}

// node is the name of a hole on a face.
func (h *harness) node(hole grid.Hole, face grid.Face) string {
	if b := h.p.BoardAt(hole); b.OneNode() {
		face = grid.Front
	}
	return strings.ToLower(fmt.Sprintf("%s%s", hole, face))
}

func (h *harness) terminal(ref, name string) string {
	hole, _ := h.p.HoleOf(panel.TerminalRef{Ref: ref, Terminal: name})
	return h.node(hole, h.p.Find(ref).Face.Other())
}

// join lays copper, the metal inside parts, and what solder joins.
func (h *harness) join(wires []wiring.Wire, module string) {
	for i := range h.p.Boards {
		b := &h.p.Boards[i]
		for c := range b.Columns * b.Rows {
			hole := b.At.Add(grid.Offset{Cols: c % b.Columns, Rows: c / b.Columns})
			for _, mate := range b.Mates(hole) {
				h.unite(h.node(hole, grid.Front), h.node(mate, grid.Front))
				h.unite(h.node(hole, grid.Back), h.node(mate, grid.Back))
			}
		}
	}
	for i := range h.p.Placed {
		pl := &h.p.Placed[i]
		d := h.p.Definition(pl)
		var ground []string
		for _, t := range d.Terminals {
			if pl.Ref == module && t.Net == part.Ground {
				ground = append(ground, t.Name)
			}
		}
		for _, metal := range append(d.Joined, ground) {
			for k := 1; k < len(metal); k++ {
				h.unite(h.terminal(pl.Ref, metal[0]), h.terminal(pl.Ref, metal[k]))
			}
		}
	}
	for _, w := range wires {
		if w.Kind == wiring.Solder {
			h.unite(h.node(w.From, w.Face), h.node(w.To, w.Face))
		}
		if w.Through {
			h.unite(h.node(w.From, grid.Front), h.node(w.From, grid.Back))
		}
	}
}

// wire adds one wire hole by hole: d = 0.127 mm x 92^((36-n)/39) (ASTM B258), or 0.5 mm tinned, of
// annealed copper of 1.7241e-8 ohm metres (from memory).
func (h *harness) wire(w *wiring.Wire) {
	mm := 0.5
	if n, err := strconv.Atoi(strings.TrimPrefix(w.Gauge, "AWG ")); err == nil {
		mm = 0.127 * math.Pow(92, float64(36-n)/39)
	}
	each := 1.7241e-8 * w.LengthMM / 1000 / (math.Pi * mm * mm / 4 * 1e-6) / float64(len(w.Path)-1)
	for k := 1; k < len(w.Path); k++ {
		end := w.Face
		if w.Round {
			end = end.Other()
		}
		if a, b := h.find(h.node(w.Path[k-1], w.Face)), h.find(h.node(w.Path[k], end)); a != b {
			h.n++
			fmt.Fprintf(&h.deck, "R%d %s %s %.12g\n", h.n, a, b, each)
		}
	}
}

// solve lets ngspice work the deck out and returns the voltages of nodes.
func (h *harness) solve(t *testing.T, nodes []string) map[string]float64 {
	t.Helper()
	h.deck.WriteString(".control\nset numdgt=12\nop\n")
	for _, n := range nodes {
		fmt.Fprintf(&h.deck, "print v(%s)\n", n)
	}
	h.deck.WriteString(".endc\n.end\n")
	file := filepath.Join(t.TempDir(), "wires.cir")
	if err := os.WriteFile(file, []byte("supply wires\n"+h.deck.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("ngspice", "-b", file).Output()
	if len(out) == 0 {
		t.Fatalf("ngspice: %v: run go run ./cmd/verify", err)
	}
	volts := map[string]float64{}
	for _, m := range regexp.MustCompile(`(?m)^v\((\w+)\) = (\S+)`).FindAllStringSubmatch(string(out), -1) {
		if volts[m[1]], err = strconv.ParseFloat(m[2], 64); err != nil {
			t.Fatal(err)
		}
	}
	for _, n := range nodes {
		if _, ok := volts[n]; !ok {
			t.Fatalf("ngspice told nothing of %s:\n%s%s", n, h.deck.String(), out)
		}
	}
	return volts
}

// heavy is the panel with parts on 3V3 that draw amperes and need just what there is, so that each is
// told of once it loses half a millivolt, and with nothing else that draws.
func heavy(p panel.Panel) panel.Panel {
	p = p.Clone()
	for id, d := range p.Parts {
		d.Facts.CurrentMA, d.Facts.DriveMA = d.Facts.CurrentMA*1000, 0
		d.Facts.SupplyMinVolts, d.Facts.SupplyMaxVolts = 3.3495, 6
		p.Parts[id] = d
	}
	for i := range p.Placed {
		if d := p.Definition(&p.Placed[i]); d.Kind == part.Resistor {
			p.Placed[i].Value = "10M"
		}
	}
	return p
}

// What the wires of 3V3 and ground lose, by the rule and by ngspice.
func TestWireDropAgainstSpice(t *testing.T) {
	var panels []panel.Panel
	for _, d := range demo.All() {
		panels = append(panels, d.Panel)
	}
	for seed := range uint64(80) {
		p := randompanel.Make(seed)
		if len(p.Modules()) == 1 && len(p.OfKind(part.Battery, part.Charger, part.PowerSwitch)) == 0 {
			panels = append(panels, p)
		}
	}
	compared, shared := 0, 0
	for _, p := range panels {
		n := compareDrops(t, heavy(p))
		compared += n
		if n > 1 {
			shared++
		}
	}
	if compared < 12 || shared < 3 {
		t.Errorf("only %d parts compared, %d panels with several", compared, shared)
	}
}

func compareDrops(t *testing.T, p panel.Panel) int {
	t.Helper()
	made := plan.Make(&p)
	module := p.Modules()[0].Ref
	h := harness{p: &p, same: map[string]string{}}
	h.join(made.Wiring.Wires, module)
	for i := range made.Wiring.Wires {
		if w := &made.Wiring.Wires[i]; (w.Net == part.Ground || w.Net == part.Supply3V3) && len(w.Path) > 1 && w.CutMM > 0 {
			h.wire(w)
		}
	}
	ends := map[string][2]string{} // of each part: the node of its first terminal on 3V3, and on ground
	for i := range p.Placed {
		d, ref := p.Definition(&p.Placed[i]), p.Placed[i].Ref
		e := ends[ref]
		for _, t := range d.Terminals {
			switch net := made.Nets.NetOf(panel.TerminalRef{Ref: ref, Terminal: t.Name}); {
			case net == part.Supply3V3 && t.Net == part.Supply3V3 && e[0] == "":
				e[0] = h.find(h.terminal(ref, t.Name))
			case net == part.Ground && t.Net == part.Ground && e[1] == "":
				e[1] = h.find(h.terminal(ref, t.Name))
			}
		}
		ends[ref] = e
	}
	root := ends[module]
	if root[0] == "" {
		return 0
	}
	fmt.Fprintf(&h.deck, "Vground %s 0 0\nVsupply %s 0 0\n", root[1], root[0])
	var nodes, refs []string
	for i := range p.Placed {
		ref := p.Placed[i].Ref
		d := p.Definition(&p.Placed[i])
		e := ends[ref]
		switch {
		case ref == module || e[1] == "" || d.Facts.CurrentMA == 0:
		case e[0] != "":
			fmt.Fprintf(&h.deck, "I%d %s %s %g\n", i, e[0], e[1], d.Facts.CurrentMA/1000)
			nodes, refs = append(nodes, e[0], e[1]), append(refs, ref)
		case onSupply(&d): // from 5V or VSYS, and back over the same ground wires
			fmt.Fprintf(&h.deck, "I%d 0 %s %g\n", i, e[1], d.Facts.CurrentMA/1000)
		}
	}
	if len(refs) == 0 {
		return 0
	}
	volts := h.solve(t, nodes)
	said := dropsSaid(made.Findings)
	for k, ref := range refs {
		want := 1000 * (volts[nodes[2*k+1]] - volts[nodes[2*k]])
		if got, ok := said[ref]; ok && math.Abs(got-want) > 0.006 || !ok && want > 0.6 {
			t.Errorf("%s: %s loses %.4f mV, ngspice says %.4f", p.Name, ref, got, want)
		}
	}
	return len(refs)
}

// onSupply reports whether a part has a supply by nature.
func onSupply(d *part.Definition) bool {
	return slices.ContainsFunc(d.Terminals, func(t part.Terminal) bool { return t.Net != "" && t.Net != part.Ground })
}

var dropText = regexp.MustCompile(`wires of 3V3 and ground lose (\S+) mV on the way`)

// dropsSaid reads the millivolts out of the findings.
func dropsSaid(found []finding.Finding) map[string]float64 {
	said := map[string]float64{}
	for _, f := range found {
		if m := dropText.FindStringSubmatch(f.Text); m != nil && f.Code == "wire-drop" {
			said[f.Where.Refs[0]], _ = strconv.ParseFloat(m[1], 64)
		}
	}
	return said
}
