package wiring

import (
	"fascia/design/grid"
	"fascia/design/panel"
)

// bound is a price below which the groups of a net cannot be joined, whatever the other nets do.
//
// A net of k groups is joined by runs between its groups and branching pads, at most 2k-3 of them.
// A run costs its length at least, except that one of a single step or of two may be solder at half
// the price. So no wiring costs less than half the least length, nor less than the least length less
// one hole for each run; and each of k-1 joins costs a bridge.
func bound(fd *field, t *task) price {
	k := len(t.groups)
	if k < 2 {
		return 0
	}
	m := fd.metric()
	if k == 2 && m == bothAxes {
		return pairBound(fd, &t.groups[0], &t.groups[1])
	}
	length := price(leastLength(fd, t.groups, m))
	return max(perBridge*price(k-1), perBridge*length, perHole*(length-price(2*k-3)))
}

// pairBound is the least price of one run or one insulated wire between two groups.
func pairBound(fd *field, a, b *group) price {
	least := beyondPrice
	for _, s := range fd.spotsOf(a) {
		for _, t := range fd.spotsOf(b) {
			o := fd.hole(t).Minus(fd.hole(s))
			d := fd.distance(s, t)
			run := perHole * price(d)
			switch straight := o.Cols == 0 || o.Rows == 0; {
			case !straight && fd.bends():
				run += perBend
			case !straight:
			case d <= 2:
				run = perBridge * price(d)
			}
			least = min(least, run, insulatedPrice(d))
		}
	}
	return least
}

// bends reports whether every turn of a bare run is a bend. On a plated board a run may change its
// face there instead.
func (fd *field) bends() bool {
	for i := range fd.boards {
		if fd.boards[i].Plated {
			return false
		}
	}
	return true
}

// A metric says along which axes a wire must be laid to get on: a strip is free along itself, and
// fixed groups of holes may lead anywhere.
type metric uint8

const (
	bothAxes metric = iota
	acrossRows
	acrossColumns
	noAxis
)

func (fd *field) metric() metric {
	m := bothAxes
	for i := range fd.boards {
		b := &fd.boards[i]
		switch {
		case b.Copper == panel.Groups:
			return noAxis
		case b.Copper != panel.Strips:
		case b.Along == "columns" && m != acrossRows:
			m = acrossColumns
		case b.Along != "columns" && m != acrossColumns:
			m = acrossRows
		default:
			return noAxis
		}
	}
	return m
}

func (m metric) length(o grid.Offset) int {
	cols, rows := max(o.Cols, -o.Cols), max(o.Rows, -o.Rows)
	switch m {
	case acrossRows:
		return rows
	case acrossColumns:
		return cols
	case noAxis:
		return 0
	}
	return cols + rows
}

// spotsOf lists the spots of a group's copper, one face of each hole only where they are one node.
func (fd *field) spotsOf(g *group) []spot {
	var list []spot
	for _, c := range g.classes {
		for _, s := range fd.members(c) {
			if fd.canon(s) == s {
				list = append(list, s)
			}
		}
	}
	return list
}

// leastLength is a length of wire below which the groups cannot be joined. It is the largest of
// three bounds: rings round the groups that grow until they touch, which any wiring must cross; two
// thirds of the least tree without branching pads, when every group is one hole; and the lines of
// the grid that have whole groups on both sides and none across.
//
// Two thirds: Hwang, On Steiner minimal trees with rectilinear distance, 1976. Rings: the dual of
// the cut formulation, as in Goemans and Williamson, 1995 (from memory).
func leastLength(fd *field, groups []group, m metric) int {
	tree, longest := leastTree(fd, groups, m)
	length := (tree + longest + 1) / 2
	single := m == bothAxes
	for i := range groups {
		single = single && len(fd.spotsOf(&groups[i])) == 1
	}
	if single {
		length = max(length, (2*tree+2)/3)
	}
	if m == bothAxes {
		length = max(length, cutLines(fd, groups))
	}
	return length
}

// leastTree returns the length of a least spanning tree over the groups, and of its longest edge.
func leastTree(fd *field, groups []group, m metric) (sum, longest int) {
	const far = 1 << 30
	spots := make([][]spot, len(groups))
	reach := make([]int, len(groups))
	for i := range groups {
		spots[i], reach[i] = fd.spotsOf(&groups[i]), far
	}
	in := make([]bool, len(groups))
	at := 0
	for range len(groups) - 1 {
		in[at] = true
		next := -1
		for i := range groups {
			if in[i] {
				continue
			}
			for _, s := range spots[at] {
				for _, t := range spots[i] {
					reach[i] = min(reach[i], m.length(fd.hole(t).Minus(fd.hole(s))))
				}
			}
			if next < 0 || reach[i] < reach[next] {
				next = i
			}
		}
		at = next
		sum += reach[at]
		longest = max(longest, reach[at])
	}
	return sum, longest
}

// cutLines counts the lines between columns, and between rows, that some wire must cross.
func cutLines(fd *field, groups []group) int {
	cols, rows := make([][2]int, len(groups)), make([][2]int, len(groups))
	for i := range groups {
		for n, s := range fd.spotsOf(&groups[i]) {
			h := fd.hole(s)
			if n == 0 {
				cols[i], rows[i] = [2]int{h.Col, h.Col}, [2]int{h.Row, h.Row}
			}
			cols[i] = [2]int{min(cols[i][0], h.Col), max(cols[i][1], h.Col)}
			rows[i] = [2]int{min(rows[i][0], h.Row), max(rows[i][1], h.Row)}
		}
	}
	return gaps(cols) + gaps(rows)
}

// gaps counts the steps between the first span's and the last's that no span covers.
func gaps(spans [][2]int) int {
	low, high := spans[0][0], spans[0][1]
	for _, s := range spans {
		low, high = min(low, s[0]), max(high, s[1])
	}
	n := 0
	for x := low; x < high; x++ {
		covered := false
		for _, s := range spans {
			covered = covered || s[0] <= x && x < s[1]
		}
		if !covered {
			n++
		}
	}
	return n
}
