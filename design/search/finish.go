package search

// finish seats the free members and the loose groups at least cost, as if loose groups could not get
// in each other's way. When they do not, that is the best answer below, which is kept if it is the
// best of all, and finish returns -1. When they do it returns one of those that clash.
func (s *solver) finish(at state) int {
	total := 0
	for g := range s.groups {
		if at.groups>>g&1 != 0 {
			total += s.groups[g].options[s.chosen[g]].cost
		}
	}
	s.openSlots(at)
	if !s.matcher.match(s.rows, s.square(), s.best-total) {
		return -1
	}
	if g := s.clash(at.tokens); g >= 0 {
		return g
	}
	s.found, s.best = true, total+s.matcher.floor
	for g := range s.groups {
		if at.groups>>g&1 == 0 {
			continue
		}
		for i, m := range s.groups[g].members {
			s.slot[m] = s.groups[g].options[s.chosen[g]].slots[i]
		}
	}
	for j, i := range s.matcher.rowOf[1:] {
		switch i--; {
		case i < 0, i >= len(s.free)+len(s.late): // nothing sits there
		case i < len(s.free):
			s.slot[s.free[i]] = s.open[j]
		default:
			s.slot[s.groups[s.late[i-len(s.free)]].members[0]] = s.open[j]
		}
	}
	return -1
}

// openSlots fills rows with what the free members, then the open loose groups, pay for the slots
// that no group holds.
func (s *solver) openSlots(at state) {
	s.open, s.late = s.open[:0], s.late[:0]
	for j := range s.problem.Slots {
		if at.slots>>j&1 == 0 {
			s.open = append(s.open, j)
		}
	}
	s.rows = s.rows[:len(s.single)]
	for i, row := range s.single {
		s.rows[i] = s.rows[i][:0]
		for _, j := range s.open {
			s.rows[i] = append(s.rows[i], row[j])
		}
	}
	for g := range s.groups {
		if at.groups>>g&1 != 0 {
			continue
		}
		row := s.loose[len(s.late)][:0]
		s.late = append(s.late, g)
		for _, j := range s.open {
			c := s.groups[g].row[j]
			if s.groups[g].tokens[j]&at.tokens != 0 {
				c = Never
			}
			row = append(row, c)
		}
		s.rows = append(s.rows, row)
	}
}

// nearlySquare is how many slots may be left over for it to pay to match them with nothing, so that
// the prices can be used to start from.
const nearlySquare = 6

// square adds rows that cost nothing until there are as many rows as open slots, and returns the
// prices of the slots; nil, with nothing added, when too many would be needed.
func (s *solver) square() []int {
	over := len(s.open) - len(s.rows)
	if over < 0 || over > nearlySquare {
		return nil
	}
	s.guess = s.guess[:0]
	for _, j := range s.open {
		s.guess = append(s.guess, s.prices.slot[j])
	}
	for range over {
		s.rows = append(s.rows, s.nothing[:len(s.open)])
	}
	return s.guess
}

// clash returns the matched loose group with the fewest options out of those that share a token with
// another, -1 when none does.
func (s *solver) clash(taken uint64) int {
	var twice uint64
	for j, i := range s.matcher.rowOf[1:] {
		if i > len(s.free) && i <= len(s.free)+len(s.late) {
			tokens := s.groups[s.late[i-1-len(s.free)]].tokens[s.open[j]]
			twice |= taken & tokens
			taken |= tokens
		}
	}
	worst := -1
	for j, i := range s.matcher.rowOf[1:] {
		if i <= len(s.free) || i > len(s.free)+len(s.late) {
			continue
		}
		g := s.late[i-1-len(s.free)]
		if s.groups[g].tokens[s.open[j]]&twice != 0 && (worst < 0 || len(s.groups[g].options) < len(s.groups[worst].options)) {
			worst = g
		}
	}
	return worst
}
