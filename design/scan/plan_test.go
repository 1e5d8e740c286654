package scan

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// numbered draws a matrix of keys S1, S2 … as one reads.
func numbered(rows, columns int) string {
	lines := make([]string, rows)
	for r := range rows {
		names := make([]string, columns)
		for c := range columns {
			names[c] = fmt.Sprintf("S%d", r*columns+c+1)
		}
		lines[r] = strings.Join(names, " ")
	}
	return strings.Join(lines, "\n")
}

// A regular layout comes out as the eye expects: common practice, no source.
func TestRegularLayouts(t *testing.T) {
	turned := wishing(regularKeys(4, 5), "matrix", "none")
	turned.Scan.Rows, turned.Scan.Columns = 5, 4
	var shifted, holed []grid.Hole
	for i := range 20 {
		shifted = append(shifted, grid.Hole{Col: i%5*5 + i/5*2, Row: i / 5 * 5})
		if i != 7 && i != 12 {
			holed = append(holed, grid.Hole{Col: i % 5 * 5, Row: i / 5 * 5})
		}
	}
	tests := []struct {
		name string
		p    *panel.Panel
		free int
		want string
	}{
		{"4 x 5", wishing(regularKeys(4, 5), "matrix", "none"), 20, numbered(4, 5)},
		{"5 x 4", wishing(regularKeys(5, 4), "matrix", "none"), 20, numbered(5, 4)},
		{"24 keys as 4 x 6", regularKeys(4, 6), 10, numbered(4, 6)},
		{"3 x 8 costs a pin more than 4 x 6, and is worth it", regularKeys(3, 8), 15, numbered(3, 8)},
		{"60 keys as 6 x 10", regularKeys(6, 10), 20, numbered(6, 10)},
		{"turned on its side by wish", turned, 20, "S1 S6 S11 S16\nS2 S7 S12 S17\nS3 S8 S13 S18\nS4 S9 S14 S19\nS5 S10 S15 S20"},
		{"rows shifted against each other", wishing(keysAt("four", shifted...), "matrix", "none"), 20, numbered(4, 5)},
		{"two keys left out", wishing(keysAt("four", holed...), "matrix", "none"), 20, "S1 S2 S3 S4 S5\nS6 S7 . S8 S9\nS10 S11 . S12 S13\nS14 S15 S16 S17 S18"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := Plan(tt.p, rp2040(), tt.free)
			if got := drawn(&r); got != tt.want {
				t.Errorf("got\n%s\nwant\n%s", got, tt.want)
			}
		})
	}
}

func TestTwentyFourKeysTakeTenPins(t *testing.T) {
	r := Plan(regularKeys(4, 6), rp2040(), 12) // common practice, no source
	if r.Style != "matrix" || r.Rows != 4 || r.Columns != 6 {
		t.Errorf("%s of %d x %d, want a matrix of 4 x 6", r.Style, r.Rows, r.Columns)
	}
	for _, c := range r.Choices {
		if c.Chosen && c.Pins != 10 {
			t.Errorf("chosen with %d pins, want 10", c.Pins)
		}
	}
}

func TestStyle(t *testing.T) {
	marked := regularKeys(4, 6)
	marked.Placed[3].Key.Direct = true
	allMarked := regularKeys(1, 2)
	allMarked.Placed[0].Key.Direct, allMarked.Placed[1].Key.Direct = true, true
	tests := []struct {
		name, style string
		p           *panel.Panel
		free        int
		want        string
		direct      int
		code        string
	}{
		{"pins for all", "auto", regularKeys(3, 4), 12, "direct", 12, ""},
		{"one pin short", "auto", regularKeys(3, 4), 11, "matrix", 0, ""},
		{"direct as asked", "direct", regularKeys(2, 2), 10, "direct", 4, ""},
		{"direct as asked, but too many", "direct", regularKeys(3, 4), 8, "direct", 12, "scan-pins"},
		{"matrix as asked", "matrix", regularKeys(2, 2), 20, "matrix", 0, ""},
		{"one key wants a pin", "auto", marked, 12, "mixed", 1, ""},
		{"all want pins", "matrix", allMarked, 12, "direct", 2, ""},
		{"a matrix saves nothing", "auto", regularKeys(2, 2), 3, "direct", 4, "scan-pins"},
		{"too many for any", "auto", regularKeys(4, 6), 9, "matrix", 0, "scan-pins"},
		{"no pins", "auto", regularKeys(4, 6), -3, "matrix", 0, "scan-pins"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.p.Scan.Style = tt.style
			r := Plan(tt.p, rp2040(), tt.free)
			if r.Style != tt.want || len(r.Direct) != tt.direct {
				t.Errorf("%s with %d direct keys, want %s with %d", r.Style, len(r.Direct), tt.want, tt.direct)
			}
			if got := codes(&r); tt.code == "" && len(got) > 0 || tt.code != "" && got[tt.code] == 0 {
				t.Errorf("findings %v, want %q", r.Findings, tt.code)
			}
			sound(t, tt.p, &r)
		})
	}
}

func TestNoKeys(t *testing.T) {
	p := panel.New("empty")
	r := Plan(&p, nil, 0)
	if r.Style != "none" || codes(&r)["scan-no-keys"] != 1 || !r.Proved {
		t.Errorf("style %s, findings %v", r.Style, r.Findings)
	}
}

func TestNoModule(t *testing.T) {
	r := Plan(regularKeys(2, 2), nil, 0)
	if r.Style != "direct" || !strings.Contains(r.Why, "26 free pins are assumed") {
		t.Errorf("%s: %s", r.Style, r.Why)
	}
	big := Plan(regularKeys(6, 10), nil, 0)
	if big.Style != "matrix" || codes(&big)["scan-pins"] != 0 {
		t.Errorf("%s, %v", big.Style, big.Findings)
	}
}

func TestWishes(t *testing.T) {
	tests := []struct {
		name                         string
		rows, columns                int
		gotRows, gotColumns, refused int
	}{
		{"both", 4, 6, 4, 6, 0},
		{"rows alone", 2, 0, 2, 10, 0},
		{"columns alone", 0, 10, 2, 10, 0},
		{"more than needed", 5, 6, 5, 6, 0},
		{"too few cells: rows are kept", 2, 6, 2, 10, 1},
		{"more rows than keys", 30, 0, 20, 1, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := wishing(regularKeys(4, 5), "matrix", "none")
			p.Scan.Rows, p.Scan.Columns = tt.rows, tt.columns
			r := Plan(p, rp2040(), 40)
			if r.Rows != tt.gotRows || r.Columns != tt.gotColumns || codes(&r)["scan-wish"] != tt.refused {
				t.Errorf("%d x %d with %v, want %d x %d and %d refusals", r.Rows, r.Columns, r.Findings, tt.gotRows, tt.gotColumns, tt.refused)
			}
			sound(t, p, &r)
		})
	}
}

// Rows and columns matter to a matrix alone.
func TestWishesDoNotTroubleDirectKeys(t *testing.T) {
	p := regularKeys(3, 4)
	p.Scan.Rows, p.Scan.Columns = 2, 2
	if r := Plan(p, rp2040(), 20); r.Style != "direct" || len(r.Findings) > 0 {
		t.Errorf("%s, findings %v", r.Style, r.Findings)
	}
}

func TestManyKeys(t *testing.T) {
	for _, n := range []int{128, 256} {
		p := scatteredKeys(n, 5)
		r := Plan(p, rp2040(), 26)
		sound(t, p, &r)
		if (codes(&r)["scan-pins"] > 0) != (n > 13*13) {
			t.Errorf("%d keys on 26 pins: findings %v", n, r.Findings)
		}
	}
}

func TestManyChords(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 0))
	p := scatteredKeys(24, 2)
	for range panel.MaxChords {
		keys := r.Perm(23)[:10]
		for i := range keys {
			keys[i]++
		}
		withChords(p, keys)
	}
	for _, wish := range []string{"none", "where needed"} {
		got := Plan(wishing(p, "matrix", wish), rp2040(), 26)
		sound(t, p, &got)
		if len(got.Ghosts) > maxGhosts || (len(got.Ghosts) > 0) != (wish == "none") {
			t.Errorf("diodes %s: %d ghosts", wish, len(got.Ghosts))
		}
	}
}

func TestWishTakesMorePinsThanFree(t *testing.T) {
	p := wishing(regularKeys(4, 5), "matrix", "none")
	p.Scan.Rows = 2
	r := Plan(p, rp2040(), 10)
	if codes(&r)["scan-pins"] != 1 || r.Rows != 2 {
		t.Errorf("%d rows, findings %v", r.Rows, r.Findings)
	}
	for _, f := range r.Findings {
		if f.Code == "scan-pins" && !strings.Contains(f.Fix, "Let Fascia choose rows and columns") {
			t.Errorf("fix %q", f.Fix)
		}
	}
}

func TestSamePanelSameResult(t *testing.T) {
	p := withChords(scatteredKeys(30, 7), []int{1, 2, 3, 4}, []int{5, 6, 7})
	if a, b := Plan(p, rp2040(), 14), Plan(p, rp2040(), 14); !reflect.DeepEqual(a, b) {
		t.Error("two runs differ")
	}
}

// sound checks a result against the panel alone: every key once, cells and codes in order, lengths
// as measured, one choice taken, findings whole.
func sound(t interface {
	Helper()
	Errorf(string, ...any)
}, p *panel.Panel, r *Result) {
	t.Helper()
	seen := map[string]bool{}
	for i, c := range r.Cells {
		if seen[c.Key] || c.Row < 0 || c.Row >= r.Rows || c.Column < 0 || c.Column >= r.Columns || c.Code != c.Row*r.Columns+c.Column {
			t.Errorf("cell %+v is out of place", c)
		}
		if i > 0 && r.Cells[i-1].Code >= c.Code {
			t.Errorf("codes %d and %d out of order", r.Cells[i-1].Code, c.Code)
		}
		seen[c.Key] = true
	}
	for i, d := range r.Direct {
		if seen[d.Key] || d.Code != r.Rows*r.Columns+i || d.Pin == d.Return {
			t.Errorf("direct key %+v is out of place", d)
		}
		seen[d.Key] = true
	}
	for _, k := range p.Keys() {
		if !seen[k.ID] {
			t.Errorf("key %s is missing", k.ID)
		}
	}
	if got := wireOf(p, r); float64(got) != r.Cost || r.Bound > r.Cost || r.Proved != (r.Cost == r.Bound) {
		t.Errorf("cost %g, bound %g, proved %v; measured %d", r.Cost, r.Bound, r.Proved, got)
	}
	chosen := 0
	for _, c := range r.Choices {
		if c.Chosen {
			chosen++
		}
		if c.Verdict == "" {
			t.Errorf("choice %+v says nothing", c)
		}
	}
	if chosen != 1 && r.Style != "none" {
		t.Errorf("%d choices are taken", chosen)
	}
	for _, f := range r.Findings {
		if !strings.HasPrefix(f.Code, "scan-") || f.Text == "" || f.Fix == "" || f.Severity > finding.Stop {
			t.Errorf("finding %+v is not whole", f)
		}
	}
}
