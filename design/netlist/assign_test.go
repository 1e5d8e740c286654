package netlist

import (
	"testing"

	"pgregory.net/rapid"
)

func TestAssign(t *testing.T) {
	tests := []struct {
		name, source string
		cost         [][]int
		columns      int
		sum          int
	}{
		{"none", "by hand", nil, 3, 0},
		{"no columns", "by hand", [][]int{{}, {}}, 0, 0},
		{"greedy would pay 1 + 9", "by hand", [][]int{{1, 2}, {2, 9}}, 2, 4},
		{"more columns than rows", "by hand", [][]int{{5, 1, 3}}, 3, 1},
		{"more rows than columns", "by hand", [][]int{{5}, {2}, {9}}, 1, 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := sum(tt.cost, assign(tt.cost, tt.columns)); got != tt.sum {
				t.Errorf("sum %d, want %d (%s)", got, tt.sum, tt.source)
			}
		})
	}
}

func sum(cost [][]int, chosen []int) int {
	total := 0
	for i, j := range chosen {
		if j >= 0 {
			total += cost[i][j]
		}
	}
	return total
}

// TestAssignIsBest holds the method against trying everything.
func TestAssignIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, columns := rapid.IntRange(0, 5).Draw(t, "rows"), rapid.IntRange(0, 5).Draw(t, "columns")
		cost := make([][]int, rows)
		for i := range cost {
			cost[i] = rapid.SliceOfN(rapid.IntRange(0, 20), columns, columns).Draw(t, "cost")
		}
		chosen := assign(cost, columns)
		taken, given := map[int]bool{}, 0
		for _, j := range chosen {
			if j < 0 {
				continue
			}
			if taken[j] {
				t.Fatalf("column %d given twice in %v", j, chosen)
			}
			taken[j] = true
			given++
		}
		if given != min(rows, columns) {
			t.Fatalf("%d rows served, want %d", given, min(rows, columns))
		}
		if got, best := sum(cost, chosen), cheapest(cost, columns, 0, given, 0); got != best {
			t.Fatalf("sum %d, best is %d", got, best)
		}
	})
}

// cheapest tries every way to give want rows, from row i on, columns that are not in taken.
func cheapest(cost [][]int, columns, i, want int, taken uint) int {
	if want == 0 {
		return 0
	}
	if len(cost)-i < want {
		return 1 << 30
	}
	best := cheapest(cost, columns, i+1, want, taken)
	for j := range columns {
		if taken&(1<<j) == 0 {
			best = min(best, cost[i][j]+cheapest(cost, columns, i+1, want-1, taken|1<<j))
		}
	}
	return best
}
