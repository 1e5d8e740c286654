package wiring

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
)

// A bigBoard is a panel whose nets are given terminal by terminal.
type bigBoard struct {
	p    panel.Panel
	fit  fit.Result
	nets netlist.Result
	used map[panel.TerminalRef]bool
}

func newBigBoard(columns, rows int) *bigBoard {
	b := &bigBoard{p: panel.New("big"), used: map[panel.TerminalRef]bool{}}
	b.p.Boards[0].Columns, b.p.Boards[0].Rows = columns, rows
	return b
}

func (b *bigBoard) put(ref, id string, col, row int, turn grid.Turn) {
	b.p.Parts[id] = part.BuiltIn()[id]
	b.p.Placed = append(b.p.Placed, panel.Placed{Ref: ref, Part: id, At: grid.Hole{Col: col, Row: row}, Turn: turn})
}

// net joins terminals, written as U1.GP0.
func (b *bigBoard) net(name string, class netlist.Class, ends ...string) {
	n := netlist.Net{Name: name, Class: class}
	for _, e := range ends {
		name, terminal, _ := strings.Cut(e, ".")
		ref := panel.TerminalRef{Ref: name, Terminal: terminal}
		h, ok := b.p.HoleOf(ref)
		if !ok || b.used[ref] {
			panic("no end " + e)
		}
		b.used[ref] = true
		n.Terminals = append(n.Terminals, netlist.Terminal{TerminalRef: ref, Hole: h, Face: b.p.Find(ref.Ref).Face.Other(), OneNode: true})
	}
	slices.SortFunc(n.Terminals, func(s, t netlist.Terminal) int { return s.TerminalRef.Compare(t.TerminalRef) })
	b.nets.Nets = append(b.nets.Nets, n)
}

// finish leaves every other terminal open and lays the parts out.
func (b *bigBoard) finish() *bigBoard {
	for i := range b.p.Placed {
		pl := &b.p.Placed[i]
		for _, t := range b.p.Definition(pl).Terminals {
			ref := panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name}
			if h, _ := b.p.HoleOf(ref); !b.used[ref] {
				b.nets.Open = append(b.nets.Open, netlist.Open{TerminalRef: ref, Hole: h, Why: "not used"})
			}
		}
	}
	b.fit = fit.Examine(&b.p)
	return b
}

// fortyNets is a hand-held: 60 x 40 holes, 5 x 8 keys, a module with 40 pins, a display, seven LEDs
// with resistors, ground with nine groups and the supply with four.
func fortyNets() *bigBoard {
	b := newBigBoard(60, 40)
	b.put("U1", "module40-rp2040", 40, 3, 1)
	b.put("U2", "oled096-spi7", 47, 1, 0)
	rowPins, columnPins := []string{"GP15", "GP14", "GP13", "GP12", "GP11"}, []string{"GP16", "GP17", "GP18", "GP19", "GP20", "GP21", "GP22", "RUN"}
	pins := []string{"GP10", "GP9", "GP8", "GP7", "GP6", "GP5", "GP4", "GP3", "GP2", "GP1", "GP0", "VBUS", "VSYS", "GP28", "GP27", "GP26"}
	next := func() string { pin := pins[0]; pins = pins[1:]; return "U1." + pin }
	for r := range 5 {
		for c := range 8 {
			b.put(fmt.Sprintf("S%d", 8*r+c+1), "tact6", 16+5*c, 16+5*r, 0)
		}
	}
	ground, supply := []string{"U1.GND3", "U1.GND8", "U1.GND13", "U1.GND18", "U1.GND23", "U1.GND28", "U1.GND38", "U1.AGND", "U2.GND"}, []string{"U1.3V3", "U2.VCC"}
	for i := range 7 {
		b.put(fmt.Sprintf("D%d", i+1), "led3", 2+3*i%12, 3+4*(3*i/12), 0)
		b.put(fmt.Sprintf("R%d", i+1), "resistor-small", 3+5*(i%3), 11+2*(i/3), 0)
		if i < 6 {
			ground = append(ground, fmt.Sprintf("D%d.K", i+1))
		}
	}
	b.put("LS1", "piezo12", 5, 34, 0)
	b.put("J1", "header-male-1x4", 4, 20, 0)
	b.put("J2", "header-male-1x4", 4, 24, 0)
	for r := range 5 {
		ends := []string{"U1." + rowPins[r]}
		for c := range 8 {
			ends = append(ends, fmt.Sprintf("S%d.A1", 8*r+c+1), fmt.Sprintf("S%d.A2", 8*r+c+1))
		}
		b.net(fmt.Sprintf("row %d", r), netlist.Row, ends...)
	}
	for c := range 8 {
		ends := []string{"U1." + columnPins[c]}
		for r := range 5 {
			ends = append(ends, fmt.Sprintf("S%d.B1", 8*r+c+1), fmt.Sprintf("S%d.B2", 8*r+c+1))
		}
		b.net(fmt.Sprintf("column %d", c), netlist.Column, ends...)
	}
	for i := range 7 {
		b.net(fmt.Sprintf("D%d A", i+1), netlist.Signal, fmt.Sprintf("R%d.1", i+1), next())
		b.net(fmt.Sprintf("D%d series", i+1), netlist.Link, fmt.Sprintf("R%d.2", i+1), fmt.Sprintf("D%d.A", i+1))
	}
	for _, t := range []string{"D0", "D1", "RES", "DC", "CS"} {
		b.net("display "+t, netlist.Signal, "U2."+t, next())
	}
	b.net("piezo 1", netlist.Signal, "LS1.1", next())
	b.net("header 3", netlist.Signal, "J1.3", next())
	b.net("header 4", netlist.Signal, "J1.4", "U1.3V3_EN")
	b.net("header 1", netlist.Signal, "D7.K", next())
	b.net("LED spare", netlist.Signal, next(), "U1.ADC_VREF")
	b.net("link", netlist.Link, "J2.1", "J2.4", "J1.2")
	b.net("3V3", netlist.Supply, append(supply, "J2.2", "J2.3")...)
	b.net("ground", netlist.Ground, append(ground, "LS1.2", "J1.1")...)
	return b.finish()
}

// scattered has nets of two to four leads, each within a window of the board.
func scattered(columns, rows, nets int, seed uint64) *bigBoard {
	b := newBigBoard(columns, rows)
	random := rand.New(rand.NewPCG(seed, 3))
	b.p.Parts["post"] = part.Definition{Name: "post", Kind: part.Other, Prefix: "X", Terminals: []part.Terminal{{Name: "1"}}}
	taken := map[grid.Hole]bool{}
	var ends [][]string
	for range nets {
		const window = 16
		from := grid.Hole{Col: random.IntN(columns - window + 1), Row: random.IntN(rows - window + 1)}
		var list []string
		for want := 2 + random.IntN(3); len(list) < want; {
			h := from.Add(grid.Offset{Cols: random.IntN(window), Rows: random.IntN(window)})
			if taken[h] {
				continue
			}
			taken[h] = true
			ref := fmt.Sprintf("X%d", len(b.p.Placed)+1)
			b.p.Placed = append(b.p.Placed, panel.Placed{Ref: ref, Part: "post", At: h})
			list = append(list, ref+".1")
		}
		ends = append(ends, list)
	}
	for i, list := range ends {
		b.net(fmt.Sprintf("net %d", i), netlist.Signal, list...)
	}
	return b.finish()
}

func (b *bigBoard) begin() *Work { return Begin(&b.p, &b.fit, &b.nets, Options{}) }

// bettered is how many moves the plan's answer takes on fortyNets within some 0.6 s.
const bettered = 1200

// TestFortyNets: with a fixed number of moves, the wires cost at least a twentieth less than the best
// of 50 orders of the nets by chance.
func TestFortyNets(t *testing.T) {
	b := fortyNets()
	if len(b.nets.Nets) != 40 || finding.Count(b.fit.Findings, finding.Stop) > 0 {
		t.Fatalf("%d nets, %v", len(b.nets.Nets), b.fit.Findings)
	}
	w := b.begin()
	first := w.Result()
	after := w.Improve(bettered, nil, nil)
	s := newSearch(b.begin().s.grower)
	clear(s.owner)
	copy(s.owner, s.fixed)
	random := rand.New(rand.NewPCG(7, 7))
	for range 50 {
		s.clear()
		for _, i := range random.Perm(len(s.tasks)) {
			s.put(i, s.grow(i, 0, false))
		}
		s.keepBest()
	}
	t.Logf("first %.1f, best of 50 orders %.1f, after %d moves %.1f, bound %.1f; insulated %d, at least %d", first.Cost, s.least.holes(), bettered, after.Cost, after.Bound, after.Counts.Insulated, after.InsulatedBound)
	if after.Cost > 0.95*s.least.holes() {
		t.Errorf("%.1f after %d moves is less than 5 %% below %.1f", after.Cost, bettered, s.least.holes())
	}
	if wrong := Verify(&b.p, &b.nets, after.Wires); len(wrong) > 0 {
		t.Errorf("not right: %q", wrong)
	}
}

// TestImproveRepeats: the same moves give the same answer in one call or in several, and each answer
// that is called out beats the last.
func TestImproveRepeats(t *testing.T) {
	b := scattered(30, 30, 20, 1)
	one := b.begin().Improve(90, nil, nil)
	w := b.begin()
	last, heard := w.Result().Cost, 0
	listen := func(r Result) {
		if heard++; r.Cost >= last {
			t.Errorf("%v is called out after %v", r.Cost, last)
		}
		last = r.Cost
	}
	for range 3 {
		w.Improve(30, nil, listen)
	}
	if two := w.Result(); two.Cost != one.Cost || two.Bound != one.Bound || fmt.Sprint(two.Wires) != fmt.Sprint(one.Wires) {
		t.Errorf("cost %v and %v, bound %v and %v", one.Cost, two.Cost, one.Bound, two.Bound)
	}
	asked := 0
	stopped := b.begin().Improve(1000, func() bool { asked++; return asked > 5 }, nil)
	if stopped.moves != 5 {
		t.Errorf("%d moves though told to stop after 5", stopped.moves)
	}
}

// BenchmarkNets is a table of time against nets and area: the first answer, and its memory.
func BenchmarkNets(b *testing.B) {
	sizes := []struct{ columns, rows, nets int }{{20, 20, 10}, {40, 30, 20}, {60, 40, 20}, {60, 40, 40}, {60, 40, 80}, {100, 100, 40}, {100, 100, 150}, {100, 100, 300}}
	for _, z := range sizes {
		b.Run(fmt.Sprintf("%dx%d/%d", z.columns, z.rows, z.nets), func(b *testing.B) {
			board := scattered(z.columns, z.rows, z.nets, 1)
			var r Result
			for b.Loop() {
				r = board.begin().Result()
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			b.ReportMetric(r.Cost, "cost")
			b.ReportMetric(100*r.Gap, "gap%")
			b.ReportMetric(float64(r.Counts.Insulated), "insulated")
			b.ReportMetric(float64(m.Sys)/(1<<20), "MiB")
		})
	}
}

func BenchmarkFortyNets(b *testing.B) {
	board := fortyNets()
	b.Run("first", func(b *testing.B) {
		for b.Loop() {
			b.ReportMetric(board.begin().Result().Cost, "cost")
		}
	})
	b.Run("bettered", func(b *testing.B) {
		for b.Loop() {
			r := board.begin().Improve(bettered, nil, nil)
			b.ReportMetric(r.Cost, "cost")
			b.ReportMetric(100*r.Gap, "gap%")
		}
	})
}
