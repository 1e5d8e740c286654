package search

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A start is a tangle with the answer that it is loosened from.
type start struct {
	tangle *Tangle
	answer Answer
}

// isCheapest reports whether the answer, which is cheapest in single costs, is so in whole units too.
func (s start) isCheapest() bool {
	if s.answer.Verdict != Found {
		return false
	}
	least, cheapest := s.tangle.score(s.answer.Slot)[0], true
	everyAnswer(s.tangle.Problem, func(slot []int) { cheapest = cheapest && s.tangle.score(slot)[0] >= least })
	return cheapest
}

// drawStart draws a problem, its answer if it has one, and pairs at odds.
func drawStart(t *rapid.T) start {
	p := drawProblem(t)
	for g := range p.Groups { // options that take the same slots take the same tokens
		for o := range p.Groups[g].Options {
			p.Groups[g].Options[o].Tokens = 0
			if len(p.Groups[g].Members) == 1 {
				p.Groups[g].Options[o].Tokens = 1 << (p.Groups[g].Options[o].Slots[0] / 2)
			}
		}
	}
	a := Solve(p, 1_000_000)
	odd := rapid.SliceOfN(rapid.Uint64(), 7*7, 7*7).Draw(t, "odds")
	tangle := &Tangle{Problem: p, Unit: rapid.IntRange(1, 4).Draw(t, "unit"), Odds: func(m, i, n, j int) bool {
		if m > n {
			m, i, n, j = n, j, m, i
		}
		return odd[m*7+n]>>(i*7+j)&1 != 0
	}}
	for range p.Cost {
		tangle.Last = append(tangle.Last, rapid.SliceOfN(rapid.IntRange(0, 9), p.Slots, p.Slots).Draw(t, "last"))
	}
	return start{tangle, a}
}

// score is what a tangle is to be made least of: whole units, pairs at odds, then Last.
func (t *Tangle) score(slot []int) []int {
	units, odds, last := 0, 0, 0
	for m, j := range slot {
		units += t.Problem.Cost[m][j] / t.Unit
		last += t.Last[m][j]
		for n := range m {
			if t.Odds(m, j, n, slot[n]) {
				odds++
			}
		}
	}
	return []int{units, odds, last}
}

// What is found holds, is no worse than the start, and is the best of all where that is said.
func TestLoosenEqualsTryingAll(t *testing.T) {
	proved := 0
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.Custom(drawStart).Filter(start.isCheapest).Draw(t, "start")
		tangle, a := from.tangle, from.answer
		best := tangle.score(a.Slot)
		units := best[0]
		everyAnswer(tangle.Problem, func(slot []int) {
			if s := tangle.score(slot); slices.Compare(s, best) < 0 {
				best = s
			}
		})
		nodes := rapid.SampledFrom([]int{0, 10, 100_000}).Draw(t, "nodes")
		slot, odds, complete := tangle.Loosen(a.Slot, rapid.IntRange(0, 4).Draw(t, "tries"), nodes)
		got := tangle.score(slot)
		total := 0
		for m, j := range slot {
			total += tangle.Problem.Cost[m][j]
		}
		if fault := checkAnswer(tangle.Problem, Answer{Slot: slot, Cost: total}); fault != "" {
			t.Fatalf("%v: %s", slot, fault)
		}
		if got[1] != odds || got[0] != units || slices.Compare(got, tangle.score(a.Slot)) > 0 {
			t.Fatalf("from %v to %v, said %d at odds", tangle.score(a.Slot), got, odds)
		}
		if complete {
			proved++
			if !slices.Equal(got, best) {
				t.Fatalf("%v is said to be best, %v is", got, best)
			}
		} else if nodes == 100_000 {
			t.Fatal("not proved with nodes to spare")
		}
	})
	if proved == 0 {
		t.Error("nothing was proved")
	}
}

func TestLoosen(t *testing.T) {
	// Points on two rails, one unit apart: members and slots go by their place along them, and lines
	// cross where their order changes.
	crossing := func(m, i, n, j int) bool { return (m < n) != (i < j) }
	level := func(n int) *Problem {
		p := &Problem{Slots: n}
		for range n {
			p.Cost = append(p.Cost, make([]int, n))
		}
		return p
	}
	last := func(n int) [][]int { return make2(n) }
	reversed := func(n int) (slot []int) {
		for i := range n {
			slot = append(slot, n-1-i)
		}
		return slot
	}
	tests := []struct {
		name, source string
		problem      *Problem
		start        []int
		want         int
		complete     bool
	}{
		{"nothing", "by definition", level(0), nil, 0, true},
		{"eight lines turned round", "by hand: in order none cross", level(8), reversed(8), 0, true},
		{"three that must stay", "by hand: reversed, all three pairs cross", fixed(level(3), 2, 1, 0), reversed(3), 3, true},
		{"two that must stay cross all between", "by hand: ends exchanged, each of them crosses the other and both that lie between",
			fixed(level(4), 3, -1, -1, 0), []int{3, 1, 2, 0}, 5, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tangle := Tangle{Problem: tt.problem, Unit: 1, Odds: crossing, Last: last(tt.problem.Slots)}
			_, odds, complete := tangle.Loosen(tt.start, 5, 10_000)
			if odds != tt.want || complete != tt.complete {
				t.Errorf("%d at odds, proved %v; want %d, %v (%s)", odds, complete, tt.want, tt.complete, tt.source)
			}
		})
	}
}

func make2(n int) [][]int {
	t := make([][]int, n)
	for i := range t {
		t[i] = make([]int, n)
	}
	return t
}

// fixed ties members to slots, but those given as -1.
func fixed(p *Problem, slots ...int) *Problem {
	for m, s := range slots {
		for j := range p.Cost[m] {
			if s >= 0 && j != s {
				p.Cost[m][j] = Never
			}
		}
	}
	return p
}
