// Package search gives members slots of their own at least total cost, where groups of members must
// take one of listed slot tuples and tuples may exclude each other through tokens. It proves its
// answers, says how near it came when its budget ends, and finds small sets of wishes that clash.
// It knows nothing of what members, slots and tokens stand for, and uses neither clock nor chance.
package search

import (
	"fmt"
	"slices"
)

// MaxSlots is the most slots, and the most tokens, that a problem may have; MaxGroups the most groups.
const (
	MaxSlots  = 64
	MaxGroups = 64
)

// Never is the cost of a slot that a member may not take.
const Never = 1 << 60

// MaxTotal bounds what an answer may cost at worst, so that sums of scaled costs stay within an int:
// the dearest slots of all members together.
const MaxTotal = 1 << 52

// A Problem asks for a slot for every member, no slot twice. A member of a group gets its slot from
// the option chosen for its group, any other member is free.
type Problem struct {
	Slots  int     // slots are numbered from 0
	Cost   [][]int // by member, then slot: 0 or more, or Never
	Groups []Group
}

// A Group is a set of members that take their slots together.
type Group struct {
	Members  []int
	Options  []Option
	AnyOrder bool // the members may share the slots of an option among them as they like
}

// An Option is one way to seat a group: Slots holds one slot a member, in the group's order unless
// that is free. No two chosen options may share a token; bit t of Tokens stands for token t.
type Option struct {
	Slots  []int
	Tokens uint64
}

// A Verdict says how a search ended.
type Verdict uint8

// Undecided means that the budget ended before any answer was found or excluded.
const (
	Undecided Verdict = iota
	Found
	Impossible
)

// String returns the verdict in a word.
func (v Verdict) String() string { return [...]string{"undecided", "found", "impossible"}[v] }

// An Answer is what Solve found out. The cost is proved least when Cost equals Bound.
type Answer struct {
	Verdict Verdict
	Slot    []int // when Found: one a member
	Cost    int
	Bound   int // no answer costs less
	Nodes   int // options tried
}

// check panics when the problem is not as its types say: that is a bug of the caller.
func (p *Problem) check() {
	if p.Slots < 0 || p.Slots > MaxSlots || len(p.Groups) > MaxGroups {
		panic(fmt.Sprintf("search: %d slots and %d groups; at most %d and %d", p.Slots, len(p.Groups), MaxSlots, MaxGroups))
	}
	total := 0
	for m, row := range p.Cost {
		if len(row) != p.Slots {
			panic(fmt.Sprintf("search: member %d has %d costs for %d slots", m, len(row), p.Slots))
		}
		dearest := 0
		for _, c := range row {
			if c != Never && (c < 0 || c > MaxTotal) {
				panic(fmt.Sprintf("search: member %d has a cost of %d", m, c))
			}
			if c != Never {
				dearest = max(dearest, c)
			}
		}
		if total += dearest; total > MaxTotal {
			panic(fmt.Sprintf("search: the members up to %d may cost %d together", m, total))
		}
	}
	grouped := make([]bool, len(p.Cost))
	for g, group := range p.Groups {
		for _, m := range group.Members {
			if grouped[m] {
				panic(fmt.Sprintf("search: member %d is grouped twice", m))
			}
			grouped[m] = true
		}
		for _, o := range group.Options {
			if len(o.Slots) != len(group.Members) {
				panic(fmt.Sprintf("search: an option of group %d has %d slots for %d members", g, len(o.Slots), len(group.Members)))
			}
		}
	}
}

// free lists the members that belong to no group.
func (p *Problem) free() []int {
	var list []int
	for m := range p.Cost {
		if !slices.ContainsFunc(p.Groups, func(g Group) bool { return slices.Contains(g.Members, m) }) {
			list = append(list, m)
		}
	}
	return list
}
