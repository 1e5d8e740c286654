package scan

import (
	"cmp"
	"slices"
)

// A lineTask is the keys that are read by lines with diodes, with all that the choice of their lines
// depends on. Every key lies between two lines: one reads it, at its row side, and one is selected
// for it, behind the diode at its column side. A line reads some keys and is selected for others.
type lineTask struct {
	keys     []key
	ends     *task // on its row side: the row side of key k is number 2k, the column side 2k+1
	chords   []lineChord
	inChords [][]int // by key
	near     [][]int // by key
	group    []int   // by key: keys of one group share a terminal and so the line that reads them; or -1
	groups   int
}

func newLineTask(keys []key, chords []*family) *lineTask {
	t := &lineTask{keys: keys, inChords: make([][]int, len(keys)), near: nearest(keys), group: make([]int, len(keys))}
	t.ends = &task{keys: make([]key, 2*len(keys)), distance: [2][]int32{endDistances(keys)}}
	for c, f := range chords {
		t.chords = append(t.chords, newLineChord(f))
		for _, k := range f.keys {
			t.inChords[k] = append(t.inChords[k], c)
		}
	}
	number := map[int]int{}
	for k := range keys {
		t.group[k] = -1
		if forced := keys[k].line[rowSide]; forced >= 0 {
			if _, known := number[forced]; !known {
				number[forced] = len(number)
			}
			t.group[k] = number[forced]
		}
	}
	t.groups = len(number)
	return t
}

// endDistances is the shortest wire between any two ends of keys, in holes: entry a*2*len(keys)+b is
// for ends a and b. The two ends of one key are never on one line.
func endDistances(keys []key) []int32 {
	n := 2 * len(keys)
	d := make([]int32, n*n)
	for a := range n {
		for b := range a {
			least := int32(1 << 20)
			if a/2 == b/2 {
				d[a*n+b], d[b*n+a] = least, least
				continue
			}
			for _, g := range keys[a/2].legs[a%2] {
				for _, h := range keys[b/2].legs[b%2] {
					least = min(least, int32(g.Steps(h)))
				}
			}
			d[a*n+b], d[b*n+a] = least, least
		}
	}
	return d
}

// place gives every key a first pair of lines, row * lines + column: groups in lines of their own as
// long as there are some, then the keys as one reads the board. ok is false when the lines don't
// hold them.
func (t *lineTask) place(lines int) (pair []int, ok bool) {
	pair = make([]int, len(t.keys))
	taken := make([]int, lines) // keys that each line reads
	put := func(k, l int) {
		column := taken[l]
		if column >= l {
			column++ // the diagonal stays empty
		}
		pair[k] = l*lines + column
		taken[l]++
	}
	for _, g := range t.largestFirst() {
		l := slices.Index(taken, slices.Min(taken))
		if taken[l]+len(g) > lines-1 {
			return nil, false
		}
		for _, k := range g {
			put(k, l)
		}
	}
	l := 0
	for _, k := range t.asRead() {
		for l < lines && taken[l] == lines-1 {
			l++
		}
		if l == lines {
			return nil, false
		}
		put(k, l)
	}
	return pair, true
}

// largestFirst lists the groups of keys that share a terminal.
func (t *lineTask) largestFirst() [][]int {
	list := make([][]int, t.groups)
	for k, g := range t.group {
		if g >= 0 {
			list[g] = append(list[g], k)
		}
	}
	slices.SortStableFunc(list, func(a, b []int) int { return cmp.Compare(len(b), len(a)) })
	return list
}

// asRead lists the keys of no group from the top left to the bottom right.
func (t *lineTask) asRead() []int {
	var order []int
	for k, g := range t.group {
		if g < 0 {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(t.keys[a].y, t.keys[b].y), cmp.Compare(t.keys[a].x, t.keys[b].x))
	})
	return order
}
