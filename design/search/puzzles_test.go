package search

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Sequences, theorems and papers in these tables are cited from memory.

func TestMatch(t *testing.T) {
	n := Never
	tests := []struct {
		name, source string
		cost         [][]int
		want         int
		ok           bool
	}{
		{"four jobs", "by hand: all 24 pairings", [][]int{{9, 2, 7, 8}, {6, 4, 3, 7}, {5, 8, 1, 8}, {7, 6, 9, 4}}, 13, true},
		{"product table", "rearrangement inequality: i*j is least against reversed order, 1*4+2*3+3*2+4*1",
			[][]int{{1, 2, 3, 4}, {2, 4, 6, 8}, {3, 6, 9, 12}, {4, 8, 12, 16}}, 20, true},
		{"more columns than rows", "by hand", [][]int{{5, 1, 3}, {1, 1, 4}}, 2, true},
		{"greedy would pay 101", "by hand", [][]int{{1, 2}, {1, 100}}, 3, true},
		{"two rows want one column", "Hall's condition", [][]int{{1, n, n}, {2, n, n}, {1, 1, 1}}, 0, false},
		{"nothing to match", "by definition", nil, 0, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := Match(tt.cost)
			if ok != tt.ok || got.Cost != tt.want {
				t.Errorf("Match = %d, %v; want %d, %v (%s)", got.Cost, ok, tt.want, tt.ok, tt.source)
			}
		})
	}
}

// The potentials prove the matching by themselves (linear programming duality).
func TestMatchProvesItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 12).Draw(t, "columns")
		cost := make([][]int, rapid.IntRange(0, columns).Draw(t, "rows"))
		for i := range cost {
			cost[i] = rapid.SliceOfN(rapid.IntRange(0, 50), columns, columns).Draw(t, "row")
			for j := range cost[i] {
				if cost[i][j] > 40 {
					cost[i][j] = Never
				}
			}
		}
		m, ok := Match(cost)
		if !ok {
			return // TestSolveEqualsBruteForce shows that refusals are right
		}
		total := 0
		for i, row := range cost {
			total += m.Row[i]
			for j, c := range row {
				if c != Never && c < m.Row[i]+m.Column[j] {
					t.Fatalf("row %d, column %d costs less than its potentials", i, j)
				}
			}
		}
		for _, v := range m.Column {
			if v > 0 {
				t.Fatalf("column potential %d", v)
			}
			total += v
		}
		if total != m.Cost {
			t.Fatalf("potentials add up to %d, the matching to %d", total, m.Cost)
		}
	})
}

// queens is the puzzle of n queens on an n x n board: rows are members, columns slots, diagonals
// tokens. The queen of row 0 stands in column first, or anywhere when that is negative.
func queens(n, first int) *Problem {
	p := &Problem{Slots: n}
	for row := range n {
		p.Cost = append(p.Cost, make([]int, n))
		g := Group{Members: []int{row}}
		for column := range n {
			if row > 0 || first < 0 || first == column {
				g.Options = append(g.Options, Option{[]int{column}, 1<<(row+column) | 1<<(32+row-column+n)})
			}
		}
		p.Groups = append(p.Groups, g)
	}
	return p
}

func TestQueens(t *testing.T) {
	tests := []struct {
		n, first int
		want     Verdict
		source   string
	}{
		{1, -1, Found, "OEIS A000170: 1 way"}, {2, -1, Impossible, "OEIS A000170: 0 ways"}, {3, -1, Impossible, "OEIS A000170: 0 ways"},
		{4, -1, Found, "OEIS A000170: 2 ways"}, {4, 0, Impossible, "the 2 ways begin 2 4 1 3 and 3 1 4 2"}, {4, 1, Found, "2 4 1 3"},
		{6, -1, Found, "OEIS A000170: 4 ways"}, {6, 0, Impossible, "the 4 ways begin in columns 2 to 5"}, {6, 4, Found, "5 3 1 6 4 2"},
		{6, 5, Impossible, "the 4 ways begin in columns 2 to 5"}, {8, -1, Found, "OEIS A000170: 92 ways"}, {8, 0, Found, "1 5 8 6 3 7 2 4"},
		{12, -1, Found, "OEIS A000170: 14200 ways"},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprintf("%d queens, first in %d", tt.n, tt.first), func(t *testing.T) {
			p := queens(tt.n, tt.first)
			if got := Feasible(p, 100_000); got != tt.want {
				t.Errorf("Feasible = %v, want %v (%s)", got, tt.want, tt.source)
			}
			if a := Solve(p, 100_000); a.Verdict != tt.want || a.Verdict == Found && checkAnswer(p, a) != "" {
				t.Errorf("Solve = %+v, want %v (%s)", a, tt.want, tt.source)
			}
		})
	}
}

// More members than tokens, each wanting one, is refused at once however many slots there are.
func TestPigeons(t *testing.T) {
	pigeons := func(n int) *Problem {
		p := &Problem{Slots: 40}
		for m := range n {
			p.Cost = append(p.Cost, make([]int, 40))
			g := Group{Members: []int{m}}
			for j := range 40 {
				g.Options = append(g.Options, Option{[]int{j}, 1 << (j % 10)})
			}
			p.Groups = append(p.Groups, g)
		}
		return p
	}
	if a := Solve(pigeons(11), 50); a.Verdict != Impossible {
		t.Errorf("eleven pigeons in ten holes: %v after %d nodes (pigeonhole principle)", a.Verdict, a.Nodes)
	}
	if a := Solve(pigeons(10), 10_000); a.Verdict != Found || checkAnswer(pigeons(10), a) != "" {
		t.Errorf("ten pigeons in ten holes: %v after %d nodes", a.Verdict, a.Nodes)
	}
}

// cover is an exact cover problem: pieces are groups whose members fill cells.
func cover(cells int, pieces ...[][]int) *Problem {
	p := &Problem{Slots: cells}
	for _, placements := range pieces {
		g := Group{}
		for range placements[0] {
			g.Members = append(g.Members, len(p.Cost))
			p.Cost = append(p.Cost, make([]int, cells))
		}
		for _, cells := range placements {
			g.Options = append(g.Options, Option{Slots: cells})
		}
		p.Groups = append(p.Groups, g)
	}
	return p
}

// bars lists all places of a straight piece of length n on a wide x high board.
func bars(n, wide, high int) (places [][]int) {
	for y := range high {
		for x := range wide {
			var across, down []int
			for i := range n {
				across, down = append(across, y*wide+x+i), append(down, (y+i)*wide+x)
			}
			if x+n <= wide {
				places = append(places, across)
			}
			if y+n <= high && n > 1 {
				places = append(places, down)
			}
		}
	}
	return places
}

func TestExactCover(t *testing.T) {
	repeat := func(n int, piece [][]int) [][][]int { return slices.Repeat([][][]int{piece}, n) }
	tests := []struct {
		name, source string
		problem      *Problem
		want         Verdict
	}{
		{"dominoes on 4 x 4", "36 tilings, OEIS A004003", cover(16, repeat(8, bars(2, 4, 4))...), Found},
		{"dominoes on 3 x 3 less a corner", "a spiral", cover(9, append(repeat(4, bars(2, 3, 3)), [][]int{{0}})...), Found},
		{"dominoes on 3 x 3 less an edge", "Golomb's colouring: 5 dark and 3 light cells are left", cover(9, append(repeat(4, bars(2, 3, 3)), [][]int{{1}})...), Impossible},
		{"dominoes on a board without two opposite corners", "Golomb's colouring",
			cover(16, append(repeat(7, bars(2, 4, 4)), [][]int{{0}}, [][]int{{15}})...), Impossible},
		{"bars of four on 6 x 6", "Klarner (1969): a bar of n tiles a x b only if n divides a or b", cover(36, repeat(9, bars(4, 6, 6))...), Impossible},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Solve(tt.problem, 2_000_000); got.Verdict != tt.want {
				t.Errorf("%v after %d nodes, want %v (%s)", got.Verdict, got.Nodes, tt.want, tt.source)
			}
		})
	}
}
