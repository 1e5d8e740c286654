package scan

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// Random clauses, decided by trying all values.
func TestClausesEqualBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 10).Draw(t, "variables")
		c := clauses{left: 1 << 20}
		for v := range n {
			c.variable(v%2 == 0)
		}
		var all [][]literal
		for i := range rapid.IntRange(0, 60).Draw(t, "clauses") {
			var list []literal
			for _, v := range rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), 1, min(n, 4), rapid.ID[int]).Draw(t, fmt.Sprint("clause", i)) {
				l := yes(v)
				if rapid.Bool().Draw(t, fmt.Sprint("no", i)) {
					l = l.no()
				}
				list = append(list, l)
			}
			all = append(all, list)
		}
		want := impossible
		for values := range 1 << n {
			ok := true
			for _, list := range all {
				one := false
				for _, l := range list {
					one = one || values>>l.of()&1 == int(1-l&1)
				}
				ok = ok && one
			}
			if ok {
				want = possible
			}
		}
		for i, list := range all {
			c.add(list...)
			if i == len(all)/2 {
				c.solve() // clauses may be added later
			}
		}
		if got := c.solve(); got != want {
			t.Fatalf("verdict %d, want %d", got, want)
		}
		if want == possible {
			for _, list := range all {
				one := false
				for _, l := range list {
					one = one || c.value[l] > 0
				}
				if !one {
					t.Fatalf("clause %v does not hold", list)
				}
			}
		}
	})
}

// n+1 pigeons don't fit in n holes (Haken, 1985, doi:10.1016/0304-3975(85)90144-6: hard for this method).
func pigeons(n, holes int) clauses {
	c := clauses{left: 1 << 22}
	for range n * holes {
		c.variable(true)
	}
	for p := range n {
		var list []literal
		for h := range holes {
			list = append(list, yes(p*holes+h))
			for q := range p {
				c.add(yes(p*holes+h).no(), yes(q*holes+h).no())
			}
		}
		c.add(list...)
	}
	return c
}

func TestPigeons(t *testing.T) {
	tests := []struct {
		pigeons, holes int
		want           verdict
	}{{6, 6, possible}, {7, 6, impossible}, {30, 29, undecided}}
	for _, tt := range tests {
		c := pigeons(tt.pigeons, tt.holes)
		if got := c.solve(); got != tt.want {
			t.Errorf("%d pigeons in %d holes: verdict %d, want %d", tt.pigeons, tt.holes, got, tt.want)
		}
	}
}

func TestLuby(t *testing.T) {
	want := []int{1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8} // Luby, Sinclair, Zuckerman, 1993
	for i, w := range want {
		if got := luby(i + 1); got != w {
			t.Errorf("luby(%d) = %d, want %d", i+1, got, w)
		}
	}
}
