package scan

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// listed is the parts of all sets that a chord asks for, written out.
func listed(c *chord, part []int) bool {
	sets, _ := c.sets()
	return slices.ContainsFunc(sets, func(set []int) bool { return subset(part, set) })
}

func TestFamilyEqualsItsSetsWrittenOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawChord(t, 9, "chord")
		f := c.family()
		sets, all := c.sets()
		if !all {
			t.Fatalf("chord %v has too many sets to write out", c)
		}
		most := 0
		for _, set := range sets {
			most = max(most, len(set))
		}
		if f.most() != most {
			t.Fatalf("chord %v holds at most %d, want %d", c, f.most(), most)
		}
		for part := range uint64(1) << len(f.keys) {
			places := pick(numbers(len(f.keys)), part)
			if got, want := f.holds(places), listed(&c, pick(f.keys, part)); got != want {
				t.Fatalf("chord %v holds %v: %v, want %v", c, pick(f.keys, part), got, want)
			}
		}
	})
}

func TestElbowsOfChoicesEqualThoseOfTheirSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMatrix(t, 4, 4, true)
		var sets [][]int
		for i := range m.chords {
			list, _ := m.chords[i].sets()
			sets = append(sets, list...)
		}
		got, want := m.field.elbows(m.families()), m.field.elbows(together(sets...))
		if !slices.Equal(got, want) {
			t.Fatalf("chords %v in %v: elbows %v, want %v", m.chords, m.field.cell, got, want)
		}
	})
}

// A key counts as held in any case before it counts as a choice, and a choice of all is none.
func TestSettle(t *testing.T) {
	tests := []struct {
		name     string
		in, want chord
	}{
		{"a key held in any case is no choice", chord{keys: []int{1}, choices: []choice{{1, []int{1, 2, 3}}}}, chord{keys: []int{1}, choices: []choice{{1, []int{2, 3}}}}},
		{"all of them", chord{choices: []choice{{2, []int{4, 5}}}}, chord{keys: []int{4, 5}}},
		{"none of them", chord{keys: []int{1}, choices: []choice{{0, []int{4, 5}}, {-2, []int{6}}}}, chord{keys: []int{1}}},
		{"one choice settles another", chord{choices: []choice{{2, []int{1, 2, 3}}, {9, []int{1, 2}}}}, chord{keys: []int{1, 2, 3}}},
		{"too many choices", chord{choices: []choice{{1, []int{1, 2}}, {1, []int{2, 3}}, {1, []int{3, 4}}, {1, []int{4, 5}}, {1, []int{5, 6}}}}, chord{keys: []int{1, 2, 3, 4, 5, 6}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.in.settle()
			if !tt.in.family().equal(tt.want.family()) {
				t.Errorf("%v, want %v", tt.in, tt.want)
			}
		})
	}
}

func TestSetsWrittenOut(t *testing.T) {
	tests := []struct {
		name string
		c    chord
		want int
		all  bool
	}{
		{"one set", chord{keys: []int{1, 2, 3}}, 1, true},
		{"any of these with any of those", chord{choices: []choice{{1, []int{1, 2, 3}}, {1, []int{4, 5}}}}, 6, true},
		{"any three of six", chord{choices: []choice{{3, []int{1, 2, 3, 4, 5, 6}}}}, 20, true},
		{"any 32 of 64", chord{choices: []choice{{32, numbers(64)}}}, 1, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if sets, all := tt.c.sets(); len(sets) != tt.want || all != tt.all {
				t.Errorf("%d sets, all %v, want %d, %v", len(sets), all, tt.want, tt.all)
			}
		})
	}
	if sets := distinctSets([]chord{{keys: []int{1, 2}}, {choices: []choice{{1, []int{1, 2}}}}, {keys: []int{1, 2}}}); len(sets) != 3 {
		t.Errorf("sets %v, want {1 2}, {1} and {2}", sets)
	}
}

// Any 32 of 64 keys is 10^18 sets; none of the ways to look at them may list them.
func TestHugeChoicesEnd(t *testing.T) {
	for _, s := range []shape{{8, 8}, {8, 9}} {
		c := chord{name: "c", choices: []choice{{32, numbers(64)}}}
		f, fam := fieldOf(s, numbers(64)), c.family()
		diodes, _ := f.diodes([]*family{fam})
		if len(diodes) < 49 { // all but one row and one column of the full part at least
			t.Errorf("%v: %d diodes", s, len(diodes))
		}
		if list, _ := f.detours(fam); len(list) < 3*21*28 {
			t.Errorf("%v: %d detours", s, len(list))
		}
		if open, _ := newOpenWaysWith(f, fam, diodes).find(); len(open) > 0 {
			t.Errorf("%v: open detours %v beside diodes %v", s, open, diodes)
		}
	}
}

func newOpenWaysWith(f *field, fam *family, diodes []int) *openWays {
	has := make([]bool, len(f.cell))
	for _, k := range diodes {
		has[k] = true
	}
	o := newOpenWays(f, fam, has)
	o.left = detourBudget
	return o
}
