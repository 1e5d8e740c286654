package scan

import "slices"

// bend writes down which keys are elbows; false when that takes too many clauses.
func (q *seating) bend() bool {
	known := map[[3]int]bool{}
	for _, f := range q.chords {
		if f.plain && q.empty == nil {
			q.bendAll(f.keys)
		} else if !q.bendSome(f, known) {
			return false
		}
	}
	return len(q.list) <= seatingClauses
}

// bendAll writes down the elbows of keys that may all be held at once: those with any mate in their
// row and any in their column.
func (q *seating) bendAll(keys []int) {
	for _, k := range keys {
		var mated [2]int
		for side := range 2 {
			mated[side] = q.variable(false)
			for _, m := range keys {
				if m != k {
					q.add(yes(q.same[side][pairOf(q.at[k], q.at[m])]).no(), yes(mated[side]))
				}
			}
		}
		q.add(yes(mated[rowSide]).no(), yes(mated[columnSide]).no(), yes(q.diode[q.at[k]]))
	}
	if len(keys) > 3 {
		q.stretch(keys)
	}
}

// stretch lets keys of a chord take as many lines as they must: every key that is no elbow is alone
// in one, and one line more holds the first of those.
func (q *seating) stretch(keys []int) {
	var spared []int // lines without a key, keys without a diode
	for side := range 2 {
		for l := range q.line[side][0] {
			v := q.variable(false)
			list := []literal{yes(v)}
			for _, k := range keys {
				list = append(list, yes(q.line[side][q.at[k]][l]))
			}
			q.add(list...)
			spared = append(spared, v)
		}
	}
	for _, k := range keys {
		v := q.variable(true)
		q.add(yes(v), yes(q.diode[q.at[k]]))
		spared = append(spared, v)
	}
	most := q.shape.pins() - 1
	q.add(yes(q.count(spared, most+1)[most]).no())
}

// bendSome writes down every three keys that may be held together, each as the one between the
// others.
func (q *seating) bendSome(f *family, known map[[3]int]bool) bool {
	cells := 1
	if q.empty != nil {
		cells = q.shape.cells()
	}
	for i := range f.keys {
		for a := range f.keys {
			for b := range f.keys {
				if i == a || i == b || a == b || f.with[f.kind[i]][f.kind[a]]>>f.kind[b]&1 == 0 {
					continue
				}
				three := [3]int{f.keys[b], f.keys[i], f.keys[a]}
				if known[three] {
					continue
				}
				known[three] = true
				if len(known)*cells > seatingClauses {
					return false
				}
				q.forbid(three[:])
			}
		}
	}
	return true
}

// forbid rules a detour out: along a path of keys, forward and backward in turn, unless a key that is
// passed backward has a diode or the cell where its ends cross is empty.
func (q *seating) forbid(path []int) {
	var list []literal
	for i := 1; i < len(path); i++ {
		side := i % 2 // the second shares the column of the first, the third the row of the second …
		list = append(list, yes(q.same[side][pairOf(q.at[path[i-1]], q.at[path[i]])]).no())
		if i%2 == 1 {
			list = append(list, yes(q.diode[q.at[path[i]]]))
		}
	}
	if q.empty == nil {
		q.add(list...)
		return
	}
	first, last := q.at[path[0]], q.at[path[len(path)-1]]
	for cell, free := range q.empty {
		more := append(slices.Clone(list), yes(q.line[rowSide][first][cell/q.shape.columns]).no(), yes(q.line[columnSide][last][cell%q.shape.columns]).no(), yes(free))
		q.add(more...)
	}
}

// answer reads it: a cell for every key.
func (q *seating) answer() []int {
	cell := make([]int, len(q.keys))
	taken := make([]bool, q.shape.cells())
	for i, k := range q.played {
		for side, width := range [2]int{q.shape.columns, 1} {
			for l, v := range q.line[side][i] {
				if q.value[yes(v)] > 0 {
					cell[k] += l * width
				}
			}
		}
		taken[cell[k]] = true
	}
	for c := range q.empty {
		taken[c] = taken[c] || q.value[yes(q.empty[c])] > 0
	}
	free := 0
	for k := range q.keys {
		if q.at[k] == noKey {
			for taken[free] {
				free++
			}
			cell[k] = free
			taken[free] = true
		}
	}
	return cell
}

// diodes lists the keys that the answer gives one.
func (q *seating) diodes() []bool {
	has := make([]bool, len(q.keys))
	for i, k := range q.played {
		has[k] = q.value[yes(q.diode[i])] > 0
	}
	return has
}
