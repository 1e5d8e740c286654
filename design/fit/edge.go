package fit

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
)

// offBoard finds terminals that are in no hole of any board.
func (s *scene) offBoard() {
	for i := range s.spots {
		sp := &s.spots[i]
		var off []grid.Hole
		for _, l := range sp.leads {
			if l.Board == "" {
				off = append(off, l.Hole)
			}
		}
		if len(off) == 0 {
			continue
		}
		fix := "Move " + sp.placed.Ref + " onto a board, or make the board larger."
		if len(s.panel.Boards) == 0 {
			fix = "Add a board first."
		}
		where := finding.Where{Refs: []string{sp.placed.Ref}, Holes: distinct(off)}
		s.say(finding.Stop, "fit-off-board", where,
			fmt.Sprintf("%s has %d of its %s on no board.", sp.placed.Ref, len(off), count(len(sp.leads), "lead")), fix)
	}
}

// wrongFace finds parts whose joints would be on a face without copper.
func (s *scene) wrongFace() {
	for i := range s.spots {
		sp := &s.spots[i]
		var bare []grid.Hole
		for _, l := range sp.leads {
			if b := s.panel.BoardAt(l.Hole); b != nil && !b.HasCopper(l.SolderFace) {
				bare = append(bare, l.Hole)
			}
		}
		if len(bare) == 0 {
			continue
		}
		face := sp.placed.Face
		s.say(finding.Stop, "fit-wrong-face", finding.Where{Refs: []string{sp.placed.Ref}, Holes: distinct(bare)},
			fmt.Sprintf("%s sits on the %s, so its joints would be on the %s, where the board has no copper.", sp.placed.Ref, face, face.Other()),
			fmt.Sprintf("Put %s on the %s.", sp.placed.Ref, face.Other()))
	}
}

// sideNames are the sides of a part or board, clockwise; a quarter turn moves each one on.
var sideNames = [4]string{"left", "top", "right", "bottom"}

// mayOverhang reports, for left, top, right and bottom of the board, whether the part has a body
// that is made to reach over that side.
func (sp *spot) mayOverhang() (may [4]bool) {
	for _, b := range sp.def.Bodies {
		for side, name := range sideNames {
			if b.Overhang != name {
				continue
			}
			if sp.placed.Face == grid.Back && side%2 == 0 {
				side = 2 - side // seen through the board, left and right change places
			}
			may[(side+int(sp.placed.Turn))%4] = true
		}
	}
	return may
}

// overhangs finds bodies that reach over the edge of the boards. An edge that the definition lets
// overhang is silent, and so is a part with leads off the boards, which has been refused already.
func (s *scene) overhangs() {
	for i := range s.spots {
		sp := &s.spots[i]
		if len(sp.leads) == 0 || slices.ContainsFunc(sp.leads, func(l Lead) bool { return l.Board == "" }) {
			continue
		}
		var by [4]grid.Millimetre
		for _, b := range sp.bodies {
			for side, d := range s.sticksOut(b.Rect) {
				by[side] = max(by[side], d)
			}
		}
		may := sp.mayOverhang()
		for side, d := range by {
			if d < touching || may[side] {
				continue
			}
			s.say(finding.Mind, "fit-overhang", finding.Where{Refs: []string{sp.placed.Ref}},
				fmt.Sprintf("%s hangs %.1f mm over the edge of the board at the %s.", sp.placed.Ref, d, sideNames[side]),
				"Move it inward, or leave that much room in the case.")
		}
	}
}

// sticksOut tells how far r reaches beyond the boards to the left, top, right and bottom. A gap
// between two boards is not an edge.
func (s *scene) sticksOut(r grid.Rect) (by [4]grid.Millimetre) {
	for _, piece := range remainder(r, s.outlines) {
		var beside [4]bool // on which sides of the piece a board lies
		for _, o := range s.outlines {
			x := min(piece.Max.X, o.Max.X) - max(piece.Min.X, o.Min.X)
			y := min(piece.Max.Y, o.Max.Y) - max(piece.Min.Y, o.Min.Y)
			beside[0] = beside[0] || y > touching && same(o.Max.X, piece.Min.X)
			beside[1] = beside[1] || x > touching && same(o.Max.Y, piece.Min.Y)
			beside[2] = beside[2] || y > touching && same(o.Min.X, piece.Max.X)
			beside[3] = beside[3] || x > touching && same(o.Min.Y, piece.Max.Y)
		}
		if beside[0] && beside[2] || beside[1] && beside[3] {
			continue
		}
		extent := [4]grid.Millimetre{piece.Width(), piece.Height(), piece.Width(), piece.Height()}
		for side := range by {
			if beside[(side+2)%4] { // the board is on the far side of what sticks out
				by[side] = max(by[side], extent[side])
			}
		}
	}
	return by
}

func same(a, b grid.Millimetre) bool { return a-b < 1e-6 && b-a < 1e-6 }

// remainder returns what is left of r when holes are cut out of it, as upright rectangles.
func remainder(r grid.Rect, cut []grid.Rect) []grid.Rect {
	pieces := []grid.Rect{r}
	for _, c := range cut {
		var left []grid.Rect
		for _, p := range pieces {
			left = append(left, without(p, c)...)
		}
		pieces = left
	}
	return pieces
}

// without returns p less c: the strips above and below c at full width, then those beside it.
func without(p, c grid.Rect) []grid.Rect {
	if p.Overlap(c) <= 0 {
		return []grid.Rect{p}
	}
	var left []grid.Rect
	add := func(x0, y0, x1, y1 grid.Millimetre) {
		if x1 > x0 && y1 > y0 {
			left = append(left, grid.Rect{Min: grid.Point{X: x0, Y: y0}, Max: grid.Point{X: x1, Y: y1}})
		}
	}
	top, bottom := max(p.Min.Y, c.Min.Y), min(p.Max.Y, c.Max.Y)
	add(p.Min.X, p.Min.Y, p.Max.X, top)
	add(p.Min.X, bottom, p.Max.X, p.Max.Y)
	add(p.Min.X, top, max(p.Min.X, c.Min.X), bottom)
	add(min(p.Max.X, c.Max.X), top, p.Max.X, bottom)
	return left
}
