package bom

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/design/wiring"
)

func TestWire(t *testing.T) {
	insulated := func(gauge, colour string, mm float64) wiring.Wire {
		return wiring.Wire{Kind: wiring.Insulated, Gauge: gauge, Colour: colour, CutMM: mm}
	}
	bare := wiring.Wire{Kind: wiring.Bare, Gauge: "0.5 mm tinned", CutMM: 104.2}
	tests := []struct {
		name  string
		wires []wiring.Wire
		want  []string // part | value | note
	}{
		{"nothing", nil, nil},
		{"legs need no wire", []wiring.Wire{{Kind: wiring.Leg}}, nil},
		{"80 and 75.5 mm are 0.16 m", []wiring.Wire{insulated("AWG 28", "BU", 80), insulated("AWG 28", "BU", 75.5)}, []string{
			"insulated wire, AWG 28, blue (BU)|0.16 m|2 lengths of at most 80 mm, ends and slack included", "solder|0.6 to 0.8 mm, rosin core|no bridges between pads"}},
		{"104.2 mm are rounded up", []wiring.Wire{bare}, []string{
			"bare wire, 0.5 mm tinned|0.11 m|1 length of at most 105 mm, ends and slack included", "solder|0.6 to 0.8 mm, rosin core|no bridges between pads"}},
		{"a metre to the millimetre is a metre", []wiring.Wire{insulated("AWG 30", "WH", 400), insulated("AWG 30", "WH", 600)}, []string{
			"insulated wire, AWG 30, white (WH)|1.00 m|2 lengths of at most 600 mm, ends and slack included", "solder|0.6 to 0.8 mm, rosin core|no bridges between pads"}},
		{"bridges alone", []wiring.Wire{{Kind: wiring.Solder}, {Kind: wiring.Solder}}, []string{"solder|0.6 to 0.8 mm, rosin core|2 bridges between pads"}},
		{"bare first, thick to thin, colours in the order of IEC 60757", []wiring.Wire{insulated("AWG 30", "WH", 10), insulated("AWG 24", "RD", 10),
			insulated("AWG 24", "BK", 10), {Kind: wiring.Solder}, insulated("AWG 28", "GNYE", 10), bare}, []string{
			"bare wire, 0.5 mm tinned|0.11 m|1 length of at most 105 mm, ends and slack included",
			"insulated wire, AWG 24, black (BK)|0.01 m|1 length of at most 10 mm, ends and slack included",
			"insulated wire, AWG 24, red (RD)|0.01 m|1 length of at most 10 mm, ends and slack included",
			"insulated wire, AWG 28, GNYE|0.01 m|1 length of at most 10 mm, ends and slack included",
			"insulated wire, AWG 30, white (WH)|0.01 m|1 length of at most 10 mm, ends and slack included",
			"solder|0.6 to 0.8 mm, rosin core|1 bridge between pads"}},
	}
	for _, tt := range tests {
		var got []string
		for _, l := range wire(&wiring.Result{Wires: tt.wires}) {
			got = append(got, strings.Join([]string{l.Part, l.Value, l.Note}, "|"))
			if l.Quantity != 1 || l.Refs == nil || l.ID != "" {
				t.Errorf("%s: %+v", tt.name, l)
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
	}
}

// Each colour that wire may be ordered in has a name of its own.
func TestColourNames(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range panel.Colours {
		if name := colourNames[c]; name == "" || seen[name] {
			t.Errorf("%s is called %q", c, name)
		}
		seen[colourNames[c]] = true
	}
}
