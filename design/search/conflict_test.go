package search

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// allowedBy says yes to sets that contain none of the clashes.
func allowedBy(clashes ...[]int) func([]int) bool {
	return func(kept []int) bool {
		return !slices.ContainsFunc(clashes, func(clash []int) bool {
			return !slices.ContainsFunc(clash, func(c int) bool { return !slices.Contains(kept, c) })
		})
	}
}

func TestConflict(t *testing.T) {
	tests := []struct {
		name, source string
		n            int
		clashes      [][]int
		want         []int
	}{
		{"no clash", "by definition", 5, nil, nil},
		{"one wish alone", "by definition", 5, [][]int{{3}}, []int{3}},
		{"two of five", "by definition", 5, [][]int{{1, 4}}, []int{1, 4}},
		{"the earlier of two", "Junker (2004): the preferred conflict avoids late wishes", 6, [][]int{{4, 5}, {0, 2, 3}}, []int{0, 2, 3}},
		{"all", "by definition", 4, [][]int{{0, 1, 2, 3}}, []int{0, 1, 2, 3}},
		{"nothing holds", "by definition", 3, [][]int{{}}, []int{}},
		{"no wishes, nothing holds", "by definition", 0, [][]int{{}}, []int{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Conflict(tt.n, allowedBy(tt.clashes...))
			if !slices.Equal(got, tt.want) || (got == nil) != (tt.want == nil) {
				t.Errorf("Conflict = %v, want %v (%s)", got, tt.want, tt.source)
			}
		})
	}
}

func TestConflictIsSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 14).Draw(t, "n")
		wish := rapid.IntRange(0, n-1)
		clashes := rapid.SliceOfN(rapid.SliceOfNDistinct(wish, 1, min(n, 5), rapid.ID[int]), 1, 6).Draw(t, "clashes")
		feasible := allowedBy(clashes...)
		got := Conflict(n, feasible)
		if feasible(got) {
			t.Fatalf("%v does not clash", got)
		}
		for i := range got {
			if rest := slices.Delete(slices.Clone(got), i, i+1); !feasible(rest) {
				t.Fatalf("%v clashes without %d too", got, got[i])
			}
		}
	})
}

// The clash of a crowded problem, found through the search itself: eight in a row, and three that sit
// in the way.
func TestConflictOfProblem(t *testing.T) {
	seats := func(slots ...int) (g Group) {
		for _, j := range slots {
			g.Options = append(g.Options, Option{Slots: []int{j}})
		}
		return g
	}
	wishes := []Group{seats(4), seats(20), seats(11), seats(0, 1), seats(17)}
	run := Group{}
	for base := range 23 - 7 {
		o := Option{}
		for i := range 8 {
			o.Slots = append(o.Slots, base+i)
		}
		run.Options = append(run.Options, o)
	}
	wishes = append(wishes, run)
	feasible := func(kept []int) bool {
		p := &Problem{Slots: 26}
		for _, k := range kept {
			g := Group{Options: wishes[k].Options}
			for range g.Options[0].Slots {
				g.Members = append(g.Members, len(p.Cost))
				p.Cost = append(p.Cost, make([]int, 26))
			}
			p.Groups = append(p.Groups, g)
		}
		return Feasible(p, 10_000) != Impossible
	}
	if got := Conflict(len(wishes), feasible); !slices.Equal(got, []int{0, 2, 4, 5}) {
		t.Errorf("Conflict = %v, want the run and the three in its way (slots 4, 11 and 17 leave no 8 of 23 in a row)", got)
	}
}
