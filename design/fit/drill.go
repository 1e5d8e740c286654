package fit

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
)

// drills says where each part wants holes off the grid, and finds those that would break into what
// another part needs.
func (s *scene) drills() {
	for i := range s.spots {
		sp := &s.spots[i]
		if len(sp.drills) == 0 || !slices.ContainsFunc(sp.leads, func(l Lead) bool { return l.Board != "" }) {
			continue
		}
		var says []string
		var holes []grid.Hole
		for _, d := range sp.drills {
			says = append(says, fmt.Sprintf("%.1f mm %s", d.Diameter, placeName(d.At)))
			holes = append(holes, grid.Nearest(d.At))
		}
		why := ""
		if w := sp.drills[0].Why; w != "" {
			why = " (" + w + ")"
		}
		s.say(finding.Note, "fit-drill", finding.Where{Refs: []string{sp.placed.Ref}, Holes: distinct(holes)},
			fmt.Sprintf("%s wants %s drilled: %s%s.", sp.placed.Ref, count(len(says), "hole"), finding.Names(says), why),
			"Drill before anything is soldered, and cut away what copper is left loose.")
		for _, d := range sp.drills {
			s.drillHits(d)
		}
	}
}

// placeName says where a point is from its nearest hole, such as "0.8 mm right of C7".
func placeName(p grid.Point) string {
	h := grid.Nearest(p)
	d := p.Minus(h.Centre())
	x, y := "", ""
	switch {
	case d.X >= 0.05:
		x = fmt.Sprintf("%.1f mm right", d.X)
	case d.X <= -0.05:
		x = fmt.Sprintf("%.1f mm left", -d.X)
	}
	switch {
	case d.Y >= 0.05:
		y = fmt.Sprintf("%.1f mm below", d.Y)
	case d.Y <= -0.05:
		y = fmt.Sprintf("%.1f mm above", -d.Y)
	}
	switch {
	case x == "" && y == "":
		return "at " + h.String()
	case y == "":
		return x + " of " + h.String()
	case x == "":
		return y + " " + h.String()
	}
	return x + " and " + y + " " + h.String()
}

// drillHits finds the first hole, drill or body of another part that the drill would break into.
func (s *scene) drillHits(d Drill) {
	hit := s.hitBy(d)
	if hit == "" || s.refused[pairOf(d.Ref, hit)] {
		return
	}
	s.refused[pairOf(d.Ref, hit)] = true
	s.say(finding.Stop, "fit-drill-hits", finding.Where{Refs: []string{d.Ref, hit}, Holes: []grid.Hole{grid.Nearest(d.At)}},
		fmt.Sprintf("The %.1f mm hole that %s wants %s runs into %s.", d.Diameter, d.Ref, placeName(d.At), hit),
		fmt.Sprintf("Move %s or %s.", d.Ref, hit))
}

func (s *scene) hitBy(d Drill) string {
	reach := grid.Point{X: d.Diameter/2 + holeRadius, Y: d.Diameter/2 + holeRadius}
	box := grid.Rect{Min: d.At.Minus(reach), Max: d.At.Add(reach)}
	for _, h := range box.Holes() {
		for _, i := range s.result.index.leads[h] {
			if ref := s.result.Leads[i].Ref; ref != d.Ref && d.At.Distance(h.Centre()) < d.Diameter/2+holeRadius {
				return ref
			}
		}
	}
	for _, other := range s.result.Drills {
		if other.Ref != d.Ref && other.At.Distance(d.At) < (d.Diameter+other.Diameter)/2 {
			return other.Ref
		}
	}
	disc := Body{Rect: box.Grown(-holeRadius), Round: true}
	for _, i := range s.result.index.near(box) {
		if b := &s.result.Bodies[i]; b.Ref != d.Ref && b.StandOff < JointRoom && disc.reach(b) > touching {
			return b.Ref
		}
	}
	return ""
}
