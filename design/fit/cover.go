package fit

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
)

// A meeting is the holes at which the leads of one part meet a body of another on one face.
type meeting struct {
	lead, body string
	face       grid.Face
	joint      bool // on the face where the joints are made, not where the leads go in
	holes      []grid.Hole
	room       grid.Millimetre // the least that the body leaves
}

// covers finds leads and joints that lie under the body of another part. With less than JointRoom
// they cannot be there; with more, the joint must be made before the body covers it.
func (s *scene) covers() {
	var tight, roomy []meeting
	for i := range s.result.Leads {
		l := &s.result.Leads[i]
		if l.Board == "" {
			continue
		}
		for _, j := range s.result.index.around(l.Hole.Centre()) {
			b := &s.result.Bodies[j]
			if b.Ref == l.Ref || !b.over(l.Hole.Centre()) || s.refused[pairOf(l.Ref, b.Ref)] {
				continue
			}
			switch {
			case b.StandOff < JointRoom:
				tight = meet(tight, l, b)
			case b.Plugged: // it comes off again, so everything under it stays in reach
			default:
				s.order(Order{First: l.Ref, Then: b.Ref, Hole: l.Hole, Face: b.Face, Under: b.Face != l.SolderFace})
				if b.Face == l.SolderFace {
					roomy = meet(roomy, l, b)
				}
			}
		}
	}
	for _, m := range tight {
		s.sayTight(m)
	}
	s.sayCovered(roomy)
	slices.SortFunc(s.result.Orders, compareOrders)
	s.result.Orders = slices.Compact(s.result.Orders)
}

func (s *scene) order(o Order) { s.result.Orders = append(s.result.Orders, o) }

// meet adds the lead's hole to the meeting of the two parts.
func meet(list []meeting, l *Lead, b *Body) []meeting {
	for i := range list {
		if m := &list[i]; m.lead == l.Ref && m.body == b.Ref && m.face == b.Face {
			m.holes, m.room = append(m.holes, l.Hole), min(m.room, b.StandOff)
			return list
		}
	}
	return append(list, meeting{l.Ref, b.Ref, b.Face, b.Face == l.SolderFace, []grid.Hole{l.Hole}, b.StandOff})
}

func (s *scene) sayTight(m meeting) {
	holes := distinct(m.holes)
	what := "joint"
	if !m.joint {
		what = "lead"
	}
	s.say(finding.Stop, "fit-lead-under-body", finding.Where{Refs: []string{m.lead, m.body}, Holes: holes},
		fmt.Sprintf("%s has its %s at %s under the body of %s on the %s, which leaves %.1f mm; it needs %.0f mm.",
			m.lead, plural(len(holes), what), holeNames(holes), m.body, m.face, m.room, JointRoom),
		fmt.Sprintf("Move one of them, or raise %s on sockets.", m.body))
}

// sayCovered says once for each covering part which joints it hides.
func (s *scene) sayCovered(list []meeting) {
	slices.SortStableFunc(list, func(a, b meeting) int {
		return compareOrders(Order{Then: a.body, First: a.lead}, Order{Then: b.body, First: b.lead})
	})
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].body == list[0].body {
			n++
		}
		var firsts []string
		var holes []grid.Hole
		for _, m := range list[:n] {
			firsts, holes = append(firsts, m.lead), append(holes, m.holes...)
		}
		firsts, holes = slices.Compact(firsts), distinct(holes)
		body := list[0].body
		s.say(finding.Note, "fit-joint-covered", finding.Where{Refs: append([]string{body}, firsts...), Holes: holes},
			fmt.Sprintf("%s covers %s of %s on the %s.", body, count(len(holes), "joint"), finding.Names(firsts), list[0].face),
			fmt.Sprintf("Solder %s before %s.", finding.Names(firsts), body))
		list = list[n:]
	}
}
