package sheet

import (
	"fascia/design/grid"
	"fascia/design/wiring"
)

// A stretch is a straight piece of a wire on the sheet that has room for its net's name.
type stretch struct {
	net       string
	a, b      grid.Point
	length    grid.Millimetre
	insulated bool
}

// drawTags writes each net's name once, along the longest straight piece it has on this face.
func (s *scene) drawTags() {
	var order []string
	longest := map[string]stretch{}
	for i, w := range s.Wiring.Wires {
		if w.Face != s.Face || w.Kind == wiring.Leg || w.Kind == wiring.Solder {
			continue
		}
		if _, ok := longest[w.Net]; !ok {
			order = append(order, w.Net)
		}
		for _, piece := range s.stretches(i, w) {
			if piece.length > longest[w.Net].length+0.01 {
				longest[w.Net] = piece
			}
		}
	}
	for _, net := range order {
		s.drawTag(longest[net])
	}
}

func (s *scene) stretches(i int, w wiring.Wire) []stretch {
	points := s.routes[i]
	if points == nil {
		for _, h := range corners(append([]grid.Hole{w.From}, w.Path...)) {
			points = append(points, h.Centre())
		}
	}
	var list []stretch
	for j := 1; j < len(points); j++ {
		a, b := s.lens.point(points[j-1]), s.lens.point(points[j])
		list = append(list, stretch{w.Net, a, b, a.Distance(b), w.Kind == wiring.Insulated})
	}
	return list
}

func (s *scene) drawTag(t stretch) {
	const size = 1.15
	if t.length < 3 || t.length < breadth(t.net)*size*0.7 {
		return
	}
	c := grid.Point{X: (t.a.X + t.b.X) / 2, Y: (t.a.Y + t.b.Y) / 2}
	s.tag("g", "net-name")
	if s.classes {
		s.word("data-net", t.net)
	}
	s.open()
	if dx, dy := t.a.X-t.b.X, t.a.Y-t.b.Y; dx*dx < dy*dy {
		s.upward(c, size, shortened(t.net, MaxLegend), "net-tag", "detail-middle")
	} else {
		s.text(c, size, shortened(t.net, MaxLegend), "net-tag", "detail-middle")
	}
	s.end("g")
}
