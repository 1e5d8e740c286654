package scan

import (
	"cmp"
	"slices"
)

// An option is a shape in the table of choices, with a draft where one was made.
type option struct {
	candidate
	drafted bool
	draft   int  // length of the draft
	final   bool // it was improved, and length is no longer the draft's
	hasty   bool // the draft is for the table alone
	fits    bool
}

// options drafts the shapes worth comparing. room is how many pins a matrix may take. The shapes
// that are larger than need be come in only when the others can't keep the chords apart.
func (m *matrices) options(tight, loose []shape, room int) []option {
	var list []option
	needy := len(m.chords) > 0
	least := leastOf(tight)
	for _, s := range tight {
		o := option{candidate: candidate{shape: s}, fits: s.pins() <= room}
		if len(m.chords) > 0 || s.pins() <= least+1 && (o.fits || s.pins() == least) {
			o.candidate, o.drafted = m.draft(s)
			o.draft = o.length
		}
		needy = needy && len(o.diodes) > 0
		list = append(list, o)
	}
	if needy {
		for _, s := range loose {
			o := option{fits: s.pins() <= room, candidate: candidate{shape: s}}
			o.candidate, o.drafted = m.draft(s)
			o.draft = o.length
			if o.drafted && len(o.diodes) == 0 {
				list = append(list, o)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b option) int { return cmp.Or(cmp.Compare(a.pins(), b.pins()), cmp.Compare(a.rows, b.rows)) })
	return list
}

// beside drafts those of the shapes that are not in list, by the same rule, for comparison.
func (m *matrices) beside(list []option, tight []shape, room int) []option {
	least := leastOf(tight)
	var rest []option
	for _, s := range tight {
		if slices.ContainsFunc(list, func(o option) bool { return o.shape == s }) {
			continue
		}
		o := option{candidate: candidate{shape: s}, fits: s.pins() <= room}
		if s.pins() <= least+1 && (o.fits || s.pins() == least) {
			o.candidate, o.drafted = m.draft(s)
			o.draft = o.length
		} else {
			o = m.hasty(s, room)
		}
		rest = append(rest, o)
	}
	return rest
}

// hastyMoves is how many exchanges a draft for the table alone tries.
const hastyMoves = 400

// hasty drafts a shape for the table alone. Its length says little and is left out; its diodes are
// enough, if more than need be.
func (m *matrices) hasty(s shape, room int) option {
	o := option{candidate: candidate{shape: s}, fits: s.pins() <= room, hasty: true}
	if len(m.chords) == 0 {
		return o
	}
	if cell, ok := m.place(s); ok {
		a := m.arrange(s, cell, nil)
		a.anneal(hastyMoves, 1)
		o.candidate = m.judge(a, false)
		o.length = 0
	}
	return o
}

func leastOf(shapes []shape) int {
	least := 0
	for _, s := range shapes {
		if least == 0 || s.pins() < least {
			least = s.pins()
		}
	}
	return least
}

// runnersUp is how much worse than the best draft, in hundredths, another may be that is improved
// beside it.
const runnersUp = 10

// settle improves the best draft and the next best, if close, and returns the index of the better.
func (m *matrices) settle(list []option, noDiodes bool) int {
	first := m.choose(list, noDiodes)
	if first < 0 {
		return first
	}
	rest := slices.Clone(list)
	rest[first].drafted = false
	second := m.choose(rest, noDiodes)
	bar := m.score(list[first].candidate) * (100 + runnersUp) / 100
	list[first].improve(m)
	if second >= 0 && m.score(list[second].candidate) <= bar && list[second].fits == list[first].fits {
		list[second].improve(m)
		if m.better(list[second], list[first], noDiodes) {
			return second
		}
	}
	return first
}

func (o *option) improve(m *matrices) {
	o.candidate, o.final = m.improve(o.candidate), true
}

// choose returns the index of the best option, or -1 when there is none: one that fits before one
// that doesn't; without diodes one without ghosts before any; then the least score among those
// with at most one pin more than the fewest.
func (m *matrices) choose(list []option, noDiodes bool) int {
	best, least := -1, 0
	for i, o := range list {
		if i == 0 {
			least = o.pins()
		}
		if !o.drafted || o.pins() > least+1 && (!noDiodes || len(o.diodes) > 0) {
			continue
		}
		if best < 0 || m.better(o, list[best], noDiodes) {
			best = i
		}
	}
	return best
}

func (m *matrices) better(a, b option, noDiodes bool) bool {
	switch {
	case a.fits != b.fits:
		return a.fits
	case !a.fits && a.pins() != b.pins():
		return a.pins() < b.pins()
	case noDiodes && (len(a.diodes) == 0) != (len(b.diodes) == 0):
		return len(a.diodes) == 0
	}
	return m.score(a.candidate) < m.score(b.candidate)
}
