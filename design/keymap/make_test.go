package keymap

import (
	"slices"
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

// The code of a key is its row times the columns plus its column, also where lines are both.
func TestOfLines(t *testing.T) {
	p := panel.New("x")
	s := scan.Result{Style: "lines", Rows: 3, Columns: 3, Cells: []scan.Cell{{Key: "S1", Legend: "a", Row: 0, Column: 1, Code: 1, Diode: true}, {Key: "S2", Legend: "b", Row: 2, Column: 0, Code: 6, Diode: true}}}
	m := Of(&p, &s, nil)
	if m.Rows != 3 || m.Columns != 3 || len(m.Keys) != 2 {
		t.Fatalf("%d x %d with %d keys, want 3 x 3 with 2", m.Rows, m.Columns, len(m.Keys))
	}
	for _, k := range m.Keys {
		if k.Row == nil || k.Column == nil || *k.Row*3+*k.Column != k.Code || k.GPIO+k.Expander != "" {
			t.Errorf("key of two lines: %+v", k)
		}
	}
	if l := m.Layers[0].Legends; len(l) != 7 || l[1] != "a" || l[6] != "b" || l[0] != "" {
		t.Errorf("legends: %q", l)
	}
}

func TestOfExpander(t *testing.T) {
	p := panel.New("x")
	s := scan.Result{Style: "expander", Direct: []scan.Direct{
		{Key: "S1", Code: 0, Via: "U3.GPA0"}, {Key: "S2", Code: 1, Via: "U4.GPB6"}, {Key: "S3", Code: 2}}}
	m := Of(&p, &s, &pinning.Result{Pins: []pinning.Pin{{Signal: "S3", GPIO: "GP9"}, {Signal: "U3.SDA", GPIO: "GP4"}}})
	var got []string
	for _, k := range m.Keys {
		if k.Row != nil || k.Column != nil {
			t.Errorf("%s has a cell: %+v", k.Ref, k)
		}
		got = append(got, k.Ref+" "+k.Expander+k.GPIO)
	}
	if want := []string{"S1 U3.GPA0", "S2 U4.GPB6", "S3 GP9"}; !slices.Equal(got, want) {
		t.Errorf("keys are read by %q, want %q", got, want)
	}
}
