package fit

import (
	"fmt"
	"math"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// A clash is how deeply two parts overlap on one face, and where.
type clash struct {
	depth grid.Millimetre
	at    grid.Point
}

// overlaps finds bodies of different parts that want the same room on one face. A body that stands
// off 0.5 mm above a lower one shares its place, and must then go in after it.
func (s *scene) overlaps() {
	type place struct {
		pair
		face grid.Face
	}
	worst := map[place]clash{}
	var order []place
	bodies := s.result.Bodies
	for i := range bodies {
		for _, j := range s.result.index.near(bodies[i].Rect) {
			a, b := &bodies[i], &bodies[j]
			if j <= i || a.Ref == b.Ref || a.Face != b.Face {
				continue
			}
			depth := a.reach(b)
			switch {
			case depth < touching:
			case a.bridges(b):
				s.goesUnder(b, a)
			case b.bridges(a):
				s.goesUnder(a, b)
			default:
				at := place{pairOf(a.Ref, b.Ref), a.Face}
				if _, known := worst[at]; !known {
					order = append(order, at)
				}
				if depth > worst[at].depth {
					worst[at] = clash{depth, shared(a.Rect, b.Rect).Centre()}
				}
			}
		}
	}
	for _, at := range order {
		s.refused[at.pair] = true
		s.sayOverlap(at.pair, at.face, worst[at])
	}
}

func (s *scene) sayOverlap(p pair, f grid.Face, c clash) {
	holes := int(math.Ceil(float64(c.depth/grid.Pitch) - 1e-6))
	where := finding.Where{Refs: []string{p.a, p.b}, Holes: []grid.Hole{grid.Nearest(c.at)}}
	s.say(finding.Stop, "fit-body-overlap", where,
		fmt.Sprintf("%s and %s overlap by %.1f mm on the %s.", p.a, p.b, c.depth, f),
		fmt.Sprintf("Move them %s further apart, or put one on the %s.", count(holes, "hole"), f.Other()))
}

// goesUnder notes that low must be in place before high comes to lie over it, unless high comes
// off its socket.
func (s *scene) goesUnder(low, high *Body) {
	if !high.Plugged {
		s.order(Order{First: low.Ref, Then: high.Ref, Hole: grid.Nearest(low.Rect.Centre()), Face: low.Face, Under: true})
	}
}

func shared(a, b grid.Rect) grid.Rect {
	return grid.Rect{Min: grid.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: grid.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)}}
}

// sharedHoles finds holes that the leads of two parts want.
func (s *scene) sharedHoles() {
	byPair := map[pair][]grid.Hole{}
	var order []pair
	for i := range s.result.Leads {
		l := &s.result.Leads[i]
		for _, j := range s.result.index.leads[l.Hole] {
			other := &s.result.Leads[j]
			if j <= i || other.Ref == l.Ref || l.Board == "" {
				continue
			}
			p := pairOf(l.Ref, other.Ref)
			if byPair[p] == nil {
				order = append(order, p)
			}
			byPair[p] = append(byPair[p], l.Hole)
		}
	}
	for _, p := range order {
		holes := distinct(byPair[p])
		s.refused[p] = true
		s.say(finding.Stop, "fit-hole-shared", finding.Where{Refs: []string{p.a, p.b}, Holes: holes},
			fmt.Sprintf("%s and %s both want %s %s.", p.a, p.b, plural(len(holes), "hole"), holeNames(holes)),
			"Move one of them; a hole takes one lead.")
	}
}

// count writes a number with its noun: 1 hole, 2 holes.
func count(n int, noun string) string { return fmt.Sprintf("%d %s", n, plural(n, noun)) }

func plural(n int, noun string) string {
	if n == 1 {
		return noun
	}
	return noun + "s"
}

// compareOrders puts orders by the covering part, the covered part, and the hole.
func compareOrders(a, b Order) int {
	if c := panel.CompareRefs(a.Then, b.Then); c != 0 {
		return c
	}
	if c := panel.CompareRefs(a.First, b.First); c != 0 {
		return c
	}
	if c := a.Hole.Compare(b.Hole); c != 0 {
		return c
	}
	if a.Under != b.Under {
		if b.Under {
			return -1
		}
		return 1
	}
	return int(a.Face) - int(b.Face)
}
