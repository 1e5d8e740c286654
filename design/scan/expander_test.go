package scan

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"pgregory.net/rapid"
)

func byExpander(p *panel.Panel) *panel.Panel { p.Scan.Style = "expander"; return p }

func TestKeysOnAnExpander(t *testing.T) {
	p := byExpander(withExpanders(regularKeys(3, 4), grid.Hole{Col: 40, Row: 3}))
	add(p, "five", grid.Hole{Col: 60, Row: 5}, "S50")
	p.Placed = slices.DeleteFunc(p.Placed, func(pl panel.Placed) bool { return pl.Ref == "S12" || pl.Ref == "S11" || pl.Ref == "S10" })
	p.Placed[0].Key.Direct = true
	r := Plan(p, rp2040(), 0)
	if r.Style != "expander" || len(r.Direct) != 14 || len(r.Cells) != 0 || r.Rows+r.Columns != 0 || r.Active != "low" || r.Reader != "polled" || len(r.Findings) > 0 {
		t.Errorf("%s of %d keys, active %s, %s, findings %v", r.Style, len(r.Direct), r.Active, r.Reader, r.Findings)
	}
	taken := map[string]bool{}
	for _, d := range r.Direct {
		ref, line, _ := strings.Cut(d.Via, ".")
		if ref != "U1" || !strings.HasPrefix(line, "GP") || strings.HasSuffix(line, "7") || taken[d.Via] {
			t.Errorf("%s is on %q", d.Key, d.Via)
		}
		taken[d.Via] = true
		if strings.HasPrefix(d.Key, "S50") && d.Return != "S50.COM" {
			t.Errorf("%s returns by %s, want the common terminal", d.Key, d.Return)
		}
	}
	sound(t, p, &r)
}

// The least total of all ways to give four keys lines of a five-line expander, by trying them.
func TestExpanderLinesAreTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := byExpander(scatteredKeys(4, rapid.Uint64Range(0, 500).Draw(t, "seed")))
		d := part.BuiltIn()[usualExpander]
		d.Facts.KeyLines = []string{"GPA0", "GPB3", "GPB0", "GPA6", "GPA3"}[:rapid.IntRange(3, 5).Draw(t, "lines")]
		p.Parts["small"] = d
		p.Placed = append(p.Placed, panel.Placed{Ref: "U1", Part: "small", At: grid.Hole{Col: rapid.IntRange(0, 40).Draw(t, "column"), Row: 5}, Turn: grid.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))})
		p.Tidy()
		r := Plan(p, rp2040(), 10)
		keys := p.Keys()
		best, most := 1<<30, min(len(keys), len(d.Facts.KeyLines))
		taken := map[string]bool{}
		var try func(k, on, total int)
		try = func(k, on, total int) {
			if k == len(keys) {
				if on == most {
					best = min(best, total)
				}
				return
			}
			try(k+1, on, total)
			for _, line := range d.Facts.KeyLines {
				if !taken[line] {
					taken[line] = true
					try(k+1, on+1, total+between(legsOf(p, keys[k], rowSide), metalHoles(p, "U1."+line)))
					taken[line] = false
				}
			}
		}
		try(0, 0, 0)
		if int(r.Cost) != best || !r.Proved {
			t.Fatalf("%g holes, want %d; proved %v", r.Cost, best, r.Proved)
		}
		if full := codes(&r)["scan-expander-full"]; (full > 0) != (most < 4) {
			t.Fatalf("%d lines for 4 keys: findings %v", most, r.Findings)
		}
		sound(t, p, &r)
	})
}

func TestExpanderFindings(t *testing.T) {
	at := grid.Hole{Col: 60, Row: 5}
	tests := []struct {
		name      string
		p         *panel.Panel
		change    func(p *panel.Panel)
		style     string
		code      string
		severity  finding.Severity
		text, fix string
	}{
		{"none placed", regularKeys(3, 4), nil, "direct", "scan-expander-missing", finding.Stop, "none is placed", "Place 1 expander of the kind MCP23017, which reads 14 keys each"},
		{"none placed for many keys", regularKeys(5, 6), nil, "matrix", "scan-expander-missing", finding.Stop, "none is placed", "Place 3 expanders"},
		{"all lines in joins", withExpanders(regularKeys(1, 2), at), func(p *panel.Panel) {
			d := part.BuiltIn()[usualExpander]
			for _, line := range d.KeyLines() {
				p.Joins = append(p.Joins, panel.Join{Name: line, Terminals: []string{"U1." + line, "U1.NC11"}})
			}
		}, "direct", "scan-expander-missing", finding.Stop, "none is placed with a line free", "Place"},
		{"lines short", withExpanders(regularKeys(4, 5), at), nil, "expander", "scan-expander-full", finding.Stop,
			"20 keys ask for lines of an expander, and U1 has 14 free", "Place 1 expander more at another address"},
		{"more than a bus tells apart", withExpanders(scatteredKeys(128, 1), grid.Hole{Col: 150}, grid.Hole{Col: 160}), nil, "expander", "scan-expander-full", finding.Stop,
			"128 keys ask for lines of an expander, and U1 and U2 have 28 free", "One bus tells 8 expanders apart: take 16 keys away"},
		{"active high", withExpanders(regularKeys(3, 4), at), func(p *panel.Panel) { p.Scan.Active = "high" }, "expander", "scan-active", finding.Mind, "read active low", "active low or auto"},
		{"a key on 3V3", withExpanders(regularKeys(3, 4), at), func(p *panel.Panel) {
			p.Parts["tied"] = supplied(part.Supply3V3, 1)
			add(p, "tied", grid.Hole{Col: 40}, "S13")
		}, "expander", "scan-active", finding.Stop, "switches to 3V3 by nature", "Use a switch with both contacts free, or let the style be auto."},
		{"contacts that share both terminals", withExpanders(regularKeys(2, 2), at), func(p *panel.Panel) {
			p.Joins = []panel.Join{{Name: "r", Terminals: []string{"S1.A1", "S2.A1"}}, {Name: "c", Terminals: []string{"S1.B1", "S3.B1"}}}
		}, "matrix", "scan-shared", finding.Stop, "share both their terminals", "auto or matrix"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.change != nil {
				tt.change(tt.p)
			}
			r := Plan(byExpander(tt.p), rp2040(), 16)
			i := slices.IndexFunc(r.Findings, func(f finding.Finding) bool { return f.Code == tt.code })
			if r.Style != tt.style || i < 0 {
				t.Fatalf("style %s, findings %v; want %s and %s", r.Style, r.Findings, tt.style, tt.code)
			}
			if f := r.Findings[i]; f.Severity != tt.severity || !strings.Contains(f.Text, tt.text) || !strings.Contains(f.Fix, tt.fix) {
				t.Errorf("finding %+v, want %s %q %q", f, tt.severity, tt.text, tt.fix)
			}
			sound(t, tt.p, &r)
		})
	}
}

// A contact that is ground by nature needs no wire for its return.
func TestGroundedKeyOnAnExpander(t *testing.T) {
	p := byExpander(withExpanders(regularKeys(1, 2), grid.Hole{Col: 60, Row: 5}))
	p.Parts["tied"] = supplied(part.Ground, 0)
	add(p, "tied", grid.Hole{Col: 40}, "S3")
	r := Plan(p, rp2040(), 0)
	if d := r.Direct[2]; d.Pin != "S3.B" || d.Return != "S3.A" || d.Via == "" || len(r.Findings) > 0 {
		t.Errorf("direct %+v, findings %v", d, r.Findings)
	}
}

// Lines of several expanders are one lot: each key goes to the nearest.
func TestSeveralExpanders(t *testing.T) {
	p := regularKeys(2, 12)
	p.Boards[0].Columns = 120
	withExpanders(byExpander(p), grid.Hole{Col: 2, Row: 14}, grid.Hole{Col: 50, Row: 14})
	r := Plan(p, rp2040(), 0)
	for i, d := range r.Direct {
		ref, _, _ := strings.Cut(d.Via, ".")
		if column := i % 12; column < 5 && ref != "U1" || column > 6 && ref != "U2" {
			t.Errorf("%s in column %d of 12 is on %s", d.Key, column, d.Via)
		}
	}
	if want := tenth(2 * busRead); r.PeriodMicros != want {
		t.Errorf("read in %g us, want %g", r.PeriodMicros, want)
	}
	sound(t, p, &r)
}

// Chips that n keys take, with some placed.
func TestExpandersCounted(t *testing.T) {
	for _, tt := range []struct{ placed, keys, want int }{{0, 1, 1}, {0, 14, 1}, {0, 15, 2}, {0, 112, 8}, {0, 113, 9}, {1, 14, 1}, {1, 15, 2}, {2, 10, 1}, {2, 28, 2}, {2, 29, 3}} {
		p := regularKeys(1, 1)
		for i := range tt.placed {
			withExpanders(p, grid.Hole{Col: 10 * i})
			p.Placed[len(p.Placed)-1].Ref = fmt.Sprint("U", i+1)
		}
		x := expandingOf(p)
		if got := x.chips(tt.keys); got != tt.want {
			t.Errorf("%d keys with %d placed: %d expanders, want %d", tt.keys, tt.placed, got, tt.want)
		}
	}
}
