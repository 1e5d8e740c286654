package panel

import (
	"slices"

	"fascia/design/grid"
)

// DefaultMargin is the distance from outer hole centres to the edge when a board gives none: half
// a step, the least that leaves laminate beside a pad.
const DefaultMargin = 1.27

// Holds reports whether h is a hole of b.
func (b *Board) Holds(h grid.Hole) bool {
	c, r := h.Col-b.At.Col, h.Row-b.At.Row
	return c >= 0 && r >= 0 && c < b.Columns && r < b.Rows
}

// Outline is the board's edge in the common grid, its misfit included.
func (b *Board) Outline() grid.Rect {
	m := [4]float64{DefaultMargin, DefaultMargin, DefaultMargin, DefaultMargin}
	if b.Margins != nil {
		m = *b.Margins
	}
	shift := b.Misfit()
	first := b.At.Centre().Add(shift)
	last := b.At.Add(grid.Offset{Cols: b.Columns - 1, Rows: b.Rows - 1}).Centre().Add(shift)
	return grid.Rect{
		Min: grid.Point{X: first.X - grid.Millimetre(m[0]), Y: first.Y - grid.Millimetre(m[1])},
		Max: grid.Point{X: last.X + grid.Millimetre(m[2]), Y: last.Y + grid.Millimetre(m[3])},
	}
}

// Misfit is how far the board's holes lie from the common grid, in millimetres right and down.
func (b *Board) Misfit() grid.Point {
	if b.Seam == nil {
		return grid.Point{}
	}
	across, along := grid.Millimetre(b.Seam.AcrossMM), grid.Millimetre(b.Seam.AlongMM)
	switch b.Seam.Side {
	case "left":
		return grid.Point{X: -across, Y: along}
	case "right":
		return grid.Point{X: across, Y: along}
	case "top":
		return grid.Point{X: along, Y: -across}
	default:
		return grid.Point{X: along, Y: across}
	}
}

// HasCopper reports whether face f of the board carries pads.
func (b *Board) HasCopper(f grid.Face) bool {
	switch b.Faces {
	case BackOnly:
		return f == grid.Back
	case FrontOnly:
		return f == grid.Front
	}
	return true
}

// OneNode reports whether both faces of each hole are one node: the board is plated, or only one
// face carries copper.
func (b *Board) OneNode() bool { return b.Plated || b.Faces == BackOnly || b.Faces == FrontOnly }

// BoardAt returns the board that holds h, or nil. Boards of a valid panel share no hole.
func (p *Panel) BoardAt(h grid.Hole) *Board {
	for i := range p.Boards {
		if p.Boards[i].Holds(h) {
			return &p.Boards[i]
		}
	}
	return nil
}

// Mates returns the holes that b's own copper joins with h, h included, in order: the rest of its
// strip up to the nearest cuts, its group, or h alone. A hole that is cut has no strip.
func (b *Board) Mates(h grid.Hole) []grid.Hole {
	switch b.Copper {
	case Groups:
		for _, g := range b.Groups {
			if slices.Contains(g, h) {
				return g
			}
		}
	case Strips:
		if slices.Contains(b.Cuts, h) {
			return []grid.Hole{h}
		}
		step := grid.Offset{Cols: 1}
		if b.Along == "columns" {
			step = grid.Offset{Rows: 1}
		}
		back := grid.Offset{Cols: -step.Cols, Rows: -step.Rows}
		first := h
		for n := first.Add(back); b.Holds(n) && !slices.Contains(b.Cuts, n); n = n.Add(back) {
			first = n
		}
		var strip []grid.Hole
		for n := first; b.Holds(n) && !slices.Contains(b.Cuts, n); n = n.Add(step) {
			strip = append(strip, n)
		}
		return strip
	}
	return []grid.Hole{h}
}
