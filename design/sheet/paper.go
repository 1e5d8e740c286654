package sheet

import (
	"fmt"
	"math"

	"fascia/design/grid"
)

// On paper a drawing is as large as the thing: a millimetre of the view box is one of paper. Round
// it go the hole names, a bar to check the printer with along each axis, and a title.

const (
	barLength  = 100
	titleRoom  = 12
	rulerRoom  = 10
	paperInset = 4
)

// paper is the view box: the drawing, the bars above and left, the title under it. It begins and
// ends at whole millimetres, so that rounding coordinates leaves the bars their length.
func (s *scene) paper() grid.Rect {
	r := s.withNames(s.extent(s.Panel, labelRoom))
	whole := func(mm grid.Millimetre, round func(float64) float64) grid.Millimetre {
		return grid.Millimetre(round(float64(mm)))
	}
	r.Min = grid.Point{X: whole(r.Min.X, math.Floor), Y: whole(r.Min.Y, math.Floor)}
	r.Max = grid.Point{X: whole(r.Max.X, math.Ceil), Y: whole(r.Max.Y, math.Ceil)}
	r.Min = r.Min.Add(grid.Point{X: -rulerRoom, Y: -rulerRoom})
	r.Max.Y += titleRoom
	r.Max.X = max(r.Max.X, r.Min.X+rulerRoom+barLength)
	r.Max.Y = max(r.Max.Y, r.Min.Y+rulerRoom+barLength+titleRoom)
	return r.Grown(paperInset)
}

func (s *scene) drawPaperMarks() {
	in := s.window.Grown(-paperInset)
	corner := grid.Point{X: in.Min.X + rulerRoom, Y: in.Min.Y + 4}
	s.checkBar(axisOf(corner, corner.Add(grid.Point{X: 1})))
	corner = grid.Point{X: in.Min.X + 4, Y: in.Min.Y + rulerRoom}
	s.checkBar(axisOf(corner, corner.Add(grid.Point{Y: 1})))
	base := in.Max.Y - titleRoom + 5
	s.text(grid.Point{X: in.Min.X + rulerRoom, Y: base}, 4, shortened(s.Panel.Name, 48), "paper-title")
	says := fmt.Sprintf("%s, 1:1. Print at actual size: the bars must measure %d mm.", s.faceWords(), barLength)
	size := min(2.2, 0.9*(in.Width()-rulerRoom)/breadth(says))
	s.text(grid.Point{X: in.Min.X + rulerRoom, Y: base + 5}, size, says, "paper-text")
}

func (s *scene) faceWords() string {
	if s.Face == grid.Back {
		return "Back, mirrored as the solderer sees it"
	}
	return "Front, as the player sees it"
}

// checkBar is a bar of 100 mm with a tick every 10 and its length in words.
func (s *scene) checkBar(x axis) {
	t := new(trace).move(x.at(0, 0)).line(x.at(barLength, 0))
	for i := 0; i <= barLength; i += 10 {
		reach := grid.Millimetre(1)
		if i%50 == 0 {
			reach = 2
		}
		at := grid.Millimetre(i)
		t.move(x.at(at, -reach)).line(x.at(at, reach))
	}
	s.path(t, "ruler")
	mid := x.at(barLength/4, -2.4)
	if x.along.X == 0 {
		s.upward(x.at(barLength/4, 2.4), 2.2, "100 mm", "value")
		return
	}
	s.text(mid, 2.2, "100 mm", "value")
}
