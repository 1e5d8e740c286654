package hold_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/hold"
	"fascia/design/panel"
	"fascia/design/scan"
)

// drawn is a matrix as it is written here: a line a row, a letter a key, a capital with a diode, a dot
// for no key. The key's name is its letter, small.
func drawn(rows ...string) *scan.Result {
	r := &scan.Result{Style: "matrix", Active: "low", Rows: len(rows), Columns: len(rows[0])}
	for i, line := range rows {
		for j, c := range line {
			if c != '.' {
				r.Cells = append(r.Cells, scan.Cell{Key: strings.ToLower(string(c)), Row: i, Column: j, Diode: c < 'a'})
			}
		}
	}
	return r
}

func keys(letters string) []string { return strings.Split(letters, "") }

// Three corners of a rectangle make the fourth read as pressed, unless current cannot flow backwards
// through the corner between the other two (common practice, no source).
func TestGhosts(t *testing.T) {
	tests := []struct {
		name, held string
		r          *scan.Result
		ghosts     []string // key: way
		diodes     string
	}{
		{"two keys", "ab", drawn("ab", "cd"), nil, ""},
		{"a rectangle", "abd", drawn("ab", "cd"), []string{"c: row 1 d column 1 b row 0 a column 0"}, "b"},
		{"a rectangle with the diode where it counts", "abd", drawn("aB", "cd"), nil, ""},
		{"a rectangle with the diode elsewhere", "abd", drawn("Ab", "cd"), []string{"c: row 1 d column 1 b row 0 a column 0"}, "b"},
		{"no key at the fourth corner", "abd", drawn("ab", ".d"), nil, ""},
		{"all four: each alone is missing before the last is down", "abcd", drawn("ab", "cd"),
			[]string{"d: row 1 c column 0 a row 0 b column 1", "c: row 1 d column 1 b row 0 a column 0",
				"b: row 0 a column 0 c row 1 d column 1", "a: row 0 b column 1 d row 1 c column 0"}, "abcd"},
		{"a longer way round an empty cell", "abdef", drawn("ab.", ".de", "g.f"),
			[]string{"g: row 2 f column 2 e row 1 d column 1 b row 0 a column 0"}, "b"},
		{"a row", "abc", drawn("abc", "def"), nil, ""},
		{"keys that are not there", "abx", drawn("ab", "cd"), nil, ""},
	}
	for _, tt := range tests {
		got := hold.Of(tt.r, &panel.Chord{Keys: keys(tt.held)}, nil)
		var ghosts []string
		for _, g := range got.Ghosts {
			ghosts = append(ghosts, g.Key+": "+strings.Join(g.Way, " "))
			if g.OnWay != strings.Contains(tt.held, g.Key) {
				t.Errorf("%s: ghost %s is on the way: %v", tt.name, g.Key, g.OnWay)
			}
		}
		if !slices.Equal(ghosts, tt.ghosts) || strings.Join(got.Diodes, "") != tt.diodes || !got.Cured || !got.Whole {
			t.Errorf("%s: ghosts %q, diodes %v (%v); want %q, %s", tt.name, ghosts, got.Diodes, got.Cured, tt.ghosts, tt.diodes)
		}
		if safe := len(tt.ghosts) == 0; got.Sets != 1 || (got.Safe == 1) != safe {
			t.Errorf("%s: %d of %d sets are safe", tt.name, got.Safe, got.Sets)
		}
	}
}

// With the selected column high, current runs from the column to the row.
func TestWayOfAnActiveHighMatrix(t *testing.T) {
	r := drawn("ab", "cd")
	r.Active = "high"
	got := hold.Of(r, &panel.Chord{Keys: keys("abd")}, nil)
	if len(got.Ghosts) != 1 || strings.Join(got.Ghosts[0].Way, " ") != "column 0 a row 0 b column 1 d row 1" {
		t.Errorf("%+v", got.Ghosts)
	}
}

// With one pin a line, a to b and b to c make a to c, two diodes on; nothing is left to put a diode at.
func TestLines(t *testing.T) {
	r := &scan.Result{Style: "lines", Active: "low", Rows: 3, Columns: 3}
	for i, c := range [][2]int{{0, 1}, {0, 2}, {1, 0}, {1, 2}, {2, 0}, {2, 1}} {
		r.Cells = append(r.Cells, scan.Cell{Key: string(rune('a' + i)), Row: c[0], Column: c[1], Diode: true})
	}
	got := hold.Of(r, &panel.Chord{Keys: keys("ad")}, nil)
	if len(got.Ghosts) != 1 || got.Ghosts[0].Key != "b" || !got.Ghosts[0].Doubt || got.Cured || len(got.Diodes) != 0 ||
		strings.Join(got.Ghosts[0].Way, " ") != "line 0 a line 1 d line 2" {
		t.Errorf("a and d: %+v", got)
	}
	if got := hold.Of(r, &panel.Chord{Keys: keys("ac")}, nil); len(got.Ghosts) != 0 {
		t.Errorf("there and back: %+v", got)
	}
}

func TestChoices(t *testing.T) {
	r := drawn("abc", "def", "ghi")
	r.Direct = []scan.Direct{{Key: "z"}}
	tests := []struct {
		name       string
		c          panel.Chord
		sets, safe int
	}{
		{"any two of four", panel.Chord{Any: []panel.AnyOf{{Count: 2, Of: keys("abde")}}}, 6, 6},
		{"any three of a rectangle", panel.Chord{Any: []panel.AnyOf{{Count: 3, Of: keys("abde")}}}, 4, 0},
		{"a and any of the rest with e", panel.Chord{Keys: keys("ae"), Any: []panel.AnyOf{{Count: 1, Of: keys("bdcf")}}}, 4, 2},
		{"any of these with any of those", panel.Chord{Any: []panel.AnyOf{{Count: 1, Of: keys("abc")}, {Count: 1, Of: keys("def")}}}, 9, 9},
		{"groups that overlap", panel.Chord{Any: []panel.AnyOf{{Count: 1, Of: keys("ab")}, {Count: 1, Of: keys("ab")}}}, 3, 3},
		{"a key with a pin of its own", panel.Chord{Keys: keys("ab"), Any: []panel.AnyOf{{Count: 1, Of: keys("ez")}}}, 2, 1},
		{"keys that are gone", panel.Chord{Keys: keys("ab"), Any: []panel.AnyOf{{Count: 2, Of: keys("xy")}}}, 1, 1},
		{"no keys", panel.Chord{}, 1, 1},
	}
	for _, tt := range tests {
		if got := hold.Of(r, &tt.c, nil); got.Sets != tt.sets || got.Safe != tt.safe || !got.Whole {
			t.Errorf("%s: %d of %d sets are safe, want %d of %d", tt.name, got.Safe, got.Sets, tt.safe, tt.sets)
		}
	}
}

// However many choices there are, the answer comes, and says that it is not the whole.
func TestTooManyChoices(t *testing.T) {
	r := &scan.Result{Style: "matrix", Active: "low", Rows: 8, Columns: 16}
	var all []string
	for i := range 128 {
		r.Cells = append(r.Cells, scan.Cell{Key: fmt.Sprint("S", i), Row: i / 16, Column: i % 16})
		all = append(all, fmt.Sprint("S", i))
	}
	same := panel.AnyOf{Count: 4, Of: all[:8]}
	many := hold.Of(r, &panel.Chord{Any: []panel.AnyOf{{Count: 32, Of: all[:64]}, {Count: 32, Of: all[64:]}}}, nil)
	if many.Whole || len(many.Ghosts) == 0 || many.Safe > 0 {
		t.Errorf("%d sets, %d safe, whole: %v, %d ghosts", many.Sets, many.Safe, many.Whole, len(many.Ghosts))
	}
	if row := hold.Of(r, &panel.Chord{Any: []panel.AnyOf{same, same, same, same}}, nil); row.Whole || row.Safe != row.Sets {
		t.Errorf("of one row %d sets, %d safe, whole: %v", row.Sets, row.Safe, row.Whole)
	}
}

func anyMatrix(rt *rapid.T) *scan.Result {
	r := &scan.Result{Style: "matrix", Active: rapid.SampledFrom([]string{"low", "high"}).Draw(rt, "active"),
		Rows: rapid.IntRange(1, 4).Draw(rt, "rows"), Columns: rapid.IntRange(1, 4).Draw(rt, "columns")}
	for i := range r.Rows * r.Columns {
		if kind := rapid.IntRange(0, 3).Draw(rt, "cell"); kind > 0 {
			r.Cells = append(r.Cells, scan.Cell{Key: fmt.Sprint("S", i), Row: i / r.Columns, Column: i % r.Columns, Diode: kind == 3})
		}
	}
	return r
}

func anySet(rt *rapid.T, r *scan.Result) []string {
	var set []string
	for _, c := range r.Cells {
		if rapid.IntRange(0, 2).Draw(rt, "held") > 0 && len(set) < 8 {
			set = append(set, c.Key)
		}
	}
	return set
}

func verify(r *scan.Result, set []string) []scan.Ghost {
	return scan.Verify(&panel.Panel{Chords: []panel.Chord{{Keys: set}}}, r)
}

// The search for paths finds the ghosts that scan finds by holding the keys of every part on wires.
func TestGhostsAreThoseOfTheWires(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := anyMatrix(rt)
		set := anySet(rt, r)
		says := func(phantom string, pressed []string) string {
			return fmt.Sprint(phantom, slices.Sorted(slices.Values(pressed)))
		}
		var want, have []string
		for _, g := range verify(r, set) {
			want = append(want, says(g.Phantom, g.Pressed))
		}
		got := hold.Of(r, &panel.Chord{Keys: set}, nil)
		for _, g := range got.Ghosts {
			have = append(have, says(g.Key, g.Pressed))
			if read := scan.Reads(r, g.Pressed); !slices.Contains(read, g.Key) {
				rt.Fatalf("%v read as %v, without %s", g.Pressed, read, g.Key)
			}
		}
		slices.Sort(want)
		slices.Sort(have)
		if !slices.Equal(want, have) {
			rt.Fatalf("%v in %+v: %v, want %v", set, r.Cells, have, want)
		}
	})
}

// The diodes asked for are enough, and no fewer are.
func TestDiodesAreTheFewest(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := anyMatrix(rt)
		set := anySet(rt, r)
		got := hold.Of(r, &panel.Chord{Keys: set}, nil)
		if !got.Cured || len(verify(withDiodes(r, got.Diodes), set)) > 0 {
			rt.Fatalf("with diodes at %v %v still ghosts", got.Diodes, set)
		}
		for some := range 1 << len(set) {
			var try []string
			for i, k := range set {
				if some>>i&1 == 1 {
					try = append(try, k)
				}
			}
			if len(try) < len(got.Diodes) && len(verify(withDiodes(r, try), set)) == 0 {
				rt.Fatalf("%v would do in place of %v", try, got.Diodes)
			}
		}
	})
}

func withDiodes(r *scan.Result, keys []string) *scan.Result {
	more := *r
	more.Cells = slices.Clone(r.Cells)
	for i := range more.Cells {
		more.Cells[i].Diode = more.Cells[i].Diode || slices.Contains(keys, more.Cells[i].Key)
	}
	return &more
}

// A diode has a reason just when leaving it out brings a ghost.
func TestGuards(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := anyMatrix(rt)
		set := anySet(rt, r)
		diodes := withDiodes(r, hold.Of(r, &panel.Chord{Keys: set}, nil).Diodes) // no ghosts to begin with
		for _, g := range hold.Guards(diodes, []panel.Chord{{Name: "other"}, {Name: "grip", Keys: set}}) {
			without := *diodes
			without.Cells = slices.Clone(diodes.Cells)
			at := slices.IndexFunc(without.Cells, func(c scan.Cell) bool { return c.Key == g.Key })
			without.Cells[at].Diode = false
			needed := len(verify(&without, set)) > 0
			if needed != (g.Chord == "grip") {
				rt.Fatalf("%s without its diode: ghosts %v, reason %+v", g.Key, needed, g)
			}
			if needed && !slices.Contains(scan.Reads(&without, g.Ghost.Pressed), g.Ghost.Key) {
				rt.Fatalf("%s is no ghost of %v", g.Ghost.Key, g.Ghost.Pressed)
			}
		}
	})
}

func TestGuardsWithoutAReason(t *testing.T) {
	got := hold.Guards(drawn("aB", "cd"), []panel.Chord{{Name: "top", Keys: keys("ab")}})
	if len(got) != 1 || got[0].Key != "b" || got[0].Chord != "" {
		t.Errorf("%+v", got)
	}
}

func BenchmarkGuards(b *testing.B) {
	r := &scan.Result{Style: "matrix", Active: "low", Rows: 8, Columns: 16}
	var chords []panel.Chord
	for i := range 128 {
		r.Cells = append(r.Cells, scan.Cell{Key: fmt.Sprint("S", i), Row: i / 16, Column: i % 16, Diode: true})
	}
	for i := range 20 {
		c := panel.Chord{Name: fmt.Sprint(i)}
		for j := range 10 {
			c.Keys = append(c.Keys, fmt.Sprint("S", (i*37+j*11)%128))
		}
		chords = append(chords, c)
	}
	for b.Loop() {
		hold.Guards(r, chords)
	}
}

func BenchmarkOf(b *testing.B) {
	r := drawn("abcdefgh", "ijklmnop", "qrstuvwx")
	for b.Loop() {
		hold.Of(r, &panel.Chord{Keys: keys("abjkrs")}, nil)
	}
}

// What the judge says of the voltages goes before what logic says.
func TestJudge(t *testing.T) {
	r := drawn("abc", ".ef", "g..")
	tests := []struct {
		name   string
		judge  func(pressed []string, key string) hold.Level
		ghosts string
		doubt  bool
	}{
		{"as logic has it", func([]string, string) hold.Level { return hold.Joins }, "f", false},
		{"in doubt", func([]string, string) hold.Level { return hold.Doubt }, "f", true},
		{"none", func([]string, string) hold.Level { return hold.Apart }, "", false},
	}
	for _, tt := range tests {
		got := hold.Of(r, &panel.Chord{Keys: keys("bce")}, tt.judge)
		var ghosts string
		for _, g := range got.Ghosts {
			ghosts += g.Key
			if g.Doubt != tt.doubt || !slices.Equal(g.Pressed, keys("ebc")) {
				t.Errorf("%s: %+v", tt.name, g)
			}
		}
		if ghosts != tt.ghosts || (got.Safe == 1) != (ghosts == "") {
			t.Errorf("%s: ghosts %s, %d safe", tt.name, ghosts, got.Safe)
		}
	}
}
