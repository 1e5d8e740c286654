package wiring

import (
	"math"
	"slices"
)

// How nets come to terms over free holes.
const (
	mostRounds   = 16  // in which nets are laid again
	firstPresent = 0.5 // share of a hole's price that each other net in it adds in the first round
	morePresent  = 1.3 // by which that grows each round
	perPast      = 0.5 // share that each net too many adds for good
)

// negotiate lays all nets over each other, and again, while holes that several want grow dearer, until
// none is wanted twice or the rounds are over. Nets that still share a hole are then laid one after
// the other round those that do not.
//
// McMurchie and Ebeling, PathFinder, 1995 (from memory).
func (s *search) negotiate() {
	n := len(s.fd.class)
	used, past := make([]int16, n), make([]float64, n)
	s.clear()
	s.rent = make([]price, n)
	lie := make([]layout, len(s.tasks))
	present := firstPresent
	setRent := func(c spot) {
		s.rent[c] = price(math.Round(float64(perHole) * ((1+past[c])*(1+present*float64(used[c])) - 1)))
	}
	order := s.byLength()
	for round := range mostRounds {
		for _, i := range order {
			if round > 0 && round%4 != 0 && !overused(lie[i].claimed, used) {
				continue
			}
			for _, c := range lie[i].claimed {
				used[c]--
				setRent(c)
			}
			lie[i] = s.grow(i, 0, false)
			for _, c := range lie[i].claimed {
				used[c]++
				setRent(c)
			}
		}
		over := false
		present *= morePresent
		for c := range used {
			if used[c] > 1 {
				over = true
				past[c] += perPast * float64(used[c]-1)
			}
			if used[c] > 0 || past[c] > 0 {
				setRent(spot(c))
			}
		}
		if !over {
			break
		}
	}
	s.rent = nil
	var late []int
	for _, i := range order {
		if overused(lie[i].claimed, used) || lie[i].failed {
			late = append(late, i)
			continue
		}
		s.put(i, lie[i])
	}
	for _, i := range late {
		s.put(i, s.grow(i, 0, false))
	}
}

func overused(claimed []spot, used []int16) bool {
	return slices.ContainsFunc(claimed, func(c spot) bool { return used[c] > 1 })
}
