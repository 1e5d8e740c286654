package fit

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
)

func near(a, b grid.Millimetre, within float64) bool { return math.Abs(float64(a-b)) <= within }

// The margins follow from outline and hole count of commodity boards, the filing from the pitch:
// arithmetic on common practice, no source. The rows are those that a maker would work by.
func TestFilingOf(t *testing.T) {
	tests := []struct {
		board        string
		e            grid.Millimetre
		steps        int
		each, spacer grid.Millimetre
	}{
		{"50 x 70, short axis", 3.41, 2, 0.87, 0.80},
		{"70 x 90, short axis", 3.25, 2, 0.71, 1.12},
		{"50 x 70, long axis", 5.79, 4, 0.71, 1.12},
		{"70 x 90, long axis", 6.90, 5, 0.55, 1.44},
		{"60 x 80, long axis", 5.71, 4, 0.63, 1.28},
		{"half a step each", 1.27, 1, 0, 0},
		{"no margin", 0, 0, 0, 0},
	}
	for _, tt := range tests {
		f := FilingOf(tt.e, tt.e)
		if f.Steps != tt.steps || !near(f.Each, tt.each, 0.0051) || !near(f.Spacer, tt.spacer, 0.0051) {
			t.Errorf("%s: FilingOf(%.2f twice) = %+v, want %d steps, %.2f each, spacer %.2f", tt.board, tt.e, f, tt.steps, tt.each, tt.spacer)
		}
	}
}

// twoBoards puts B where its seam says, with margins e at the meeting edges.
func twoBoards(side string, at grid.Hole, e float64, across, along float64) *panel.Panel {
	p := panel.New("two boards")
	m := [4]float64{e, e, e, e}
	p.Boards = []panel.Board{
		{ID: "A", Columns: 10, Rows: 8, At: grid.Hole{Col: 20, Row: 20}, Copper: panel.Pads, Plated: true, Margins: &m},
		{ID: "B", Columns: 10, Rows: 8, At: at, Copper: panel.Pads, Plated: true, Margins: &m,
			Seam: &panel.Seam{Board: "A", Side: side, AcrossMM: across, AlongMM: along}},
	}
	return &p
}

func TestBoards(t *testing.T) {
	right := func(steps int) grid.Hole { return grid.Hole{Col: 29 + steps, Row: 20} }
	tests := []struct {
		name  string
		panel *panel.Panel
		want  []string
		says  string // part of the first finding
	}{
		{"half-step margins, one step apart", twoBoards("right", right(1), 1.27, 0, 0), nil, ""},
		{"50 x 70 boards filed to two steps", twoBoards("right", right(2), 3.41, 0, 0),
			[]string{"note fit-seam-edges AF21"}, "File 0.87 mm off each edge."},
		{"50 x 70 boards with a spacer for three steps", twoBoards("right", right(3), 3.41, 0, 0),
			[]string{"note fit-seam-edges AG21"}, "spacer of 0.80 mm"},
		{"50 x 70 boards butted as they are", twoBoards("right", right(2), 3.41, 1.74, 0),
			[]string{"mind fit-seam-misfit AF21"}, "File 0.87 mm off each edge, which leaves 2 steps from hole to hole, or put a spacer of 0.80 mm"},
		{"within what pins forgive", twoBoards("right", right(1), 1.27, 0, 0.15), nil, ""},
		{"shifted along the seam", twoBoards("right", right(1), 1.27, 0, 0.3),
			[]string{"mind fit-seam-misfit AE21"}, "Shift board B by 0.30 mm"},
		{"at the left", twoBoards("left", grid.Hole{Col: 10, Row: 22}, 1.27, 0, 0), nil, ""},
		{"at the top", twoBoards("top", grid.Hole{Col: 22, Row: 12}, 1.27, 0, 0), nil, ""},
		{"at the bottom", twoBoards("bottom", grid.Hole{Col: 22, Row: 28}, 1.27, 0, 0), nil, ""},
		{"on the other side than the seam says", twoBoards("left", right(1), 1.27, 0, 0),
			[]string{"stop fit-seam-side AE21"}, "does not lie at the left of board A"},
		{"beside, but past the corner", twoBoards("right", grid.Hole{Col: 30, Row: 40}, 1.27, 0, 0),
			[]string{"stop fit-seam-side AE41"}, ""},
		{"holes in common", twoBoards("right", grid.Hole{Col: 28, Row: 21}, 1.27, 0, 0),
			[]string{"stop fit-boards-overlap AC22", "stop fit-seam-side AC22"}, "share 14 holes, AC22 first"},
		{"edges that overlap without a seam", change(twoBoards("right", right(2), 3.41, 0, 0),
			func(p *panel.Panel) { p.Boards[1].Seam = nil }),
			[]string{"stop fit-boards-overlap AF21"}, "overlap by 1.7 mm"},
		{"apart without a seam", change(twoBoards("right", right(3), 3.41, 0, 0),
			func(p *panel.Panel) { p.Boards[1].Seam = nil }), nil, ""},
		{"a seam to a board that is not there", change(twoBoards("right", right(1), 1.27, 0, 0),
			func(p *panel.Panel) { p.Boards[1].Seam.Board = "Q" }),
			[]string{"stop fit-seam-unknown AE21"}, `board "Q"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := Examine(tt.panel)
			if got := short(r.Findings); !slices.Equal(got, append([]string{}, tt.want...)) {
				t.Fatalf("got %q, want %q", got, tt.want)
			}
			if tt.says != "" && !strings.Contains(r.Findings[0].Text+" "+r.Findings[0].Fix, tt.says) {
				t.Errorf("says %q %q, want %q in it", r.Findings[0].Text, r.Findings[0].Fix, tt.says)
			}
		})
	}
}

// A part on one misfitting board moves with it; a part on both shares the misfit out.
func TestMisfitOfParts(t *testing.T) {
	p := twoBoards("right", grid.Hole{Col: 30, Row: 20}, 1.27, 0.6, 0)
	p.Parts["p"] = shelf()['p']
	p.Placed = []panel.Placed{
		{Ref: "U1", Part: "p", At: grid.Hole{Col: 28, Row: 22}},
		{Ref: "U2", Part: "p", At: grid.Hole{Col: 35, Row: 22}},
	}
	r := Examine(p)
	for _, l := range r.Leads {
		want := grid.Millimetre(0)
		if l.Ref == "U1" {
			want = 0.3
		}
		if !near(l.Residual, want, 1e-9) {
			t.Errorf("%s on board %s is off by %.3f mm, want %.3f", l.TerminalRef, l.Board, l.Residual, want)
		}
	}
	if got, want := r.Bodies[1].Rect.Min.X, grid.Millimetre(35*2.54-1.3+0.6); !near(got, want, 1e-9) {
		t.Errorf("the body of U2 begins at %.3f, want %.3f: it moves with its board", got, want)
	}
}
