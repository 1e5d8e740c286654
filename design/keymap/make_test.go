package keymap

import (
	"testing"

	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
)

func TestOf(t *testing.T) {
	p := panel.New("x")
	s := scan.Result{Rows: 1, Columns: 2,
		Cells:  []scan.Cell{{Key: "S1", Legend: "+1", Row: 0, Column: 0, Code: 0, Usage: "07:57"}, {Key: "S2", Legend: "-1", Row: 0, Column: 1, Code: 1}},
		Direct: []scan.Direct{{Key: "S3", Legend: "Start", Code: 2, Usage: "01:3D"}}}
	pins := pinning.Result{Pins: []pinning.Pin{{Signal: "S3", GPIO: "GP9"}}}
	m := Of(&p, &s, &pins)
	if len(m.Keys) != 3 || *m.Keys[1].Column != 1 || m.Keys[0].UsageName != "Keypad +" || m.Keys[0].GPIO != "" {
		t.Errorf("matrix keys: %+v", m.Keys)
	}
	if k := m.Keys[2]; k.GPIO != "GP9" || k.Row != nil || k.UsageName != "Start" {
		t.Errorf("direct key: %+v", k)
	}
	if l := m.Layers[0].Legends; len(l) != 3 || l[2] != "Start" {
		t.Errorf("legends: %q", l)
	}
}
