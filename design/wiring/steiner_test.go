package wiring_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// TestTreesAgainstSteiner: one net of three to eight leads alone on a board, without a price for
// bends, against the exact least rectilinear tree.
func TestTreesAgainstSteiner(t *testing.T) {
	const side = 10
	random := rand.New(rand.NewPCG(8, 8))
	var over []float64
	for range 80 {
		var all []grid.Hole
		for i := range 16 {
			all = append(all, grid.Hole{Col: i % 4 * 3, Row: i / 4 * 3})
		}
		random.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		ends := all[:3+random.IntN(6)]
		got := treeOver(t, side, ends)
		exact := float64(steiner(side, side, ends))
		if got < exact-1e-9 {
			t.Errorf("%v: tree of %v holes, least %v", ends, got, exact)
		}
		over = append(over, got/exact-1)
	}
	slices.Sort(over)
	t.Logf("median %.2f %% over the least tree, worst %.2f %%, %d of %d least", 100*over[len(over)/2], 100*over[len(over)-1],
		len(over)-len(slices.DeleteFunc(slices.Clone(over), func(x float64) bool { return x < 1e-9 })), len(over))
	if over[len(over)/2] > 1e-9 || over[len(over)-1] > 0.1 {
		t.Errorf("trees are longer than the least by %v", over)
	}
}

// TestKnownTrees: least trees that can be seen on a drawing, worked by hand.
func TestKnownTrees(t *testing.T) {
	tests := []struct {
		name  string
		holes []string
		want  float64
	}{
		{"corners of a square", []string{"A1", "G1", "A7", "G7"}, 18},
		{"ends of a cross", []string{"D1", "A4", "G4", "D7"}, 12},
		{"three round a middle", []string{"A1", "G1", "D7"}, 12},
		{"a ladder of six", []string{"A1", "A4", "D1", "D4", "G1", "G4"}, 15},
		{"eight on a frame", []string{"A1", "D1", "G1", "A4", "G4", "A7", "D7", "G7"}, 21},
	}
	for _, tt := range tests {
		if got := treeOver(t, 10, holes(tt.holes...)); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%s: %v holes, want %v", tt.name, got, tt.want)
		}
	}
}

// treeOver is the length of the tree that the router lays.
func treeOver(t *testing.T, side int, ends []grid.Hole) float64 {
	t.Helper()
	rows := make([]string, side)
	for row := range rows {
		line := []byte(strings.Repeat(".", side))
		for _, e := range ends {
			if e.Row == row {
				line[e.Col] = 'A'
			}
		}
		rows[row] = string(line)
	}
	d := picture{board: oneFace, rows: rows}.draw()
	d.p.Wires.Costs = &panel.WireCosts{Bend: 0, Solder: 1, Insulated: 100, PerHole: 1, Through: 3}
	r := wiring.RouteWith(&d.p, &d.fit, &d.nets, wiring.Options{Moves: 200})
	if wrong := wiring.Verify(&d.p, &d.nets, r.Wires); len(wrong) > 0 {
		t.Fatalf("%v: %q", ends, wrong)
	}
	return r.Cost
}
