package fit

import (
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// cycles finds parts that would each have to be soldered before the other. It says one shortest
// round for every group of parts that hang together so.
func (s *scene) cycles() {
	next := map[string][]string{}
	for _, o := range s.result.Orders {
		if !slices.Contains(next[o.First], o.Then) {
			next[o.First] = append(next[o.First], o.Then)
		}
	}
	told := map[string]bool{}
	for i := range s.spots {
		ref := s.spots[i].placed.Ref
		if told[ref] || next[ref] == nil {
			continue
		}
		round := shortestRound(next, ref)
		if round == nil || slices.ContainsFunc(round, func(r string) bool { return told[r] }) {
			continue
		}
		for _, r := range round {
			told[r] = true
		}
		s.sayCycle(round)
	}
}

// shortestRound returns the parts of a shortest way from start back to itself, start first; nil
// when there is none. Time is O(orders).
func shortestRound(next map[string][]string, start string) []string {
	from := map[string]string{}
	queue := []string{start}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		for _, n := range next[at] {
			if n == start {
				round := []string{at}
				for at != start {
					at = from[at]
					round = append(round, at)
				}
				slices.Reverse(round)
				return round
			}
			if _, seen := from[n]; !seen {
				from[n] = at
				queue = append(queue, n)
			}
		}
	}
	return nil
}

func (s *scene) sayCycle(round []string) {
	var holes []grid.Hole
	var says []string
	for i, first := range round {
		then := round[(i+1)%len(round)]
		says = append(says, first+" before "+then)
		for _, o := range s.result.Orders {
			if o.First == first && o.Then == then {
				holes = append(holes, o.Hole)
				break
			}
		}
	}
	refs := slices.Clone(round)
	slices.SortFunc(refs, panel.CompareRefs)
	s.say(finding.Stop, "fit-order-cycle", finding.Where{Refs: refs, Holes: distinct(holes)},
		"No order of soldering works: "+strings.Join(says, ", ")+".",
		"Move one of "+finding.Names(refs)+", or put one on sockets.")
}
