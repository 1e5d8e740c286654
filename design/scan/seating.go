package scan

import "slices"

// Limits of the search for cells with fewer diodes: clauses written down, and times that detours
// through empty cells are found and forbidden.
const (
	seatingClauses = 150000
	seatingRounds  = 60
)

// A seating asks for cells in which chords need fewer diodes, as clauses: each key that is in a chord
// has a row and a column; two may share one, but not both; and a key that may be held with a mate in
// its row and one in its column has a diode, unless the cell where those cross is empty. Keys in no
// chord take the cells that are left.
type seating struct {
	*task
	shape
	clauses
	played []int      // keys that have variables, in order
	at     []int      // by key: place in played, or noKey
	line   [2][][]int // by side, place and line: whether it is the key's
	same   [2][]int   // by side and pair of places: whether they share the line
	diode  []int      // by place: whether the key has one
	empty  []int      // by cell: whether it is left free; nil when none is
	many   []int      // by number: whether more keys than that have a diode
}

// newSeating writes the clauses; ok is false when they would be too many. cell is a first guess, in
// which so many keys as most have a diode.
func newSeating(t *task, s shape, cell []int, most int) (q *seating, ok bool) {
	q = &seating{task: t, shape: s, at: make([]int, len(t.keys))}
	for k := range t.keys {
		q.at[k] = noKey
		if len(t.inChords[k]) > 0 || t.isBound(k) {
			q.at[k] = len(q.played)
			q.played = append(q.played, k)
		}
	}
	n := len(q.played)
	if n*n*s.pins() > 2*seatingClauses {
		return nil, false
	}
	q.seat(cell)
	q.share()
	if s.cells() > len(t.keys) {
		q.leave(s.cells() - len(t.keys))
	}
	for range q.played {
		q.diode = append(q.diode, q.variable(false))
	}
	if !q.bend() {
		return nil, false
	}
	q.many = q.count(q.diode, most)
	return q, true
}

// seat gives each key one row and one column. Rows that differ only in their numbers are the same:
// they are numbered as the keys come.
func (q *seating) seat(cell []int) {
	for side, lines := range [2]int{q.shape.rows, q.shape.columns} {
		number := map[int]int{}
		for i, k := range q.played {
			l := q.shape.line(side, cell[k])
			if _, known := number[l]; !known {
				number[l] = len(number)
			}
			vars := make([]int, lines)
			for j := range vars {
				vars[j] = q.variable(j == number[l])
			}
			q.line[side] = append(q.line[side], vars)
			q.one(vars)
			q.inTurn(side, i)
		}
	}
}

// one lets exactly one of some variables hold.
func (q *seating) one(vars []int) {
	var any []literal
	for i, v := range vars {
		any = append(any, yes(v))
		for _, w := range vars[:i] {
			q.add(yes(v).no(), yes(w).no())
		}
	}
	q.add(any...)
}

// inTurn lets key i open a line only when those before it have opened the one before.
func (q *seating) inTurn(side, i int) {
	for l := 1; l < len(q.line[side][i]); l++ {
		list := []literal{yes(q.line[side][i][l]).no()}
		for before := range i {
			list = append(list, yes(q.line[side][before][l-1]))
		}
		q.add(list...)
	}
}

// pair is the place of a pair of keys in lists of pairs.
func pairOf(a, b int) int {
	if a < b {
		a, b = b, a
	}
	return a*(a-1)/2 + b
}

// share ties the variables of pairs to those of lines.
func (q *seating) share() {
	for side := range 2 {
		for a := range q.played {
			for b := range a {
				v := q.variable(false)
				q.same[side] = append(q.same[side], v)
				for l, of := range q.line[side][a] {
					q.add(yes(of).no(), yes(q.line[side][b][l]).no(), yes(v))
				}
				if forced := q.keys[q.played[a]].line[side]; forced >= 0 && forced == q.keys[q.played[b]].line[side] {
					for l, of := range q.line[side][a] {
						q.add(yes(of).no(), yes(q.line[side][b][l]))
					}
				}
			}
		}
	}
	for pair, v := range q.same[rowSide] {
		q.add(yes(v).no(), yes(q.same[columnSide][pair]).no())
	}
}

// leave lets some cells be empty.
func (q *seating) leave(most int) {
	for cell := range q.shape.cells() {
		q.empty = append(q.empty, q.variable(false))
		for i := range q.played {
			q.add(yes(q.line[rowSide][i][cell/q.shape.columns]).no(), yes(q.line[columnSide][i][cell%q.shape.columns]).no(), yes(q.empty[cell]).no())
		}
	}
	q.add(yes(q.count(q.empty, most+1)[most]).no())
}

// count makes variables that hold when more than 0, 1, … most-1 of some hold (Sinz, 2005,
// doi:10.1007/11564751_73).
func (q *seating) count(vars []int, most int) []int {
	before := make([]int, most)
	for j := range before {
		before[j] = -1
	}
	for _, v := range vars {
		now := make([]int, most)
		for j := range now {
			now[j] = q.variable(false)
			if before[j] >= 0 {
				q.add(yes(before[j]).no(), yes(now[j]))
			}
			if j == 0 {
				q.add(yes(v).no(), yes(now[0]))
			} else if before[j-1] >= 0 {
				q.add(yes(before[j-1]).no(), yes(v).no(), yes(now[j]))
			}
		}
		before = now
	}
	return before
}

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
