package fit

import (
	"slices"

	"fascia/design/grid"
)

// An index finds leads by their hole and bodies by the tiles of the board that they touch.
type index struct {
	leads map[grid.Hole][]int
	tiles map[tile][]int
}

// A tile is a square of tileSide holes.
type tile struct{ x, y int }

const tileSide = 6

// clearance is what a body needs beside it before a hole next to it counts as free. Common
// practice, no source; it is less than the 0.93 mm that a 40-pin module leaves.
const clearance grid.Millimetre = 0.3

func indexOf(r *Result) *index {
	ix := &index{leads: make(map[grid.Hole][]int, len(r.Leads)), tiles: map[tile][]int{}}
	for i := range r.Leads {
		h := r.Leads[i].Hole
		ix.leads[h] = append(ix.leads[h], i)
	}
	for i := range r.Bodies {
		ix.each(r.Bodies[i].Rect.Grown(clearance), func(t tile) { ix.tiles[t] = append(ix.tiles[t], i) })
	}
	return ix
}

// each calls visit with every tile that r touches.
func (ix *index) each(r grid.Rect, visit func(tile)) {
	from, to := tileOf(r.Min), tileOf(r.Max)
	for y := from.y; y <= to.y; y++ {
		for x := from.x; x <= to.x; x++ {
			visit(tile{x, y})
		}
	}
}

// near returns the bodies that share a tile with r, each once, in order.
func (ix *index) near(r grid.Rect) []int {
	var found []int
	ix.each(r, func(t tile) { found = append(found, ix.tiles[t]...) })
	slices.Sort(found)
	return slices.Compact(found)
}

// around returns the bodies that share a tile with p, in order.
func (ix *index) around(p grid.Point) []int { return ix.tiles[tileOf(p)] }

func tileOf(p grid.Point) tile {
	h := grid.Nearest(p)
	return tile{floorDiv(h.Col, tileSide), floorDiv(h.Row, tileSide)}
}

func floorDiv(n, by int) int {
	q := n / by
	if n%by < 0 {
		q--
	}
	return q
}

// LeadAt returns the leads in hole h: none, one, or several that clash.
func (r *Result) LeadAt(h grid.Hole) []Lead {
	var found []Lead
	if r.index != nil {
		for _, i := range r.index.leads[h] {
			found = append(found, r.Leads[i])
		}
		return found
	}
	for _, l := range r.Leads {
		if l.Hole == h {
			found = append(found, l)
		}
	}
	return found
}

// Covered returns the first part with a body on face f over hole h, or within 0.3 mm beside it,
// that leaves less than room between itself and the board.
func (r *Result) Covered(h grid.Hole, f grid.Face, room grid.Millimetre) (ref string, ok bool) {
	at := h.Centre()
	if r.index != nil {
		for _, i := range r.index.around(at) {
			if b := &r.Bodies[i]; b.Face == f && b.StandOff < room && b.over(at) {
				return b.Ref, true
			}
		}
		return "", false
	}
	for i := range r.Bodies {
		if b := &r.Bodies[i]; b.Face == f && b.StandOff < room && b.over(at) {
			return b.Ref, true
		}
	}
	return "", false
}

// Drilled returns the part whose drill takes copper away at hole h: the drill reaches the pad,
// which is taken to be 1.8 mm across.
func (r *Result) Drilled(h grid.Hole) (ref string, ok bool) {
	for _, d := range r.Drills {
		if d.At.Distance(h.Centre()) < d.Diameter/2+padRadius {
			return d.Ref, true
		}
	}
	return "", false
}
