package bom

import (
	"testing"

	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/wiring"
)

func TestOf(t *testing.T) {
	p := demo.All()[0].Panel
	w := wiring.Result{Wires: []wiring.Wire{
		{Kind: wiring.Bare, CutMM: 104.2, Gauge: "0.5 mm tinned"},
		{Kind: wiring.Insulated, CutMM: 80, Gauge: "AWG 28", Colour: "BU"},
		{Kind: wiring.Insulated, CutMM: 75.5, Gauge: "AWG 28", Colour: "BU"},
		{Kind: wiring.Leg}, {Kind: wiring.Solder},
	}}
	lines := Of(&p, &w)
	by := map[string]Line{}
	parts := 0
	for i, l := range lines {
		by[l.ID+"|"+l.Part+"|"+l.Value] = l
		if l.Line != i+1 || l.Need != l.Quantity {
			t.Errorf("line %d: %+v", i, l)
		}
		if l.ID != "" {
			parts += l.Quantity
		}
	}
	if parts != len(p.Placed) {
		t.Errorf("%d parts on the list, %d on the panel", parts, len(p.Placed))
	}
	if l := lines[0]; l.Value != "30 x 45 holes" || l.Note != "both faces, plated through" {
		t.Errorf("the board is %+v", l)
	}
	if l, ok := by["tact6|"+p.Parts["tact6"].BOM.Text+"|"]; !ok || l.Quantity != 20 || l.Refs[19] != "S20" {
		t.Errorf("the keys are %+v", l)
	}
	if _, ok := by["resistor-small:680|"+p.Parts["resistor-small"].BOM.Text+"|680"]; !ok {
		t.Error("values are not kept apart")
	}
}

func TestWithStock(t *testing.T) {
	lines := []Line{{Quantity: 20, Need: 20, ID: "tact6"}, {Quantity: 1, Need: 1}}
	got := WithStock(lines, map[string]int{"tact6": 30, "": 9})
	if got[0].Have != 30 || got[0].Need != 0 || got[1].Have != 0 || got[1].Need != 1 || lines[0].Need != 20 {
		t.Errorf("got %+v from %+v", got, lines)
	}
	if got := WithStock(lines, map[string]int{"tact6": 8}); got[0].Need != 12 {
		t.Errorf("8 of 20 leave %d to buy", got[0].Need)
	}
}

func TestEmptyPanel(t *testing.T) {
	p := panel.New("x")
	if lines := Of(&p, &wiring.Result{}); len(lines) != 1 {
		t.Errorf("an empty panel needs its board alone: %+v", lines)
	}
}
