package pinning

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
	"fascia/design/signal"
)

// keyPanel has four single switches and a cross whose contacts share C, one contact of which has its
// second end on ground.
func keyPanel() *panel.Panel {
	p := panel.New("keys")
	p.Parts["tact"] = part.Definition{Name: "tact", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{{Name: "A1"}, {Name: "A2", At: [2]int{3, 0}}, {Name: "B1", At: [2]int{0, 2}}, {Name: "B2", At: [2]int{3, 2}}},
		Joined:    [][]string{{"A1", "A2"}, {"B1", "B2"}},
		Contacts:  []part.Contact{{Name: "press", Between: [2]string{"A1", "B1"}}}}
	p.Parts["cross"] = part.Definition{Name: "cross", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{{Name: "C"}, {Name: "U", At: [2]int{1, 0}}, {Name: "D", At: [2]int{2, 0}}},
		Contacts:  []part.Contact{{Name: "up", Between: [2]string{"C", "U"}}, {Name: "down", Between: [2]string{"C", "D"}}}}
	p.Parts["grounded"] = part.Definition{Name: "grounded", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{{Name: "G", Net: part.Ground}, {Name: "X", At: [2]int{1, 0}}},
		Contacts:  []part.Contact{{Name: "press", Between: [2]string{"G", "X"}}}}
	key := &panel.Key{Legend: "k"}
	for i, ref := range []string{"S1", "S2", "S3", "S4"} {
		p.Placed = append(p.Placed, panel.Placed{Ref: ref, Part: "tact", At: gridHole(4*i, 0), Key: key})
	}
	p.Placed = append(p.Placed,
		panel.Placed{Ref: "S9", Part: "cross", At: gridHole(0, 6), Keys: map[string]panel.Key{"up": {Legend: "u"}, "down": {Legend: "d"}}},
		panel.Placed{Ref: "S10", Part: "grounded", At: gridHole(0, 8), Key: key})
	return &p
}

func lines(list []signal.Signal) (out []string) {
	for _, s := range list {
		out = append(out, fmt.Sprintf("%s %s %s pull=%s run=%s %v", s.ID, s.Net, s.Direction, s.Pull, s.Run, s.Terminals))
	}
	return out
}

func TestKeySignals(t *testing.T) {
	matrix := []scan.Cell{{Key: "S1"}, {Key: "S2", Column: 1}, {Key: "S3", Row: 1}, {Key: "S4", Row: 1, Column: 1}}
	tests := []struct {
		name, source string
		scan         *scan.Result
		want         []string
	}{
		{"no scan", "by definition", nil, nil},
		{"a matrix read by state machines", "RP2040 datasheet 3.5.6: IN and OUT pins are consecutive",
			&scan.Result{Rows: 2, Columns: 2, Active: "low", Pulls: "internal", Reader: "pio", Cells: matrix}, []string{
				"row 0 row 0 in pull=up run=rows [S1.A1 S2.A1]", "row 1 row 1 in pull=up run=rows [S3.A1 S4.A1]",
				"column 0 column 0 out pull= run=columns [S1.B1 S3.B1]", "column 1 column 1 out pull= run=columns [S2.B1 S4.B1]"}},
		{"polled, active high, own resistors", "common practice, no source",
			&scan.Result{Rows: 1, Columns: 1, Active: "high", Pulls: "external", Reader: "polled", Cells: matrix[:1]}, []string{
				"row 0 row 0 in pull= run= [S1.A1]", "column 0 column 0 out pull= run= [S1.B1]"}},
		{"keys with pins of their own", "common practice, no source",
			&scan.Result{Active: "high", Pulls: "internal", Reader: "pio", Direct: []scan.Direct{{Key: "S1", Pin: "S1.A1", Return: "S1.B1"}, {Key: "S9.up", Pin: "S9.U", Return: "S9.C"}, {Key: "S10", Pin: "S10.X", Return: "S10.G"}}}, []string{
				"S1 key S1 in pull=down run= [S1.A1]", "S9.up key S9.up in pull=down run= [S9.U]", "S10 key S10 in pull=down run= [S10.X]"}},
		{"keys of one part on one row", "common practice, no source",
			&scan.Result{Rows: 1, Columns: 2, Active: "low", Pulls: "internal", Reader: "pio", Cells: []scan.Cell{{Key: "S9.up"}, {Key: "S9.down", Column: 1}}}, []string{
				"row 0 row 0 in pull=up run=rows [S9.C]", "column 0 column 0 out pull= run=columns [S9.U]", "column 1 column 1 out pull= run=columns [S9.D]"}},
		{"lines that select and read in turn", "RP2040 datasheet 2.19: each pin is input and output; 3.5.6: runs",
			&scan.Result{Style: "lines", Rows: 3, Columns: 3, Active: "low", Pulls: "internal", Reader: "pio",
				Cells:  []scan.Cell{{Key: "S1", Row: 0, Column: 1, Diode: true}, {Key: "S2", Row: 1, Column: 0, Diode: true}, {Key: "S3", Row: 1, Column: 2, Diode: true}},
				Direct: []scan.Direct{{Key: "S4", Pin: "S4.A1", Return: "S4.B1"}}}, []string{
				"line 0 line 0 both pull=up run=lines [S1.A1 S2.B1]", "line 1 line 1 both pull=up run=lines [S1.B1 S2.A1 S3.A1]",
				"line 2 line 2 both pull=up run=lines [S3.B1]", "S4 key S4 in pull=up run= [S4.A1]"}},
		{"polled lines with resistors of their own", "common practice, no source",
			&scan.Result{Style: "lines", Rows: 2, Columns: 2, Active: "high", Pulls: "external", Reader: "polled",
				Cells: []scan.Cell{{Key: "S1", Row: 0, Column: 1, Diode: true}, {Key: "S77", Row: 1, Column: 0}, {Key: "S2", Row: -1, Column: 9}}}, []string{
				"line 0 line 0 both pull= run= [S1.A1]", "line 1 line 1 both pull= run= [S1.B1]"}},
		{"an expander reads all keys but one", "common practice, no source",
			&scan.Result{Style: "expander", Active: "low", Pulls: "internal", Reader: "polled", Direct: []scan.Direct{
				{Key: "S1", Pin: "S1.A1", Return: "S1.B1", Via: "U3.GPA0"}, {Key: "S2", Pin: "S2.A1", Return: "S2.B1"}}}, []string{
				"S2 key S2 in pull=up run= [S2.A1]"}},
		{"cells of no key", "by definition",
			&scan.Result{Rows: 1, Columns: 1, Active: "low", Reader: "pio", Cells: []scan.Cell{{Key: "S77"}, {Key: "S1", Row: 5, Column: -1}}, Direct: []scan.Direct{{Key: "S88"}}}, []string{
				"row 0 row 0 in pull=up run=rows []", "column 0 column 0 out pull= run=columns []", "S88 key S88 in pull=up run= []"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := lines(KeySignals(keyPanel(), tt.scan)); !slices.Equal(got, tt.want) {
				t.Errorf("got\n%q\nwant\n%q (%s)", got, tt.want, tt.source)
			}
		})
	}
}

// Lines that select and read in turn get consecutive pins, both ways, with their pulls, and the check
// that shares no code with the search agrees.
func TestLinesGetPins(t *testing.T) {
	p := keyPanel()
	p.Parts["module"] = module40()
	p.Placed = append(p.Placed, panel.Placed{Ref: "U1", Part: "module", At: gridHole(20, 0)})
	p.Tidy()
	d := p.Parts["module"]
	m, err := controller.FromDefinition(&d)
	if err != nil {
		t.Fatal(err)
	}
	for _, reader := range []string{"pio", "polled"} {
		r := scan.Result{Style: "lines", Rows: 3, Columns: 3, Active: "low", Pulls: "internal", Reader: reader, Cells: []scan.Cell{
			{Key: "S1", Row: 0, Column: 1, Diode: true}, {Key: "S2", Row: 1, Column: 0, Diode: true}, {Key: "S3", Row: 2, Column: 0, Diode: true}}}
		got := Plan(p, &m, "U1", &r)
		if len(got.Pins) != 3 {
			t.Fatalf("%s: %d pins: %v", reader, len(got.Pins), got.Findings)
		}
		if faults := Check(p, &m, KeySignals(p, &r), got.Pins); len(faults) > 0 {
			t.Errorf("%s: %q", reader, faults)
		}
		least, most := got.Pins[0].Number, got.Pins[0].Number
		for i, pin := range got.Pins {
			least, most = min(least, pin.Number), max(most, pin.Number)
			if pin.Direction != "both" || pin.Pull != "up" || pin.Net != r.RowNet(i) || reader == "pio" && pin.Function != "PIO both" {
				t.Errorf("%s: line %d is %+v", reader, i, pin)
			}
		}
		if reader == "pio" && most != least+2 {
			t.Errorf("the run takes GP%d to GP%d", least, most)
		}
	}
}
