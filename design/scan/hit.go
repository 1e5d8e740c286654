package scan

import (
	"cmp"
	"slices"
)

// hitBudget bounds the search for a smallest hitting set, in sets looked at.
const hitBudget = 1000000

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
