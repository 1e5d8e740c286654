package scan

import (
	"cmp"
	"slices"
)

// sameLine is how far apart, in quarter holes, the middles of keys of one physical row may lie:
// a little under the depth of the smallest key.
const sameLine = 6

// bands sorts values into clusters no wider than sameLine and returns each value's cluster, counted
// from the least, and how many clusters there are.
func bands(values []int) (band []int, count int) {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	band = make([]int, len(values))
	start := 0
	for i, v := range order {
		if i == 0 || values[v]-start > sameLine {
			start = values[v]
			count++
		}
		band[v] = count - 1
	}
	return band, count
}

// lattice returns the cell of every key if the keys lie on the board as the matrix is drawn: as
// many physical rows and columns as s has. Each cell is row * columns + column. A matrix that is
// the layout turned on its side counts too; ok is false when neither does.
func lattice(keys []key, s shape) (cell []int, ok bool) {
	xs, ys := make([]int, len(keys)), make([]int, len(keys))
	for i, k := range keys {
		xs[i], ys[i] = k.x, k.y
	}
	if row, column, ok := regular(ys, xs, s.rows, s.columns); ok {
		return cells(row, column, s), true
	}
	if column, row, ok := regular(ys, xs, s.columns, s.rows); ok {
		return cells(row, column, s), true
	}
	return nil, false
}

// upright reports whether the lattice of s is the layout as seen, not turned on its side.
func upright(keys []key, s shape) bool {
	ys := make([]int, len(keys))
	for i, k := range keys {
		ys[i] = k.y
	}
	_, n := bands(ys)
	return n == s.rows
}

func cells(row, column []int, s shape) []int {
	cell := make([]int, len(row))
	for i := range cell {
		cell[i] = row[i]*s.columns + column[i]
	}
	return cell
}

// regular finds down bands of ys and across places within each: bands of xs, or when rows are
// shifted against each other, the order within rows that are all full.
func regular(ys, xs []int, down, across int) (row, place []int, ok bool) {
	row, n := bands(ys)
	if n != down {
		return nil, nil, false
	}
	if place, n := bands(xs); n == across && distinct(row, place) {
		return row, place, true
	}
	place = ranks(row, xs)
	return row, place, len(ys) == down*across && slices.Max(place) == across-1 && alike(row, place, xs, across)
}

// ranks numbers the keys of each row from the left.
func ranks(row, xs []int) []int {
	place := make([]int, len(xs))
	for i := range xs {
		for j := range xs {
			if row[j] == row[i] && (xs[j] < xs[i] || xs[j] == xs[i] && j < i) {
				place[i]++
			}
		}
	}
	return place
}

// alike reports whether rows are shifted so little that each column is narrower than the steps
// between columns.
func alike(row, place, xs []int, across int) bool {
	least, most := make([]int, across), make([]int, across)
	for c := range across {
		least[c], most[c] = 1<<30, -1<<30
	}
	for i, c := range place {
		least[c], most[c] = min(least[c], xs[i]), max(most[c], xs[i])
	}
	for i := range xs {
		for j := range xs {
			if row[i] == row[j] && place[j] == place[i]+1 {
				step := xs[j] - xs[i]
				if step <= most[place[i]]-least[place[i]] || step <= most[place[j]]-least[place[j]] {
					return false
				}
			}
		}
	}
	return true
}

func distinct(row, place []int) bool {
	seen := map[[2]int]bool{}
	for i := range row {
		at := [2]int{row[i], place[i]}
		if seen[at] {
			return false
		}
		seen[at] = true
	}
	return true
}
