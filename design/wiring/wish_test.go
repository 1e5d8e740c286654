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

func holes(names ...string) []grid.Hole {
	var list []grid.Hole
	for _, n := range names {
		list = append(list, grid.MustHole(n))
	}
	return list
}

// lockedWire is a wish for a wire on the back along these holes.
func lockedWire(kind string, names ...string) panel.LockedWire {
	path := holes(names...)
	l := panel.LockedWire{Kind: kind, Face: grid.Back, From: path[0], To: path[len(path)-1]}
	if len(path) > 2 {
		l.Path = path
	}
	return l
}

// TestWishes: what the maker wants is done, and the cost is what the drawing comes to at the prices
// of the package or the maker's own, worked by hand.
func TestWishes(t *testing.T) {
	tests := []struct {
		name  string
		pic   picture
		wires panel.Wires
		want  []string
		cost  float64
	}{
		{"a run with the maker's bends", picture{board: oneFace, rows: []string{"A..A", "....", "...."}},
			panel.Wires{Locked: []panel.LockedWire{lockedWire("bare", "A1", "A3", "D3", "D1")}}, []string{"bare A A1-A3-D3-D1"}, 7.6},
		{"solder by hand", picture{board: oneFace, rows: []string{"A.A..A"}},
			panel.Wires{Locked: []panel.LockedWire{lockedWire("solder", "A1", "C1")}}, []string{"solder A A1-B1", "solder A B1-C1", "bare A C1-F1"}, 4},
		{"another net goes round the maker's run", picture{board: oneFace, rows: []string{"..B..", "A...A", ".....", "..B..", "....."}},
			panel.Wires{Locked: []panel.LockedWire{lockedWire("bare", "A2", "E2")}}, []string{"bare A A2-E2", "insulated B C1-C4"}, 17.6},
		{"no runs on the back, and the parts lie on the front", picture{rows: []string{"A...A"}},
			panel.Wires{NoRuns: []grid.Face{grid.Back}}, []string{"insulated A A1-E1"}, 14.8},
		{"no runs on any face", picture{rows: []string{"A...A"}},
			panel.Wires{NoRuns: []grid.Face{grid.Front, grid.Back}}, []string{"insulated A A1-E1"}, 14.8},
		{"insulated rather than bare", picture{rows: []string{"A...A"}},
			panel.Wires{Nets: []panel.NetWish{{Net: "A", Insulated: true}}}, []string{"insulated A A1-E1"}, 14.8},
		{"insulated, but solder between neighbours", picture{rows: []string{"AA..A"}},
			panel.Wires{Nets: []panel.NetWish{{Net: "A", Insulated: true}}}, []string{"solder A A1-B1", "insulated A B1-E1"}, 14.1},
		{"cheap insulated wire", picture{board: oneFace, rows: []string{"A...A"}},
			panel.Wires{Costs: &panel.WireCosts{Bend: 0.3, Solder: 0.5, Insulated: 1, PerHole: 0.5, Through: 3}}, []string{"insulated A A1-E1"}, 3},
		{"dear bends", picture{board: oneFace, rows: []string{"A...", "....", "...A"}},
			panel.Wires{Costs: &panel.WireCosts{Bend: 30, Solder: 0.5, Insulated: 10, PerHole: 1.2, Through: 3}}, []string{"insulated A A1-D3"}, 16},
		{"on to a free hole, in any order", picture{board: oneFace, rows: []string{"A....A"}},
			panel.Wires{Locked: []panel.LockedWire{lockedWire("bare", "C1", "D1"), lockedWire("bare", "C1", "A1")}},
			[]string{"bare A A1-C1", "bare A C1-D1", "solder A D1-E1", "solder A E1-F1"}, 4},
		{"dear solder", picture{board: oneFace, rows: []string{"AA"}},
			panel.Wires{Costs: &panel.WireCosts{Bend: 0.3, Solder: 2, Insulated: 10, PerHole: 1.2, Through: 3}}, []string{"bare A A1-B1"}, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := tt.pic.draw()
			d.p.Wires = tt.wires
			if err := d.p.Validate(); err != nil && !strings.Contains(err.Error(), "/parts") {
				t.Fatal(err)
			}
			r := d.route()
			if words := spell(r.Wires); !slices.Equal(words, tt.want) || math.Abs(r.Cost-tt.cost) > 1e-9 {
				t.Errorf("wires %q cost %v, want %q cost %v", words, r.Cost, tt.want, tt.cost)
			}
			if wrong := wiring.Verify(&d.p, &d.nets, r.Wires); len(wrong) > 0 || len(r.Findings) > 0 {
				t.Errorf("not right: %q %v", wrong, r.Findings)
			}
			if r.Bound > r.Cost+1e-9 {
				t.Errorf("cost %v, bound %v", r.Cost, r.Bound)
			}
			for _, w := range r.Wires {
				asked := slices.ContainsFunc(tt.wires.Locked, func(l panel.LockedWire) bool { return l.Kind == string(w.Kind) && w.Kind != wiring.Leg })
				if w.Locked && !asked {
					t.Errorf("%s of %s counts as the maker's own", w.Kind, w.Net)
				}
			}
		})
	}
}

// TestColourAndGauge: a net's wish rules its insulated wires, and a locked wire's own wish rules that.
func TestColourAndGauge(t *testing.T) {
	d := picture{board: oneFace, rows: []string{"A.x.A.x.A", "..x...x.."}}.draw()
	d.p.Wires.Nets = []panel.NetWish{{Net: "A", Colour: "GD", Gauge: 26}}
	own := lockedWire("insulated", "A1", "E1")
	own.Colour, own.Gauge = "SR", 22
	d.p.Wires.Locked = []panel.LockedWire{own}
	r := d.route()
	var said []string
	for _, w := range r.Wires {
		said = append(said, w.Colour+" "+w.Gauge)
		if ohm := wiring.OhmPerMetre(wiring.GaugeMM(map[string]int{"AWG 22": 22, "AWG 26": 26}[w.Gauge])) * w.LengthMM / 1000; math.Abs(w.Ohms()-ohm) > 1e-12 {
			t.Errorf("%s has %v ohm, want %v", w.Gauge, w.Ohms(), ohm)
		}
	}
	if want := []string{"SR AWG 22", "GD AWG 26"}; !slices.Equal(said, want) {
		t.Errorf("wires are %q, want %q", said, want)
	}
}

func TestStrayWish(t *testing.T) {
	d := picture{rows: []string{"AA"}}.draw()
	d.p.Wires.Nets = []panel.NetWish{{Net: "row 9", Gauge: 26}}
	r := d.route()
	if len(r.Findings) != 1 || r.Findings[0].Code != "wire-wish-stray" || !strings.Contains(r.Findings[0].Text, "row 9") {
		t.Errorf("findings %v, want wire-wish-stray of row 9", r.Findings)
	}
}

// TestEnds: two ends in a joint are the rule. A lead in a place where only it can be soldered to takes
// three if the maker says so, and with a finding if not.
func TestEnds(t *testing.T) {
	pic := picture{board: oneFace, rows: []string{"AxAxAxA", "xxxxxxx"}}
	for to, kinds := 0, holes("A1", "C1", "G1"); to < 3; to++ {
		pic.locked = append(pic.locked, panel.LockedWire{From: grid.MustHole("E1"), To: kinds[to], Kind: "insulated", Face: grid.Back})
	}
	for ends, want := range map[int]int{0: 1, 2: 1, 3: 0} {
		d := pic.draw()
		d.p.Wires.Ends = ends
		r := d.route()
		if len(r.Findings) != want {
			t.Errorf("ends %d: findings %v, want %d", ends, r.Findings, want)
		}
		for _, f := range r.Findings {
			if f.Code != "wire-crowded" || !strings.Contains(f.Text, "More than two wires") || !strings.Contains(f.Fix, "three") {
				t.Errorf("ends %d: %s: %s %s", ends, f.Code, f.Text, f.Fix)
			}
		}
	}
	star := picture{board: oneFace, rows: []string{"xxAxx", "AxAxA", "xxAxx"}}.draw() // nowhere a bare run
	for _, ends := range []int{0, 3} {
		star.p.Wires.Ends = ends
		r := star.route()
		if most := mostEnds(r.Wires); most > max(2, ends) || len(r.Findings) > 0 {
			t.Errorf("ends %d: %d ends in one joint, %v", ends, most, r.Findings)
		}
	}
}

// mostEnds counts the ends of wires in the fullest joint.
func mostEnds(wires []wiring.Wire) int {
	ends, most := map[grid.Hole]int{}, 0
	for _, w := range wires {
		if w.Kind == wiring.Bare && !w.Through || w.Kind == wiring.Insulated {
			for _, h := range []grid.Hole{w.From, w.To} {
				ends[h]++
				most = max(most, ends[h])
			}
		}
	}
	return most
}

// TestCanLock names what is wrong with a wire that the maker draws.
func TestCanLock(t *testing.T) {
	pic := picture{board: oneFace, rows: []string{"A....A", "B....B", ".#....", "A..x.A"},
		bodies: []fit.Body{{Ref: "Z1", Face: grid.Back, Rect: rect(4, 7, 6, 9)}}}
	tests := []struct {
		name string
		wire panel.LockedWire
		want string // "" when it can be had
	}{
		{"right", lockedWire("bare", "A1", "F1"), ""},
		{"two nets", lockedWire("insulated", "A1", "A2"), "it would join A with B"},
		{"off the board", lockedWire("insulated", "A1", "Z9"), "off every board"},
		{"nothing there", lockedWire("insulated", "C3", "E3"), "neither end carries a net"},
		{"an open lead", lockedWire("insulated", "A4", "D4"), "is to stay open"},
		{"over another net", lockedWire("bare", "A1", "A2", "A4"), "it would touch B at A2"},
		{"over a lead that stays open", lockedWire("bare", "F4", "B4", "A4"), "to stay open at D4"},
		{"over a hole to stay clear", lockedWire("bare", "A4", "A3", "F3", "F4"), "B3 is to stay clear"},
		{"under a body", lockedWire("bare", "F4", "F3", "E3", "C3", "C4", "A4"), "under the body of Z1"},
		{"across the maker's own run", lockedWire("bare", "A1", "C1", "C3", "A3", "A4"), "it would cross your own wire of B at C2"},
		{"off the edge", lockedWire("bare", "F1", "H1", "H4", "F4"), "leave the board behind F1"},
		{"twice over a hole", lockedWire("bare", "A1", "D1", "B1", "F1"), "comes over C1 twice"},
		{"solder far away", lockedWire("solder", "A1", "F1"), "solder joins neighbours"},
		{"on the bare face", func() panel.LockedWire { l := lockedWire("bare", "A1", "F1"); l.Face = grid.Front; return l }(), "no copper on the front"},
	}
	d := pic.draw()
	d.p.Wires.Locked = []panel.LockedWire{lockedWire("bare", "A2", "F2")}
	for _, tt := range tests {
		why := wiring.CanLock(&d.p, &d.fit, &d.nets, tt.wire)
		if tt.want == "" && why != "" || !strings.Contains(why, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, why, tt.want)
		}
		if path := wiring.Try(&d.p, &d.fit, &d.nets, tt.wire).Path; (path == nil) != (tt.want != "") || path != nil && len(path) != 6 {
			t.Errorf("%s: leads over %v", tt.name, path)
		}
		q := d
		q.p.Wires.Locked = append(slices.Clone(d.p.Wires.Locked), tt.wire)
		r := q.route()
		if left := slices.ContainsFunc(r.Wires, func(w wiring.Wire) bool {
			return w.Locked && (w.From == tt.wire.From && w.To == tt.wire.To)
		}); left != (tt.want == "") {
			t.Errorf("%s: in the wire list %v, against %q", tt.name, left, why)
		}
	}
}

// TestPrice: what a wish costs is what the drawing saves without it, worked by hand.
func TestPrice(t *testing.T) {
	d := picture{board: oneFace, rows: []string{"A.#.A", ".....", "B...B"}}.draw()
	d.p.Wires.Locked = []panel.LockedWire{lockedWire("insulated", "A3", "E3")}
	d.p.Wires.Nets = []panel.NetWish{{Net: "B", Colour: "GD"}}
	r := d.route()
	got := wiring.Price(&d.p, &d.fit, &d.nets, &r)
	want := []wiring.WishPrice{{Wish: "insulated wire from A3 to E3 on the back", Cost: 14.8 - 4},
		{Wish: "C1 to stay clear", Cost: 2.6}, {Wish: "colour and gauge of B"}}
	if !slices.EqualFunc(got, want, func(a, b wiring.WishPrice) bool { return a.Wish == b.Wish && math.Abs(a.Cost-b.Cost) < 1e-9 }) {
		t.Errorf("prices %v, want %v", got, want)
	}
}
