package hold

import (
	"slices"

	"fascia/design/panel"
)

const (
	mostSets  = 4096  // how many sets are looked at, of those that a chord with choices stands for
	mostPicks = 20000 // and how many choices: where groups overlap, many come to the same set
)

// held is the cells that a chord names, and which of them may be down at once.
type held struct {
	cells []int // in order, each once
	base  map[int]bool
	in    map[int]int // groups that offer a cell, one bit each
	count []int       // keys of each group that are down
}

func (b *bench) held(c *panel.Chord) held {
	h := held{base: map[int]bool{}, in: map[int]int{}}
	add := func(keys []string, see func(cell int)) {
		for _, k := range keys {
			if i, ok := b.number[k]; ok {
				h.cells = append(h.cells, i)
				see(i)
			}
		}
	}
	add(c.Keys, func(i int) { h.base[i] = true })
	for g, a := range c.Any {
		add(a.Of, func(i int) { h.in[i] |= 1 << g })
		h.count = append(h.count, min(a.Count, len(b.known(a.Of))))
	}
	slices.Sort(h.cells)
	h.cells = slices.Compact(h.cells)
	return h
}

// together reports whether cells may all be down at once: for no groups are there more cells that only
// they offer than they put down (Hall (1935), doi:10.1112/jlms/s1-10.37.26).
func (h *held) together(cells []int) bool {
	for groups := range 1 << len(h.count) {
		room := 0
		for g, n := range h.count {
			room += n * (groups >> g & 1)
		}
		for _, k := range cells {
			if !h.base[k] && h.in[k]&^groups == 0 {
				room--
			}
		}
		if room < 0 {
			return false
		}
	}
	return true
}

// sets lists the different sets that c stands for, as cells in order; keys with a line of their own
// tell sets apart and are no cells. whole is false when there are more than were listed.
func (b *bench) sets(c *panel.Chord) (list [][]int, whole bool) {
	s := setting{bench: b, seen: map[string]bool{}, whole: true}
	s.choose(c.Any, b.known(c.Keys))
	return s.list, s.whole
}

type setting struct {
	*bench
	seen  map[string]bool
	list  [][]int
	picks int
	whole bool
}

// choose adds every choice of the groups to what is down already.
func (s *setting) choose(groups []panel.AnyOf, down []string) {
	if len(groups) == 0 {
		s.add(down)
		return
	}
	of := s.known(groups[0].Of)
	s.pick(of, min(groups[0].Count, len(of)), groups[1:], down)
}

// pick adds every choice of n keys out of list, then those of the other groups.
func (s *setting) pick(list []string, n int, rest []panel.AnyOf, down []string) {
	if n == 0 {
		s.choose(rest, down)
		return
	}
	for i := range len(list) - n + 1 {
		if s.pick(list[i+1:], n-1, rest, append(slices.Clip(down), list[i])); !s.whole {
			return
		}
	}
}

func (s *setting) add(down []string) {
	down = slices.Compact(slices.Sorted(slices.Values(down)))
	id, set := "", []int{}
	for _, k := range down {
		id += k + " "
		if i, ok := s.number[k]; ok {
			set = append(set, i)
		}
	}
	s.picks++
	switch {
	case s.picks == mostPicks:
		s.whole = false
	case s.seen[id]:
	case len(s.list) == mostSets:
		s.whole = false
	default:
		s.seen[id] = true
		slices.Sort(set)
		s.list = append(s.list, set)
	}
}

// within reports whether every one of keys is in set, which is in order.
func within(keys, set []int) bool {
	for _, k := range keys {
		if _, ok := slices.BinarySearch(set, k); !ok {
			return false
		}
	}
	return true
}
