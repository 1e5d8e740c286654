package netlist

// assign gives each row of cost a column of its own so that the sum is least and as many rows as
// possible have one; a row without a column gets -1. Every row of cost has the given number of
// columns. Time is O(n³) in the larger side.
//
// Kuhn, The Hungarian method for the assignment problem, 1955, in the form with potentials and
// shortest augmenting paths (from memory).
func assign(cost [][]int, columns int) []int {
	rows := len(cost)
	if rows > columns {
		back := assign(transposed(cost, columns), rows)
		result := make([]int, rows)
		for i := range result {
			result[i] = -1
		}
		for j, i := range back {
			result[i] = j
		}
		return result
	}
	m := matching{cost: cost, rowPrice: make([]int, rows+1), columnPrice: make([]int, columns+1), rowOf: make([]int, columns+1)}
	for i := 1; i <= rows; i++ {
		m.augment(i)
	}
	result := make([]int, rows)
	for j := 1; j <= columns; j++ {
		if m.rowOf[j] > 0 {
			result[m.rowOf[j]-1] = j - 1
		}
	}
	return result
}

func transposed(cost [][]int, columns int) [][]int {
	t := make([][]int, columns)
	for j := range t {
		t[j] = make([]int, len(cost))
		for i := range cost {
			t[j][i] = cost[i][j]
		}
	}
	return t
}

// A matching holds the prices and the rows given to columns; both count from 1, 0 being none.
type matching struct {
	cost                  [][]int
	rowPrice, columnPrice []int
	rowOf                 []int
}

// augment finds a column for row i along the cheapest chain of changes.
func (m *matching) augment(i int) {
	const far = int(^uint(0) >> 2)
	n := len(m.rowOf)
	slack, from, done := make([]int, n), make([]int, n), make([]bool, n)
	for j := range slack {
		slack[j] = far
	}
	m.rowOf[0] = i
	at := 0
	for {
		done[at] = true
		row, step, next := m.rowOf[at], far, 0
		for j := 1; j < n; j++ {
			if done[j] {
				continue
			}
			if c := m.cost[row-1][j-1] - m.rowPrice[row] - m.columnPrice[j]; c < slack[j] {
				slack[j], from[j] = c, at
			}
			if slack[j] < step {
				step, next = slack[j], j
			}
		}
		for j := range n {
			if done[j] {
				m.rowPrice[m.rowOf[j]] += step
				m.columnPrice[j] -= step
			} else {
				slack[j] -= step
			}
		}
		at = next
		if m.rowOf[at] == 0 {
			break
		}
	}
	for at != 0 {
		m.rowOf[at] = m.rowOf[from[at]]
		at = from[at]
	}
}
