package search

// A Matching pairs rows with columns. The potentials prove that it is cheapest: cost - Row - Column
// is never negative, and zero for each pair; no column potential is positive, and that of an
// unpaired column is zero.
type Matching struct {
	Of     []int // the column of each row
	Cost   int
	Row    []int
	Column []int
}

// Match gives each row of cost a column of its own at least total cost. It reports false when that
// cannot be done. Rows have equal lengths; entries may be Never. Time is O(rows² × columns).
//
// Shortest augmenting paths: Kuhn (1955), doi:10.1002/nav.3800020109; Jonker and Volgenant (1987),
// doi:10.1007/BF02278710 (both cited from memory).
func Match(cost [][]int) (Matching, bool) {
	columns := 0
	if len(cost) > 0 {
		columns = len(cost[0])
	}
	m := newMatcher(len(cost), columns)
	if !m.match(cost, nil, Never) {
		return Matching{}, false
	}
	of := make([]int, len(cost))
	total := 0
	for j, i := range m.rowOf[1:] {
		if i > 0 {
			of[i-1] = j
			total += cost[i-1][j]
		}
	}
	return Matching{of, total, m.row[1:], m.column[1:]}, true
}

// A matcher keeps its tables between runs. Rows and columns count from 1; column 0 is the start of
// every path.
type matcher struct {
	row, column   []int // potentials
	rowOf, before []int // by column
	slack         []int
	reached       []bool
	paired        []bool // by row
	floor         int    // sum of the potentials: no matching costs less
}

func newMatcher(rows, columns int) *matcher {
	return &matcher{row: make([]int, rows+1), column: make([]int, columns+1), rowOf: make([]int, columns+1),
		before: make([]int, columns+1), slack: make([]int, columns+1), reached: make([]bool, columns+1), paired: make([]bool, rows+1)}
}

// match finds the cheapest matching, or reports false when there is none that costs less than limit.
// All rows of cost have the same length, at most the columns that m was made for. When there are as
// many rows as columns, guess may hold column potentials to start from, which saves time.
func (m *matcher) match(cost [][]int, guess []int, limit int) bool {
	if !m.start(cost, guess) {
		return false
	}
	for i := range cost {
		if m.paired[i+1] {
			continue
		}
		m.rowOf[0] = i + 1
		end, ok := m.path(cost, limit)
		if !ok {
			return false
		}
		for end != 0 {
			m.rowOf[end] = m.rowOf[m.before[end]]
			end = m.before[end]
		}
	}
	return m.floor < limit
}

// start pairs every row with its cheapest column where no earlier row has it. It reports false when
// a row has none at all.
func (m *matcher) start(cost [][]int, guess []int) bool {
	m.floor = 0
	clear(m.paired)
	if len(cost) > 0 {
		columns := len(cost[0]) + 1
		m.column, m.rowOf, m.before = m.column[:columns], m.rowOf[:columns], m.before[:columns]
		m.slack, m.reached = m.slack[:columns], m.reached[:columns]
	}
	clear(m.column)
	clear(m.rowOf)
	for j, v := range guess {
		m.column[j+1] = v
		m.floor += v
	}
	for i, row := range cost {
		least, at := Never, 0
		for j, c := range row {
			if c != Never && c-m.column[j+1] < least {
				least, at = c-m.column[j+1], j+1
			}
		}
		if at == 0 {
			return false
		}
		m.row[i+1] = least
		m.floor += least
		if m.rowOf[at] == 0 {
			m.rowOf[at], m.paired[i+1] = i+1, true
		}
	}
	return true
}

// path grows the tree of cheapest alternating paths from the row at column 0 until it reaches an
// unpaired column, and returns that. It reports false when there is none, or the floor reaches limit.
func (m *matcher) path(cost [][]int, limit int) (end int, ok bool) {
	for j := range m.slack {
		m.slack[j], m.reached[j] = Never, false
	}
	at := 0
	for m.rowOf[at] != 0 {
		m.reached[at] = true
		i := m.rowOf[at]
		next, step := 0, Never
		for j := 1; j < len(m.slack); j++ {
			if m.reached[j] {
				continue
			}
			if c := cost[i-1][j-1]; c != Never {
				if c -= m.row[i] + m.column[j]; c < m.slack[j] {
					m.slack[j], m.before[j] = c, at
				}
			}
			if m.slack[j] < step {
				next, step = j, m.slack[j]
			}
		}
		if next == 0 {
			return 0, false
		}
		if m.shift(step); m.floor >= limit {
			return 0, false
		}
		at = next
	}
	return at, true
}

// shift moves the potentials of the tree by step, which makes one more pair tight.
func (m *matcher) shift(step int) {
	if step == 0 {
		return
	}
	m.floor += step
	for j, reached := range m.reached {
		switch {
		case reached:
			m.row[m.rowOf[j]] += step
			m.column[j] -= step
		case m.slack[j] != Never:
			m.slack[j] -= step
		}
	}
}
