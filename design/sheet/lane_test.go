package sheet

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/grid"
)

func holes() *rapid.Generator[grid.Hole] {
	return rapid.Custom(func(t *rapid.T) grid.Hole {
		return grid.Hole{Col: rapid.IntRange(0, 30).Draw(t, "col"), Row: rapid.IntRange(0, 20).Draw(t, "row")}
	})
}

// A lane starts and ends at its holes and runs only along rows and columns.
func TestLanesAreSquareAndWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var laid lanes
		for range rapid.IntRange(1, 30).Draw(t, "wires") {
			a, b := holes().Draw(t, "from"), holes().Draw(t, "to")
			way := laid.lay(a.Centre(), b.Centre())
			if way[0] != a.Centre() || way[len(way)-1] != b.Centre() {
				t.Fatalf("a wire from %v to %v runs %v", a, b, way)
			}
			for i := 1; i < len(way); i++ {
				if way[i].X != way[i-1].X && way[i].Y != way[i-1].Y {
					t.Fatalf("a wire from %v to %v runs askew: %v", a, b, way)
				}
			}
			if a == b {
				return
			}
			// A way round is never much longer than the walk.
			length := grid.Millimetre(0)
			for i := 1; i < len(way); i++ {
				length += way[i].Distance(way[i-1])
			}
			if walk := grid.Millimetre(a.Steps(b)) * grid.Pitch; length > walk+4*grid.Pitch {
				t.Fatalf("a wire from %v to %v is %.1f mm long, the walk %.1f", a, b, length, walk)
			}
		}
	})
}

// Eight wires side by side, as of a matrix: no two may lie on one another for longer than a hole.
func TestParallelWiresDoNotHideEachOther(t *testing.T) {
	tests := []struct {
		name     string
		from, to func(i int) grid.Hole
	}{
		{"a column of pins to a row of keys", func(i int) grid.Hole { return grid.Hole{Col: 30, Row: 2 + i} }, func(i int) grid.Hole { return grid.Hole{Col: 2 + 3*i, Row: 16} }},
		{"pins to keys in one column", func(i int) grid.Hole { return grid.Hole{Col: 30, Row: 2 + i} }, func(i int) grid.Hole { return grid.Hole{Col: 2, Row: 4 + 4*i} }},
		{"straight across", func(i int) grid.Hole { return grid.Hole{Col: 30, Row: 2 + i} }, func(i int) grid.Hole { return grid.Hole{Col: 2, Row: 2 + i} }},
		{"all along one row", func(i int) grid.Hole { return grid.Hole{Col: 10 + i, Row: 5} }, func(i int) grid.Hole { return grid.Hole{Col: 30 + i, Row: 5} }},
	}
	for _, tt := range tests {
		var laid lanes
		for i := range 8 {
			laid.lay(tt.from(i).Centre(), tt.to(i).Centre())
		}
		for _, list := range [][]lane{laid.level, laid.upright} {
			for i, a := range list {
				for _, b := range list[:i] {
					if shared := min(a.to, b.to) - max(a.from, b.from); a.at == b.at && shared > grid.Pitch {
						t.Errorf("%s: two wires lie on one another for %.1f mm at %.2f", tt.name, shared, a.at)
					}
				}
			}
		}
	}
}

func TestStraightWireStaysStraight(t *testing.T) {
	var laid lanes
	a, b := grid.MustHole("C3").Centre(), grid.MustHole("C5").Centre()
	if got := laid.lay(a, b); !slices.Equal(got, []grid.Point{a, b}) {
		t.Errorf("a wire two holes down runs %v", got)
	}
}

func TestOffCentre(t *testing.T) {
	for _, tt := range []struct{ at, want grid.Millimetre }{{0, 1}, {2.54, 1}, {1.27, 0}, {0.635, 0.5}} {
		if got := offCentre(tt.at); got-tt.want > 1e-9 || tt.want-got > 1e-9 {
			t.Errorf("offCentre(%v) = %v, want %v", tt.at, got, tt.want)
		}
	}
}
