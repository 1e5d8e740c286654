package scan

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/crillab/gophersat/solver"
)

// A satModel says, in other variables than the planner's, that the keys of chords lie in the cells of a
// full matrix with at most so many elbows: for every key and cell whether it is there.
type satModel struct {
	shape  shape
	keys   []int // of chords
	next   int
	in     map[int][]int    // by key, for each cell
	line   [2]map[int][]int // by side and key, for each line
	diode  map[int]int      // by key
	wanted [][]int
}

func newSatModel(s shape, sets [][]int) *satModel {
	m := &satModel{shape: s, in: map[int][]int{}, line: [2]map[int][]int{{}, {}}, diode: map[int]int{}}
	for _, set := range sets {
		m.keys = append(m.keys, set...)
	}
	slices.Sort(m.keys)
	m.keys = slices.Compact(m.keys)
	for _, k := range m.keys {
		m.in[k], m.diode[k] = m.variables(s.cells()), m.variables(1)[0]
		m.clause(m.in[k]...)
		for side, lines := range [2]int{s.rows, s.columns} {
			m.line[side][k] = m.variables(lines)
			m.apart(m.line[side][k])
			for c, v := range m.in[k] {
				m.clause(-v, m.line[side][k][s.line(side, c)])
			}
		}
	}
	for c := range s.cells() {
		var there []int
		for _, k := range m.keys {
			there = append(there, m.in[k][c])
		}
		m.apart(there)
	}
	m.number()
	for _, set := range sets {
		for _, k := range set {
			m.elbow(k, set)
		}
	}
	return m
}

// number counts rows and columns as the keys come, since they may be numbered anew.
func (m *satModel) number() {
	for side := range 2 {
		for i, k := range m.keys {
			for l := 1; l < len(m.line[side][k]); l++ {
				list := []int{-m.line[side][k][l]}
				for _, before := range m.keys[:i] {
					list = append(list, m.line[side][before][l-1])
				}
				m.clause(list...)
			}
		}
	}
}

func (m *satModel) variables(n int) []int {
	list := make([]int, n)
	for i := range list {
		m.next++
		list[i] = m.next
	}
	return list
}

func (m *satModel) clause(literals ...int) {
	m.wanted = append(m.wanted, literals)
}

// apart lets at most one of some variables hold.
func (m *satModel) apart(list []int) {
	for i, a := range list {
		for _, b := range list[:i] {
			m.clause(-a, -b)
		}
	}
}

// elbow asks for a diode at k if it has a row-mate and a column-mate in a set.
func (m *satModel) elbow(k int, set []int) {
	mated := m.variables(2)
	for side := range 2 {
		for _, other := range set {
			for l, v := range m.line[side][k] {
				if other != k {
					m.clause(-v, -m.line[side][other][l], mated[side])
				}
			}
		}
	}
	m.clause(-mated[0], -mated[1], m.diode[k])
}

// possible reports whether so many diodes do: of the first keys so many have more than none, one …
func (m *satModel) possible(diodes int) bool {
	before := m.variables(diodes + 1)
	for i, k := range m.keys {
		now := m.variables(diodes + 1)
		for n := range now {
			if i > 0 {
				m.clause(-before[n], now[n])
			}
			if n == 0 {
				m.clause(-m.diode[k], now[0])
			} else if i > 0 {
				m.clause(-m.diode[k], -before[n-1], now[n])
			}
		}
		before = now
	}
	m.clause(-before[diodes])
	return solver.New(solver.ParseSlice(m.wanted)).Solve() == solver.Sat
}

// outsideShapes are the matrices up to 4 x 6.
var outsideShapes = []shape{{2, 3}, {2, 4}, {2, 5}, {2, 6}, {3, 3}, {3, 4}, {3, 5}, {3, 6}, {4, 4}, {4, 5}, {4, 6}}

// playing is a task of scattered keys, as many as cells, with chords.
func playing(s shape, seed uint64, chords, most int) (*matrices, [][]int) {
	p := scatteredKeys(s.cells(), seed)
	r := rand.New(rand.NewPCG(seed, uint64(s.cells())))
	var all []chord
	var sets [][]int
	for i := range chords {
		set := inOrder(r.Perm(s.cells())[:3+r.IntN(most-2)])
		sets = append(sets, set)
		all = append(all, chord{name: fmt.Sprint("c", i), keys: set})
	}
	keys := keysOf(p)
	return &matrices{task: newTask(keys, share(p, keys).lines, familiesOf(all), true)}, sets
}

// The fewest diodes in any cells of matrices up to 4 x 6, none if possible: where the planner says that
// they are proved, a SAT solver finds no way with one fewer, and elsewhere none with fewer than the
// bound. At least a hundred are proved. The solver has a buffer for the whole program, so that there
// must be one at a time; it is given plain clauses, since it has answered wrongly to sums.
func TestFewestDiodesEqualSAT(t *testing.T) {
	proved, needy := 0, 0
	for _, s := range outsideShapes {
		for seed := uint64(10); seed < 20; seed++ {
			m, sets := playing(s, seed, 1+int(seed)%4, min(8, s.pins()-1))
			draft, _ := m.draft(s)
			c := m.improve(draft)
			if c.floor > 0 && newSatModel(s, sets).possible(c.floor-1) {
				t.Errorf("%v, seed %d: SAT finds a way with %d diodes, fewer than the bound", s, seed, c.floor-1)
			}
			trial := trial{shape: s, sets: sets}
			if got := trial.elbows(c.cell); got != len(c.diodes) {
				t.Errorf("%v, seed %d: %d diodes, but %d elbows", s, seed, len(c.diodes), got)
			}
			if len(c.diodes) > 0 {
				needy++
			}
			if c.floor == len(c.diodes) {
				proved++
			}
		}
	}
	if proved < 100 || needy < 50 {
		t.Errorf("%d are proved, %d need diodes; want 100 and 50 at least", proved, needy)
	}
}
