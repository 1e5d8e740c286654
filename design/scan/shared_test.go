package scan

import (
	"fmt"
	"testing"

	"fascia/design/panel"
	"fascia/design/part"
)

func TestFiveWayLiesInOneRow(t *testing.T) {
	p := wishing(regularKeys(3, 5), "matrix", "none")
	add(p, "five", p.Placed[14].At.Add(p.Placed[14].At.Minus(p.Placed[4].At)), "S16")
	r := Plan(p, rp2040(), 20)
	row := map[int]int{}
	for _, c := range r.Cells {
		if len(c.Key) > 3 {
			row[c.Row]++
		}
	}
	if len(row) != 1 {
		t.Errorf("contacts lie in rows %v\n%s", row, drawn(&r))
	}
	sound(t, p, &r)
}

func TestFiveWayWithTooFewColumns(t *testing.T) {
	p := wishing(keysAt("five", regularKeys(1, 1).Placed[0].At), "matrix", "none")
	p.Scan.Columns = 3
	r := Plan(p, rp2040(), 20)
	if codes(&r)["scan-wish"] != 1 || r.Columns != 5 {
		t.Errorf("%d columns, findings %v", r.Columns, r.Findings)
	}
}

// The common terminal of a navigation switch returns; each contact's own terminal has the pin.
func TestFiveWayDirect(t *testing.T) {
	r := Plan(wishing(keysAt("five", regularKeys(1, 1).Placed[0].At), "direct", "none"), rp2040(), 20)
	if len(r.Direct) != 5 {
		t.Fatalf("%d direct keys, want 5", len(r.Direct))
	}
	for _, d := range r.Direct {
		if d.Return != "S1.COM" || d.Pin != d.Key {
			t.Errorf("%s: pin %s, return %s; want %s and S1.COM", d.Key, d.Pin, d.Return, d.Key)
		}
	}
}

func TestLoneContactOfAFiveWay(t *testing.T) {
	p := keysAt("five", regularKeys(1, 1).Placed[0].At)
	p.Placed[0].Keys = map[string]panel.Key{"up": {Legend: "up"}}
	r := Plan(p, rp2040(), 20)
	if len(r.Direct) != 1 || r.Direct[0].Pin != "S1.up" || r.Direct[0].Return != "S1.COM" {
		t.Errorf("direct %+v, want pin S1.up and return S1.COM", r.Direct)
	}
}

func TestOneMarkTakesItsMatesAlong(t *testing.T) {
	p := wishing(keysAt("five", regularKeys(1, 1).Placed[0].At), "matrix", "none")
	p.Placed[0].Keys["up"] = panel.Key{Legend: "up", Direct: true}
	r := Plan(p, rp2040(), 20)
	if len(r.Direct) != 5 || codes(&r)["scan-shared"] != 1 {
		t.Errorf("%d direct keys, findings %v", len(r.Direct), r.Findings)
	}
}

// supplied is a two-legged switch one leg of which is a supply by nature.
func supplied(net string, side int) part.Definition {
	d := twoLegs()
	d.Terminals[side].Net = net
	return d
}

func TestKeysOnASupply(t *testing.T) {
	tests := []struct {
		name, net    string
		side         int
		active       string
		pin, want    string
		activeClash  int
		wantedActive string
	}{
		{"ground second", part.Ground, 1, "auto", "S13.A", "S13.B", 0, "low"},
		{"ground first", part.Ground, 0, "auto", "S13.B", "S13.A", 0, "low"},
		{"3V3", part.Supply3V3, 1, "auto", "S13.A", "S13.B", 0, "high"},
		{"ground, but read high", part.Ground, 1, "high", "S13.A", "S13.B", 1, "high"},
		{"3V3, but read low", part.Supply3V3, 1, "low", "S13.A", "S13.B", 1, "low"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := wishing(regularKeys(3, 4), "matrix", "none")
			p.Scan.Active = tt.active
			p.Parts["tied"] = supplied(tt.net, tt.side)
			add(p, "tied", p.Placed[0].At, "S13")
			r := Plan(p, rp2040(), 20)
			if r.Style != "mixed" || len(r.Direct) != 1 || r.Direct[0].Pin != tt.pin || r.Direct[0].Return != tt.want {
				t.Errorf("%s, direct %+v, want pin %s and return %s", r.Style, r.Direct, tt.pin, tt.want)
			}
			if r.Active != tt.wantedActive || codes(&r)["scan-active"] != tt.activeClash {
				t.Errorf("active %s, findings %v", r.Active, r.Findings)
			}
		})
	}
}

func TestMakersJoins(t *testing.T) {
	tests := []struct {
		name  string
		joins []panel.Join
		check func(r *Result) bool
	}{
		{"to ground", []panel.Join{{Name: "g", Terminals: []string{"S1.B1", "S5.B"}}}, func(r *Result) bool {
			return len(r.Direct) == 2 && r.Direct[0].Key == "S1" && r.Direct[0].Return == "S1.B1"
		}},
		{"row sides", []panel.Join{{Name: "r", Terminals: []string{"S1.A2", "S4.A1"}}}, func(r *Result) bool {
			return rowOf(r, "S1") == rowOf(r, "S4")
		}},
		{"row side to column side", []panel.Join{{Name: "x", Terminals: []string{"S1.A2", "S4.B1"}}}, func(r *Result) bool {
			return codes(r)["scan-line"] == 1
		}},
		{"both sides of one key", []panel.Join{{Name: "x", Terminals: []string{"S1.A2", "S1.B1"}}}, func(r *Result) bool {
			return codes(r)["scan-closed"] == 1
		}},
		{"two keys in parallel", []panel.Join{{Name: "x", Terminals: []string{"S1.A2", "S2.A1"}}, {Name: "y", Terminals: []string{"S1.B2", "S2.B1"}}}, func(r *Result) bool {
			return codes(r)["scan-line"] == 1
		}},
		{"to nothing", []panel.Join{{Name: "x", Terminals: []string{"S1.A2", "U9.GND", "odd"}}}, func(r *Result) bool {
			return len(r.Cells) == 4 && len(r.Findings) == 0
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := wishing(regularKeys(2, 2), "matrix", "none")
			p.Parts["tied"] = supplied(part.Ground, 1)
			add(p, "tied", p.Placed[0].At, "S5")
			p.Joins = tt.joins
			r := Plan(p, rp2040(), 20)
			if !tt.check(&r) {
				t.Errorf("%s, direct %+v\n%s\nfindings %v", r.Style, r.Direct, drawn(&r), r.Findings)
			}
		})
	}
}

func rowOf(r *Result, key string) int {
	for _, c := range r.Cells {
		if c.Key == key {
			return c.Row
		}
	}
	return -1
}

// keypad is twelve contacts on three rows and four columns inside one part: a matrix already.
func keypad() part.Definition {
	d := part.Definition{Name: "keypad", Kind: part.Switch, Prefix: "S"}
	for i, name := range []string{"R1", "R2", "R3", "C1", "C2", "C3", "C4"} {
		d.Terminals = append(d.Terminals, part.Terminal{Name: name, At: [2]int{i, 0}})
	}
	for r := range 3 {
		for c := range 4 {
			d.Contacts = append(d.Contacts, part.Contact{Name: string(rune('a' + r*4 + c)), Between: [2]string{d.Terminals[r].Name, d.Terminals[3+c].Name}})
		}
	}
	return d
}

func TestReadyMadeKeypad(t *testing.T) {
	for _, style := range []string{"auto", "matrix", "direct"} {
		p := wishing(keysAt("four"), style, "none")
		p.Parts["pad"] = keypad()
		add(p, "pad", regularKeys(1, 1).Placed[0].At, "S1")
		r := Plan(p, rp2040(), 20)
		if r.Rows != 3 || r.Columns != 4 || len(r.Cells) != 12 || r.Cost != 0 {
			t.Errorf("%s: %d x %d with %d cells and %g holes of wire\n%v", style, r.Rows, r.Columns, len(r.Cells), r.Cost, r.Findings)
		}
		if (codes(&r)["scan-shared"] == 1) != (style == "direct") {
			t.Errorf("%s: findings %v", style, r.Findings)
		}
	}
}

// Many keys, two of them in parallel: no matrix of any size holds them, and that is soon found.
func TestParallelKeysAmongMany(t *testing.T) {
	p := wishing(regularKeys(10, 20), "matrix", "none")
	p.Joins = []panel.Join{{Name: "x", Terminals: []string{"S1.A2", "S2.A1"}}, {Name: "y", Terminals: []string{"S1.B2", "S2.B1"}}}
	r := Plan(p, rp2040(), 26)
	if codes(&r)["scan-line"] != 1 {
		t.Errorf("findings %v", r.Findings)
	}
	sound(t, p, &r)
}

// A long keypad that is a matrix already keeps its shape among other keys.
func TestLongKeypad(t *testing.T) {
	p := wishing(regularKeys(1, 10), "matrix", "none")
	d := part.Definition{Name: "strip", Kind: part.Switch, Prefix: "S"}
	for i := range 42 {
		d.Terminals = append(d.Terminals, part.Terminal{Name: fmt.Sprintf("T%d", i), At: [2]int{i, 0}})
	}
	for i := range 80 {
		d.Contacts = append(d.Contacts, part.Contact{Name: fmt.Sprintf("c%d", i), Between: [2]string{fmt.Sprintf("T%d", i/40), fmt.Sprintf("T%d", 2+i%40)}})
	}
	p.Parts["strip"] = d
	add(p, "strip", p.Placed[0].At, "S11")
	r := Plan(p, rp2040(), 26)
	if r.Columns < 40 || len(r.Cells) != 90 {
		t.Errorf("%d x %d with %d cells, findings %v", r.Rows, r.Columns, len(r.Cells), r.Findings)
	}
	sound(t, p, &r)
}
