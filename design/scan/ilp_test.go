package scan

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fascia/design/panel"
)

// partition writes the choice of cells of a full matrix as a choice of rows and columns out of all sets
// of keys that could be one, in CPLEX LP format: each key is in one row and in one column, no two keys
// share both, and no key has mates of a set in both.
func partition(p *panel.Panel, s shape, sets [][]int) string {
	keys := p.Keys()
	var lines [2][][]int
	var objective, rules strings.Builder
	inLine := map[string][]string{} // rule to terms
	for side, size := range [2]int{s.columns, s.rows} {
		eachPart(len(keys), size, func(part []int) bool {
			name := fmt.Sprintf("x%d_%d", side, len(lines[side]))
			lines[side] = append(lines[side], slices.Clone(part))
			var refs []panel.KeyRef
			for _, k := range part {
				refs = append(refs, keys[k])
			}
			fmt.Fprintf(&objective, " + %d %s\n", treeLength(p, refs, side), name)
			for i, k := range part {
				key := fmt.Sprintf("key%d_%d", side, k)
				inLine[key] = append(inLine[key], name)
				for _, other := range part[:i] {
					pair := fmt.Sprintf("pair%d_%d", other, k)
					inLine[pair] = append(inLine[pair], name)
				}
			}
			return true
		})
	}
	mates := func(side, k, mate int) []string {
		var terms []string
		for i, line := range lines[side] {
			if slices.Contains(line, k) && slices.Contains(line, mate) {
				terms = append(terms, fmt.Sprintf("x%d_%d", side, i))
			}
		}
		return terms
	}
	for c, set := range sets {
		for _, k := range set {
			for _, a := range set {
				for _, b := range set {
					if k != a && k != b && a != b {
						inLine[fmt.Sprintf("elbow%d_%d_%d_%d", c, k, a, b)] = append(mates(rowSide, k, a), mates(columnSide, k, b)...)
					}
				}
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(inLine)) {
		relation := "<="
		if strings.HasPrefix(name, "key") {
			relation = "="
		}
		fmt.Fprintf(&rules, " %s: %s %s 1\n", name, strings.Join(inLine[name], "\n + "), relation)
	}
	var binaries strings.Builder
	for side := range 2 {
		for i := range lines[side] {
			fmt.Fprintf(&binaries, " x%d_%d\n", side, i)
		}
	}
	return "Minimize\n obj:" + objective.String() + "Subject To\n" + rules.String() + "Binary\n" + binaries.String() + "End\n"
}

// The least wire of matrices up to 3 x 4, with and without chords that need no diodes, against two
// solvers of integer programs: CBC up to 3 x 3, GLPK on all.
func TestLeastWireEqualsILP(t *testing.T) {
	compared := 0
	for _, s := range []shape{{2, 3}, {3, 2}, {2, 4}, {2, 5}, {3, 3}, {3, 4}} {
		for seed := uint64(30); seed < 36; seed++ {
			if s.cells() == 12 && seed > 32 {
				continue
			}
			m, sets := playing(s, seed, int(seed)%3, 4)
			draft, _ := m.draft(s)
			c := m.improve(draft)
			if c.regular || len(c.diodes) > 0 {
				continue
			}
			compared++
			text := partition(scatteredKeys(s.cells(), seed), s, sets)
			if got := byGLPK(t, text); got != c.length || !c.shortest {
				t.Errorf("%v, seed %d: %d holes (shortest: %v), GLPK %d", s, seed, c.length, c.shortest, got)
			}
			if s.cells() <= 9 {
				if got := byCBC(t, text); got != c.length {
					t.Errorf("%v, seed %d: %d holes, CBC %d", s, seed, c.length, got)
				}
			}
		}
	}
	if compared < 25 {
		t.Errorf("%d panels are compared, want 25 at least", compared)
	}
}

// program finds a solver's program, which the tests need.
func program(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("%s is not installed: run go run ./cmd/verify", name)
	}
	return path
}

// byGLPK is the least cost by glpsol.
func byGLPK(t *testing.T, text string) int {
	t.Helper()
	_, rest, _ := strings.Cut(solvedByGLPK(t, text), "Objective:  obj = ")
	value, _, _ := strings.Cut(rest, " ")
	return wholeNumber(t, value)
}

// solvedByGLPK is what glpsol writes about an optimum (GLPK reference manual, chapter on glpsol).
func solvedByGLPK(t *testing.T, text string) string {
	t.Helper()
	in, out := written(t, text)
	log, err := exec.CommandContext(t.Context(), program(t, "glpsol"), "--lp", in, "--tmlim", "60", "-o", out).CombinedOutput()
	answer, _ := os.ReadFile(out)
	if err != nil || !strings.Contains(string(answer), "INTEGER OPTIMAL") {
		t.Fatalf("glpsol: %v\n%s", err, log)
	}
	return string(answer)
}

// byCBC is the least cost by the solver of coin-or (CBC user guide: the solution file begins with its status).
func byCBC(t *testing.T, text string) int {
	t.Helper()
	in, out := written(t, text)
	log, err := exec.CommandContext(t.Context(), program(t, "cbc"), in, "seconds", "60", "solve", "solution", out).CombinedOutput()
	answer, _ := os.ReadFile(out)
	status, _, _ := strings.Cut(string(answer), "\n")
	value, ok := strings.CutPrefix(status, "Optimal - objective value ")
	if err != nil || !ok {
		t.Fatalf("cbc: %v, %s\n%s", err, status, log)
	}
	return wholeNumber(t, value)
}

func written(t *testing.T, text string) (in, out string) {
	t.Helper()
	dir := t.TempDir()
	in = filepath.Join(dir, "model.lp")
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return in, filepath.Join(dir, "solution.txt")
}

func wholeNumber(t *testing.T, value string) int {
	t.Helper()
	f, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	if err != nil || math.Abs(f-math.Round(f)) > 1e-3 {
		t.Fatalf("objective %q: %v", value, err)
	}
	return int(math.Round(f))
}

// hitProgram writes the choice of fewest numbers with one from every list, in CPLEX LP format.
func hitProgram(lists [][]int) string {
	terms := map[string]bool{}
	var rules strings.Builder
	for i, list := range lists {
		var names []string
		for _, k := range list {
			name := fmt.Sprintf("d%d", k)
			names = append(names, name)
			terms[name] = true
		}
		fmt.Fprintf(&rules, " ghost%d: %s >= 1\n", i, strings.Join(names, " + "))
	}
	names := slices.Sorted(maps.Keys(terms))
	return "Minimize\n obj: " + strings.Join(names, "\n + ") + "\nSubject To\n" + rules.String() + "Binary\n " + strings.Join(names, "\n ") + "\nEnd\n"
}

// The fewest diodes in given cells with empty ones among them, up to 32 keys: an ILP solver chooses
// diodes, the simulator shows the ghosts that are left, each of which takes a diode at some held key
// that has none, and so on until there are none.
func TestDiodesInCellsEqualILP(t *testing.T) {
	needy := 0
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 5))
		n := 18 + 2*int(seed%8)
		m := matrixCase{field: fieldOf(shape{6, 7}, r.Perm(42)[:n])}
		for range 10 {
			m.chords = append(m.chords, chord{name: "c", keys: inOrder(r.Perm(n)[:3+r.IntN(6)])})
		}
		diodes, proved := m.field.diodes(m.families())
		var lists [][]int
		chosen := []int{}
		for round := 0; ; round++ {
			p, result := m.built(chosen)
			ghosts := Verify(p, result)
			if len(ghosts) == 0 {
				break
			}
			for _, g := range ghosts {
				var bare []int
				for _, id := range g.Pressed {
					var k int
					fmt.Sscanf(id, "K%d", &k)
					if !slices.Contains(chosen, k) {
						bare = append(bare, k)
					}
				}
				lists = append(lists, bare)
			}
			if chosen = chosenBy(t, hitProgram(lists)); round == 60 {
				t.Fatalf("seed %d: ghosts %v are left beside diodes %v", seed, ghosts, chosen)
			}
		}
		if len(chosen) != len(diodes) || !proved || m.haunted(diodes) {
			t.Errorf("seed %d: %d diodes (proved: %v), ILP %d", seed, len(diodes), proved, len(chosen))
		}
		if len(diodes) > 0 {
			needy++
		}
	}
	if needy < 8 {
		t.Errorf("%d of 12 need diodes, want 8 at least", needy)
	}
}

// chosenBy lists the numbers that GLPK chooses.
func chosenBy(t *testing.T, text string) []int {
	t.Helper()
	var list []int
	for _, line := range strings.Split(solvedByGLPK(t, text), "\n") {
		if f := strings.Fields(line); len(f) > 3 && strings.HasPrefix(f[1], "d") && f[2] == "*" && f[3] == "1" {
			k, err := strconv.Atoi(f[1][1:])
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, k)
		}
	}
	return list
}
