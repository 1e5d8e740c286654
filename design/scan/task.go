package scan

import (
	"cmp"
	"slices"
)

// A task is the keys of a matrix with all that the choice of their cells depends on. It does not
// know the shape.
type task struct {
	keys     []key
	distance [2][]int32 // by side: see distances
	forced   [2]int     // how many forced lines each side has; key.line counts them
	chords   []*family  // keys pressed together, three or more, as indices into keys
	inChords [][]int    // by key: the chords it belongs to
	near     [][]int    // by key: those nearest to it
	tied     [2][][]int // by side and forced line: its keys
	apart    bool       // chords are to be kept free of elbows where that is possible
}

func newTask(keys []key, forced [2]int, chords []*family, apart bool) *task {
	t := &task{keys: keys, forced: forced, chords: chords, apart: apart}
	for side := range 2 {
		t.distance[side] = distances(keys, side)
	}
	t.inChords = make([][]int, len(keys))
	for c, f := range chords {
		for _, k := range f.keys {
			t.inChords[k] = append(t.inChords[k], c)
		}
	}
	t.near = nearest(keys)
	for side := range 2 {
		t.tied[side] = make([][]int, forced[side])
		for k := range keys {
			if l := keys[k].line[side]; l >= 0 {
				t.tied[side][l] = append(t.tied[side][l], k)
			}
		}
	}
	return t
}

// neighbours is how many of the nearest keys an exchange prefers.
const neighbours = 8

// nearest lists for every key the keys nearest to it, at most neighbours.
func nearest(keys []key) [][]int {
	near := make([][]int, len(keys))
	away := func(a, b int) int {
		return max(keys[a].x-keys[b].x, keys[b].x-keys[a].x) + max(keys[a].y-keys[b].y, keys[b].y-keys[a].y)
	}
	for k := range keys {
		for other := range keys {
			if other != k {
				near[k] = append(near[k], other)
			}
		}
		slices.SortStableFunc(near[k], func(a, b int) int { return cmp.Compare(away(a, k), away(b, k)) })
		near[k] = near[k][:min(len(near[k]), neighbours)]
	}
	return near
}

// isBound reports whether key k shares a line by force.
func (t *task) isBound(k int) bool { return t.keys[k].line[0] >= 0 || t.keys[k].line[1] >= 0 }

// anyBound reports whether any key is bound.
func (t *task) anyBound() bool { return t.forced[0]+t.forced[1] > 0 }

// wire is the length of the shortest tree that joins the legs of one line's keys on its side, in
// holes, by Prim's method. scratch holds at least len(line) entries.
func (t *task) wire(side int, line []int, scratch []int32) int64 {
	n := len(t.keys)
	if len(line) < 2 {
		return 0
	}
	d := t.distance[side]
	near := scratch[:len(line)-1]
	rest := line[1:]
	from := d[line[0]*n : line[0]*n+n]
	for i, k := range rest {
		near[i] = from[k]
	}
	total := int64(0)
	for len(rest) > 0 {
		best := 0
		for i := range near {
			if near[i] < near[best] {
				best = i
			}
		}
		total += int64(near[best])
		last := len(rest) - 1
		from = d[rest[best]*n : rest[best]*n+n]
		rest[best], near[best] = rest[last], near[last]
		rest, near = rest[:last], near[:last]
		for i, k := range rest {
			near[i] = min(near[i], from[k])
		}
	}
	return total
}

// spread is how far the keys of a line lie apart across it, in quarter holes: heights for a row,
// for a column the distance from left to right.
func (t *task) spread(side int, line []int) int64 {
	least, most := 1<<30, -1<<30
	for _, k := range line {
		v := t.keys[k].y
		if side == columnSide {
			v = t.keys[k].x
		}
		least, most = min(least, v), max(most, v)
	}
	return int64(most - least)
}

// length is the wire that an arrangement takes for all its rows and columns, in holes. cell gives
// each key's row * columns + column.
func (t *task) length(s shape, cell []int) int {
	total := int64(0)
	scratch := make([]int32, len(t.keys))
	for side, lines := range [2]int{s.rows, s.columns} {
		members := make([][]int, lines)
		for k, c := range cell {
			l := s.line(side, c)
			members[l] = append(members[l], k)
		}
		for _, line := range members {
			total += t.wire(side, line, scratch)
		}
	}
	return int(total)
}

// line is the row or the column of a cell.
func (s shape) line(side, cell int) int {
	if side == rowSide {
		return cell / s.columns
	}
	return cell % s.columns
}
