package scan

import (
	"cmp"
	"slices"
)

// hitBudget bounds the search for the fewest diodes, in sets looked at.
const hitBudget = 1000000

// diodes returns the fewest keys that need a diode so that no part of any chord has a ghost, in
// key order, and whether they are proved the fewest. Each detour must meet a diode against its
// current, so it is a smallest set that hits all detours' backward keys. In a matrix without empty
// cells these are exactly the elbows. In chords over maxChord keys every elbow gets one: always
// enough, but perhaps not the fewest where cells are empty.
func (f *field) diodes(chords [][]int) (list []int, proved bool) {
	if len(f.cell) == f.cells() {
		return f.elbows(chords), true
	}
	proved = true
	forced := map[int]bool{}
	seen := map[[4]int]bool{}
	var sets [][]int
	for _, chord := range chords {
		if len(chord) > maxChord {
			for _, k := range f.elbows([][]int{chord}) {
				forced[k] = true
			}
			proved = false
			continue
		}
		for _, d := range f.detours(chord) {
			set := d.backward()
			slices.Sort(set)
			id := [4]int{-1, -1, -1, -1}
			copy(id[:], set)
			if !seen[id] {
				seen[id] = true
				sets = append(sets, set)
			}
		}
	}
	for _, set := range sets {
		if len(set) == 1 {
			forced[set[0]] = true
		}
	}
	sets = slices.DeleteFunc(sets, func(set []int) bool {
		return slices.ContainsFunc(set, func(k int) bool { return forced[k] })
	})
	chosen, all := hit(sets)
	for _, k := range chosen {
		forced[k] = true
	}
	for k := range f.cell {
		if forced[k] {
			list = append(list, k)
		}
	}
	return list, proved && all
}

// hit returns a smallest set of numbers with one from every set; all is false when the budget ran
// out first, and the set is then one that hits, but perhaps not the smallest.
func hit(sets [][]int) (best []int, all bool) {
	slices.SortStableFunc(sets, func(a, b []int) int { return cmp.Compare(len(a), len(b)) })
	h := hitting{sets: sets, left: hitBudget}
	h.best = h.greedy()
	h.search(nil)
	return h.best, h.left > 0
}

type hitting struct {
	sets [][]int
	best []int
	left int
}

// greedy takes the number that hits most, again and again.
func (h *hitting) greedy() []int {
	var taken []int
	for {
		times := map[int]int{}
		most := -1
		for _, set := range h.open(taken) {
			for _, k := range set {
				times[k]++
				if most < 0 || times[k] > times[most] {
					most = k
				}
			}
		}
		if most < 0 {
			return taken
		}
		taken = append(taken, most)
	}
}

// open lists the sets that taken does not hit.
func (h *hitting) open(taken []int) [][]int {
	var open [][]int
	for _, set := range h.sets {
		if !meets(set, taken) {
			open = append(open, set)
		}
	}
	return open
}

// search branches on the first open set, which is a smallest.
func (h *hitting) search(taken []int) {
	if h.left -= len(h.sets); h.left <= 0 {
		return
	}
	open := h.open(taken)
	if len(open) == 0 {
		if len(taken) < len(h.best) {
			h.best = slices.Clone(taken)
		}
		return
	}
	if len(taken)+apart(open) >= len(h.best) {
		return
	}
	for _, k := range open[0] {
		h.search(append(taken, k))
	}
}

// apart counts sets no two of which share a number: each needs one of its own.
func apart(sets [][]int) int {
	var used []int
	n := 0
	for _, set := range sets {
		if !meets(set, used) {
			used = append(used, set...)
			n++
		}
	}
	return n
}

func meets(a, b []int) bool {
	return slices.ContainsFunc(a, func(k int) bool { return slices.Contains(b, k) })
}
