package wiring

import (
	"cmp"

	"fascia/design/grid"
)

// insulatedBound is how many insulated wires every way to join all nets has at least. A net alone on
// its boards, other nets' leads in its way, falls into pieces that bare metal does not join: each
// piece but one costs a wire. Of the nets that are whole so far, those with leads on both sides of a
// fence of holes must each lead over a free one of them, or be insulated: the fullest fence counts.
func (g *grower) insulatedBound() int {
	sum := 0
	var whole []*task
	for i := range g.tasks {
		t := &g.tasks[i]
		if len(t.groups) < 2 {
			continue
		}
		if pieces := g.barePieces(t, int16(i+1)); pieces > 1 {
			sum += pieces - 1
		} else {
			whole = append(whole, t)
		}
	}
	most := 0
	for _, f := range g.fences() {
		most = max(most, g.overFence(f, whole))
	}
	return sum + most
}

// barePieces counts the pieces into which a net falls when only bare metal may join it.
func (g *grower) barePieces(t *task, me int16) int {
	fd := g.fd
	seen := make([]bool, len(fd.class))
	groupAt := map[spot]int{}
	for n, group := range t.groups {
		for _, c := range group.classes {
			groupAt[c] = n
		}
	}
	done := make([]bool, len(t.groups))
	pieces := 0
	for n := range t.groups {
		if done[n] {
			continue
		}
		pieces++
		var queue []spot // classes
		enter := func(c spot) {
			if seen[c] || g.fixed[c] != nobody && g.fixed[c] != me {
				return
			}
			seen[c] = true
			queue = append(queue, c)
		}
		for _, c := range t.groups[n].classes {
			enter(c)
		}
		for len(queue) > 0 {
			c := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			if m, ok := groupAt[c]; ok && !done[m] {
				done[m] = true
				for _, other := range t.groups[m].classes {
					enter(other)
				}
			}
			for _, s := range fd.members(c) {
				for _, next := range fd.next[s] {
					if next != nowhere && fd.open[s] && fd.open[next] {
						enter(fd.class[next])
					}
				}
				if !fd.oneNode(s) && fd.isFree(s) {
					enter(fd.class[s^1])
				}
			}
		}
		done[n] = true
	}
	return pieces
}

// A fence says on which side of it a hole is: -1, 0 on the fence itself, or 1. Neighbours are never on
// two sides.
type fence func(h grid.Hole) int

// fences are all columns and rows, and rings close round every body.
func (g *grower) fences() []fence {
	var list []fence
	var columns, rows [grid.MaxIndex + 1]bool
	for _, h := range g.fd.holes {
		columns[h.Col], rows[h.Row] = true, true
	}
	for i := range columns {
		if columns[i] {
			list = append(list, func(h grid.Hole) int { return cmp.Compare(h.Col, i) })
		}
		if rows[i] {
			list = append(list, func(h grid.Hole) int { return cmp.Compare(h.Row, i) })
		}
	}
	for i := range g.fd.fit.Bodies {
		for beyond := range 3 {
			r := g.fd.fit.Bodies[i].Rect.Grown(grid.Millimetre(beyond) * grid.Pitch)
			low, high := grid.Nearest(r.Min), grid.Nearest(r.Max)
			list = append(list, func(h grid.Hole) int {
				far := max(low.Col-h.Col, h.Col-high.Col, low.Row-h.Row, h.Row-high.Row)
				return cmp.Compare(far, 0)
			})
		}
	}
	return list
}

// overFence is how many of the nets must have an insulated wire for a fence.
func (g *grower) overFence(f fence, nets []*task) int {
	fd := g.fd
	sides := make([]int8, len(fd.holes))
	for c, h := range fd.holes {
		sides[c] = int8(f(h))
	}
	const inside, outside, on = 1, 2, 4
	where := func(classes []spot) (all int) {
		for _, c := range classes {
			for _, s := range fd.members(c) {
				all |= [3]int{inside, on, outside}[sides[s/2]+1]
			}
		}
		return all
	}
	across := 0
	for _, t := range nets {
		all, over := 0, false
		for _, group := range t.groups {
			at := where(group.classes)
			all |= at
			over = over || at != inside && at != outside
		}
		if !over && all == inside|outside {
			across++
		}
	}
	if across == 0 {
		return 0
	}
	for c := range fd.class {
		class := fd.class[c]
		if class != spot(c) || g.fixed[class] != nobody || !fd.open[c] && fd.group[class] == nil && !(fd.oneNode(class) && fd.open[class|1]) {
			continue
		}
		if at := where([]spot{class}); at != inside && at != outside {
			across--
		}
	}
	return max(0, across)
}
