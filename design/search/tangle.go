package search

import (
	"math/rand/v2"
	"slices"
)

// A Tangle is the question that is left when several answers of a problem cost the same: which of
// them has the fewest pairs of members at odds, and then the least of Last? Options of one group that
// take the same slots in the same order take the same tokens.
type Tangle struct {
	Problem *Problem
	Unit    int                       // costs count in whole units, and what is left of them not at all
	Odds    func(m, i, n, j int) bool // whether member m in slot i is at odds with n in slot j
	Last    [][]int                   // by member, then slot
}

// Loosen starts from a cheapest answer, given by the slot of each member, and goes on to others that
// cost as many units by moving one member or exchanging two, as long as there is one that is better.
// While any pair is at odds it begins again from other cheapest answers, drawn by chance, tries times
// at most. It returns the best answer it saw and how many pairs are at odds in it: none better is one
// move away, but there may be one farther off unless no pair is. Equal questions have equal answers.
// Time is O(tries × members² × slots) and that of tries short searches.
func (t *Tangle) Loosen(slot []int, tries, nodes int) (best []int, odds int, complete bool) {
	w := newWeaver(t, slot)
	w.descend()
	best, odds, complete = w.prove(slices.Clone(w.slot), w.odds, w.last(), nodes)
	last := total(t.Last, best)
	chance := rand.New(rand.NewPCG(1, uint64(len(slot)))) // a fixed seed: the same question, the same answer
	for range tries {
		if complete || odds == 0 {
			break
		}
		if !w.elsewhere(chance) {
			continue
		}
		w.descend()
		if w.odds < odds || w.odds == odds && w.last() < last {
			best, odds, last = slices.Clone(w.slot), w.odds, w.last()
		}
	}
	return best, odds, complete
}

// short is how many options a search for another cheapest answer may try. It is less than would let
// the search move its prices, which takes longer than such an answer is worth.
const short = 199

// elsewhere goes to another answer of the same cost, if a short search finds one: prices drawn by
// chance, together less than a unit, say which.
func (w *weaver) elsewhere(chance *rand.Rand) bool {
	const unit, most = 1 << 17, 1 << 11 // 64 members at most
	q := &Problem{Slots: w.Problem.Slots, Groups: w.Problem.Groups}
	cost, dearest := 0, 0
	for m, row := range w.units {
		cost += row[w.slot[m]]
		drawn, top := make([]int, len(row)), 0
		for j, u := range row {
			drawn[j] = Never
			if u != Never {
				drawn[j] = u*unit + chance.IntN(most)
				top = max(top, u+1)
			}
		}
		q.Cost, dearest = append(q.Cost, drawn), dearest+top
	}
	if dearest > MaxTotal/unit {
		return false
	}
	a := run(q, short, (cost+1)*unit, false)
	if a.Verdict != Found {
		return false
	}
	w.reset(a.Slot)
	return true
}
