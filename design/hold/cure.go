package hold

import (
	"cmp"
	"slices"
)

const (
	mostRounds = 40    // how often diodes are put in and the search is done again
	mostTries  = 20000 // how many sets of diodes are tried before any that hits will do
)

// cure returns the fewest cells that need a diode for a chord to have no ghost, and whether that is
// enough. Each ghost must meet a diode against its current, so it is a smallest set that hits them
// all; diodes lay longer ways bare, so the search is done again until it finds none.
func (b *bench) cure(h held, found []path) (cells []int, cured bool) {
	var against [][]int
	for range mostRounds {
		for _, p := range found {
			back := b.backward(p)
			if len(back) == 0 {
				return nil, false // the current goes the way of every diode
			}
			slices.Sort(back) // of several that would do, the first key takes it
			against = append(against, back)
		}
		cells = hit(against)
		more := map[int]bool{}
		for _, k := range cells {
			more[k] = true
		}
		if found = b.search(h, more).found; len(found) == 0 {
			return cells, true
		}
	}
	return cells, false
}

// hit returns a smallest set of numbers, in order, with one from each list.
func hit(lists [][]int) []int {
	lists = slices.Clone(lists)
	slices.SortStableFunc(lists, func(a, b []int) int { return cmp.Compare(len(a), len(b)) })
	h := hitting{lists: lists, left: mostTries}
	for n := 1; ; n++ {
		if got, ok := h.with(n, nil); ok {
			slices.Sort(got)
			return got
		}
	}
}

type hitting struct {
	lists [][]int
	left  int
}

// with looks for n numbers more that hit every list. Once its tries are used up it takes the first that
// comes, however many that are.
func (h *hitting) with(n int, taken []int) ([]int, bool) {
	open := slices.IndexFunc(h.lists, func(list []int) bool {
		return !slices.ContainsFunc(list, func(k int) bool { return slices.Contains(taken, k) })
	})
	if open < 0 {
		return taken, true
	}
	h.left--
	if n == 0 && h.left >= 0 {
		return nil, false
	}
	for _, k := range h.lists[open] {
		if got, ok := h.with(max(0, n-1), append(slices.Clip(taken), k)); ok {
			return got, true
		}
	}
	return nil, false
}
