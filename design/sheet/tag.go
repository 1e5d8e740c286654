package sheet

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/wiring"
)

// A stretch is a straight piece of a wire on the sheet that has room for its net's name.
type stretch struct {
	net    string
	a, b   grid.Point
	length grid.Millimetre
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
	placed := s.nameRooms()
	for _, net := range order {
		placed = s.drawTag(longest[net], placed)
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
		list = append(list, stretch{w.Net, a, b, a.Distance(b)})
	}
	return list
}

const tagSize = 1.1

// drawTag writes a name on its stretch where it covers no other name, and returns what is covered.
// A stretch too short for its name, or without a free place, goes without.
func (s *scene) drawTag(t stretch, placed []grid.Rect) []grid.Rect {
	name := shortened(t.net, MaxLegend)
	width := breadth(name) * tagSize
	if t.length < 3 || t.length < width*0.7 {
		return placed
	}
	x := axisOf(t.a, t.b)
	for _, share := range []grid.Millimetre{0.5, 0.35, 0.65, 0.2, 0.8} {
		at := x.at(t.length*share, 0)
		room := x.bar(t.length*share-width/2, t.length*share+width/2, tagSize/2)
		if slices.ContainsFunc(placed, func(r grid.Rect) bool { return r.Overlap(room) > 0 }) {
			continue
		}
		s.writeTag(t, at, name)
		return append(placed, room)
	}
	return placed
}

func (s *scene) writeTag(t stretch, at grid.Point, name string) {
	s.tag("g", "net-name")
	if s.classes {
		s.word("data-net", t.net)
	}
	s.open()
	if t.a.X == t.b.X {
		s.upward(at, tagSize, name, "net-tag", "detail-middle")
	} else {
		s.text(at, tagSize, name, "net-tag", "detail-middle")
	}
	s.end("g")
}
