package scan

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"pgregory.net/rapid"
)

// drawPanel is any panel of up to so many keys of one contact and some of several, tied to a supply or
// joined, with marks, chords, expanders, lamps and wishes, sensible or not.
func drawPanel(t *rapid.T, most int) *panel.Panel {
	n := rapid.IntRange(0, most).Draw(t, "keys")
	p := scatteredKeys(n, rapid.Uint64Range(0, 99).Draw(t, "seed"))
	for i := range p.Placed {
		p.Placed[i].Key.Direct = rapid.IntRange(0, 9).Draw(t, "mark") == 0
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "five ways") {
		add(p, "five", grid.Hole{Col: 60 + 10*i, Row: 5}, fmt.Sprintf("S%d", 50+i))
	}
	if net := rapid.SampledFrom([]string{"", "", part.Ground, part.Supply3V3}).Draw(t, "tied"); net != "" {
		p.Parts["tied"] = supplied(net, rapid.IntRange(0, 1).Draw(t, "side"))
		add(p, "tied", grid.Hole{Col: 60, Row: 20}, "S60")
	}
	if n > 3 && rapid.IntRange(0, 3).Draw(t, "join") == 0 {
		end := rapid.SampledFrom([]string{"A1", "B1"})
		p.Joins = []panel.Join{{Name: "j", Terminals: []string{"S1." + end.Draw(t, "one"), "S2." + end.Draw(t, "other"), "S4." + end.Draw(t, "third")}}}
	}
	withChoices(t, p, max(4, n), 3)
	for i := range rapid.IntRange(0, 2).Draw(t, "expanders") {
		withExpanders(p, grid.Hole{Col: 80, Row: 30 * i})
		p.Placed[len(p.Placed)-1].Ref = fmt.Sprint("U", i+1)
	}
	p.Parts["led"] = part.BuiltIn()["led3"]
	for i := range rapid.IntRange(0, 3).Draw(t, "LEDs") {
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprint("D", i+1), Part: "led", At: grid.Hole{Col: 100, Row: 5 * i}})
	}
	p.Scan = panel.Scan{
		Style:   rapid.SampledFrom(panel.Styles).Draw(t, "style"),
		Rows:    rapid.IntRange(0, 1).Draw(t, "any rows") * rapid.IntRange(0, 9).Draw(t, "rows"),
		Columns: rapid.IntRange(0, 1).Draw(t, "any columns") * rapid.IntRange(0, 9).Draw(t, "columns"),
		Active:  rapid.SampledFrom([]string{"auto", "low", "high"}).Draw(t, "active"),
		Pulls:   rapid.SampledFrom([]string{"auto", "internal", "external"}).Draw(t, "pulls"),
		Diodes:  rapid.SampledFrom([]string{"none", "where needed", "every key"}).Draw(t, "diodes"),
		Reader:  rapid.SampledFrom([]string{"pio", "polled"}).Draw(t, "reader"),
		Lamps:   rapid.SampledFrom([][]string{nil, {"D1"}, {"D2", "D9", "D1"}}).Draw(t, "lamps"),
	}
	p.Tidy()
	return p
}

// Whatever the panel, the result holds every key once and says what can't be had.
func TestWildPanels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPanel(t, 10)
		free := rapid.IntRange(-1, 26).Draw(t, "free")
		r := Plan(p, rp2040(), free)
		sound(t, p, &r)
		got := codes(&r)
		if asked := p.Scan.Style; asked != "auto" && r.Style != asked && r.Style != "none" {
			excused := asked == "matrix" && (r.Style == "mixed" || len(r.Cells) == 0) || asked == "lines" && len(r.Cells) == 0 ||
				got["scan-shared"]+got["scan-lines-shared"]+got["scan-expander-missing"]+got["scan-line"] > 0
			if !excused {
				t.Fatalf("asked for %s, got %s without a word: %v", asked, r.Style, r.Findings)
			}
		}
		need := r.Rows + r.Columns
		if r.Style == "lines" {
			need = r.Rows
		}
		for _, d := range r.Direct {
			if d.Via == "" {
				need++
			}
		}
		if (need > max(0, free)) != (got["scan-pins"] > 0) {
			t.Fatalf("%d pins needed, %d free, findings %v", need, free, r.Findings)
		}
		if len(r.Lamps) > 0 && len(r.Cells) == 0 {
			t.Fatalf("lamps %v without columns", r.Lamps)
		}
		for i, g := range r.Ghosts {
			if slices.Contains(g.Pressed, g.Phantom) || len(g.Pressed) < 2 {
				t.Fatalf("ghost %d is odd: %+v", i, g)
			}
		}
	})
}

func markedDirect(p *panel.Panel) *panel.Panel {
	for i := range p.Placed {
		p.Placed[i].Key.Direct = true
	}
	return p
}

func TestTooMuchForAnyMethod(t *testing.T) {
	tests := []struct {
		name  string
		p     *panel.Panel
		style string
		free  int
		text  string
		fix   string
	}{
		{"one pin", regularKeys(4, 5), "auto", 1, "20 keys need 9 pins, and 1 is free. No method fits: a pin each reads 1, a matrix 0 and lines with diodes 0; an expander takes 2 pins for its bus.", "Free 1 pin, or take keys away."},
		{"no pin at all", regularKeys(4, 5), "lines", 0, "20 keys need 5 pins, and 0 are free. No method fits: a pin each reads 0, a matrix 0 and lines with diodes 0; an expander takes 2 pins for its bus.", "Free 2 pins, or take keys away."},
		{"more keys than a bus of expanders reads", scatteredKeys(150, 1), "auto", 12, "150 keys need 25 pins, and 12 are free. No method fits: a pin each reads 12, a matrix 36 and lines with diodes 132, and expanders read 112.", "Free 1 pin, or take keys away."},
		{"a matrix is too small, lines are not", regularKeys(4, 5), "auto", 6, "20 keys need 9 pins, and 6 are free.", "A matrix on 6 pins holds 9 keys: take 11 keys away, or free 3 pins. Or change the style: lines with 20 diodes take 5 pins, 2 expanders take 4 pins."},
		{"the bus is there", withExpanders(regularKeys(4, 5), grid.Hole{Col: 60}), "auto", 0, "20 keys need 9 pins, and 0 are free.", "Let keys give up pins of their own, or free some pins. Or change the style: 2 expanders take no pin more."},
		{"every key wants a pin", markedDirect(regularKeys(2, 6)), "auto", 5, "12 keys need 12 pins, and 5 are free.", "Let keys give up pins of their own, or free 7 pins. Or change the style: 1 expander takes 3 pins."},
		{"direct is asked for", regularKeys(2, 6), "direct", 8, "12 keys need 12 pins, and 8 are free.", "Let the style be auto: a matrix of 3 x 4 takes 7 pins."},
		{"an expander is missing", withExpanders(regularKeys(4, 5), grid.Hole{Col: 60}), "expander", 3, "20 keys need 6 pins, and 3 are free.", "Place enough expanders for all keys, or free 3 pins."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.p.Scan.Style = tt.style
			r := Plan(tt.p, rp2040(), tt.free)
			sound(t, tt.p, &r)
			i := slices.IndexFunc(r.Findings, func(f finding.Finding) bool { return f.Code == "scan-pins" })
			if i < 0 || r.Findings[i].Text != tt.text || r.Findings[i].Fix != tt.fix || r.Findings[i].Severity != finding.Stop {
				t.Errorf("findings %+v,\nwant %q\n%q", r.Findings, tt.text, tt.fix)
			}
		})
	}
}

func FuzzPlan(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		p := drawPanel(t, 20)
		r := Plan(p, rp2040(), rapid.IntRange(-1, 30).Draw(t, "free"))
		sound(t, p, &r)
	}))
}
