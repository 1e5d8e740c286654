package sheet

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
)

// drawCopper draws the metal and the holes of every board. A board's holes are a few paths of one
// line a row, dotted at the pitch, so that 4,800 holes weigh no more than their rows.
func (s *scene) drawCopper() {
	p := s.Panel
	if s.Wiring != nil {
		p = s.Wiring.WithCuts(p)
	}
	for i := range p.Boards {
		b := &p.Boards[i]
		rows := s.holeRows(b)
		switch {
		case s.Style == Picture:
			s.path(rows, "bore")
			continue
		case !b.HasCopper(s.Face):
			s.path(rows, "bore-edge")
		case b.Copper == panel.Strips:
			s.drawBars(s.stripBars(b))
		case b.Copper == panel.Groups:
			s.path(rows, "pad-edge")
			s.path(rows, "pad-copper")
			s.drawBars(s.groupBars(b))
		default:
			s.path(rows, "pad-edge")
			s.path(rows, padClass(b))
		}
		s.path(rows, "bore")
		if b.Copper == panel.Strips && b.HasCopper(s.Face) {
			s.drawCuts(b)
		}
	}
	for _, h := range s.Panel.Wires.KeepOut {
		if s.Style == Screen {
			s.cross(s.hole(h), 0.7, "keep-out")
		}
	}
}

func padClass(b *panel.Board) class {
	if b.Plated {
		return "pad-tinned"
	}
	return "pad-copper"
}

// holeRows is one line through each row of holes from left to right on the sheet. Dashes are laid
// from the start of each line, so it must start on a hole; it ends a little past the last one,
// lest rounding cost that hole its dot. A close-up keeps to the holes it shows.
func (s *scene) holeRows(b *panel.Board) *trace {
	t := &trace{}
	first, last := s.shownColumns(b)
	if s.Face == grid.Back {
		first, last = last, first
	}
	for row := range b.Rows {
		from := s.seat(b, b.At.Add(grid.Offset{Cols: first, Rows: row}))
		to := s.seat(b, b.At.Add(grid.Offset{Cols: last, Rows: row}))
		if !s.shows(grid.RectOf(from, to)) {
			continue
		}
		t.move(from).across(to.X + 0.2)
	}
	return t
}

// shownColumns are the first and last column of a board that a close-up shows any part of; all of
// them elsewhere. Printers turn every dot of a row into an outline, seen or not.
func (s *scene) shownColumns(b *panel.Board) (first, last int) {
	first, last = 0, b.Columns-1
	if s.Style != Bench {
		return first, last
	}
	shown := func(col int) bool {
		x := s.seat(b, b.At.Add(grid.Offset{Cols: col})).X
		return x >= s.window.Min.X-grid.Pitch && x <= s.window.Max.X+grid.Pitch
	}
	for first < last && !shown(first) {
		first++
	}
	for last > first && !shown(last) {
		last--
	}
	return first, last
}

func (s *scene) drawBars(bars *trace) {
	s.path(bars, "strip-edge")
	s.path(bars, "strip-copper")
}

// stripBars is a line for each run of strip between cuts.
func (s *scene) stripBars(b *panel.Board) *trace {
	t := &trace{}
	seen := map[grid.Hole]bool{}
	for row := range b.Rows {
		for col := range b.Columns {
			h := b.At.Add(grid.Offset{Cols: col, Rows: row})
			if seen[h] || slices.Contains(b.Cuts, h) {
				continue
			}
			run := b.Mates(h)
			for _, m := range run {
				seen[m] = true
			}
			t.move(s.seat(b, run[0])).line(s.seat(b, run[len(run)-1]))
		}
	}
	return t
}

// groupBars joins the holes of each group: neighbours by a bar, and any that has no neighbour in
// its group to the one before it.
func (s *scene) groupBars(b *panel.Board) *trace {
	t := &trace{}
	for _, g := range b.Groups {
		for i, h := range g {
			for j, m := range g[:i] {
				if h.Steps(m) == 1 || j == i-1 && !hasNeighbour(g, h) {
					t.move(s.seat(b, m)).line(s.seat(b, h))
				}
			}
		}
	}
	return t
}

func hasNeighbour(group []grid.Hole, h grid.Hole) bool {
	return slices.ContainsFunc(group, func(m grid.Hole) bool { return h.Steps(m) == 1 })
}

// drawCuts marks where a strip is cut away: the bare hole, crossed out.
func (s *scene) drawCuts(b *panel.Board) {
	for _, h := range b.Cuts {
		s.circle(s.seat(b, h), 1.05, "cut")
		s.cross(s.seat(b, h), 0.6, "cut-cross")
	}
}

func (s *scene) cross(c grid.Point, reach grid.Millimetre, classes ...class) {
	t := new(trace)
	t.move(grid.Point{X: c.X - reach, Y: c.Y - reach}).line(grid.Point{X: c.X + reach, Y: c.Y + reach})
	t.move(grid.Point{X: c.X + reach, Y: c.Y - reach}).line(grid.Point{X: c.X - reach, Y: c.Y + reach})
	s.path(t, classes...)
}
