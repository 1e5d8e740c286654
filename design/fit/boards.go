package fit

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// boardsOverlap finds boards that want the same holes, or whose laminate would overlap. Boards that
// share a seam may overlap there: that much is filed off.
func (s *scene) boardsOverlap() {
	boards := s.panel.Boards
	for i := range boards {
		for j := i + 1; j < len(boards); j++ {
			a, b := &boards[i], &boards[j]
			if first, n := commonHoles(a, b); n > 0 {
				s.say(finding.Stop, "fit-boards-overlap", finding.Where{Holes: []grid.Hole{first}},
					fmt.Sprintf("Boards %s and %s share %s, %s first.", a.ID, b.ID, count(n, "hole"), first),
					fmt.Sprintf("Move board %s clear of board %s.", b.ID, a.ID))
				continue
			}
			if d := a.Outline().Overlap(b.Outline()); d > touching && !seamed(a, b) {
				s.say(finding.Stop, "fit-boards-overlap", finding.Where{Holes: []grid.Hole{b.At}},
					fmt.Sprintf("The edges of boards %s and %s overlap by %.1f mm.", a.ID, b.ID, d),
					fmt.Sprintf("Move board %s away, or give it a seam to board %s and file the edges.", b.ID, a.ID))
			}
		}
	}
}

func seamed(a, b *panel.Board) bool {
	return a.Seam != nil && a.Seam.Board == b.ID || b.Seam != nil && b.Seam.Board == a.ID
}

// commonHoles returns the top left hole that both boards hold, and how many there are.
func commonHoles(a, b *panel.Board) (first grid.Hole, n int) {
	left, top := max(a.At.Col, b.At.Col), max(a.At.Row, b.At.Row)
	right := min(a.At.Col+a.Columns, b.At.Col+b.Columns)
	bottom := min(a.At.Row+a.Rows, b.At.Row+b.Rows)
	if right <= left || bottom <= top {
		return grid.Hole{}, 0
	}
	return grid.Hole{Col: left, Row: top}, (right - left) * (bottom - top)
}

// filedOutlines are the boards' outlines as they are when the edges at the seams have been filed:
// what overlaps is taken off both edges in equal parts.
func filedOutlines(p *panel.Panel) []grid.Rect {
	outlines := make([]grid.Rect, len(p.Boards))
	for i := range p.Boards {
		outlines[i] = p.Boards[i].Outline()
	}
	for i := range p.Boards {
		n := neighbour(p, i)
		if n < 0 || outlines[i].Overlap(outlines[n]) <= 0 || seamSteps(&p.Boards[n], &p.Boards[i]) < 1 {
			continue
		}
		a, b := &outlines[n], &outlines[i]
		switch p.Boards[i].Seam.Side {
		case "left":
			meetHalfWay(&b.Max.X, &a.Min.X)
		case "right":
			meetHalfWay(&a.Max.X, &b.Min.X)
		case "top":
			meetHalfWay(&b.Max.Y, &a.Min.Y)
		case "bottom":
			meetHalfWay(&a.Max.Y, &b.Min.Y)
		}
	}
	return outlines
}

func meetHalfWay(a, b *grid.Millimetre) {
	middle := (*a + *b) / 2
	*a, *b = middle, middle
}

// neighbour returns the index of the board that board i has a seam to, or -1.
func neighbour(p *panel.Panel, i int) int {
	if p.Boards[i].Seam == nil {
		return -1
	}
	for n := range p.Boards {
		if n != i && p.Boards[n].ID == p.Boards[i].Seam.Board {
			return n
		}
	}
	return -1
}
