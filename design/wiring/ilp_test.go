package wiring_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// A small board is square, has copper on the back and nets of two or three leads, and is solved as an
// integer program: each net sends a unit from its first lead to each other, over arcs from hole to hole
// or through the air; at most one net enters a free hole. Wires may branch in the air there, which no
// insulated wire can, so that its optimum is at most the least cost of wiring.
//
// Groetschel, Martin and Weismantel, Packing Steiner trees: polyhedral investigations, 1996 (from memory).
type smallBoard struct {
	side int
	nets [][]int // holes by number, row by row
}

func drawSmall(random *rand.Rand, side, nets int) smallBoard {
	b := smallBoard{side: side}
	order := random.Perm(side * side)
	for range nets {
		n := 2 + random.IntN(2)
		b.nets = append(b.nets, order[:n])
		order = order[n:]
	}
	return b
}

// ilpCosts are those of which the program knows: no price for bends, solder as dear as a run.
var ilpCosts = panel.WireCosts{Bend: 0, Solder: 1, Insulated: 10, PerHole: 1, Through: 3}

func (b *smallBoard) picture() picture {
	pic := picture{board: oneFace}
	for row := range b.side {
		line := []byte(strings.Repeat(".", b.side))
		for k, net := range b.nets {
			for _, h := range net {
				if h/b.side == row {
					line[h%b.side] = byte('A' + k)
				}
			}
		}
		pic.rows = append(pic.rows, string(line))
	}
	return pic
}

// An arc leads from node to node: holes first, then the air over each.
type arc struct {
	from, to int
	cost     float64
}

// arcs are those that net k may use.
func (b *smallBoard) arcs(k int) []arc {
	var list []arc
	n := b.side * b.side
	foreign := make([]bool, n)
	for other, net := range b.nets {
		for _, h := range net {
			foreign[h] = other != k
		}
	}
	for h := range n {
		for _, step := range []grid.Offset{{Cols: 1}, {Cols: -1}, {Rows: 1}, {Rows: -1}} {
			col, row := h%b.side+step.Cols, h/b.side+step.Rows
			if col < 0 || row < 0 || col >= b.side || row >= b.side {
				continue
			}
			to := row*b.side + col
			list = append(list, arc{n + h, n + to, ilpCosts.PerHole})
			if !foreign[h] && !foreign[to] {
				list = append(list, arc{h, to, 1})
			}
		}
		if !foreign[h] {
			list = append(list, arc{h, n + h, ilpCosts.Insulated}, arc{n + h, h, 0})
		}
	}
	return list
}

// program writes the board in the LP format.
func (b *smallBoard) program() string {
	var cost, rows, ints, most []string
	holes := b.side * b.side
	enter := map[int][]string{} // by free hole
	lead := map[int]bool{}
	for _, net := range b.nets {
		for _, h := range net {
			lead[h] = true
		}
	}
	for k, net := range b.nets {
		arcs := b.arcs(k)
		air := map[int][]string{} // by node: wires out less wires in
		for i, a := range arcs {
			y := fmt.Sprintf("y%d_%d", k, i)
			cost, ints = append(cost, fmt.Sprintf("%g %s", a.cost, y)), append(ints, y)
			limit := 1
			if a.from >= holes || a.to >= holes {
				limit = len(net) - 1 // several wires may take one way
			}
			most = append(most, fmt.Sprintf("%s <= %d", y, limit))
			if a.to < holes && !lead[a.to] {
				enter[a.to] = append(enter[a.to], y)
			}
			if a.from >= holes {
				air[a.from] = append(air[a.from], "+ "+y)
			}
			if a.to >= holes {
				air[a.to] = append(air[a.to], "- "+y)
			}
		}
		for node := holes; node < 2*holes; node++ {
			rows = append(rows, strings.Join(air[node], " ")+" <= 0")
		}
		for t, goal := range net[1:] {
			balance := map[int][]string{}
			for i, a := range arcs {
				f := fmt.Sprintf("f%d_%d_%d", k, t, i)
				rows = append(rows, fmt.Sprintf("%s - y%d_%d <= 0", f, k, i))
				balance[a.from] = append(balance[a.from], "+ "+f)
				balance[a.to] = append(balance[a.to], "- "+f)
			}
			for node := range 2 * holes {
				if len(balance[node]) > 0 {
					sent := map[int]int{net[0]: 1, goal: -1}[node]
					rows = append(rows, fmt.Sprintf("%s = %d", strings.Join(balance[node], " "), sent))
				}
			}
		}
	}
	for h := range holes {
		if len(enter[h]) > 1 {
			rows = append(rows, strings.Join(enter[h], " + ")+" <= 1")
		}
	}
	var text strings.Builder
	fmt.Fprintf(&text, "Minimize\n%s\nSubject To\n", strings.Join(cost, "\n + "))
	for i, r := range rows {
		fmt.Fprintf(&text, "c%d: %s\n", i, r)
	}
	fmt.Fprintf(&text, "Bounds\n%s\nGeneral\n%s\nEnd\n", strings.Join(most, "\n"), strings.Join(ints, "\n"))
	return text.String()
}

// solveILP returns the optimum that cbc finds.
func solveILP(t *testing.T, program string) float64 {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "board.lp"), filepath.Join(dir, "board.txt")
	if err := os.WriteFile(in, []byte(program), 0o600); err != nil {
		t.Fatal(err)
	}
	log, err := exec.CommandContext(t.Context(), "cbc", in, "seconds", "60", "solve", "solution", out).CombinedOutput()
	if err != nil {
		t.Fatalf("cbc, of the Debian package coinor-cbc: %v\n%s", err, log)
	}
	answer, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	var best float64
	if _, err := fmt.Sscanf(string(answer), "Optimal - objective value %g", &best); err != nil {
		t.Fatalf("cbc did not finish: %.200s", answer)
	}
	return best
}

// TestSmallBoardsAgainstILP: 60 boards of 5 x 5 holes and four nets or 6 x 6 and five, the exact optimum
// by cbc.
func TestSmallBoardsAgainstILP(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 5))
	var gaps []float64
	for i := range 60 {
		b := drawSmall(random, 5+i%3/2, 4+i%3/2)
		d := b.picture().draw()
		d.p.Wires.Costs = &ilpCosts
		r := wiring.RouteWith(&d.p, &d.fit, &d.nets, wiring.Options{Moves: 310})
		if wrong := wiring.Verify(&d.p, &d.nets, r.Wires); len(wrong) > 0 {
			t.Fatalf("board %d %q: %q", i, b.picture().rows, wrong)
		}
		best := solveILP(t, b.program())
		if r.Cost < best-1e-6 || r.Bound > best+1e-6 {
			t.Errorf("board %d %q: cost %v, bound %v, best %v", i, b.picture().rows, r.Cost, r.Bound, best)
		}
		gaps = append(gaps, r.Cost/best-1)
	}
	slices.Sort(gaps)
	met := 0
	for _, g := range gaps {
		if g < 1e-6 {
			met++
		}
	}
	t.Logf("%d of %d boards at the optimum, median gap %.2f %%, worst %.2f %%", met, len(gaps), 100*gaps[len(gaps)/2], 100*gaps[len(gaps)-1])
	if math.Abs(gaps[len(gaps)/2]) > 1e-6 || gaps[len(gaps)-1] > 0.1 {
		t.Errorf("gaps %v", gaps)
	}
}
