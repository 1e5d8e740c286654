package fit

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"pgregory.net/rapid"
)

// anyPanel places up to 12 parts of the shelf anywhere on and around a board.
func anyPanel(t *rapid.T) *panel.Panel {
	p := panel.New("any")
	p.Boards[0].At = grid.Hole{Col: 10, Row: 10}
	shelf := shelf()
	letters := []rune("srfphkljwe")
	for i := range rapid.IntRange(0, 12).Draw(t, "parts") {
		letter := rapid.SampledFrom(letters).Draw(t, "letter")
		d := shelf[letter]
		p.Parts[string(letter)] = d
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprintf("%s%d", d.Prefix, i+1), Part: string(letter),
			At:   grid.Hole{Col: rapid.IntRange(5, 45).Draw(t, "col"), Row: rapid.IntRange(5, 35).Draw(t, "row")},
			Turn: grid.Turn(rapid.IntRange(0, 3).Draw(t, "turn")), Face: grid.Face(rapid.IntRange(0, 1).Draw(t, "face"))})
	}
	p.Tidy()
	return &p
}

// The index answers what a search from end to end answers.
func TestIndexAgreesWithSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPanel(t)
		indexed := Examine(p)
		plain := indexed
		plain.index = nil
		for col := range 50 {
			h := grid.Hole{Col: col, Row: rapid.IntRange(0, 40).Draw(t, "row")}
			if a, b := indexed.LeadAt(h), plain.LeadAt(h); !slices.Equal(a, b) {
				t.Fatalf("LeadAt(%s) = %v by index, %v by search", h, a, b)
			}
			for _, f := range []grid.Face{grid.Front, grid.Back} {
				ra, oka := indexed.Covered(h, f, 2)
				rb, okb := plain.Covered(h, f, 2)
				if ra != rb || oka != okb {
					t.Fatalf("Covered(%s, %s) = %s by index, %s by search", h, f, ra, rb)
				}
			}
		}
	})
}

// Moving a whole panel changes no finding but its place, and looking twice changes nothing.
func TestExamineFollowsTheBoard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPanel(t)
		codes := func(list []finding.Finding) []string {
			var c []string
			for _, f := range list {
				c = append(c, f.Code+" "+finding.Names(f.Where.Refs))
			}
			slices.Sort(c)
			return c
		}
		first := Examine(p)
		if again := Examine(p); !slices.Equal(short(first.Findings), short(again.Findings)) || !slices.Equal(first.Orders, again.Orders) {
			t.Fatal("two looks at one panel differ")
		}
		by := grid.Offset{Cols: rapid.IntRange(0, 60).Draw(t, "cols"), Rows: rapid.IntRange(0, 60).Draw(t, "rows")}
		q := p.Clone()
		q.Boards[0].At = q.Boards[0].At.Add(by)
		for i := range q.Placed {
			q.Placed[i].At = q.Placed[i].At.Add(by)
		}
		if a, b := codes(first.Findings), codes(Examine(&q).Findings); !slices.Equal(a, b) {
			t.Fatalf("moved by %v: %q became %q", by, a, b)
		}
	})
}

func TestCoveredLooksAtRoomAndFace(t *testing.T) {
	r := Examine(picture(
		"......",
		".p....",
		"......",
		"......",
		"......"))
	inside, beside := grid.MustHole("C3"), grid.MustHole("F3")
	tests := []struct {
		hole grid.Hole
		face grid.Face
		room grid.Millimetre
		want string
	}{
		{inside, grid.Front, 3, "U1"},
		{inside, grid.Front, 2.5, ""}, // stands off 2.5
		{inside, grid.Back, 3, ""},
		{beside, grid.Front, 3, ""}, // the body ends 1.3 past E
	}
	for _, tt := range tests {
		if got, ok := r.Covered(tt.hole, tt.face, tt.room); got != tt.want || ok != (tt.want != "") {
			t.Errorf("Covered(%s, %s, %.1f) = %q, %v; want %q", tt.hole, tt.face, tt.room, got, ok, tt.want)
		}
	}
	if got := r.LeadAt(grid.MustHole("B2")); len(got) != 1 || got[0].TerminalRef.String() != "U1.1" {
		t.Errorf("LeadAt(B2) = %v, want U1.1", got)
	}
}

func TestDrilledTakesPads(t *testing.T) {
	r := Examine(picture(
		"......",
		".e....",
		"......",
		"......"))
	for name, want := range map[string]string{"E3": "E1", "E2": "", "D3": ""} {
		if got, _ := r.Drilled(grid.MustHole(name)); got != want {
			t.Errorf("Drilled(%s) = %q, want %q: the drill is 2 mm wide at E3", name, got, want)
		}
	}
}

// BenchmarkExamine looks at 200 parts on a board of 100 x 100 holes.
func BenchmarkExamine(b *testing.B) {
	p := panel.New("crowded")
	p.Boards[0].Columns, p.Boards[0].Rows = 100, 100
	shelf := shelf()
	for i := range 200 {
		letter := []string{"s", "r", "l", "p", "k"}[i%5]
		p.Parts[letter] = shelf[rune(letter[0])]
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprintf("X%d", i+1), Part: letter,
			At: grid.Hole{Col: 2 + i%15*6, Row: 2 + i/15*6}, Face: grid.Face(i / 7 % 2)})
	}
	b.ReportAllocs()
	for b.Loop() {
		Examine(&p)
	}
}
