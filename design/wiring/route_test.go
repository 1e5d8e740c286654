package wiring_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// The expected wires are the cheapest that can be drawn by hand at the prices of the package.
func TestRoute(t *testing.T) {
	hole := grid.MustHole
	tests := []struct {
		name string
		pic  picture
		want []string
		cost float64
	}{
		{"neighbours are joined by solder", picture{rows: []string{"AA"}}, []string{"solder A A1-B1"}, 0.5},
		{"three in a line are joined by solder", picture{rows: []string{"A.A"}}, []string{"solder A A1-B1", "solder A B1-C1"}, 1},
		{"a longer way is a bare run", picture{rows: []string{"A..A"}}, []string{"bare A A1-D1"}, 3},
		{"solder does not turn a corner", picture{board: oneFace, rows: []string{"A.", ".A"}}, []string{"bare A A1-A2-B2"}, 2.3},
		{"three corner pads: one bridge, one wire", picture{board: oneFace, rows: []string{"AA", ".A"}}, []string{"solder A A1-B1", "bare A B1-B2"}, 1.5},
		{"four in a line: two bridges, one wire", picture{rows: []string{"AAAA"}}, []string{"solder A A1-B1", "solder A B1-C1", "bare A C1-D1"}, 2},
		{"one bend where one will do", picture{board: oneFace, rows: []string{"A...", "....", "...A"}}, []string{"bare A A1-A3-D3"}, 5.3},
		{"round a foreign lead", picture{board: oneFace, rows: []string{"A.x.A", "....."}}, []string{"bare A A1-A2-E2-E1"}, 6.6},
		{"round a hole to be kept clear", picture{board: oneFace, rows: []string{"A.#.A", "....."}}, []string{"bare A A1-A2-E2-E1"}, 6.6},
		{"over a wall by insulated wire", picture{board: oneFace, rows: []string{"A.x.A", "..x.."}}, []string{"insulated A A1-E1"}, 14.8},
		{"two nets cross: one goes round, for it is cheaper", picture{board: oneFace, rows: []string{".A..", "B..B", ".A..", "...."}},
			[]string{"solder A B1-B2", "solder A B2-B3", "bare B A2-A4-D4-D2"}, 8.6},
		{"two nets cross in a narrow place: one is insulated", picture{board: oneFace, rows: []string{".A.", "B.B", ".A."}},
			[]string{"solder A B1-B2", "solder A B2-B3", "insulated B A2-C2"}, 13.4},
		{"a tree branches from a bare run", picture{board: oneFace, rows: []string{"A...A", ".....", "..A.."}},
			[]string{"bare A A1-E1", "bare A C1-C3"}, 6},
		{"a part's own metal is a free bridge", picture{board: oneFace, metal: [][]string{{"A2", "A3"}}, rows: []string{"A..Ax.A..A"}},
			[]string{"leg A D1-G1 front", "bare A A1-D1", "bare A G1-J1"}, 6},
		{"a leg nobody wires to still hangs on its metal", picture{metal: [][]string{{"A1", "A3"}}, rows: []string{"AA..A"}},
			[]string{"leg A A1-E1 front", "solder A A1-B1"}, 0.5},
		{"under the bridge of legs another net passes", picture{board: oneFace, metal: [][]string{{"A1", "A2"}}, rows: []string{".B.", "A.A", ".B."}},
			[]string{"leg A A2-C2 front", "solder B B1-B2", "solder B B2-B3"}, 1},
		{"a plated board lets a run change its face", picture{rows: []string{".xBx.", "A...A", ".xBx."}},
			[]string{"bare A A2-E2 front", "solder B C1-C2", "solder B C2-C3"}, 0},
		{"joints on both faces need a link through a hole", picture{board: unplated, rows: []string{"A...a"}},
			[]string{"bare A A1-D1", "through A D1", "bare A D1-E1 front"}, 7},
		{"locked bare run", picture{board: oneFace, locked: []panel.LockedWire{{From: hole("A1"), To: hole("C3"), Kind: "bare", Face: grid.Back}},
			rows: []string{"A..", "A..", "..A"}}, []string{"bare A A1-A3-C3"}, 4.3},
		{"locked insulated wire", picture{locked: []panel.LockedWire{{From: hole("A1"), To: hole("B1"), Kind: "insulated", Face: grid.Front}},
			rows: []string{"AA"}}, []string{"insulated A A1-B1 front"}, 11.2},
		{"strips join for nothing", picture{board: strips, rows: []string{"A..A", "...."}}, nil, 0},
		{"from strip to strip in one step", picture{board: strips, rows: []string{"A...", "...A"}}, []string{"solder A A1-A2"}, 0.5},
		{"over a free strip", picture{board: strips, rows: []string{"A...", "....", "...A"}}, []string{"solder A D1-D2", "solder A D2-D3"}, 1},
		{"over a foreign strip by insulated wire", picture{board: strips, rows: []string{"A...", "x...", "...A"}}, []string{"insulated A A1-A3"}, 12.4},
		{"a body on the face is gone round", picture{board: oneFace, rows: []string{"A....A", "......", "......"},
			bodies: []fit.Body{{Ref: "Z1", Face: grid.Back, Rect: rect(4, -1, 8, 1)}}}, []string{"bare A A1-A2-F2-F1"}, 7.6},
		{"a body narrower than a step is gone round too", picture{board: oneFace, rows: []string{"A....A", "......", "......"},
			bodies: []fit.Body{{Ref: "Z1", Face: grid.Back, Rect: rect(3.5, -1, 4, 1)}}}, []string{"bare A A1-A2-F2-F1"}, 7.6},
		{"a body that stands off is passed under", picture{board: oneFace, rows: []string{"A....A", "......"},
			bodies: []fit.Body{{Ref: "Z1", Face: grid.Back, Rect: rect(4, -1, 8, 1), StandOff: 2.5}}}, []string{"bare A A1-F1"}, 5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := tt.pic.draw()
			got := d.route()
			if words := spell(got.Wires); tt.cost > 0 && !slices.Equal(words, tt.want) {
				t.Errorf("wires %q, want %q", words, tt.want)
			}
			if tt.cost > 0 && math.Abs(got.Cost-tt.cost) > 1e-9 {
				t.Errorf("cost %v, want %v", got.Cost, tt.cost)
			}
			if wrong := wiring.Verify(&d.p, &d.nets, got.Wires); len(wrong) > 0 || len(got.Findings) > 0 {
				t.Errorf("not right: %q %v", wrong, got.Findings)
			}
			if got.Bound > got.Cost+1e-9 || got.Proved != (got.Bound == got.Cost) {
				t.Errorf("cost %v, bound %v, proved %v", got.Cost, got.Bound, got.Proved)
			}
		})
	}
}

func rect(left, top, right, bottom grid.Millimetre) grid.Rect {
	return grid.Rect{Min: grid.Point{X: left, Y: top}, Max: grid.Point{X: right, Y: bottom}}
}

func TestRouteFindings(t *testing.T) {
	hole := grid.MustHole
	lock := func(from, to, kind string) []panel.LockedWire {
		return []panel.LockedWire{{From: hole(from), To: hole(to), Kind: kind, Face: grid.Back}}
	}
	tests := []struct {
		name, code, says string
		pic              picture
	}{
		{"two nets on a strip", "wire-copper-short", "A and B meet on one strip of board A at A1", picture{board: strips, rows: []string{"AB..", "A...", "...B"}}},
		{"an open lead on a strip", "wire-copper-short", "X1.X1, which is to stay open", picture{board: strips, rows: []string{"Ax..", "A..."}}},
		{"two nets in a group", "wire-copper-short", "one group of holes", picture{rows: []string{"A.B", "A.B"}, board: func(b *panel.Board) {
			b.Copper, b.Groups = panel.Groups, [][]grid.Hole{{hole("A1"), hole("B1"), hole("C1")}}
		}}},
		{"locked between two nets", "wire-lock-wrong", "it would join A with B", picture{rows: []string{"AA", "BB"}, locked: lock("A1", "A2", "bare")}},
		{"locked to nothing", "wire-lock-wrong", "neither end carries a net", picture{rows: []string{"AA.."}, locked: lock("C1", "D1", "bare")}},
		{"locked off the boards", "wire-lock-wrong", "off every board", picture{rows: []string{"AA."}, locked: lock("A1", "K9", "bare")}},
		{"locked where copper joins already", "wire-lock-wrong", "one conductor already", picture{board: strips, rows: []string{"A.A"}, locked: lock("A1", "C1", "insulated")}},
		{"locked through a wall", "wire-lock-wrong", "no bare run can get there", picture{board: oneFace, rows: []string{"AxA"}, locked: lock("A1", "C1", "bare")}},
		{"every joint kept clear", "wire-no-way", "cannot all be joined", picture{rows: []string{"A.A"}}},
		{"other face and no free hole", "wire-no-way", "no free hole to pass through", picture{board: unplated, rows: []string{"Axa"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := tt.pic.draw()
			if tt.name == "every joint kept clear" {
				d.p.Wires.KeepOut = []grid.Hole{hole("A1")}
			}
			got := d.route()
			if len(got.Findings) != 1 || got.Findings[0].Code != tt.code || !strings.Contains(got.Findings[0].Text, tt.says) {
				t.Errorf("findings %v, want %s that says %q", got.Findings, tt.code, tt.says)
			}
			if len(got.Findings) > 0 && got.Findings[0].Fix == "" {
				t.Errorf("no way out in %v", got.Findings[0])
			}
			wrong := wiring.Verify(&d.p, &d.nets, got.Wires)
			if (tt.code == "wire-lock-wrong") != (len(wrong) == 0) {
				t.Errorf("the independent check says %q", wrong)
			}
		})
	}
}

func TestRouteOffBoard(t *testing.T) {
	d := picture{rows: []string{"A.A"}}.draw()
	d.p.Placed[1].At = grid.MustHole("Z9")
	d.nets.Nets[0].Terminals[1].Hole = grid.MustHole("Z9")
	got := d.route()
	if len(got.Findings) != 1 || got.Findings[0].Code != "wire-off-board" || len(got.Wires) != 0 {
		t.Errorf("findings %v, wires %v; want wire-off-board and none", got.Findings, got.Wires)
	}
}

func TestRouteNamesCrowdedJoints(t *testing.T) {
	hole := grid.MustHole
	pic := picture{rows: []string{"A.A.A.A.A"}}
	for _, to := range []string{"A1", "C1", "G1", "I1"} {
		pic.locked = append(pic.locked, panel.LockedWire{From: hole("E1"), To: hole(to), Kind: "insulated", Face: grid.Back})
	}
	d := pic.draw()
	got := d.route()
	if len(got.Findings) != 1 || got.Findings[0].Code != "wire-crowded" || !slices.Equal(got.Findings[0].Where.Holes, []grid.Hole{hole("E1")}) {
		t.Errorf("findings %v, want wire-crowded at E1", got.Findings)
	}
	if wrong := wiring.Verify(&d.p, &d.nets, got.Wires); len(wrong) > 0 || len(got.Wires) != 4 {
		t.Errorf("%d wires, %q", len(got.Wires), wrong)
	}
}

// Boards that touch are no place for bare metal: they flex against each other.
func TestRouteTwoBoards(t *testing.T) {
	d := picture{board: oneFace, rows: []string{"A.."}}.draw()
	second := d.p.Boards[0]
	second.ID, second.At = "B", grid.MustHole("D1")
	d.p.Boards = append(d.p.Boards, second)
	d.p.Placed = append(d.p.Placed, panel.Placed{Ref: "A2", Part: "part-A1", At: grid.MustHole("F1")})
	d.addNets()
	got := d.route()
	if words := spell(got.Wires); !slices.Equal(words, []string{"insulated A A1-F1"}) {
		t.Errorf("wires %q, want one insulated wire over the seam", words)
	}
	if wrong := wiring.Verify(&d.p, &d.nets, got.Wires); len(wrong) > 0 {
		t.Errorf("not right: %q", wrong)
	}
}

// A run of the maker's may bridge the seam between two boards, and says so.
func TestRunOverSeam(t *testing.T) {
	for _, seam := range []bool{true, false} {
		d := picture{board: oneFace, rows: []string{"A.."}}.draw()
		second := d.p.Boards[0]
		second.ID, second.At = "B", grid.MustHole("D1")
		if seam {
			second.Seam = &panel.Seam{Board: d.p.Boards[0].ID, Side: "right"}
		}
		d.p.Boards = append(d.p.Boards, second)
		d.p.Placed = append(d.p.Placed, panel.Placed{Ref: "A2", Part: "part-A1", At: grid.MustHole("F1")})
		d.addNets()
		d.p.Wires.Locked = []panel.LockedWire{lockedWire("bare", "A1", "C1", "F1")}
		r := d.route()
		want := []string{"bare A A1-F1"}
		if !seam {
			want = []string{"insulated A A1-F1"}
		}
		if words := spell(r.Wires); !slices.Equal(words, want) || r.Wires[0].Seam != seam || len(r.Findings) > 0 == seam {
			t.Errorf("seam %v: wires %q, seam %v, %v; want %q", seam, words, r.Wires[0].Seam, r.Findings, want)
		}
		if wrong := wiring.Verify(&d.p, &d.nets, r.Wires); len(wrong) > 0 {
			t.Errorf("seam %v: %q", seam, wrong)
		}
		r.Wires[0].Locked = false
		if wrong := wiring.Verify(&d.p, &d.nets, r.Wires); seam && len(wrong) == 0 {
			t.Error("nobody minds a run over the seam that the maker does not want")
		}
	}
}
