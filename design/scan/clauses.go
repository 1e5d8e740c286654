package scan

// A literal is a variable, counted from 0, or its opposite: twice the variable, and one more for the
// opposite.
type literal int32

func yes(v int) literal       { return literal(2 * v) }
func (l literal) no() literal { return l ^ 1 }
func (l literal) of() int     { return int(l >> 1) }

// clauses is a problem of yes and no: each clause is literals of which at least one must hold. It is
// searched by learning from conflicts (Marques-Silva, Sakallah, 1999, doi:10.1109/12.769433) with two
// watched literals (Moskewicz and others, 2001, doi:10.1145/378239.379017). The same clauses give the
// same answer.
type clauses struct {
	list   [][]literal
	watch  [][]int32 // by literal: clauses to look at when it fails
	value  []int8    // by literal: 1 holds, -1 fails, 0 is open
	level  []int32   // by variable
	reason []int32   // by variable: the clause that forced it, or -1
	seen   []bool    // by variable, scratch
	trail  []literal
	marks  []int // where each level begins in the trail
	head   int   // of the trail: how far it was followed
	guess  []literal
	queue  liveliest
	wrong  bool // a clause without literals: nothing can hold
	left   int  // literals that may still be followed
}

// A verdict is what a search found out.
type verdict int

const (
	undecided verdict = iota // the budget ran out
	possible
	impossible
)

// variable makes a new variable; guess is the side tried first.
func (c *clauses) variable(guess bool) int {
	v := len(c.level)
	c.watch = append(c.watch, nil, nil)
	c.value = append(c.value, 0, 0)
	c.level, c.reason, c.seen = append(c.level, 0), append(c.reason, -1), append(c.seen, false)
	l := yes(v)
	if !guess {
		l = l.no()
	}
	c.guess = append(c.guess, l)
	c.queue.grow(v)
	return v
}

// add asks for one of some literals, none of which is there twice. It goes back to the start.
func (c *clauses) add(list ...literal) {
	c.back(0)
	kept := make([]literal, 0, len(list))
	for _, l := range list {
		if c.value[l] > 0 {
			return
		}
		if c.value[l] == 0 {
			kept = append(kept, l)
		}
	}
	switch len(kept) {
	case 0:
		c.wrong = true
	case 1:
		c.set(kept[0], -1)
	default:
		c.keep(kept)
	}
}

// keep stores a clause and watches its first two literals.
func (c *clauses) keep(list []literal) int32 {
	n := int32(len(c.list))
	c.list = append(c.list, list)
	c.watch[list[0]] = append(c.watch[list[0]], n)
	c.watch[list[1]] = append(c.watch[list[1]], n)
	return n
}

func (c *clauses) set(l literal, reason int32) {
	c.value[l], c.value[l.no()] = 1, -1
	c.level[l.of()], c.reason[l.of()] = int32(len(c.marks)), reason
	c.trail = append(c.trail, l)
}

// follow sets whatever is forced and returns a clause that fails, or -1.
func (c *clauses) follow() int32 {
	for c.head < len(c.trail) {
		failed := c.trail[c.head].no()
		c.head++
		list := c.watch[failed]
		kept := list[:0]
		for i, n := range list {
			c.left--
			state := c.look(n, failed)
			if state != moved {
				kept = append(kept, n)
			}
			if state == fails {
				c.watch[failed] = append(kept, list[i+1:]...)
				return n
			}
		}
		c.watch[failed] = kept
	}
	return -1
}

// What became of a clause one of whose watched literals failed.
const (
	holds = iota // or is forced to
	moved        // another literal is watched
	fails
)

func (c *clauses) look(n int32, failed literal) int {
	list := c.list[n]
	if list[0] == failed {
		list[0], list[1] = list[1], list[0]
	}
	if c.value[list[0]] > 0 {
		return holds
	}
	for i := 2; i < len(list); i++ {
		if c.value[list[i]] >= 0 {
			list[1], list[i] = list[i], list[1]
			c.watch[list[1]] = append(c.watch[list[1]], n)
			return moved
		}
	}
	if c.value[list[0]] < 0 {
		return fails
	}
	c.set(list[0], n)
	return holds
}

// back undoes all levels above one.
func (c *clauses) back(level int) {
	if len(c.marks) <= level {
		return
	}
	from := c.marks[level]
	for _, l := range c.trail[from:] {
		c.value[l], c.value[l.no()] = 0, 0
		c.guess[l.of()] = l
		c.queue.push(l.of())
	}
	c.trail, c.marks, c.head = c.trail[:from], c.marks[:level], from
}

// solve looks for values under which every clause holds, and each of the literals given.
func (c *clauses) solve(given ...literal) verdict {
	c.back(0)
	rest := 100
	for restart := 1; !c.wrong; {
		failed := c.follow()
		switch {
		case failed >= 0 && len(c.marks) == 0:
			c.wrong = true
		case failed >= 0:
			c.learn(failed)
			rest--
		case c.left <= 0:
			return undecided
		case rest <= 0:
			restart++
			rest = 100 * luby(restart)
			c.back(0)
		case len(c.marks) < len(given):
			l := given[len(c.marks)]
			if c.value[l] < 0 {
				return impossible
			}
			c.marks = append(c.marks, len(c.trail))
			if c.value[l] == 0 {
				c.set(l, -1)
			}
		case !c.decide():
			return possible
		}
	}
	return impossible
}

// luby is the sequence 1 1 2 1 1 2 4 … (Luby, Sinclair, Zuckerman, 1993, doi:10.1016/0020-0190(93)90029-9).
func luby(i int) int {
	for k := 1; ; k++ {
		switch full := 1<<k - 1; {
		case i == full:
			return 1 << (k - 1)
		case i < full:
			return luby(i - (1<<(k-1) - 1))
		}
	}
}

// decide guesses an open variable; false when there is none.
func (c *clauses) decide() bool {
	for {
		v := c.queue.pop()
		if v < 0 {
			return false
		}
		if c.value[yes(v)] == 0 {
			c.marks = append(c.marks, len(c.trail))
			c.set(c.guess[v], -1)
			return true
		}
	}
}
