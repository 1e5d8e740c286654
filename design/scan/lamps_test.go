package scan

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// withLEDs places LEDs D1, D2 … and a resistor R1, and lists the given references as lamps.
func withLEDs(p *panel.Panel, n int, lamps ...string) *panel.Panel {
	for _, id := range []string{"led3", "resistor"} {
		p.Parts[id] = part.BuiltIn()["led3"]
	}
	d := p.Parts["resistor"]
	d.Kind, d.Needs = part.Resistor, nil
	p.Parts["resistor"] = d
	for i := range n {
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprint("D", i+1), Part: "led3", At: grid.Hole{Col: 60, Row: 3 * i}})
	}
	p.Placed = append(p.Placed, panel.Placed{Ref: "R1", Part: "resistor", At: grid.Hole{Col: 64}})
	p.Scan.Lamps = lamps
	return p
}

func TestLamps(t *testing.T) {
	lit := func(names ...string) []Lamp {
		var list []Lamp
		for i, n := range names {
			if n != "" {
				list = append(list, Lamp{i, n})
			}
		}
		return list
	}
	tests := []struct {
		name, style string
		lamps       []string
		want        []Lamp
		code        string
		severity    finding.Severity
		refs        []string
	}{
		{"one for each column", "matrix", []string{"D3", "D1", "D2", "D4"}, lit("D3", "D1", "D2", "D4"), "", 0, nil},
		{"none asked for", "matrix", nil, lit(), "", 0, nil},
		{"fewer than columns", "matrix", []string{"D1", "D2"}, lit("D1", "D2"), "scan-lamp-few", finding.Note, []string{"D1", "D2"}},
		{"more than columns", "matrix", []string{"D1", "D2", "D3", "D4", "D5"}, lit("D1", "D2", "D3", "D4"), "scan-lamp-many", finding.Mind, []string{"D5"}},
		{"one that is not there", "matrix", []string{"D1", "D9", "D2", "D3"}, lit("D1", "", "D2", "D3"), "scan-lamp-missing", finding.Stop, []string{"D9"}},
		{"one that is no LED", "matrix", []string{"D1", "R1", "D2", "D3"}, lit("D1", "", "D2", "D3"), "scan-lamp-missing", finding.Stop, []string{"R1"}},
		{"keys with pins of their own", "direct", []string{"D1", "D2"}, lit(), "scan-lamp-alone", finding.Mind, []string{"D1", "D2"}},
		{"lines that are read as well", "lines", []string{"D1"}, lit(), "scan-lamp-alone", finding.Mind, []string{"D1"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := withLEDs(wishing(regularKeys(3, 4), tt.style, "where needed"), 5, tt.lamps...)
			if tt.style == "matrix" {
				p.Scan.Rows, p.Scan.Columns = 3, 4
			}
			r := Plan(p, rp2040(), 20)
			if got := r.Lamps; len(got)+len(tt.want) > 0 && !reflect.DeepEqual(got, tt.want) {
				t.Errorf("lamps %v, want %v", got, tt.want)
			}
			lamps := slices.DeleteFunc(r.Findings, func(f finding.Finding) bool { return f.Code == "scan-diodes" })
			switch {
			case tt.code == "" && len(lamps) > 0:
				t.Errorf("findings %v, want none", lamps)
			case tt.code != "" && (len(lamps) != 1 || lamps[0].Code != tt.code || lamps[0].Severity != tt.severity || !slices.Equal(lamps[0].Where.Refs, tt.refs)):
				t.Errorf("findings %+v, want %s %s at %v", lamps, tt.severity, tt.code, tt.refs)
			}
			sound(t, p, &r)
		})
	}
}

func TestLampsOfAnEmptyPanel(t *testing.T) {
	p := panel.New("empty")
	p.Scan.Lamps = []string{"D1"}
	r := Plan(&p, rp2040(), 20)
	if codes(&r)["scan-lamp-alone"] != 1 || len(r.Lamps) > 0 {
		t.Errorf("lamps %v, findings %v", r.Lamps, r.Findings)
	}
}
