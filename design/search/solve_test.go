package search

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// bruteForce tries every way to seat the members, with no cleverness at all.
func bruteForce(p *Problem) (best int, ok bool) {
	best = math.MaxInt
	everyAnswer(p, func(slot []int) {
		total := 0
		for m, j := range slot {
			total += p.Cost[m][j]
		}
		best, ok = min(best, total), true
	})
	return best, ok
}

// spread lists a group's options with their slots in every order that the members may have them.
func spread(g Group) (options []Option) {
	if !g.AnyOrder {
		return g.Options
	}
	for _, o := range g.Options {
		var mix func(head, rest []int)
		mix = func(head, rest []int) {
			if len(rest) == 0 {
				options = append(options, Option{slices.Clone(head), o.Tokens})
			}
			for i := range rest {
				mix(append(slices.Clone(head), rest[i]), slices.Delete(slices.Clone(rest), i, i+1))
			}
		}
		mix(nil, o.Slots)
	}
	return options
}

// everyAnswer calls f with every way to seat the members.
func everyAnswer(p *Problem, f func(slot []int)) {
	slot := make([]int, len(p.Cost))
	var seat func(g int, used, tokens uint64)
	free := p.free()
	var single func(i int, used uint64)
	single = func(i int, used uint64) {
		if i == len(free) {
			f(slot)
			return
		}
		for j, c := range p.Cost[free[i]] {
			if c != Never && used>>j&1 == 0 {
				slot[free[i]] = j
				single(i+1, used|1<<j)
			}
		}
	}
	seat = func(g int, used, tokens uint64) {
		if g == len(p.Groups) {
			single(0, used)
			return
		}
	options:
		for _, o := range spread(p.Groups[g]) {
			mask := used
			for i, j := range o.Slots {
				m := p.Groups[g].Members[i]
				if p.Cost[m][j] == Never || mask>>j&1 != 0 {
					continue options
				}
				mask |= 1 << j
				slot[m] = j
			}
			if o.Tokens&tokens == 0 {
				seat(g+1, mask, tokens|o.Tokens)
			}
		}
	}
	seat(0, 0, 0)
}

// checkAnswer recomputes an answer from nothing but the problem.
func checkAnswer(p *Problem, a Answer) string {
	used := map[int]bool{}
	total := 0
	for m, j := range a.Slot {
		if used[j] || p.Cost[m][j] == Never {
			return "a slot is taken twice or forbidden"
		}
		used[j] = true
		total += p.Cost[m][j]
	}
	if total != a.Cost || a.Bound > a.Cost {
		return "the cost or the bound is wrong"
	}
	var open []uint64 // sets of tokens that the options seen so far may have taken
	open = append(open, 0)
	for _, g := range p.Groups {
		var next []uint64
		for _, o := range spread(g) {
			fits := true
			for i, m := range g.Members {
				fits = fits && a.Slot[m] == o.Slots[i]
			}
			for _, tokens := range open {
				if fits && tokens&o.Tokens == 0 {
					next = append(next, tokens|o.Tokens)
				}
			}
		}
		if len(next) == 0 {
			return "a group sits where no option puts it, or a token is taken twice"
		}
		open = next
	}
	return ""
}

func drawProblem(t *rapid.T) *Problem {
	slots := rapid.IntRange(1, 7).Draw(t, "slots")
	members := rapid.IntRange(0, min(slots+1, 6)).Draw(t, "members")
	p := &Problem{Slots: slots}
	for range members {
		row := make([]int, slots)
		for j := range row {
			row[j] = rapid.IntRange(0, 24).Draw(t, "cost")
			if row[j] > 20 {
				row[j] = Never
			}
		}
		p.Cost = append(p.Cost, row)
	}
	for m := 0; m < members; {
		size := min(rapid.IntRange(0, 3).Draw(t, "size"), members-m)
		if size == 0 {
			m++
			continue
		}
		g := Group{AnyOrder: rapid.Bool().Draw(t, "any order")}
		for i := range size {
			g.Members = append(g.Members, m+i)
		}
		for range rapid.IntRange(1, 8).Draw(t, "options") {
			o := Option{Tokens: rapid.SampledFrom([]uint64{0, 0, 1, 2, 3, 4}).Draw(t, "tokens")}
			for range size {
				o.Slots = append(o.Slots, rapid.IntRange(0, slots-1).Draw(t, "slot"))
			}
			g.Options = append(g.Options, o)
		}
		p.Groups = append(p.Groups, g)
		m += size
	}
	return p
}

func TestSolveEqualsBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		want, ok := bruteForce(p)
		got := Solve(p, 1_000_000)
		if !ok {
			if got.Verdict != Impossible || Feasible(p, 1_000_000) != Impossible {
				t.Fatalf("%+v: got %v, want impossible", p, got)
			}
			return
		}
		if got.Verdict != Found || got.Cost != want || got.Bound != want {
			t.Fatalf("%+v: got %+v, want cost %d", p, got, want)
		}
		if fault := checkAnswer(p, got); fault != "" {
			t.Fatalf("%+v: %+v: %s", p, got, fault)
		}
		if Feasible(p, 1_000_000) != Found {
			t.Fatalf("%+v: not found feasible", p)
		}
	})
}

// A spent budget never lies: the answer holds, and its bound is no larger than the best cost.
func TestSolveWithinBudget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		best, ok := bruteForce(p)
		got := Solve(p, rapid.IntRange(0, 6).Draw(t, "budget"))
		switch {
		case got.Verdict == Impossible && ok, got.Verdict == Found && !ok:
			t.Fatalf("%+v: got %+v, feasible %v", p, got, ok)
		case got.Verdict == Found:
			if fault := checkAnswer(p, got); fault != "" || got.Bound > best {
				t.Fatalf("%+v: %+v: %s, best %d", p, got, fault, best)
			}
		}
		if again := Solve(p, 3); !slices.Equal(again.Slot, Solve(p, 3).Slot) {
			t.Fatalf("%+v: two runs differ", p)
		}
	})
}
