package sheet

import (
	"fascia/design/grid"
	"fascia/design/panel"
)

// drawBoards draws the laminate of every board and the seams between them.
func (s *scene) drawBoards() {
	for i := range s.Panel.Boards {
		b := &s.Panel.Boards[i]
		s.tag("g", "board")
		s.word("data-board", b.ID)
		s.word("data-at", b.At.String())
		s.whole("data-columns", b.Columns)
		s.whole("data-rows", b.Rows)
		s.open()
		s.rect(s.area(b.Outline()), 1, laminate(b))
		s.end("g")
	}
	for i := range s.Panel.Boards {
		if line, ok := seamLine(s.Panel, &s.Panel.Boards[i]); ok {
			s.line(s.lens.point(line.Min), s.lens.point(line.Max), "seam")
		}
	}
}

// laminate guesses the board's stuff from its making: plated boards are sold in glass epoxy, the
// others mostly in phenolic paper. From memory.
func laminate(b *panel.Board) class {
	if b.Plated {
		return "laminate-epoxy"
	}
	return "laminate-phenolic"
}

// seamLine is the line along which b meets its neighbour, half-way between the two edges and a
// little longer than the part they share.
func seamLine(p *panel.Panel, b *panel.Board) (grid.Rect, bool) {
	if b.Seam == nil {
		return grid.Rect{}, false
	}
	for i := range p.Boards {
		if p.Boards[i].ID != b.Seam.Board {
			continue
		}
		m, n := b.Outline(), p.Boards[i].Outline()
		if b.Seam.Side == "left" || b.Seam.Side == "right" {
			x := between(m.Min.X, m.Max.X, n.Min.X, n.Max.X)
			return grid.Rect{
				Min: grid.Point{X: x, Y: max(m.Min.Y, n.Min.Y) - 1.5},
				Max: grid.Point{X: x, Y: min(m.Max.Y, n.Max.Y) + 1.5},
			}, true
		}
		y := between(m.Min.Y, m.Max.Y, n.Min.Y, n.Max.Y)
		return grid.Rect{
			Min: grid.Point{X: max(m.Min.X, n.Min.X) - 1.5, Y: y},
			Max: grid.Point{X: min(m.Max.X, n.Max.X) + 1.5, Y: y},
		}, true
	}
	return grid.Rect{}, false
}

// between is half-way from the end of one interval to the start of the other.
func between(aMin, aMax, bMin, bMax grid.Millimetre) grid.Millimetre {
	if aMin+aMax < bMin+bMax {
		return (aMax + bMin) / 2
	}
	return (bMax + aMin) / 2
}

// drawLabels names the columns and rows along the outer edges of each board, every fifth one so
// that it stays when the sheet is seen from far.
func (s *scene) drawLabels() {
	for i := range s.Panel.Boards {
		b := &s.Panel.Boards[i]
		r := s.area(b.Outline())
		for c := range b.Columns {
			h := b.At.Add(grid.Offset{Cols: c})
			x := s.seat(b, h).X
			for _, y := range s.freeEdges(b, r.Min.Y-1.2, r.Max.Y+1.2, false) {
				s.gridLabel(grid.Point{X: x, Y: y}, grid.ColumnName(h.Col), h.Col)
			}
		}
		for row := range b.Rows {
			h := b.At.Add(grid.Offset{Rows: row})
			y := s.seat(b, h).Y
			for _, x := range s.freeEdges(b, r.Min.X-1.6, r.Max.X+1.6, true) {
				s.gridLabel(grid.Point{X: x, Y: y}, rowName(h.Row), h.Row)
			}
		}
	}
}

func (s *scene) gridLabel(at grid.Point, name string, index int) {
	if !s.shows(grid.RectOf(at, at)) {
		return
	}
	if index%5 == 4 || index == 0 {
		s.text(at, 1.4, name, "grid-label")
		return
	}
	s.text(at, 1.4, name, "grid-label", "detail-middle")
}

// freeEdges keeps those of two label lines, at a and z, that do not run into another board.
func (s *scene) freeEdges(b *panel.Board, a, z grid.Millimetre, across bool) []grid.Millimetre {
	var free []grid.Millimetre
	c := s.area(b.Outline()).Centre()
	for _, v := range []grid.Millimetre{a, z} {
		at := grid.Point{X: c.X, Y: v}
		if across {
			at = grid.Point{X: v, Y: c.Y}
		}
		if !s.onAnother(b, grid.RectOf(at, at).Grown(4)) {
			free = append(free, v)
		}
	}
	return free
}

func (s *scene) onAnother(b *panel.Board, r grid.Rect) bool {
	for i := range s.Panel.Boards {
		if o := &s.Panel.Boards[i]; o.ID != b.ID && s.area(o.Outline()).Overlap(r) > 0 {
			return true
		}
	}
	return false
}

// seat is where a hole of b is on the sheet, the misfit of its seam included.
func (s *scene) seat(b *panel.Board, h grid.Hole) grid.Point {
	return s.lens.point(h.Centre().Add(b.Misfit()))
}

func rowName(row int) string { return grid.Hole{Row: row}.String()[1:] }
