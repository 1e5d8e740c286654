package fit

import (
	"fmt"
	"math"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// A Filing says how to keep the pitch across a seam, from the distances of both edges to their
// first rows of holes: with e1 + e2 = k steps and a rest, either file half the rest off each edge,
// or put a spacer between the unfiled edges.
type Filing struct {
	Steps  int             // whole steps from hole to hole when filed
	Each   grid.Millimetre // to be filed off each edge
	Spacer grid.Millimetre // between unfiled edges, for Steps + 1
}

// FilingOf works out the filing for two edges; e1 and e2 are never negative.
func FilingOf(e1, e2 grid.Millimetre) Filing {
	sum := float64(e1 + e2)
	k := math.Floor(sum/float64(grid.Pitch) + 1e-9)
	rest := max(0, sum-k*float64(grid.Pitch))
	if rest < 1e-9 {
		return Filing{Steps: int(k)}
	}
	return Filing{int(k), grid.Millimetre(rest / 2), grid.Pitch - grid.Millimetre(rest)}
}

// seamTolerance is how far pins of 0.64 mm in holes of 1.0 mm forgive a seam (computed; common
// practice, no source).
const seamTolerance grid.Millimetre = 0.15

// seams looks at every board that joins another: that the neighbour exists and lies where the seam
// says, that the grids meet, and what must come off the edges.
func (s *scene) seams() {
	for i := range s.panel.Boards {
		b := &s.panel.Boards[i]
		if b.Seam == nil {
			continue
		}
		where := finding.Where{Holes: []grid.Hole{b.At}}
		n := neighbour(s.panel, i)
		if n < 0 {
			s.say(finding.Stop, "fit-seam-unknown", where,
				fmt.Sprintf("Board %s has a seam to board %q, which is not on this panel.", b.ID, b.Seam.Board),
				"Name a board of this panel, or take the seam away.")
			continue
		}
		a := &s.panel.Boards[n]
		steps := seamSteps(a, b)
		if steps < 1 {
			s.say(finding.Stop, "fit-seam-side", where,
				fmt.Sprintf("Board %s does not lie at the %s of board %s, as its seam says.", b.ID, b.Seam.Side, a.ID),
				fmt.Sprintf("Move board %s beside board %s, or name the side at which it lies.", b.ID, a.ID))
			continue
		}
		s.seamMisfit(a, b, where)
		s.seamEdges(a, b, steps, where)
	}
}

// seamSteps is how many steps lie between the rows of holes that meet at b's seam to a; 0 when b
// is not beside a there.
func seamSteps(a, b *panel.Board) int {
	besideRows := b.At.Row < a.At.Row+a.Rows && a.At.Row < b.At.Row+b.Rows
	besideColumns := b.At.Col < a.At.Col+a.Columns && a.At.Col < b.At.Col+b.Columns
	switch {
	case b.Seam.Side == "left" && besideRows:
		return a.At.Col - (b.At.Col + b.Columns - 1)
	case b.Seam.Side == "right" && besideRows:
		return b.At.Col - (a.At.Col + a.Columns - 1)
	case b.Seam.Side == "top" && besideColumns:
		return a.At.Row - (b.At.Row + b.Rows - 1)
	case b.Seam.Side == "bottom" && besideColumns:
		return b.At.Row - (a.At.Row + a.Rows - 1)
	}
	return 0
}

// seamMisfit says when the grids miss each other by more than leads forgive.
func (s *scene) seamMisfit(a, b *panel.Board, where finding.Where) {
	across, along := grid.Millimetre(b.Seam.AcrossMM), grid.Millimetre(b.Seam.AlongMM)
	if off := abs(across); off > seamTolerance {
		e1, e2 := seamMargins(a, b)
		f := FilingOf(e1, e2)
		fix := fmt.Sprintf("File %.2f mm off each edge, which leaves %s from hole to hole, or put a spacer of %.2f mm between the unfiled edges for %d.",
			f.Each, count(f.Steps, "step"), f.Spacer, f.Steps+1)
		if f.Each == 0 {
			fix = fmt.Sprintf("Let the edges touch: unfiled they leave %s from hole to hole.", count(f.Steps, "step"))
		}
		s.say(finding.Mind, "fit-seam-misfit", where,
			fmt.Sprintf("The holes of boards %s and %s miss each other by %.2f mm across the seam.", a.ID, b.ID, off), fix)
	}
	if off := abs(along); off > seamTolerance {
		s.say(finding.Mind, "fit-seam-misfit", where,
			fmt.Sprintf("The holes of boards %s and %s miss each other by %.2f mm along the seam.", a.ID, b.ID, off),
			fmt.Sprintf("Shift board %s by %.2f mm while glueing; a long pin header through both boards sets it.", b.ID, off))
	}
}

// seamEdges says what must come off the edges, or between them, for the boards to lie as drawn.
func (s *scene) seamEdges(a, b *panel.Board, steps int, where finding.Where) {
	e1, e2 := seamMargins(a, b)
	rest := e1 + e2 - grid.Millimetre(steps)*grid.Pitch - grid.Millimetre(b.Seam.AcrossMM)
	switch {
	case rest > 0.05:
		s.say(finding.Note, "fit-seam-edges", where,
			fmt.Sprintf("Boards %s and %s lie %s apart at the seam, but their edges need %.2f mm.", a.ID, b.ID, count(steps, "step"), e1+e2),
			fmt.Sprintf("File %.2f mm off each edge.", rest/2))
	case rest < -0.05:
		s.say(finding.Note, "fit-seam-edges", where,
			fmt.Sprintf("Boards %s and %s leave a gap of %.2f mm at the seam.", a.ID, b.ID, -rest),
			fmt.Sprintf("Put a spacer of %.2f mm between the edges.", -rest))
	}
}

// seamMargins are the distances from the meeting edges to the first holes: the neighbour's, then
// the board's own.
func seamMargins(a, b *panel.Board) (e1, e2 grid.Millimetre) {
	for side, name := range sideNames {
		if name == b.Seam.Side {
			return margin(a, side), margin(b, (side+2)%4)
		}
	}
	return margin(a, 3), margin(b, 1)
}

func margin(b *panel.Board, side int) grid.Millimetre {
	if b.Margins == nil {
		return panel.DefaultMargin
	}
	return grid.Millimetre(b.Margins[side])
}

func abs(m grid.Millimetre) grid.Millimetre { return max(m, -m) }

// overSeams finds bodies that lie on two boards.
func (s *scene) overSeams() {
	for i := range s.spots {
		sp := &s.spots[i]
		for j := range s.panel.Boards {
			for k := j + 1; k < len(s.panel.Boards); k++ {
				if !sp.spans(s.outlines[j], s.outlines[k]) {
					continue
				}
				a, b := s.panel.Boards[j].ID, s.panel.Boards[k].ID
				s.say(finding.Mind, "fit-over-seam", finding.Where{Refs: []string{sp.placed.Ref}},
					fmt.Sprintf("%s lies across the seam of boards %s and %s.", sp.placed.Ref, a, b),
					fmt.Sprintf("Join the boards firmly before %s goes in, or move it onto one of them.", sp.placed.Ref))
			}
		}
	}
}

func (sp *spot) spans(a, b grid.Rect) bool {
	for _, body := range sp.bodies {
		if body.Rect.Overlap(a) > touching && body.Rect.Overlap(b) > touching {
			return true
		}
	}
	return false
}
