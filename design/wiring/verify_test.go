package wiring_test

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
	"fascia/design/wiring/randompanel"
)

// TestVerifyCatches plants one fault in a right wire list and asks that it be named.
func TestVerifyCatches(t *testing.T) {
	hole := grid.MustHole
	wire := func(kind wiring.Kind, net string, path ...string) wiring.Wire {
		w := wiring.Wire{Kind: kind, Net: net, Face: grid.Back}
		for _, h := range path {
			w.Path = append(w.Path, hole(h))
		}
		w.From, w.To = w.Path[0], w.Path[len(w.Path)-1]
		return w
	}
	onFront := func(w wiring.Wire) wiring.Wire { w.Face = grid.Front; return w }
	through := func(w wiring.Wire) wiring.Wire { w.Through = true; return w }
	two := picture{board: oneFace, rows: []string{"A..A", "....", "B..B"}}
	a, b := wire(wiring.Bare, "A", "A1", "B1", "C1", "D1"), wire(wiring.Bare, "B", "A3", "B3", "C3", "D3")
	tests := []struct {
		name  string
		pic   picture
		wires []wiring.Wire
		want  string // "" when the list is right
	}{
		{"right", two, []wiring.Wire{a, b}, ""},
		{"a wire is missing", two, []wiring.Wire{a}, "open: B1.B1 and B2.B2 of B are not joined"},
		{"a wire too many", two, []wiring.Wire{a, b, wire(wiring.Insulated, "A", "A1", "A3")}, "short: A and B are joined"},
		{"touches a foreign lead", two, []wiring.Wire{a, b, wire(wiring.Insulated, "A", "A1", "A3")}, "touches the foreign lead B1.B1 at A3"},
		{"two runs share a hole", two, []wiring.Wire{wire(wiring.Bare, "A", "A1", "A2", "B2", "C2", "D2", "D1"), wire(wiring.Bare, "B", "A3", "B3", "B2", "C2", "C3", "D3")},
			"shares B2 with bare metal of A"},
		{"a run jumps", two, []wiring.Wire{wire(wiring.Bare, "A", "A1", "C1", "D1"), b}, "jumps from A1 to C1"},
		{"a run goes aslant", two, []wiring.Wire{wire(wiring.Bare, "A", "A1", "B2", "C1", "D1"), b}, "jumps from A1 to B2"},
		{"a path that ends elsewhere", two, []wiring.Wire{func() wiring.Wire { w := a; w.To = hole("C1"); return w }(), b}, "does not lead from end to end"},
		{"a run on the bare face", two, []wiring.Wire{onFront(a), b}, "face without copper"},
		{"a run leaves the board", two, []wiring.Wire{wire(wiring.Bare, "A", "A1", "B1", "C1", "D1", "E1"), b}, "leaves the boards at E1"},
		{"a bridge across a gap", picture{rows: []string{"A.A"}}, []wiring.Wire{wire(wiring.Solder, "A", "A1", "C1")}, "jumps from A1 to C1"},
		{"solder round a corner", picture{rows: []string{"AA", ".A"}}, []wiring.Wire{wire(wiring.Solder, "A", "A1", "B1"), wire(wiring.Solder, "A", "B1", "B2")}, "turns a corner"},
		{"solder over four pads", picture{rows: []string{"AAAA"}}, []wiring.Wire{wire(wiring.Solder, "A", "A1", "B1"), wire(wiring.Solder, "A", "B1", "C1"), wire(wiring.Solder, "A", "C1", "D1")}, "more than three pads"},
		{"a hole to be kept clear", picture{rows: []string{"A#A"}}, []wiring.Wire{wire(wiring.Bare, "A", "A1", "B1", "C1")}, "B1, which is to stay clear"},
		{"an invented leg bridge", picture{rows: []string{"A..A"}}, []wiring.Wire{wire(wiring.Leg, "A", "A1", "D1")}, "is no metal of any part"},
		{"an open lead is wired", picture{rows: []string{"AxA"}}, []wiring.Wire{wire(wiring.Bare, "A", "A1", "B1", "C1")}, "X1.X1 is to stay open"},
		{"a body over a run", picture{rows: []string{"A..A"}, bodies: []fit.Body{{Ref: "Z1", Face: grid.Back, Rect: rect(3, -1, 4, 1)}}},
			[]wiring.Wire{wire(wiring.Bare, "A", "A1", "B1", "C1", "D1")}, "lies under the body of Z1"},
		{"the other face is another node", picture{board: unplated, rows: []string{"A..A"}}, []wiring.Wire{onFront(a)}, "of A are not joined"},
		{"metal on the far end of a lead", picture{board: unplated, rows: []string{"A..A"}}, []wiring.Wire{onFront(a)}, "touches the far end of a lead"},
		{"an insulated wire on the far end of a lead", picture{board: unplated, rows: []string{"A..A"}}, []wiring.Wire{a, onFront(wire(wiring.Insulated, "A", "A1", "D1"))}, "insulated of A touches the far end of a lead"},
		{"a link off the board", picture{rows: []string{"A..A"}}, []wiring.Wire{a, through(wire(wiring.Bare, "A", "B2"))}, "leaves the boards"},
		{"a link through a plated hole", picture{rows: []string{"A..A", "...."}}, []wiring.Wire{a, through(wire(wiring.Bare, "A", "B2"))}, "links two faces that are one"},
		{"a run over a cut", picture{board: func(b *panel.Board) { strips(b); b.Cuts = []grid.Hole{hole("B1")} }, rows: []string{"A.A"}},
			[]wiring.Wire{wire(wiring.Bare, "A", "A1", "B1", "C1")}, "over the cut at B1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := tt.pic.draw()
			wrong := wiring.Verify(&d.p, &d.nets, tt.wires)
			if tt.want == "" {
				if len(wrong) > 0 {
					t.Errorf("says %q of a right list", wrong)
				}
				return
			}
			if !slices.ContainsFunc(wrong, func(s string) bool { return strings.Contains(s, tt.want) }) {
				t.Errorf("says %q, not %q", wrong, tt.want)
			}
		})
	}
}

// TestVerifyCatchesMutations spoils the wire lists of random panels: every wire is dropped once, one
// is led astray, and one is added between two nets. All of it must be noticed.
func TestVerifyCatchesMutations(t *testing.T) {
	dropped, moved, added := 0, 0, 0
	for seed := range uint64(12) {
		p := randompanel.Make(seed)
		x := planUp(&p)
		wires := wiring.Route(&p, &x.fit, &x.nets).Wires
		caught := func(mutant []wiring.Wire, what string, w wiring.Wire) {
			if len(wiring.Verify(&p, &x.nets, mutant)) == 0 {
				t.Errorf("seed %d: %s %s of %s, %s to %s, went unnoticed", seed, what, w.Kind, w.Net, w.From, w.To)
			}
		}
		for i, w := range wires {
			if w.Kind == wiring.Leg {
				continue
			}
			dropped++
			caught(slices.Delete(slices.Clone(wires), i, i+1), "dropped", w)
			if w.Kind == wiring.Bare && len(w.Path) > 2 {
				moved++
				m := shifted(w, grid.Offset{Cols: 1, Rows: 1})
				mutant := slices.Clone(wires)
				mutant[i] = m
				caught(mutant, "moved", w)
			}
		}
		for i := range x.nets.Nets[:max(0, len(x.nets.Nets)-1)] {
			added++
			from, to := x.nets.Nets[i].Terminals[0], x.nets.Nets[i+1].Terminals[0]
			w := wiring.Wire{Net: x.nets.Nets[i].Name, Kind: wiring.Insulated, Face: from.Face, From: from.Hole, To: to.Hole, Path: []grid.Hole{from.Hole, to.Hole}}
			caught(append(slices.Clone(wires), w), "added", w)
		}
	}
	if dropped < 200 || moved < 50 || added < 50 {
		t.Errorf("too few mutants: %d dropped, %d moved, %d added", dropped, moved, added)
	}
}

// shifted moves a whole run.
func shifted(w wiring.Wire, by grid.Offset) wiring.Wire {
	w.Path = slices.Clone(w.Path)
	for i := range w.Path {
		w.Path[i] = w.Path[i].Add(by)
	}
	w.From, w.To = w.From.Add(by), w.To.Add(by)
	return w
}
