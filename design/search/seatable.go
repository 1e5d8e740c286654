package search

import mathbits "math/bits"

// seatable reports whether the free members can all be seated on what the groups leave, and there is
// a slot for every member still open: a quick refusal for crowded problems.
func (s *solver) seatable(at state) bool {
	open := len(s.free)
	for g := range s.groups {
		if at.groups>>g&1 == 0 {
			open += len(s.groups[g].members)
		}
	}
	if open > s.problem.Slots-mathbits.OnesCount64(at.slots) {
		return false
	}
	var taker [MaxSlots]int
	taken := at.slots
	for i := range s.allowed {
		tried := at.slots
		if !s.place(i, &taken, &tried, &taker) {
			return false
		}
	}
	return true
}

// place finds a slot for free member i, moving those placed before when need be (Kuhn's augmenting
// path). taken holds the slots in use, tried those looked at on this path.
func (s *solver) place(i int, taken, tried *uint64, taker *[MaxSlots]int) bool {
	if open := s.allowed[i] &^ *taken; open != 0 {
		j := mathbits.TrailingZeros64(open)
		*taken |= 1 << j
		taker[j] = i
		return true
	}
	for j := range bits(s.allowed[i] &^ *tried) {
		if *tried |= 1 << j; s.place(taker[j], taken, tried, taker) {
			taker[j] = i
			return true
		}
	}
	return false
}
