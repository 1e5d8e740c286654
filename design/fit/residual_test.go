package fit

import (
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// Residuals of real parts on the grid, and what they ask for. Lead positions are those of the data
// sheets named; the best place on the grid is arithmetic.
func TestResidualsOfParts(t *testing.T) {
	tests := []struct {
		name, source string
		at           [2]int
		mm           [2]float64 // of the second lead, when the first is moved to spread the error
		first        [2]float64
		want         grid.Millimetre
		code         string
	}{
		{"6 x 6 tactile, 4 legs, 6.5 x 4.5", "B3F data sheet", [2]int{3, 2}, [2]float64{7.06, 4.79}, [2]float64{0.56, 0.29}, 0.63, "fit-lead-form"},
		{"6 x 6 tactile, 2 legs, 5.0", "B3F data sheet", [2]int{2, 0}, [2]float64{5.04, 0}, [2]float64{0.04, 0}, 0.04, ""},
		{"6 x 6 tactile, 2 legs, 6.5", "B3M data sheet", [2]int{3, 0}, [2]float64{7.06, 0}, [2]float64{0.56, 0}, 0.56, "fit-lead-form"},
		{"12 x 12 tactile, 12.5 x 5.0", "B3F-5 data sheet", [2]int{5, 2}, [2]float64{12.60, 5.04}, [2]float64{0.10, 0.04}, 0.11, ""},
		{"encoder, rows 14.5 apart", "PEC11R data sheet", [2]int{2, 6}, [2]float64{5.04, 14.87}, [2]float64{0.04, 0.37}, 0.37, "fit-lead-bend"},
		{"battery connector, pitch 2.0", "PH connector catalogue", [2]int{1, 0}, [2]float64{2.27, 0}, [2]float64{0.27, 0}, 0.27, "fit-lead-bend"},
		{"piezo, pitch 5.0", "PS series data sheet", [2]int{2, 0}, [2]float64{5.04, 0}, [2]float64{0.04, 0}, 0.04, ""},
		{"slide switch, pitch 2.5", "from memory", [2]int{2, 0}, [2]float64{5.04, 0}, [2]float64{0.04, 0}, 0.04, ""},
		{"full-size key switch, one pin half a hole off", "from memory", [2]int{2, 1}, [2]float64{6.35, 2.54}, [2]float64{0, 0}, 1.27, "fit-lead-drill"},
	}
	for _, tt := range tests {
		p := panel.New(tt.name)
		p.Parts["x"] = part.Definition{Name: tt.name, Kind: part.Other, Prefix: "X", Terminals: []part.Terminal{
			{Name: "1", MM: tt.first}, {Name: "2", At: tt.at, MM: tt.mm}}}
		p.Placed = []panel.Placed{{Ref: "X1", Part: "x", At: grid.MustHole("M8"), Turn: 3, Face: grid.Back}}
		r := Examine(&p)
		if got := max(r.Leads[0].Residual, r.Leads[1].Residual); !near(got, tt.want, 0.0051) {
			t.Errorf("%s: residual %.3f, want %.2f (%s)", tt.name, got, tt.want, tt.source)
		}
		code := ""
		if len(r.Findings) > 0 {
			code = r.Findings[0].Code
		}
		if code != tt.code {
			t.Errorf("%s: %q, want %q (%s)", tt.name, code, tt.code, tt.source)
		}
	}
}

// Bounds: computed; common practice, no source.
func TestClassOf(t *testing.T) {
	tests := []struct {
		residual grid.Millimetre
		code     string
	}{
		{0, ""}, {0.15, ""}, {0.151, "fit-lead-bend"}, {0.40, "fit-lead-bend"}, {0.401, "fit-lead-form"},
		{0.80, "fit-lead-form"}, {0.801, "fit-lead-drill"}, {5000, "fit-lead-drill"},
	}
	for _, tt := range tests {
		if got := classOf(tt.residual).code; got != tt.code {
			t.Errorf("classOf(%.3f) = %q, want %q", tt.residual, got, tt.code)
		}
	}
}

// A drill of the definition takes the place of forming and drilling advice for the lead it serves.
func TestDrilledLeadsAreNotOff(t *testing.T) {
	p := picture(
		"........",
		"........",
		"..w.....",
		"........",
		"........",
		"........",
		"........")
	d := p.Parts["w"]
	d.Drills = []part.Drill{{MM: [2]float64{6.35, 2.54}, Diameter: 1.5, Why: "pin 2"}, {MM: [2]float64{0, 0}, Diameter: 1.5}}
	p.Parts["w"] = d
	r := Examine(p)
	text := textOf(t, r, "fit-drill")
	if len(r.Findings) != 1 || !strings.Contains(text, "2 holes drilled: 1.5 mm 1.3 mm left of F4 and 1.5 mm at C3 (pin 2)") {
		t.Errorf("says %q", text)
	}
}

func TestThickLeads(t *testing.T) {
	for thick, want := range map[float64]int{0: 0, 0.905: 0, 1.0: 0, 1.2: 1} {
		p := picture("...", ".l..", "...")
		p.Boards[0].Margins = &[4]float64{5, 5, 5, 5}
		d := p.Parts["l"]
		d.Terminals[0].Lead = thick
		p.Parts["l"] = d
		if r := Examine(p); len(r.Findings) != want {
			t.Errorf("a lead of %.3f mm gives %q, want %d findings", thick, short(r.Findings), want)
		}
	}
}
