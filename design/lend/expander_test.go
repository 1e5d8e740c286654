package lend_test

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/lend"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
)

// Taking the proposal gives every key a line, each expander an address of its own, and nothing gets
// in anything's way; a second proposal has nothing to add.
func TestExpanderFits(t *testing.T) {
	for _, d := range demo.All() {
		f := fit.Examine(&d.Panel)
		edit, why := lend.Expander(&d.Panel, &f)
		if edit == nil {
			t.Errorf("%s: %s", d.ID, why)
			continue
		}
		after, _, err := panel.Apply(d.Panel, edit)
		if err != nil {
			t.Fatalf("%s: %v", d.ID, err)
		}
		f = fit.Examine(&after)
		noStops(t, d.ID+" after "+edit.What, f.Findings)
		lines, addresses := 0, map[string]bool{}
		for _, pl := range after.OfKind(part.Expander) {
			def := after.Definition(pl)
			lines += len(def.KeyLines())
			if addresses[pl.Address] || pl.Address == "" {
				t.Errorf("%s: %s has address %q", d.ID, pl.Ref, pl.Address)
			}
			addresses[pl.Address] = true
		}
		if keys := len(after.Keys()); lines < keys || lines-14 >= keys || after.Scan.Style != "expander" {
			t.Errorf("%s: %d lines for %d keys, style %s", d.ID, lines, keys, after.Scan.Style)
		}
		if again, why := lend.Expander(&after, &f); again != nil || why != "" {
			t.Errorf("%s: proposed once more: %v %q", d.ID, again, why)
		}
	}
}

// two is a panel of keys with an expander of a maker's own that reads two and has two addresses.
func two(keys int) panel.Panel {
	p := panel.New("two")
	d := part.BuiltIn()["expander-i2c16"]
	d.Facts.KeyLines, d.Facts.I2CAddresses = []string{"GPA0", "GPA1"}, []string{"0x20", "0x21"}
	p.Parts["own"], p.Parts["tact6"] = d, part.BuiltIn()["tact6"]
	p.Placed = append(p.Placed, panel.Placed{Ref: "U1", Part: "own", At: grid.MustHole("A2")})
	for i := range keys {
		p.Placed = append(p.Placed, panel.Placed{Ref: "S" + string(rune('1'+i)), Part: "tact6", At: grid.Hole{Col: 8 + 5*(i%4), Row: 2 + 5*(i/4)}, Key: &panel.Key{Legend: "k"}})
	}
	return p
}

func TestExpanderCounts(t *testing.T) {
	tests := []struct {
		name   string
		keys   int
		change func(*panel.Panel)
		label  string // of the edit
		says   string
	}{
		{"as many as there are lines", 2, func(*panel.Panel) {}, "Read the keys by the expander", ""},
		{"one more than there are lines", 3, func(*panel.Panel) {}, "Place 1 expander", ""},
		{"a line that a join uses", 2, func(p *panel.Panel) {
			p.Joins = []panel.Join{{Name: "mine", Terminals: []string{"U1.GPA0", "U1.GPB0"}}}
		}, "Place 1 expander", ""},
		{"keys on 3V3 by nature do not count", 4, func(p *panel.Panel) {
			d := p.Parts["tact6"]
			d.Terminals = slices.Clone(d.Terminals)
			d.Terminals[0].Net = part.Supply3V3
			p.Parts["tied"] = d
			p.Find("S1").Part, p.Find("S2").Part = "tied", "tied"
		}, "Read the keys by the expander", ""},
		{"more than there are addresses", 5, func(*panel.Panel) {}, "", "The keys need 2 expanders more, and only 1 address is left on one I2C bus."},
		{"an expander that reads nothing", 1, func(p *panel.Panel) {
			d := p.Parts["own"]
			d.Facts.KeyLines, d.Needs = nil, nil
			d.Terminals = d.Terminals[8:10]
			p.Parts["own"] = d
		}, "", "has no lines that can read keys"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := two(tt.keys)
			tt.change(&p)
			f := fit.Examine(&p)
			edit, why := lend.Expander(&p, &f)
			if edit == nil != (tt.label == "") || edit != nil && edit.What != tt.label || !strings.Contains(why, tt.says) || tt.says == "" && why != "" {
				t.Errorf("proposes %v, says %q; want %q, %q", edit, why, tt.label, tt.says)
			}
		})
	}
}
