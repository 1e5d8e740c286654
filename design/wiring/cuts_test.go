package wiring_test

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// TestCuts: where strips short nets they are cut half-way between, never under a lead, and only where
// they must be.
func TestCuts(t *testing.T) {
	columns := func(b *panel.Board) { strips(b); b.Along = "columns" }
	tests := []struct {
		name string
		pic  picture
		want []string // hole and why
	}{
		{"one net needs no cut", picture{board: strips, rows: []string{"A..A", "...."}}, nil},
		{"two nets on a strip", picture{board: strips, rows: []string{"A...B", ".....", "B...A"}}, []string{"C1 parts A from B", "C3 parts B from A"}},
		{"one hole between", picture{board: strips, rows: []string{"A.B", "A.B"}}, []string{"B1 parts A from B", "B2 parts A from B"}},
		{"an open lead", picture{board: strips, rows: []string{"A..x..A", "......."}}, []string{"B1 parts A from X1.X1, which is to stay open", "E1 parts X1.X1, which is to stay open from A"}},
		{"two open leads may meet", picture{board: strips, rows: []string{"x..x", "A..A"}}, nil},
		{"strips along columns", picture{board: columns, rows: []string{"A.A", "...", "B.B"}}, []string{"A2 parts A from B", "C2 parts A from B"}},
		{"the maker's own cut will do", picture{board: func(b *panel.Board) { strips(b); b.Cuts = holes("B1", "B2") }, rows: []string{"A..B", "A..B"}}, nil},
	}
	for _, tt := range tests {
		d := tt.pic.draw()
		before := len(d.p.Boards[0].Cuts)
		r := d.route()
		var said []string
		for _, c := range r.Cuts {
			said = append(said, c.Hole.String()+" "+c.Why)
			if c.Board != d.p.Boards[0].ID {
				t.Errorf("%s: cut on board %q", tt.name, c.Board)
			}
		}
		if !slices.Equal(said, tt.want) {
			t.Errorf("%s: cuts %q, want %q", tt.name, said, tt.want)
		}
		if wrong := wiring.Verify(&d.p, &d.nets, r.Wires, r.Cuts...); len(wrong) > 0 || len(r.Findings) > 0 || len(wiring.Faults(&d.p, &d.nets, &r)) > 0 {
			t.Errorf("%s: %q %v", tt.name, wrong, r.Findings)
		}
		made := r.WithCuts(&d.p)
		if wrong := wiring.Verify(made, &d.nets, r.Wires); len(wrong) > 0 || len(made.Boards[0].Cuts) != before+len(r.Cuts) {
			t.Errorf("%s: with the cuts made, %q", tt.name, wrong)
		}
		if len(d.p.Boards[0].Cuts) != before {
			t.Errorf("%s: the panel was changed", tt.name)
		}
		for i := range r.Cuts {
			if len(wiring.Verify(&d.p, &d.nets, r.Wires, slices.Delete(slices.Clone(r.Cuts), i, i+1)...)) == 0 {
				t.Errorf("%s: nobody misses the cut at %s", tt.name, r.Cuts[i].Hole)
			}
		}
	}
}

// TestCutsKeepOffLockedWires: a cut makes way for a wire of the maker's.
func TestCutsKeepOffLockedWires(t *testing.T) {
	d := picture{board: strips, rows: []string{"A...B", ".....", "A...B"}}.draw()
	d.p.Wires.Locked = []panel.LockedWire{lockedWire("bare", "C1", "C3")}
	r := d.route()
	for _, c := range r.Cuts {
		if c.Hole.Col == 2 {
			t.Errorf("cut at %s, where the maker wants a wire", c.Hole)
		}
	}
	if len(r.Cuts) != 2 {
		t.Errorf("cuts %v, want two", r.Cuts)
	}
	narrow := picture{board: strips, rows: []string{"A.B", "A.B"}}.draw()
	narrow.p.Wires.Locked = []panel.LockedWire{lockedWire("bare", "A1", "B1", "B2", "A2")}
	r = narrow.route()
	if len(r.Cuts) != 2 || len(r.Findings) != 1 || r.Findings[0].Code != "wire-lock-wrong" || !strings.Contains(r.Findings[0].Text, "cut at B1") {
		t.Errorf("cuts %v, findings %v; the wire must give way where there is no other hole", r.Cuts, r.Findings)
	}
}

// TestNoRoomForCut: neighbours on a strip cannot be parted, and the way out is to move one.
func TestNoRoomForCut(t *testing.T) {
	d := picture{board: strips, rows: []string{"AB", "AB"}}.draw()
	r := d.route()
	if len(r.Findings) != 2 || r.Findings[0].Code != "wire-copper-short" || !strings.Contains(r.Findings[0].Fix, "move one") {
		t.Errorf("findings %v", r.Findings)
	}
	if faults := wiring.Faults(&d.p, &d.nets, &r); len(faults) != 1 || faults[0].Severity != finding.Stop || !strings.Contains(faults[0].Text, "short: A and B are joined") {
		t.Errorf("the stage says %v", faults)
	}
}

// TestVerifyCatchesCuts plants a wrong cut in a right list.
func TestVerifyCatchesCuts(t *testing.T) {
	d := picture{board: strips, rows: []string{"A..A", "B..B"}}.draw()
	r := d.route()
	tests := []struct{ name, hole, want string }{
		{"under a lead", "A1", "lies under the lead A1.A1"},
		{"between leads of one net", "B1", "open: A1.A1 and A2.A2 of A are not joined"},
		{"off the board", "Z9", "is on no strip"},
	}
	for _, tt := range tests {
		cut := wiring.Cut{Board: d.p.Boards[0].ID, Hole: grid.MustHole(tt.hole)}
		if wrong := wiring.Verify(&d.p, &d.nets, r.Wires, cut); !slices.ContainsFunc(wrong, func(s string) bool { return strings.Contains(s, tt.want) }) {
			t.Errorf("%s: says %q, not %q", tt.name, wrong, tt.want)
		}
	}
	twice := wiring.Cut{Board: d.p.Boards[0].ID, Hole: grid.MustHole("B1")}
	if wrong := wiring.Verify(&d.p, &d.nets, r.Wires, twice, twice); !slices.ContainsFunc(wrong, func(s string) bool { return strings.Contains(s, "made twice") }) {
		t.Errorf("twice: says %q", wrong)
	}
	pads := picture{rows: []string{"A..A"}}.draw()
	if wrong := wiring.Verify(&pads.p, &pads.nets, pads.route().Wires, wiring.Cut{Board: pads.p.Boards[0].ID, Hole: grid.MustHole("B1")}); len(wrong) == 0 {
		t.Error("nobody minds a cut on a board without strips")
	}
}
