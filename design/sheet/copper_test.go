package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
)

func bare(columns, rows int) Drawing {
	p := panel.New("Bare")
	p.Boards[0].Columns, p.Boards[0].Rows = columns, rows
	p.Tidy()
	return Drawing{Panel: &p}
}

// 4,800 holes must stay light: handbook figures say a page redraws hundreds of elements at once
// and stumbles over thousands.
func TestManyHolesStayLight(t *testing.T) {
	for _, v := range []View{{}, {Face: grid.Back}, {Style: Print}, {Style: Picture}} {
		svg := write(t, bare(80, 60), v)
		if n := len(parse(t, svg).all()); n > 400 {
			t.Errorf("%+v: 4,800 holes take %d elements, want 400 at most", v, n)
		}
		if len(svg) > 60_000 {
			t.Errorf("%+v: 4,800 holes take %d bytes, want 60,000 at most", v, len(svg))
		}
	}
}

// Each row of holes is one line that starts on its first hole and is dotted at the pitch.
func TestHolesLieOnTheGrid(t *testing.T) {
	for _, face := range []grid.Face{grid.Front, grid.Back} {
		root := parse(t, write(t, bare(4, 3), View{Face: face}))
		d := root.with("bore")[0].attr["d"]
		if want := "M0 0H7.82M0 2.54H7.82M0 5.08H7.82"; d != want {
			t.Errorf("holes seen from the %s run %s, want %s", face, d, want)
		}
	}
	for _, c := range []class{"bore", "pad-tinned", "pad-copper", "pad-edge"} {
		if dash := look([]class{c}).dash; dash != "0.01 2.53" {
			t.Errorf("%s is dotted %q, which does not add up to the pitch of 2.54", c, dash)
		}
	}
}

func TestMisfitMovesTheHoles(t *testing.T) {
	d := boarded()
	s := scene{pen: &pen{}, Drawing: d, lens: lens{grid.Front, Mirror(d.Panel)}}
	b := &d.Panel.Boards[1]
	got, want := s.seat(b, b.At), grid.Point{X: 11*2.54 + 0.5, Y: 0.2}
	if got.Distance(want) > 0.001 {
		t.Errorf("the first hole of a board that misses the grid is at %v, want %v", got, want)
	}
}

func TestCopperByKind(t *testing.T) {
	has := func(face grid.Face, c string) int {
		return len(parse(t, write(t, boarded(), View{Face: face})).with(c))
	}
	tests := []struct {
		name, class string
		face        grid.Face
		want        int
	}{
		{"strips on the face that has copper", "strip-copper", grid.Back, 2}, // board B's and the bars of board C's groups
		{"no strips on the bare face", "strip-copper", grid.Front, 1},
		{"a cut crossed out", "cut-cross", grid.Back, 1},
		{"no cut on the bare face", "cut-cross", grid.Front, 0},
		{"tinned pads on a plated board", "pad-tinned", grid.Front, 1},
		{"a line for each seam", "seam", grid.Front, 2},
		{"a keep-out hole", "keep-out", grid.Front, 1},
		{"phenolic for boards that are not plated", "laminate-phenolic", grid.Front, 2},
	}
	for _, tt := range tests {
		if got := has(tt.face, tt.class); got != tt.want {
			t.Errorf("%s: %d of %s on the %s, want %d", tt.name, got, tt.class, tt.face, tt.want)
		}
	}
}

// Strip boards: a strip of 10 holes cut at its third is two bars, the cut hole bare.
func TestStripsStopAtCuts(t *testing.T) {
	d := boarded()
	d.Panel.Boards = d.Panel.Boards[1:2]
	d.Panel.Boards[0].Seam, d.Panel.Boards[0].Rows, d.Panel.Boards[0].At = nil, 3, grid.Hole{}
	d.Panel.Boards[0].Cuts = []grid.Hole{grid.MustHole("C3")}
	got := parse(t, write(t, d, View{Face: grid.Back})).with("strip-copper")[0].attr["d"]
	// Mirrored: column A is at 9 pitches from the left.
	if want := "M22.86 0L0 0M22.86 2.54L0 2.54M22.86 5.08L20.32 5.08M15.24 5.08L0 5.08"; got != want {
		t.Errorf("strips run %s, want %s", got, want)
	}
	whole := got
	d.Panel.Boards[0].Cuts = nil
	d.Wiring = &wiring.Result{Cuts: []wiring.Cut{{Board: d.Panel.Boards[0].ID, Hole: grid.MustHole("C3")}}}
	if got := parse(t, write(t, d, View{Face: grid.Back})).with("strip-copper")[0].attr["d"]; got != whole {
		t.Errorf("cut by the plan, strips run %s, want %s", got, whole)
	}
}

func TestGroupBarsReachEveryHole(t *testing.T) {
	d := boarded()
	s := scene{pen: &pen{}, Drawing: d, lens: lens{grid.Front, Mirror(d.Panel)}}
	got := string(s.groupBars(&d.Panel.Boards[2]).d)
	if want := "M2.54 25.4L5.08 25.4M5.08 25.4L10.16 25.4"; got != want {
		t.Errorf("the bars of B11, C11 and E11 run %s, want %s", got, want)
	}
}

func TestLabelsStayClearOfNeighbours(t *testing.T) {
	labels := map[string]int{}
	for _, n := range parse(t, write(t, boarded(), View{})).with("grid-label") {
		labels[n.text]++
	}
	// Columns A to J are named above board A and below board C, not in the seam between them; row 1
	// left of A and right of B.
	for name, want := range map[string]int{"A": 2, "J": 2, "1": 2, "L": 2, "10": 2} {
		if labels[name] != want {
			t.Errorf("%s is written %d times, want %d", name, labels[name], want)
		}
	}
}

// keys24 is a dense panel: 24 keys in four rows, the example's module, a wire to every key.
func keys24() Drawing {
	d := example()
	p := d.Panel
	p.Boards[0].Columns, p.Boards[0].Rows = 40, 30
	p.Placed = slices.DeleteFunc(p.Placed, func(pl panel.Placed) bool { return pl.Part == "key" })
	d.Wiring.Wires = d.Wiring.Wires[:0:0]
	for i := range 24 {
		at := grid.Hole{Col: 1 + i%6*5, Row: 4 + i/6*6}
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprintf("S%d", i+1), Part: "key", At: at, Key: &panel.Key{Legend: fmt.Sprintf("Key no. %d", i)}})
		w := example().Wiring.Wires[3]
		w.Step, w.Net, w.From, w.To = i+1, fmt.Sprintf("column %d", i%6), at, grid.Hole{Col: 38, Row: 2 + i}
		d.Wiring.Wires = append(d.Wiring.Wires, w)
	}
	p.Tidy()
	return d
}

func TestDensePanelStaysLight(t *testing.T) {
	if n := len(write(t, keys24(), View{Face: grid.Back, Room: "wire"})); n > 100_000 {
		t.Errorf("24 keys and 24 wires take %d bytes, want 100,000 at most", n)
	}
}

func BenchmarkWrite(b *testing.B) {
	for name, d := range map[string]Drawing{"24 keys": keys24(), "4800 holes": bare(80, 60), "catalogue": catalogued(0, grid.Front)} {
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			count := counter(0)
			for b.Loop() {
				count = 0
				if err := d.Write(&count, View{Room: "wire", Face: grid.Back}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(count), "bytes")
		})
	}
}

type counter int

func (c *counter) Write(p []byte) (int, error) { *c += counter(len(p)); return len(p), nil }

var _ io.Writer = new(counter)
