package wiring_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/wiring"
	"fascia/design/wiring/randompanel"
)

// A tiny is a small one-faced board with nets of two leads each, solved by trying everything.
type tiny struct {
	cols, rows int
	ends       [][2]grid.Hole
}

// picture draws it.
func (b tiny) picture() picture {
	pic := picture{board: oneFace}
	for row := range b.rows {
		line := make([]byte, b.cols)
		for col := range line {
			line[col] = '.'
			for n, e := range b.ends {
				if h := (grid.Hole{Col: col, Row: row}); h == e[0] || h == e[1] {
					line[col] = byte('A' + n)
				}
			}
		}
		pic.rows = append(pic.rows, string(line))
	}
	return pic
}

// best is the least cost of joining nets n and on, given what is taken.
func (b tiny) best(n int, taken map[grid.Hole]bool, limit float64) float64 {
	if n == len(b.ends) {
		return 0
	}
	insulated := 10 + 1.2*float64(b.ends[n][0].Steps(b.ends[n][1]))
	least := limit
	if insulated < least {
		least = min(least, insulated+b.best(n+1, taken, least-insulated))
	}
	path := []grid.Hole{b.ends[n][0]}
	var walk func()
	walk = func() {
		at := path[len(path)-1]
		if at == b.ends[n][1] {
			cost := runCost(path)
			if cost < least {
				least = min(least, cost+b.best(n+1, taken, least-cost))
			}
			return
		}
		if float64(len(path)-1+at.Steps(b.ends[n][1])) > min(least, insulated) && len(path) > 2 {
			return
		}
		for _, o := range []grid.Offset{{Cols: 1}, {Rows: 1}, {Cols: -1}, {Rows: -1}} {
			h := at.Add(o)
			if h.Col < 0 || h.Row < 0 || h.Col >= b.cols || h.Row >= b.rows || taken[h] && h != b.ends[n][1] || slices.Contains(path, h) {
				continue
			}
			path = append(path, h)
			was := taken[h]
			taken[h] = true
			walk()
			taken[h] = was
			path = path[:len(path)-1]
		}
	}
	walk()
	return least
}

// runCost is the price of a whole run, by the rules in this package's documentation.
func runCost(path []grid.Hole) float64 {
	bends := 0
	for i := 2; i < len(path); i++ {
		if path[i].Minus(path[i-1]) != path[i-1].Minus(path[i-2]) {
			bends++
		}
	}
	if length := len(path) - 1; length > 2 || bends > 0 {
		return float64(length) + 0.3*float64(bends)
	}
	return 0.5 * float64(len(path)-1)
}

func (b tiny) optimum() float64 {
	taken := map[grid.Hole]bool{}
	for _, e := range b.ends {
		taken[e[0]], taken[e[1]] = true, true
	}
	return b.best(0, taken, math.Inf(1))
}

// drawTiny makes a board with so many nets.
func drawTiny(t *rapid.T, nets int) tiny {
	b := tiny{cols: rapid.IntRange(3, 5).Draw(t, "columns"), rows: rapid.IntRange(3, 5).Draw(t, "rows")}
	var all []grid.Hole
	for i := range b.cols * b.rows {
		all = append(all, grid.Hole{Col: i % b.cols, Row: i / b.cols})
	}
	order := rapid.Permutation(all).Draw(t, "holes")
	for n := range nets {
		b.ends = append(b.ends, [2]grid.Hole{order[2*n], order[2*n+1]})
	}
	return b
}

// TestOneNetIsBest: a net of two leads alone on its board costs what trying everything finds, but
// for a bend that the wave may miss.
func TestOneNetIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawTiny(t, 1)
		d := b.picture().draw()
		r := d.route()
		if best := b.optimum(); math.Abs(r.Cost-best) > 1e-9 {
			t.Fatalf("%v costs %v, best is %v", b.picture().rows, r.Cost, best)
		}
		if !r.Proved {
			t.Fatalf("%v: cost %v, bound %v; the bound of one net alone should meet it", b.picture().rows, r.Cost, r.Bound)
		}
	})
}

// TestFewNetsAgainstEverything: no wiring beats the exact optimum, none is below its bound, and few
// small boards are not solved to the optimum.
func TestFewNetsAgainstEverything(t *testing.T) {
	tried, met := 0, 0
	var sum, best float64
	rapid.Check(t, func(t *rapid.T) {
		b := drawTiny(t, 4)
		d := b.picture().draw()
		r := wiring.RouteWith(&d.p, &d.fit, &d.nets, wiring.Options{Moves: 220}) // rents change the bound twice
		exact := b.optimum()
		if r.Cost < exact-1e-9 {
			t.Fatalf("%v costs %v, less than the best %v", b.picture().rows, r.Cost, exact)
		}
		if r.Bound > exact+1e-9 {
			t.Fatalf("%v has bound %v above the best %v", b.picture().rows, r.Bound, exact)
		}
		tried++
		if r.Cost < exact+1e-9 {
			met++
		}
		sum, best = sum+r.Cost, best+exact
	})
	t.Logf("%d of %d boards solved to the optimum, %.2f %% above it in sum", met, tried, 100*(sum/best-1))
	if met*10 < tried*9 || sum > 1.01*best {
		t.Errorf("only %d of %d small boards are solved to the optimum; cost %.1f against %.1f", met, tried, sum, best)
	}
}

// steiner is the least length of a tree over the ends on a small board, found by joining every two
// parts of the ends at every hole.
//
// Dreyfus and Wagner, The Steiner problem in graphs, 1971 (from memory).
func steiner(cols, rows int, ends []grid.Hole) int {
	const far = 1 << 20
	hole := func(i int) grid.Hole { return grid.Hole{Col: i % cols, Row: i / cols} }
	least := make([][]int, 1<<len(ends)) // by set of ends, then by the hole where the tree may go on
	for set := range least {
		least[set] = make([]int, cols*rows)
		for i := range least[set] {
			least[set][i] = far
			for n, e := range ends {
				if set == 1<<n {
					least[set][i] = hole(i).Steps(e)
				}
			}
			for part := (set - 1) & set; part > 0; part = (part - 1) & set {
				least[set][i] = min(least[set][i], least[part][i]+least[set^part][i])
			}
		}
		l := least[set] // then walk on, on a board with nothing in the way: right and down, left and up
		for i := range l {
			if i%cols > 0 {
				l[i] = min(l[i], l[i-1]+1)
			}
			if i >= cols {
				l[i] = min(l[i], l[i-cols]+1)
			}
		}
		for i := len(l) - 1; i >= 0; i-- {
			if i%cols < cols-1 {
				l[i] = min(l[i], l[i+1]+1)
			}
			if i < len(l)-cols {
				l[i] = min(l[i], l[i+cols]+1)
			}
		}
	}
	best := far
	for i := range cols * rows {
		best = min(best, least[len(least)-1][i])
	}
	return best
}

// TestBoundOfOneNet holds the bound of a net alone on its board against the exact least tree. Leads
// lie in every third row and column, so that solder alone joins none.
func TestBoundOfOneNet(t *testing.T) {
	var sum, best float64
	rapid.Check(t, func(t *rapid.T) {
		const side = 10
		var all []grid.Hole
		for i := range 16 {
			all = append(all, grid.Hole{Col: i % 4 * 3, Row: i / 4 * 3})
		}
		ends := rapid.Permutation(all).Draw(t, "holes")[:rapid.IntRange(2, 6).Draw(t, "leads")]
		rows := make([]string, side)
		for row := range rows {
			line := []byte(strings.Repeat(".", side))
			for _, e := range ends {
				if e.Row == row {
					line[e.Col] = 'A'
				}
			}
			rows[row] = string(line)
		}
		d := picture{rows: rows}.draw() // plated: a bend need cost nothing
		r := d.route()
		exact := float64(steiner(side, side, ends))
		if r.Bound > exact+1e-9 || r.Cost < exact-1e-9 {
			t.Fatalf("bound %v, cost %v, least tree %v", r.Bound, r.Cost, exact)
		}
		sum, best = sum+r.Bound, best+exact
	})
	t.Logf("bounds reach %.1f %% of the least trees", 100*sum/best)
	if sum < 0.9*best {
		t.Errorf("bounds reach %.1f of %.1f only", sum, best)
	}
}

// TestRandomPanelsShrink is TestRandomPanels with parts taken away until what is wrong stands alone.
func TestRandomPanelsShrink(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randompanel.Make(rapid.Uint64Range(0, 1<<20).Draw(t, "seed"))
		keep := rapid.IntRange(0, len(p.Placed)).Draw(t, "parts")
		from := rapid.IntRange(0, len(p.Placed)-keep).Draw(t, "first part")
		p.Placed = slices.Clone(p.Placed[from : from+keep])
		p.Joins, p.Chords = nil, nil
		nets := chanceNets(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "nets"), 12)), &p)
		f := fit.Examine(&p)
		r := wiring.RouteWith(&p, &f, &nets, wiring.Options{Quick: true, Moves: rapid.IntRange(0, 20).Draw(t, "moves")})
		if wrong := wiring.Verify(&p, &nets, r.Wires, r.Cuts...); len(wrong) > 0 {
			t.Fatalf("%q", wrong)
		}
		if finding.Count(r.Findings, finding.Stop) > 0 || r.Bound > r.Cost+1e-9 {
			t.Fatalf("cost %v, bound %v, %v", r.Cost, r.Bound, r.Findings)
		}
	})
}
