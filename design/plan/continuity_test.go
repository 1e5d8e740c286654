package plan_test

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/design/wiring/randompanel"
)

// What a meter must read: below an ohm within a net, above a gigohm between two (common practice of
// continuity tests, no source).
const (
	wireOhms     = 1e-3
	mostInside   = 1.0
	leastBetween = 1e9
)

// A meter is a soldered board written for ngspice, another program: copper and the metal inside
// parts are nodes, each piece of wire from hole to hole is a resistor of a milliohm.
type meter struct {
	p      *panel.Panel
	parent map[node]node
	wires  [][2]node
	nets   []measured
}

// A measured net is the places of its terminals, each node once; one that is to stay open is a net
// of its own.
type measured struct {
	name  string
	nodes []string
}

func (m *meter) find(n node) node {
	for {
		up, ok := m.parent[n]
		if !ok {
			return n
		}
		n = up
	}
}

func (m *meter) unite(a, b node) {
	if a, b = m.find(a), m.find(b); a != b {
		m.parent[a] = b
	}
}

func (m *meter) at(h grid.Hole, face string) node {
	if b := m.p.BoardAt(h); b != nil && b.OneNode() {
		face = ""
	}
	return node{h, face}
}

// name is what ngspice calls the node of a place.
func (m *meter) name(n node) string {
	n = m.find(n)
	return strings.ToLower("n" + n.hole.String() + n.face)
}

func (m *meter) terminal(ref panel.TerminalRef) node {
	h, _ := m.p.HoleOf(ref)
	return m.at(h, m.p.Find(ref.Ref).Face.Other().String())
}

// newMeter lays out the deck from the panel's parts and boards and from nets.csv and wiring.csv.
func newMeter(t *testing.T, p *panel.Panel, nets, wires []map[string]string) *meter {
	t.Helper()
	m := &meter{p: p, parent: map[node]node{}}
	listed := map[panel.TerminalRef]bool{}
	for _, row := range nets {
		listed[panel.TerminalRef{Ref: row["ref"], Terminal: row["terminal"]}] = true
	}
	var open []panel.TerminalRef
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Definition(pl)
		for _, metal := range d.Joined {
			for _, name := range metal[1:] {
				m.unite(m.terminal(panel.TerminalRef{Ref: pl.Ref, Terminal: metal[0]}), m.terminal(panel.TerminalRef{Ref: pl.Ref, Terminal: name}))
			}
		}
		for _, term := range d.Terminals {
			if ref := (panel.TerminalRef{Ref: pl.Ref, Terminal: term.Name}); !listed[ref] {
				open = append(open, ref)
			}
		}
	}
	for i := range p.Boards {
		m.layCopper(&p.Boards[i])
	}
	for _, row := range wires {
		m.layWire(row)
	}
	for _, row := range nets {
		m.expect(row["net"], m.at(grid.MustHole(row["hole"]), row["face"]))
	}
	for _, ref := range open {
		where := m.terminal(ref)
		m.expect("open "+m.name(where), where)
	}
	return m
}

func (m *meter) layCopper(b *panel.Board) {
	for c := range b.Columns * b.Rows {
		h := b.At.Add(grid.Offset{Cols: c % b.Columns, Rows: c / b.Columns})
		for _, mate := range b.Mates(h) {
			for face := grid.Front; face <= grid.Back; face++ {
				if b.HasCopper(face) {
					m.unite(m.at(h, face.String()), m.at(mate, face.String()))
				}
			}
		}
	}
}

func (m *meter) layWire(row map[string]string) {
	if row["kind"] == "leg" {
		return // metal inside a part, and a node already
	}
	holes := strings.Fields(row["path"])
	if row["face"] == "both" {
		h := grid.MustHole(holes[0])
		m.wires = append(m.wires, [2]node{m.at(h, "front"), m.at(h, "back")})
		return
	}
	for k := 1; k < len(holes); k++ {
		m.wires = append(m.wires, [2]node{m.at(grid.MustHole(holes[k-1]), row["face"]), m.at(grid.MustHole(holes[k]), row["face"])})
	}
}

// expect puts a place on a net.
func (m *meter) expect(net string, where node) {
	name := m.name(where)
	i := slices.IndexFunc(m.nets, func(x measured) bool { return x.name == net })
	if i < 0 {
		i = len(m.nets)
		m.nets = append(m.nets, measured{name: net})
	}
	if !slices.Contains(m.nets[i].nodes, name) {
		m.nets[i].nodes = append(m.nets[i].nodes, name)
	}
}

// deck writes the circuit. Every net is held at its first terminal by a source, and an ampere can be
// sent into each other terminal. Nodes that nothing holds lie at ground through 10 teraohms.
func (m *meter) deck() string {
	var d strings.Builder
	d.WriteString("a soldered board\n.options rshunt=1e13\n")
	for i, w := range m.wires {
		if a, b := m.name(w[0]), m.name(w[1]); a != b {
			fmt.Fprintf(&d, "R%d %s %s %g\n", i, a, b, wireOhms)
		}
	}
	most := 0
	for k, n := range m.nets {
		fmt.Fprintf(&d, "V%d %s 0 0\n", k, n.nodes[0])
		for j, name := range n.nodes[1:] {
			fmt.Fprintf(&d, "I%d_%d 0 %s 0\n", k, j+1, name)
		}
		most = max(most, len(n.nodes))
	}
	d.WriteString(".control\nset numdgt=10\n")
	for j := 1; j < most; j++ { // an ampere into terminal j of every net at once: its volts are ohms
		for k, n := range m.nets {
			if j < len(n.nodes) {
				fmt.Fprintf(&d, "alter i%d_%d = 1\n", k, j)
			}
		}
		d.WriteString("op\n")
		for k, n := range m.nets {
			if j < len(n.nodes) {
				fmt.Fprintf(&d, "print v(%s)\nalter i%d_%d = 0\n", n.nodes[j], k, j)
			}
		}
		d.WriteString("destroy all\n")
	}
	for k := range m.nets { // a volt on one net, nothing on the others: its amperes are siemens
		fmt.Fprintf(&d, "alter v%d = 1\nop\nprint i(v%d)\nalter v%d = 0\ndestroy all\n", k, k, k)
	}
	d.WriteString(".endc\n.end\n")
	return d.String()
}

// measure lets ngspice solve the deck and says what is open and what is shorted. Resistance between
// the nodes of a network is a metric, so that two terminals each less than half an ohm from the first
// are less than one apart; and what leaks from a net to all others together bounds each of them.
func (m *meter) measure(t *testing.T) []string {
	t.Helper()
	owner := map[string]string{}
	var wrong []string
	for _, n := range m.nets {
		for _, name := range n.nodes {
			if other := owner[name]; other != "" {
				wrong = append(wrong, fmt.Sprintf("short: %s and %s are one piece of metal at %s", other, n.name, name))
			}
			owner[name] = n.name
		}
	}
	if wrong != nil {
		return wrong // two sources on one node have no solution
	}
	read := solve(t, m.deck())
	for k, n := range m.nets {
		for _, name := range n.nodes[1:] {
			if ohms := reading(t, read, "v("+name+")"); ohms >= mostInside/2 {
				wrong = append(wrong, fmt.Sprintf("open: %s at %s is %g ohms from its first terminal", n.name, name, ohms))
			}
		}
		if siemens := math.Abs(reading(t, read, fmt.Sprintf("i(v%d)", k))); siemens >= 1/leastBetween {
			wrong = append(wrong, fmt.Sprintf("short: %s is %g ohms from the others", n.name, 1/siemens))
		}
	}
	return wrong
}

func reading(t *testing.T, read map[string]float64, what string) float64 {
	t.Helper()
	v, ok := read[what]
	if !ok {
		t.Fatalf("ngspice told nothing of %s among %d readings: %q", what, len(read), slices.Sorted(maps.Keys(read)))
	}
	return v
}

// solve runs ngspice and returns what it printed.
func solve(t *testing.T, deck string) map[string]float64 {
	t.Helper()
	file := filepath.Join(t.TempDir(), "board.cir")
	if err := os.WriteFile(file, []byte(deck), 0o600); err != nil {
		t.Fatal(err)
	}
	run := exec.Command("ngspice", "-b", file)
	var said bytes.Buffer
	run.Stderr = &said
	out, err := run.Output()
	read := map[string]float64{}
	for line := range strings.Lines(string(out)) {
		if name, value, ok := strings.Cut(strings.TrimSpace(line), " = "); ok {
			if v, err := strconv.ParseFloat(value, 64); err == nil {
				read[name] = v
			}
		}
	}
	if len(read) == 0 {
		t.Fatalf("ngspice: %v: run go run ./cmd/verify\n%s%s", err, out, said.String())
	}
	return read
}

// Continuity from outside: on every demo, plated or not, and on boards of strips and groups, each net
// is one node and no two are joined.
func TestContinuity(t *testing.T) {
	panels := map[string]panel.Panel{}
	for _, d := range demo.All() {
		panels[d.ID] = d.Panel
		bare := d.Panel.Clone()
		for i := range bare.Boards {
			bare.Boards[i].Plated = false
		}
		panels[d.ID+" without plating"] = bare
	}
	for seed := range uint64(40) {
		if p := randompanel.Make(seed); p.Boards[0].Copper != panel.Pads && len(p.Placed) > 5 {
			panels[p.Name] = p
		}
	}
	if len(panels) < 12 {
		t.Errorf("only %d panels", len(panels))
	}
	for name, p := range panels {
		t.Run(name, func(t *testing.T) {
			files := filesOf(t, plan.Make(&p))
			m := newMeter(t, &p, rows(t, files["nets.csv"]), rows(t, files["wiring.csv"]))
			if len(m.nets) < 5 || len(m.wires) == 0 {
				t.Errorf("only %d nets and %d pieces of wire", len(m.nets), len(m.wires))
			}
			for _, wrong := range m.measure(t) {
				t.Error(wrong)
			}
		})
	}
}

// The measurement tells: a wire left out opens its net, one too many shorts two.
func TestContinuityTellsFaults(t *testing.T) {
	p := demo.All()[0].Panel
	files := filesOf(t, plan.Make(&p))
	nets, wires := rows(t, files["nets.csv"]), rows(t, files["wiring.csv"])
	work := slices.DeleteFunc(slices.Clone(wires), func(w map[string]string) bool { return w["kind"] == "leg" })
	for _, i := range []int{0, len(work) / 2, len(work) - 1} {
		less := slices.Delete(slices.Clone(work), i, i+1)
		if wrong := newMeter(t, &p, nets, less).measure(t); len(wrong) == 0 || !strings.HasPrefix(wrong[0], "open: "+work[i]["net"]) {
			t.Errorf("without step %s of %s: %q", work[i]["step"], work[i]["net"], wrong)
		}
	}
	far := slices.IndexFunc(nets, func(r map[string]string) bool { return r["net"] != nets[0]["net"] })
	more := append(slices.Clone(work), map[string]string{"kind": "insulated", "face": "back", "path": nets[0]["hole"] + " " + nets[far]["hole"]})
	wrong := newMeter(t, &p, nets, more).measure(t)
	if len(wrong) != 2 || !strings.HasPrefix(wrong[0], "short: "+nets[0]["net"]) || !strings.HasPrefix(wrong[1], "short: "+nets[far]["net"]) {
		t.Errorf("with a wire from %s to %s: %q", nets[0]["net"], nets[far]["net"], wrong)
	}
}
