package part

import (
	"math"
	"testing"

	"fascia/design/grid"
)

// TestResiduals: how far the worst lead lies from its hole. The arithmetic is ours, the nominal
// patterns come from the source named in each row: half of the difference between the pattern and
// the holes it is put into, along and across.
func TestResiduals(t *testing.T) {
	tests := []struct {
		id     string
		want   float64
		source string
	}{
		{"tact6", 0.63, "6.5 x 4.5 mm on 3 x 2 holes: B3F data sheet, pattern from memory of the drawing"},
		{"tact6-2leg", 0.04, "5.0 mm on 2 holes: B3F data sheet, radial type"},
		{"tact6-2leg-wide", 0.56, "6.5 mm on 3 holes: B3M data sheet"},
		{"tact12", 0.11, "12.5 x 5.0 mm on 5 x 2 holes: B3F 12 x 12 data sheet, PCB dimensions"},
		{"tact6-side", 0.29, "4.5 mm on 2 holes, legs only: pattern from memory"},
		{"slide-spdt", 0.04, "pitch 2.5 mm: from memory"},
		{"slide-power", 0.04, "pitch 2.5 mm: from memory"},
		{"slide-spdt-2mm", 0.54, "pitch 2.0 mm: SSSS8 data sheet, partly from memory"},
		{"encoder-push", 0.37, "rows 14.5 mm apart on 6 holes, pitch 2.5 mm: PEC11R data sheet, product dimensions"},
		{"keyswitch-full", 0.64, "6.35 x 2.54 mm on 2 x 1 holes, shared: pin places from memory"},
		{"battery-ph2", 0.27, "pitch 2.0 mm on 1 hole: PH connector catalogue page"},
		{"piezo12", 0.04, "pitch 5.0 mm on 2 holes: PS series data sheet"},
		{"piezo17", 0.08, "pitch 10 mm on 4 holes, shared: PS series data sheet"},
		{"buzzer-magnetic12", 0.01, "pitch 7.6 mm on 3 holes: from memory"},
		{"cap-ceramic-2", 0.04, "pitch 5.0 mm on 2 holes: from memory"},
		{"latching-push", 0.46, "rows 6.0 mm apart on 2 holes, pitch 2.5 mm: TL2285 drawing"},
		{"led3", 0, "pitch 2.54 mm: GB-413 data sheet"},
		{"resistor-quarter", 0, "axial leads are bent to the holes"},
		{"module40-rp2040", 0, "2 x 20, pitch 2.54 mm, rows 17.78 mm apart: data sheet of the 40-pin module"},
	}
	c := BuiltIn()
	for _, tt := range tests {
		d := c[tt.id]
		// The tables round half up to the hundredth.
		if got := float64(d.WorstResidual()); math.Abs(got-tt.want) > 0.0051 {
			t.Errorf("%s misses by %.3f mm, want %.2f (%s)", tt.id, got, tt.want, tt.source)
		}
	}
}

// TestBestPlace: no part of the catalogue would fit better when moved as a whole, since mm is given
// with the part where its leads fit best. Least worst residual means that the leads' offsets from
// their holes are spread evenly: their bounding box is centred on the holes.
func TestBestPlace(t *testing.T) {
	for id, d := range BuiltIn() {
		var box [4]float64
		for i, terminal := range d.Terminals {
			off := terminal.Point().Minus(terminal.Offset().Point())
			if i == 0 {
				box = [4]float64{float64(off.X), float64(off.Y), float64(off.X), float64(off.Y)}
			}
			box = [4]float64{min(box[0], float64(off.X)), min(box[1], float64(off.Y)), max(box[2], float64(off.X)), max(box[3], float64(off.Y))}
		}
		if id == "joystick-thumb" { // two rows and four legs that do not share a best place
			continue
		}
		if math.Abs(box[0]+box[2]) > 0.005 || math.Abs(box[1]+box[3]) > 0.005 {
			t.Errorf("%s: the leads miss by %v, which is not centred", id, box)
		}
	}
}

// TestEncoderLugs: 13.2 mm apart on the shaft's line, 7.5 mm below the A-C-B row (PEC11R data
// sheet); with the pins on their holes they miss by 1.02 and 0.25 mm (computed).
func TestEncoderLugs(t *testing.T) {
	d := BuiltIn()["encoder-push"]
	if len(d.Drills) != 2 || math.Abs(d.Drills[1].MM[0]-d.Drills[0].MM[0]-13.2) > 1e-9 {
		t.Fatalf("lugs %+v, want two 13.2 mm apart", d.Drills)
	}
	for _, h := range d.Drills {
		p := grid.Point{X: grid.Millimetre(h.MM[0]), Y: grid.Millimetre(h.MM[1])}
		off := p.Minus(grid.Nearest(p).Centre())
		if x, y := math.Abs(float64(off.X)), math.Abs(float64(off.Y)); math.Abs(x-1.02) > 0.005 || math.Abs(y-0.25) > 0.005 {
			t.Errorf("lug at %v misses by %.2f, %.2f", h.MM, x, y)
		}
	}
}

// TestSideLugs: 7.0 mm apart, 2.5 mm behind, holes 1.3 mm (from memory); with the legs on their
// holes they miss by 0.96 mm along (computed).
func TestSideLugs(t *testing.T) {
	for _, h := range BuiltIn()["tact6-side"].Drills {
		p := grid.Point{X: grid.Millimetre(h.MM[0]), Y: grid.Millimetre(h.MM[1])}
		if off := p.Minus(grid.Nearest(p).Centre()); math.Abs(math.Abs(float64(off.X))-0.96) > 0.005 || h.Diameter != 1.3 {
			t.Errorf("lug at %v of %.1f mm misses by %.2f mm", h.MM, h.Diameter, off.X)
		}
	}
}

// TestLeadPitch: the holes that axial parts are bent to, from the data sheets' largest bodies and
// the workmanship notes on lead forming (computed).
func TestLeadPitch(t *testing.T) {
	for id, holes := range map[string]int{"resistor-small": 3, "resistor-quarter": 4, "resistor-half": 5,
		"diode-1n4148": 3, "diode-bat85": 3, "diode-1n5819": 4, "resistor-quarter-standing": 1} {
		d := BuiltIn()[id]
		if got := d.Terminals[1].At; got != [2]int{holes, 0} {
			t.Errorf("%s reaches to %v, want %d holes", id, got, holes)
		}
	}
}
