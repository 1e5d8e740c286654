package scan

// learn makes a clause of what led to a conflict, up to the first point all ways lead through, goes
// back to where the clause forces a value, and sets it.
func (c *clauses) learn(failed int32) {
	learnt := []literal{0}
	open, at, why := 0, len(c.trail), failed
	for {
		for _, l := range c.list[why] {
			if v := l.of(); !c.seen[v] && c.level[v] > 0 && c.value[l] < 0 {
				c.seen[v] = true
				c.queue.stir(v)
				if int(c.level[v]) == len(c.marks) {
					open++
				} else {
					learnt = append(learnt, l)
				}
			}
		}
		at--
		for !c.seen[c.trail[at].of()] {
			at--
		}
		l := c.trail[at]
		c.seen[l.of()] = false
		if open--; open == 0 {
			learnt[0] = l.no()
			break
		}
		why = c.reason[l.of()]
	}
	c.queue.fade()
	c.turn(c.shorten(learnt))
}

// shorten drops literals that others imply.
func (c *clauses) shorten(learnt []literal) []literal {
	kept := learnt[:1]
	all := append([]literal(nil), learnt[1:]...)
	for _, l := range all {
		implied := c.reason[l.of()] >= 0
		if implied {
			for _, m := range c.list[c.reason[l.of()]] {
				implied = implied && (m.of() == l.of() || c.seen[m.of()] || c.level[m.of()] == 0)
			}
		}
		if !implied {
			kept = append(kept, l)
		}
	}
	for _, l := range all {
		c.seen[l.of()] = false
	}
	return kept
}

// turn goes back as far as a learnt clause still forces its first literal.
func (c *clauses) turn(learnt []literal) {
	level := 0
	for i := 1; i < len(learnt); i++ {
		if l := int(c.level[learnt[i].of()]); l > level {
			level = l
			learnt[1], learnt[i] = learnt[i], learnt[1]
		}
	}
	c.back(level)
	reason := int32(-1)
	if len(learnt) > 1 {
		reason = c.keep(learnt)
	}
	c.set(learnt[0], reason)
}
