package netlist

import "fascia/design/search"

// assign gives each row of cost a column of its own so that the sum is least and as many rows as
// possible have one; a row without a column gets -1. Every row of cost has the given number of
// columns.
func assign(cost [][]int, columns int) []int {
	result := make([]int, len(cost))
	if len(cost) <= columns {
		if m, ok := search.Match(cost); ok {
			copy(result, m.Of)
		}
		return result
	}
	for i := range result {
		result[i] = -1
	}
	for j, i := range assign(transposed(cost, columns), len(cost)) {
		result[i] = j
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
