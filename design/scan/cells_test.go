package scan

import (
	"fmt"
	"testing"

	"fascia/design/panel"
	"pgregory.net/rapid"
)

// bare is a task from a panel's keys, without chords.
func bare(p *panel.Panel) *task {
	keys := keysOf(p)
	s := share(p, keys)
	return newTask(keys, s.lines, nil, false)
}

// The expected lengths come from trying all 720 and 362,880 arrangements.
func TestCellsEqualBruteForce(t *testing.T) {
	for _, s := range []shape{{2, 3}, {3, 2}, {3, 3}} {
		for seed := range uint64(4) {
			t.Run(fmt.Sprintf("%dx%d seed %d", s.rows, s.columns, seed), func(t *testing.T) {
				p := scatteredKeys(s.cells(), seed)
				want := shortest(p, s.rows, s.columns)
				m := matrices{task: bare(p)}
				bound, prices := m.bound(s, want, false)
				if cell, ok := m.exact(prices, s, 0, want+1); !ok || cell == nil || m.length(s, cell) != want {
					t.Errorf("exact search finds %v (%v), want a length of %d", cell, ok, want)
				}
				if cell, ok := m.exact(prices, s, 0, want); !ok || cell != nil {
					t.Errorf("exact search finds %v (%v), shorter than %d", cell, ok, want)
				}
				draft, _ := m.draft(s)
				if got := m.improve(draft); got.length != want || !got.shortest {
					t.Errorf("annealing finds %d (shortest: %v), want %d", got.length, got.shortest, want)
				}
				if bound > want {
					t.Errorf("bound %d is above the least, %d", bound, want)
				}
			})
		}
	}
}

// relaxed is what the bound bounds, by trying everything: each pair of keys is no wire, a row wire
// or a column wire, and each side's wires are a forest of the right size.
func relaxed(t *task, s shape) int {
	pairs := [2][]span{t.spans(0), t.spans(1)}
	want := t.wires(s)
	best := 1 << 30
	var try func(e int, have [2]int, tree [2][]int, total int)
	try = func(e int, have [2]int, tree [2][]int, total int) {
		if have == want {
			best = min(best, total)
		}
		if e == len(pairs[0]) || total >= best {
			return
		}
		try(e+1, have, tree, total)
		for side := range 2 {
			sp := pairs[side][e]
			a, b := top(tree[side], sp.a), top(tree[side], sp.b)
			if a == b || have[side] == want[side] {
				continue
			}
			more, forest := have, tree
			more[side]++
			forest[side] = append([]int(nil), tree[side]...)
			forest[side][a] = b
			try(e+1, more, forest, total+int(sp.length))
		}
	}
	single := func() []int { return numbers(len(t.keys)) }
	try(0, [2]int{}, [2][]int{single(), single()}, 0)
	return best
}

func TestIntersectionEqualsBruteForce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 5).Draw(rt, "keys")
		tk := bare(scatteredKeys(n, rapid.Uint64Range(0, 1000).Draw(rt, "seed")))
		rows := rapid.IntRange(1, n).Draw(rt, "rows")
		s := shape{rows, rapid.IntRange((n+rows-1)/rows, n).Draw(rt, "columns")}
		got, ok := tk.intersect(s)
		if want := relaxed(tk, s); got != want || !ok {
			rt.Fatalf("%d keys in %v: %d (%v), want %d", n, s, got, ok, want)
		}
	})
}

// shapesOf lists the tight shapes for n free keys.
func shapesOf(n int) []shape {
	tight, _ := shapes(n, 0, 0, func(shape) bool { return true })
	return tight
}

// An exchange taken back leaves no trace, and one kept agrees with a count from scratch.
func TestExchangesAddUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := scatteredKeys(9, rapid.Uint64Range(0, 50).Draw(rt, "seed"))
		if rapid.Bool().Draw(rt, "nav") {
			add(p, "five", p.Placed[0].At, "S20")
		}
		keys := keysOf(p)
		choosing := chord{keys: []int{0}, choices: []choice{{1, []int{1, 3, 4}}, {2, []int{4, 5, 6, 8}}}}
		families := append(together([]int{0, 1, 2, 3}, []int{2, 4, 6, 8}, []int{1, 5, 7}), choosing.family())
		tk := newTask(keys, share(p, keys).lines, families, true)
		s := shape{3, 6}
		cell, ok := tk.place(s)
		if !ok {
			rt.Fatal("no first arrangement")
		}
		a := tk.arrange(s, cell, nil)
		for range 60 {
			p, q := rapid.IntRange(0, s.cells()-1).Draw(rt, "p"), rapid.IntRange(0, s.cells()-1).Draw(rt, "q")
			before := a.energy
			if p == q || !a.exchangeOf(p, q, rapid.IntRange(0, 1).Draw(rt, "side")) {
				continue
			}
			change := a.settle()
			if fresh := tk.arrange(s, a.cell, nil); fresh.energy != a.energy || change != a.energy-before {
				rt.Fatalf("energy %d after a change of %d from %d, counted anew %d", a.energy, change, before, fresh.energy)
			}
			if rapid.Bool().Draw(rt, "back") {
				a.revert()
				if fresh := tk.arrange(s, a.cell, nil); fresh.energy != a.energy || a.energy != before {
					rt.Fatalf("energy %d after going back to %d, counted anew %d", a.energy, before, fresh.energy)
				}
			}
		}
		row := map[int]bool{}
		for k := range keys {
			if keys[k].Ref == "S20" {
				row[a.cell[k]/s.columns] = true
			}
		}
		if len(row) > 1 {
			rt.Fatalf("contacts with a common terminal lie in %d rows", len(row))
		}
	})
}
