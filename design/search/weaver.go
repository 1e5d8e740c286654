package search

import "slices"

// A weaver walks from answer to answer of equal cost.
type weaver struct {
	*Tangle
	units      [][]int  // costs in whole units
	group      []int    // of each member, -1 for none
	slot       []int    // of each member
	at         []int    // member in each slot, -1 for none
	tokens     []uint64 // that each group holds
	count      []int    // pairs at odds that each member is in
	odds       int
	masks      [][]uint64 // of each group's options
	known, bad []uint64   // by member, slot and other member: a bit for each slot of the other
}

func newWeaver(t *Tangle, slot []int) *weaver {
	p := t.Problem
	w := &weaver{Tangle: t, group: slices.Repeat([]int{-1}, len(p.Cost)), slot: make([]int, len(p.Cost)), at: make([]int, p.Slots), tokens: make([]uint64, len(p.Groups)), count: make([]int, len(p.Cost))}
	for _, row := range p.Cost {
		units := make([]int, len(row))
		for j, c := range row {
			units[j] = c
			if c != Never {
				units[j] = c / t.Unit
			}
		}
		w.units = append(w.units, units)
	}
	for g, group := range p.Groups {
		for _, m := range group.Members {
			w.group[m] = g
		}
		masks := make([]uint64, len(group.Options))
		for o, option := range group.Options {
			for _, j := range option.Slots {
				masks[o] |= 1 << j
			}
		}
		w.masks = append(w.masks, masks)
	}
	w.known = make([]uint64, len(p.Cost)*p.Slots*len(p.Cost))
	w.bad = make([]uint64, len(w.known))
	w.reset(slot)
	return w
}

// reset goes to an answer.
func (w *weaver) reset(slot []int) {
	copy(w.slot, slot)
	for j := range w.at {
		w.at[j] = -1
	}
	for m, j := range w.slot {
		w.at[j] = m
	}
	for g := range w.tokens {
		w.tokens[g] = 0
	}
	for g := range w.tokens {
		w.tokens[g], _ = w.holds(g)
	}
	w.recount()
}

func (w *weaver) recount() {
	w.odds = 0
	clear(w.count)
	for m := range w.slot {
		for n := range m {
			if w.atOdds(m, w.slot[m], n, w.slot[n]) {
				w.odds++
				w.count[m]++
				w.count[n]++
			}
		}
	}
}

// atOdds asks Odds once.
func (w *weaver) atOdds(m, i, n, j int) bool {
	at := (m*w.Problem.Slots+i)*len(w.slot) + n
	if w.known[at]>>j&1 == 0 {
		w.known[at] |= 1 << j
		if w.Odds(m, i, n, j) {
			w.bad[at] |= 1 << j
		}
	}
	return w.bad[at]>>j&1 != 0
}

func (w *weaver) last() int { return total(w.Last, w.slot) }

func total(table [][]int, slot []int) (sum int) {
	for m, j := range slot {
		sum += table[m][j]
	}
	return sum
}

// holds returns the tokens that group g takes where its members sit, and false when no option seats
// them there or another group has one of the tokens.
func (w *weaver) holds(g int) (uint64, bool) {
	group := &w.Problem.Groups[g]
	var mask, others uint64
	for _, m := range group.Members {
		mask |= 1 << w.slot[m]
	}
	for other, tokens := range w.tokens {
		if other != g {
			others |= tokens
		}
	}
	for o := range group.Options {
		if w.masks[g][o] == mask && group.Options[o].Tokens&others == 0 && w.seated(group, &group.Options[o]) {
			return group.Options[o].Tokens, true
		}
	}
	return 0, false
}

func (w *weaver) seated(g *Group, o *Option) bool {
	if g.AnyOrder {
		return true
	}
	for i, m := range g.Members {
		if w.slot[m] != o.Slots[i] {
			return false
		}
	}
	return true
}
