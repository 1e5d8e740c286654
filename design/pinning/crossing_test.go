package pinning

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/search"
	"fascia/design/signal"
)

// randomPanel draws 24 to 26 signals on the 40-pin module, with up to three locks that their pins can
// serve, and sometimes a pin kept free.
func randomPanel(seed uint64) (*panel.Panel, *controller.Module, []signal.Signal) {
	r := rand.New(rand.NewPCG(seed, 11))
	for {
		spi, i2c, adc, pwm := r.IntN(2), 1+r.IntN(2), r.IntN(4), r.IntN(4)
		rows, columns := 0, 0
		if r.IntN(4) > 0 {
			rows, columns = 3+r.IntN(3), 3+r.IntN(5)
		}
		n := 24 + r.IntN(3)
		plain := n - rows - columns - 2*spi - 2*i2c - adc - pwm
		if plain < 0 {
			continue
		}
		list := crowd(rows, columns, spi, i2c, adc, pwm, plain)
		p, m := bench(scatter(seed, len(list), 60, 40)...)
		for range r.IntN(4) {
			pin, s := m.Pins[r.IntN(len(m.Pins))], list[r.IntN(len(list))]
			if _, ok := m.Can(pin.Name, s.Wants); ok {
				p.Pins.Locked[s.ID] = pin.Name
			}
		}
		if n < 26 && r.IntN(2) == 0 {
			p.Pins.KeepFree = []string{m.Pins[r.IntN(len(m.Pins))].Name}
		}
		return p, m, list
	}
}

// plainDescent is a yardstick: from an assignment of least length, exchanges of two signals' pins that
// keep the length and lower the crossings, from 20 starts shuffled by exchanges that keep the length.
func plainDescent(t *task, at []int, seed uint64) int {
	r := rand.New(rand.NewPCG(seed, 3))
	best := t.crossings(at)
	for range 20 {
		now := slices.Clone(at)
		for range 200 {
			if a, b := r.IntN(len(now)), r.IntN(len(now)); a != b && t.exchangeable(now, a, b) {
				now[a], now[b] = now[b], now[a]
			}
		}
		for better := true; better; {
			better = false
			for a := range now {
				for b := range a {
					if !t.exchangeable(now, a, b) {
						continue
					}
					before := t.meetings(now, a, b)
					now[a], now[b] = now[b], now[a]
					if t.meetings(now, a, b) < before {
						better = true
						continue
					}
					now[a], now[b] = now[b], now[a]
				}
			}
		}
		best = min(best, t.crossings(now))
	}
	return best
}

// meetings counts the pairs of lines that meet, out of those that two lines are in.
func (t *task) meetings(at []int, a, b int) (n int) {
	if t.cross(a, at[a], b, at[b]) {
		n++
	}
	for c := range at {
		if c != a && c != b && t.cross(a, at[a], c, at[c]) {
			n++
		}
		if c != a && c != b && t.cross(b, at[b], c, at[c]) {
			n++
		}
	}
	return n
}

// exchangeable reports whether two signals may change pins at no cost.
func (t *task) exchangeable(at []int, a, b int) bool {
	sa, sb := t.signals[a], t.signals[b]
	may := func(s, pin int) bool { return t.able(s, pin) && (t.lock[s] < 0 || t.lock[s] == pin) }
	if !may(a, at[b]) || !may(b, at[a]) || sa.Run != sb.Run || sa.Bus != "" || sb.Bus != "" || (sa.Wants == part.PWM) != (sb.Wants == part.PWM) {
		return false
	}
	for _, what := range t.spares {
		if t.spoils(what, a, at[b]) != t.spoils(what, a, at[a]) || t.spoils(what, b, at[b]) != t.spoils(what, b, at[a]) {
			return false
		}
	}
	return t.line[a][at[b]].steps+t.line[b][at[a]].steps == t.line[a][at[a]].steps+t.line[b][at[b]].steps
}

// leastLength is an assignment of least length that knows nothing of crossings; nil when there is none.
func leastLength(p *panel.Panel, m *controller.Module, list []signal.Signal) (*task, []int) {
	t := newTask(p, m, "U1", list)
	t.weight, _ = t.weighAt(0, false)
	t.cost = t.prices()
	problem := t.problem(t.allWishes())
	a := search.Solve(&problem.Problem, budget)
	if a.Verdict != search.Found {
		return t, nil
	}
	return t, problem.at(a.Slot)
}

// The lines cross no more often than after the plain descent, and for the most part less.
func TestCrossingsAgainstPlainDescent(t *testing.T) {
	ours, theirs, raw := 0, 0, 0
	for seed := range uint64(60) {
		p, m, list := randomPanel(seed)
		task, at := leastLength(p, m, list)
		if at == nil {
			continue
		}
		least := plainDescent(task, at, seed)
		r := Assign(p, m, "U1", list)
		if r.Crossings > least {
			t.Errorf("seed %d: %d crossings, the plain descent comes to %d", seed, r.Crossings, least)
		}
		ours, theirs, raw = ours+r.Crossings, theirs+least, raw+task.crossings(at)
	}
	t.Logf("crossings: %d at the least length, %d after the plain descent, %d ours", raw, theirs, ours)
	if ours*10 > theirs*9 {
		t.Errorf("%d crossings in all, the plain descent comes to %d", ours, theirs)
	}
}

// Lines of signals that may have any pin meet nowhere, but where they end in one hole or lie on one
// straight line: of the assignments of least length along rows and columns, in the one that is also
// shortest as the crow flies two lines that cross could change ends and be shorter.
func TestFreeSignalsNeverCross(t *testing.T) {
	for seed := range uint64(40) {
		list := crowd(0, 0, 0, 0, 0, 0, 24)
		p, m := bench(scatter(seed, len(list), 60, 40)...)
		p.Pins.Prefer = nil
		r := Assign(p, m, "U1", list)
		met := 0
		for i, a := range r.Pins {
			for _, b := range r.Pins[:i] {
				from, _ := p.HoleOf(a.Serves[0])
				to, _ := p.HoleOf(b.Serves[0])
				if !meets(a.Hole, from, b.Hole, to) {
					continue
				}
				met++
				parallel := (from.Col-a.Hole.Col)*(to.Row-b.Hole.Row) == (from.Row-a.Hole.Row)*(to.Col-b.Hole.Col)
				if from != to && !parallel {
					t.Errorf("seed %d: %s to %s and %s to %s cross", seed, a.Hole, from, b.Hole, to)
				}
			}
		}
		if met != r.Crossings || !r.Proved {
			t.Errorf("seed %d: %d crossings, said %d; proved %v", seed, met, r.Crossings, r.Proved)
		}
	}
}

// Lines meet as an independent sum says, whatever their ends.
func TestCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hole := func(name string) grid.Hole {
			return grid.Hole{Col: rapid.IntRange(0, 6).Draw(t, name), Row: rapid.IntRange(0, 6).Draw(t, name)}
		}
		a, b, c, d := hole("a"), hole("b"), hole("c"), hole("d")
		task := task{hole: []grid.Hole{a, c}, line: [][]line{{{to: b}, {}}, {{}, {to: d}}}}
		if got, want := task.cross(0, 0, 1, 1), meets(a, b, c, d); got != want {
			t.Fatalf("%v-%v and %v-%v: %v, want %v", a, b, c, d, got, want)
		}
		if task.cross(0, 0, 1, 1) != task.cross(1, 1, 0, 0) {
			t.Fatal("not the same either way round")
		}
	})
}
