package lend

import (
	"cmp"
	"slices"

	"fascia/design/grid"
	"fascia/design/part"
)

// around lists the holes within so many columns and rows of one.
func around(at grid.Hole, most int) []grid.Hole {
	var holes []grid.Hole
	for row := -most; row <= most; row++ {
		for col := -most; col <= most; col++ {
			holes = append(holes, at.Add(grid.Offset{Cols: col, Rows: row}))
		}
	}
	return holes
}

// everywhere lists the holes of all boards.
func (r *room) everywhere() []grid.Hole {
	var holes []grid.Hole
	for i := range r.p.Boards {
		b := &r.p.Boards[i]
		for row := range b.Rows {
			for col := range b.Columns {
				holes = append(holes, b.At.Add(grid.Offset{Cols: col, Rows: row}))
			}
		}
	}
	return holes
}

// nearest returns the free place of least cost with the first terminal in one of the holes, on the
// first of the faces that has any; ties go to the upper left, then to fewer turns.
func (r *room) nearest(d *part.Definition, holes []grid.Hole, faces []grid.Face, cost func(grid.Pose) int) (grid.Pose, bool) {
	type place struct {
		pose grid.Pose
		cost int
	}
	places := make([]place, 0, 4*len(holes))
	for _, face := range faces {
		places = places[:0]
		for _, h := range holes {
			if r.taken[h] {
				continue
			}
			for turn := range grid.Turn(4) {
				pose := grid.Pose{At: h, Turn: turn, Face: face}
				places = append(places, place{pose, cost(pose)})
			}
		}
		slices.SortStableFunc(places, func(a, b place) int {
			return cmp.Or(cmp.Compare(a.cost, b.cost), a.pose.At.Compare(b.pose.At), cmp.Compare(a.pose.Turn, b.pose.Turn))
		})
		for _, p := range places {
			if r.fits(p.pose, d) {
				return p.pose, true
			}
		}
	}
	return grid.Pose{}, false
}

// stepsTo is the least distance in holes from one to any of others; far when there is none.
func stepsTo(h grid.Hole, others []grid.Hole) int {
	const far = 1 << 20
	least := far
	for _, o := range others {
		least = min(least, h.Steps(o))
	}
	return least
}

// corners are the upper left and lower right of the least rectangle that holds all holes.
func corners(holes []grid.Hole) (first, last grid.Hole) {
	for i, h := range holes {
		if i == 0 {
			first, last = h, h
		}
		first.Col, first.Row = min(first.Col, h.Col), min(first.Row, h.Row)
		last.Col, last.Row = max(last.Col, h.Col), max(last.Row, h.Row)
	}
	return first, last
}
