package scan

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
