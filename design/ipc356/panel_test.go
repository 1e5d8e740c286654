package ipc356_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/ipc356"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/wiring/randompanel"
)

// names are names of joins that no field holds, or that mean something of their own in one.
var names = []string{"a name of twenty-four char", "höher", "音量", "N/C", "NNAME2", "ground", `C:\"x"`, " blank ", "14 characters.", "two\nlines"}

// netsOf works out what nets need no scan and no pins: supplies, joins and links.
func netsOf(p *panel.Panel) netlist.Result {
	return netlist.List(p, &scan.Result{}, &pinning.Result{})
}

// panels are the demos and 150 random panels, with joins of awkward names between terminals that
// would be open.
func panels() []panel.Panel {
	var all []panel.Panel
	for _, d := range demo.All() {
		all = append(all, d.Panel)
	}
	for seed := range uint64(150) {
		p := randompanel.Make(seed)
		open := netsOf(&p).Open
		for i := range min(len(names), len(open)/2) {
			p.Joins = append(p.Joins, panel.Join{Name: names[i], Terminals: []string{open[2*i].TerminalRef.String(), open[2*i+1].TerminalRef.String()}})
		}
		all = append(all, p)
	}
	return all
}

// The nets of a file that was read back are those of the panel, terminal for terminal, each in its
// hole, in both units.
func TestPanelsComeBack(t *testing.T) {
	aliases, apart, many := 0, 0, 0
	for _, p := range panels() {
		n := netsOf(&p)
		for _, units := range []ipc356.Units{ipc356.TenThousandthInch, ipc356.Micrometre} {
			f := ipc356.Of(&p, &n, units)
			text, err := f.Write()
			if err != nil {
				t.Fatalf("%s: %v", p.Name, err)
			}
			back, err := ipc356.Parse(text)
			if err != nil {
				t.Fatalf("%s: %v\n%s", p.Name, err, text)
			}
			if !same(&f, back) {
				t.Errorf("%s: the file comes back as another", p.Name)
			}
			compare(t, &p, &n, back)
			aliases += strings.Count(string(text), "\nP  NNAME")
		}
		for i := range p.Boards {
			if !p.Boards[i].OneNode() {
				apart++
			}
		}
		many += len(n.Nets)
	}
	if aliases < 50 || apart < 10 || many < 900 {
		t.Errorf("only %d aliases, %d boards without plating, %d nets", aliases, apart, many)
	}
}

// compare holds a file against the netlist and the boards.
func compare(t *testing.T, p *panel.Panel, n *netlist.Result, f *ipc356.File) {
	t.Helper()
	var want, got, wantOpen, gotOpen []string
	for _, net := range n.Nets {
		for _, term := range net.Terminals {
			want = append(want, fmt.Sprintf("%q %s %s", net.Name, term.TerminalRef, where(t, p, term.TerminalRef)))
		}
	}
	for _, net := range f.Nets() {
		for _, q := range net.Points {
			got = append(got, fmt.Sprintf("%q %s.%s %s", net.Name, q.Ref, q.Pin, place(p, f, &q)))
		}
	}
	for _, o := range n.Open {
		wantOpen = append(wantOpen, o.TerminalRef.String()+" "+where(t, p, o.TerminalRef))
	}
	for _, q := range f.Points {
		if q.Net == "" {
			gotOpen = append(gotOpen, q.Ref+"."+q.Pin+" "+place(p, f, &q))
		}
	}
	if !slices.Equal(got, want) || !slices.Equal(gotOpen, wantOpen) {
		t.Errorf("%s: got\n%s\n%s\nwant\n%s\n%s", p.Name, strings.Join(got, "\n"), strings.Join(gotOpen, "\n"), strings.Join(want, "\n"), strings.Join(wantOpen, "\n"))
	}
}

// where says in which hole a terminal is, from which side it is reached and whether the hole is plated.
func where(t *testing.T, p *panel.Panel, ref panel.TerminalRef) string {
	t.Helper()
	h, ok := p.HoleOf(ref)
	b := p.BoardAt(h)
	if !ok || b == nil {
		t.Fatalf("%s: %s is in no hole", p.Name, ref)
	}
	side := "A00"
	switch {
	case b.Faces == panel.FrontOnly:
		side = "A01"
	case b.Faces == panel.BackOnly:
		side = "A02"
	case !b.Plated && p.Find(ref.Ref).Face == grid.Front:
		side = "A02" // a part on the front is soldered on the back
	case !b.Plated:
		side = "A01"
	}
	return fmt.Sprintf("%s %s %v", h, side, b.Plated)
}

// place finds the hole of a point by its coordinates, which count from the hole that a comment names.
func place(p *panel.Panel, f *ipc356.File, q *ipc356.Point) string {
	var origin string
	for _, c := range f.Comments {
		if _, tail, ok := strings.Cut(c, "count from hole "); ok {
			origin, _, _ = strings.Cut(tail, ".")
		}
	}
	from := grid.MustHole(origin).Centre()
	x, y := float64(from.X+f.Units.Millimetres(q.X)), float64(from.Y-f.Units.Millimetres(q.Y))
	for i := range p.Boards {
		b := &p.Boards[i]
		shift := b.Misfit()
		for c := range b.Columns * b.Rows {
			h := b.At.Add(grid.Offset{Cols: c % b.Columns, Rows: c / b.Columns})
			at := h.Centre().Add(shift)
			if math.Hypot(float64(at.X)-x, float64(at.Y)-y) < 0.003 {
				return fmt.Sprintf("%s A%02d %v", h, q.Side, q.Plated)
			}
		}
	}
	return fmt.Sprintf("nowhere at %.4f, %.4f", x, y)
}

// A board of 4 x 3 holes with a resistor from B1 to B3 and an LED on the back. Rows count down the
// board and Y up it. Hole 1.0 and pad 1.8 mm are 394 and 709 of 0.0001 inch (25.4 mm to the inch).
func TestOf(t *testing.T) {
	two := func(name string) part.Definition {
		d := part.Definition{Name: name, Kind: part.Resistor, Prefix: "R",
			Terminals: []part.Terminal{{Name: "1", Net: part.Ground}, {Name: "2", At: [2]int{0, 2}}}}
		d.Tidy()
		return d
	}
	p := panel.New("Tür \u2192")
	p.Boards[0].Columns, p.Boards[0].Rows = 4, 3
	p.Parts["r"] = two("resistor")
	p.Placed = []panel.Placed{{Ref: "R1", Part: "r", At: grid.MustHole("B1")}, {Ref: "R2", Part: "r", At: grid.MustHole("C1"), Face: grid.Back}}
	tests := []struct {
		name  string
		board func(*panel.Board)
		units ipc356.Units
		want  []string
	}{
		{"plated", func(b *panel.Board) { b.Plated = true }, ipc356.TenThousandthInch, []string{
			"317ground           R1    -1    D0394PA00X+001000Y+002000X0709Y0000     S0", "317ground           R2    -1    D0394PA00X+002000Y+002000X0709Y0000     S0",
			"317N/C              R1    -2    D0394PA00X+001000Y+000000X0709Y0000     S0", "317N/C              R2    -2    D0394PA00X+002000Y+000000X0709Y0000     S0"}},
		{"a ring a face", func(b *panel.Board) { b.Plated = false }, ipc356.TenThousandthInch, []string{
			"317ground           R1    -1    D0394UA02X+001000Y+002000X0709Y0000     S0", "317ground           R2    -1    D0394UA01X+002000Y+002000X0709Y0000     S0",
			"317N/C              R1    -2    D0394UA02X+001000Y+000000X0709Y0000     S0", "317N/C              R2    -2    D0394UA01X+002000Y+000000X0709Y0000     S0"}},
		{"copper on the back", func(b *panel.Board) { b.Plated, b.Faces = false, panel.BackOnly }, ipc356.Micrometre, []string{
			"317ground           R1    -1    D1000UA02X+002540Y+005080X1800Y0000     S0", "317ground           R2    -1    D1000UA02X+005080Y+005080X1800Y0000     S0",
			"317N/C              R1    -2    D1000UA02X+002540Y+000000X1800Y0000     S0", "317N/C              R2    -2    D1000UA02X+005080Y+000000X1800Y0000     S0"}},
		{"copper on the front", func(b *panel.Board) { b.Plated, b.Faces = false, panel.FrontOnly }, ipc356.Micrometre, []string{
			"317ground           R1    -1    D1000UA01X+002540Y+005080X1800Y0000     S0", "317ground           R2    -1    D1000UA01X+005080Y+005080X1800Y0000     S0",
			"317N/C              R1    -2    D1000UA01X+002540Y+000000X1800Y0000     S0", "317N/C              R2    -2    D1000UA01X+005080Y+000000X1800Y0000     S0"}},
		{"a seam of half a millimetre", func(b *panel.Board) {
			b.Plated, b.Seam = true, &panel.Seam{Board: "B", Side: "right", AcrossMM: 0.5, AlongMM: 0.25}
		}, ipc356.Micrometre, []string{
			"317ground           R1    -1    D1000PA00X+003040Y+004830X1800Y0000     S0", "317ground           R2    -1    D1000PA00X+005580Y+004830X1800Y0000     S0",
			"317N/C              R1    -2    D1000PA00X+003040Y-000250X1800Y0000     S0", "317N/C              R2    -2    D1000PA00X+005580Y-000250X1800Y0000     S0"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := p.Clone()
			tt.board(&p.Boards[0])
			n := netlist.Result{Nets: []netlist.Net{{Name: "ground", Terminals: []netlist.Terminal{terminal(&p, "R1", "1"), terminal(&p, "R2", "1")}}},
				Open: []netlist.Open{{TerminalRef: panel.TerminalRef{Ref: "R1", Terminal: "2"}, Hole: grid.MustHole("B3")}, {TerminalRef: panel.TerminalRef{Ref: "R2", Terminal: "2"}, Hole: grid.MustHole("C3")}}}
			f := ipc356.Of(&p, &n, tt.units)
			text, err := f.Write()
			if err != nil {
				t.Fatal(err)
			}
			var records []string
			for line := range strings.Lines(string(text)) {
				if strings.HasPrefix(line, "317") {
					records = append(records, strings.TrimSuffix(line, "\n"))
				}
			}
			if !slices.Equal(records, tt.want) || !strings.Contains(string(text), "P  TITLE T?r ?\n") {
				t.Errorf("got\n%s\nwant\n%s", text, strings.Join(tt.want, "\n"))
			}
		})
	}
}

func terminal(p *panel.Panel, ref, name string) netlist.Terminal {
	r := panel.TerminalRef{Ref: ref, Terminal: name}
	h, _ := p.HoleOf(r)
	return netlist.Terminal{TerminalRef: r, Hole: h, Face: p.Find(ref).Face.Other()}
}

// Six digits of 0.001 mm end at a metre: the largest panel of all counts from its middle.
func TestLargestPanel(t *testing.T) {
	p := panel.New("large")
	p.Boards[0].Columns, p.Boards[0].Rows = panel.MaxSide, panel.MaxSide
	far := p.Boards[0]
	far.ID, far.At = "B", grid.Hole{Col: grid.MaxIndex - panel.MaxSide + 1, Row: grid.MaxIndex - panel.MaxSide + 1}
	p.Boards = append(p.Boards, far)
	n := netlist.Result{Nets: []netlist.Net{{Name: "far", Terminals: []netlist.Terminal{
		{TerminalRef: panel.TerminalRef{Ref: "U1", Terminal: "1"}, Hole: grid.Hole{}},
		{TerminalRef: panel.TerminalRef{Ref: "U2", Terminal: "1"}, Hole: grid.Hole{Col: grid.MaxIndex, Row: grid.MaxIndex}},
		{TerminalRef: panel.TerminalRef{Ref: "U3", Terminal: "1"}, Hole: grid.Hole{Col: 300}},
	}}}}
	for _, units := range []ipc356.Units{ipc356.TenThousandthInch, ipc356.Micrometre} {
		f := ipc356.Of(&p, &n, units)
		text, err := f.Write()
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Points) != 2 || !strings.Contains(string(text), "\nC  U3.1 lies off every board and is left out.\n") {
			t.Errorf("%d points:\n%s", len(f.Points), text)
		}
		if span := f.Points[1].X - f.Points[0].X; span != units.Counts(2.54)*grid.MaxIndex {
			t.Errorf("the panel spans %d counts", span)
		}
	}
}
