package scan

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/panel"
	"pgregory.net/rapid"
)

// corner is a regular 2 x 3 panel that has to be a matrix, with a chord that can't avoid a row-mate
// and a column-mate: four keys in two rows and three columns.
func corner(diodes string) *panel.Panel {
	p := withChords(wishing(regularKeys(2, 3), "matrix", diodes), []int{1, 2, 3, 4, 5, 6})
	p.Scan.Rows, p.Scan.Columns = 2, 3
	return p
}

func TestDiodeWishes(t *testing.T) {
	tests := []struct {
		wish, code string
		diodes     int
		severity   finding.Severity
	}{
		{"none", "scan-ghost", 0, finding.Stop},
		{"where needed", "scan-diodes", 6, finding.Note},
		{"every key", "", 6, 0},
	}
	for _, tt := range tests {
		t.Run(tt.wish, func(t *testing.T) {
			p := corner(tt.wish)
			r := Plan(p, rp2040(), 20)
			n := 0
			for _, c := range r.Cells {
				if c.Diode {
					n++
				}
			}
			if n != tt.diodes {
				t.Errorf("%d diodes, want %d", n, tt.diodes)
			}
			for _, f := range r.Findings {
				if f.Code != tt.code || f.Severity != tt.severity {
					t.Errorf("finding %+v, want %s %q", f, tt.severity, tt.code)
				}
			}
			if ghosts := Verify(p, &r); len(ghosts) != len(r.Ghosts) || (len(ghosts) > 0) != (tt.wish == "none") {
				t.Errorf("%d ghosts listed, %d found by the simulator", len(r.Ghosts), len(ghosts))
			}
			sound(t, p, &r)
		})
	}
}

// Keys in an L would ghost where they lie; two exchanged keys keep the chord apart, and no diode
// is needed.
func TestChordsAreKeptApartWithoutDiodes(t *testing.T) {
	p := withChords(wishing(regularKeys(4, 6), "matrix", "where needed"), []int{1, 2, 7}, []int{3, 4, 9, 10})
	r := Plan(p, rp2040(), 10)
	for _, c := range r.Cells {
		if c.Diode {
			t.Errorf("key %s takes a diode", c.Key)
		}
	}
	if g := Verify(p, &r); len(g) > 0 {
		t.Errorf("ghosts %v", g)
	}
	if drawn(&r) == numbered(4, 6) {
		t.Error("the keys lie in an L")
	}
	moved := 0
	for i, c := range r.Cells {
		if c.Key != fmt.Sprintf("S%d", i+1) {
			moved++
		}
	}
	if moved > 6 {
		t.Errorf("%d of 24 keys left their place, want few:\n%s", moved, drawn(&r))
	}
}

func TestChordFindings(t *testing.T) {
	some := func(count int, of ...string) panel.AnyOf { return panel.AnyOf{Count: count, Of: of} }
	tests := []struct {
		name, code string
		severity   finding.Severity
		keys       []string
		any        []panel.AnyOf
	}{
		{"a key that is not there", "scan-chord-missing", finding.Stop, []string{"S1", "S99"}, nil},
		{"one key", "scan-chord-single", finding.Note, []string{"S1"}, nil},
		{"one key twice", "scan-chord-single", finding.Note, []string{"S1", "S1"}, nil},
		{"no key", "scan-chord-single", finding.Note, nil, nil},
		{"a choice of a key that is not there", "scan-chord-missing", finding.Stop, []string{"S1"}, []panel.AnyOf{some(1, "S2", "S99")}},
		{"a choice of more than there are", "scan-chord-missing", finding.Stop, []string{"S1"}, []panel.AnyOf{some(4, "S2", "S3", "S4")}},
		{"a choice of nothing", "scan-chord-single", finding.Note, []string{"S1"}, []panel.AnyOf{some(0, "S2", "S3")}},
		{"any one", "scan-chord-single", finding.Note, nil, []panel.AnyOf{some(1, "S2", "S3")}},
		{"too many choices", "scan-chord-large", finding.Mind, nil, []panel.AnyOf{some(1, "S1", "S2"), some(1, "S3", "S4"), some(1, "S5", "S6"), some(1, "S7", "S8"), some(1, "S9", "S10")}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := regularKeys(4, 5)
			p.Chords = []panel.Chord{{Name: "x", Keys: tt.keys, Any: tt.any}}
			r := Plan(p, rp2040(), 12)
			if !slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Code == tt.code && f.Severity == tt.severity }) {
				t.Errorf("findings %v, want %s %s", r.Findings, tt.severity, tt.code)
			}
			sound(t, p, &r)
		})
	}
	quiet := withChords(regularKeys(4, 5), []int{1, 9})
	if r := Plan(quiet, rp2040(), 12); len(r.Findings) > 0 {
		t.Errorf("a chord of two: findings %v", r.Findings)
	}
}

func TestDirectKeyInChordIsSafe(t *testing.T) {
	p := corner("none")
	p.Chords[0].Keys = []string{"S1", "S2", "S4"}
	p.Scan.Rows, p.Scan.Columns = 0, 0
	p.Placed[0].Key.Direct = true
	r := Plan(p, rp2040(), 20)
	if codes(&r)["scan-ghost"] != 0 || codes(&r)["scan-chord-direct"] != 1 || len(Verify(p, &r)) > 0 {
		t.Errorf("findings %v", r.Findings)
	}
}

func TestGhostsCarryTheirPath(t *testing.T) {
	r := Plan(corner("none"), rp2040(), 20)
	for _, g := range r.Ghosts {
		read := Reads(&r, g.Pressed)
		if !slices.Contains(read, g.Phantom) || slices.Contains(g.Pressed, g.Phantom) || len(g.Pressed) < 3 {
			t.Errorf("ghost %+v: held keys read %v", g, read)
		}
	}
	if len(r.Ghosts) == 0 {
		t.Error("no ghosts")
	}
}

// Any 32 of 64 keys is 10^18 sets of keys, and any two of each of four tens is 4,100,625.
func TestHugeChoicesArePlanned(t *testing.T) {
	ids := func(from, to int) []string {
		var list []string
		for k := from; k <= to; k++ {
			list = append(list, fmt.Sprintf("S%d", k))
		}
		return list
	}
	tests := []struct {
		name   string
		any    []panel.AnyOf
		diodes int // of a matrix of 8 x 8
		wish   string
	}{
		{"any 32 of 64", []panel.AnyOf{{Count: 32, Of: ids(1, 64)}}, 64, "none"},
		{"any two of each ten", []panel.AnyOf{{Count: 2, Of: ids(1, 10)}, {Count: 2, Of: ids(11, 20)}, {Count: 2, Of: ids(21, 30)}, {Count: 2, Of: ids(31, 40)}}, 40, "where needed"},
		{"one of these with one of those", []panel.AnyOf{{Count: 1, Of: ids(1, 32)}, {Count: 1, Of: ids(33, 64)}}, 0, "none"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := wishing(scatteredKeys(64, 1), "matrix", tt.wish)
			p.Scan.Rows, p.Scan.Columns = 8, 8
			p.Chords = []panel.Chord{{Name: "huge", Any: tt.any}}
			r := Plan(p, rp2040(), 40)
			sound(t, p, &r)
			diodes := 0
			for _, c := range r.Cells {
				if c.Diode {
					diodes++
				}
			}
			if tt.wish != "none" && (diodes > tt.diodes || r.DiodeBound > diodes) || (len(r.Ghosts) > 0) != (tt.wish == "none" && tt.diodes > 0) {
				t.Errorf("%d diodes, at least %d, and %d ghosts; want at most %d", diodes, r.DiodeBound, len(r.Ghosts), tt.diodes)
			}
		})
	}
}

// Whatever the panel, the plan holds every key, and with diodes as planned no chord ghosts.
func TestRandomPanels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 26).Draw(t, "keys")
		p := scatteredKeys(n, rapid.Uint64Range(0, 99).Draw(t, "seed"))
		if rapid.Bool().Draw(t, "nav") {
			add(p, "five", p.Placed[0].At, "S50")
		}
		p.Scan.Style = rapid.SampledFrom([]string{"auto", "matrix", "direct"}).Draw(t, "style")
		p.Scan.Diodes = rapid.SampledFrom([]string{"none", "where needed", "every key"}).Draw(t, "diodes")
		p.Scan.Rows = rapid.IntRange(0, 8).Draw(t, "rows")
		p.Scan.Columns = rapid.IntRange(0, 8).Draw(t, "columns")
		for i := range p.Placed[:n] {
			p.Placed[i].Key.Direct = rapid.IntRange(0, 9).Draw(t, "mark") == 0
		}
		for i := range rapid.IntRange(0, 5).Draw(t, "chords") {
			keys := rapid.SliceOfN(rapid.IntRange(1, n), 0, 6).Draw(t, fmt.Sprint("chord", i))
			withChords(p, keys)
			c := &p.Chords[len(p.Chords)-1]
			for range rapid.IntRange(0, 2).Draw(t, fmt.Sprint("choices", i)) {
				of := drawKeys(t, n, fmt.Sprint("of", i))
				c.Any = append(c.Any, panel.AnyOf{Count: rapid.IntRange(1, len(of)).Draw(t, fmt.Sprint("count", i)), Of: of})
			}
		}
		r := Plan(p, rp2040(), rapid.IntRange(0, 26).Draw(t, "free"))
		sound(t, p, &r)
		ghosts := Verify(p, &r)
		if p.Scan.Diodes != "none" && len(ghosts) > 0 || len(ghosts) != len(r.Ghosts) {
			t.Fatalf("%d ghosts listed, the simulator finds %v\n%s", len(r.Ghosts), ghosts, drawn(&r))
		}
		row := map[int]bool{}
		for _, c := range r.Cells {
			if c.Key[:2] == "S5" && len(c.Key) > 3 {
				row[c.Row] = true
			}
		}
		if len(row) > 1 {
			t.Fatalf("contacts of one common terminal lie in rows %v", row)
		}
	})
}

func drawKeys(t *rapid.T, n int, label string) []string {
	var ids []string
	for _, k := range rapid.SliceOfNDistinct(rapid.IntRange(1, n), 1, min(n, 6), rapid.ID[int]).Draw(t, label) {
		ids = append(ids, fmt.Sprintf("S%d", k))
	}
	return ids
}
