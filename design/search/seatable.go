package search

import mathbits "math/bits"

// seatable reports whether the free members can all be seated on what the groups leave, there is a
// slot for every member still open, and the open groups can have different tokens: a quick refusal
// for crowded problems.
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
	return different(s.allowed, at.slots) && different(s.tokenWishes(at), at.tokens)
}

// tokenWishes holds, for each open group that cannot do without a token, those that it may have.
func (s *solver) tokenWishes(at state) []uint64 {
	s.wishes = s.wishes[:0]
	for g := range s.groups {
		if at.groups>>g&1 != 0 {
			continue
		}
		wish, must := uint64(0), true
		for o := range s.groups[g].options {
			c := &s.groups[g].options[o]
			if c.mask&at.slots == 0 && c.tokens&at.tokens == 0 {
				wish |= c.tokens
				must = must && c.tokens != 0
			}
		}
		if must {
			s.wishes = append(s.wishes, wish)
		}
	}
	return s.wishes
}

// different reports whether each of the sets can give a member that none other gives and that is
// not taken. Time is O(sets² × members) at worst, and mostly O(sets).
func different(sets []uint64, taken uint64) bool {
	k := kuhn{sets: sets, gone: taken, given: taken}
	for i := range sets {
		k.tried = 0
		if !k.give(i) {
			return false
		}
	}
	return true
}

// A kuhn matches sets to their members by augmenting paths.
type kuhn struct {
	sets  []uint64
	gone  uint64  // members that no set may give
	given uint64  // those, and the members that a set gives
	tried uint64  // members looked at on this path
	by    [64]int // the set that gives a member
}

func (k *kuhn) give(i int) bool {
	if open := k.sets[i] &^ k.given; open != 0 {
		j := mathbits.TrailingZeros64(open)
		k.given |= 1 << j
		k.by[j] = i
		return true
	}
	for j := range bits(k.sets[i] &^ k.gone) {
		if k.tried>>j&1 != 0 {
			continue
		}
		if k.tried |= 1 << j; k.give(k.by[j]) {
			k.by[j] = i
			return true
		}
	}
	return false
}
