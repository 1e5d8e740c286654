package fit

import (
	"slices"
	"testing"

	"fascia/design/grid"
	"fascia/design/part"
)

func TestOrders(t *testing.T) {
	hole := grid.MustHole
	tests := []struct {
		name   string
		result Result
		want   []Order
	}{
		{"joints under a module on pins", Examine(picture(
			"........",
			"......P.",
			"..r.....",
			"........",
			"........",
			"........")), []Order{
			{First: "R1", Then: "U1", Hole: hole("G3"), Face: grid.Back},
		}},
		{"a module on sockets hides nothing", Examine(picture(
			"........",
			"......K.",
			".r......",
			"........",
			"........",
			"........")), nil},
		{"a resistor under a module on its own face", Examine(picture(
			".........",
			"...h.....",
			"..r......",
			".........",
			".........")), []Order{
			{First: "R1", Then: "U1", Hole: hole("E3"), Face: grid.Front, Under: true},
			{First: "R1", Then: "U1", Hole: hole("G3"), Face: grid.Front, Under: true},
		}},
	}
	for _, tt := range tests {
		if !slices.Equal(tt.result.Orders, tt.want) {
			t.Errorf("%s: orders %v, want %v", tt.name, tt.result.Orders, tt.want)
		}
	}
}

func TestTextsSayWhatWhereAndTheWayOut(t *testing.T) {
	overlap := Examine(picture(
		"..........",
		".s.s......",
		"..........",
		"..........",
		".........."))
	covered := Examine(picture(
		"........",
		"......P.",
		"..r.....",
		"........",
		"........",
		"........"))
	cycle := Examine(picture(
		"........",
		".p......",
		"......P.",
		"........",
		"........",
		"........"))
	tight := Examine(picture(
		"........",
		"......F.",
		"..r.....",
		"........",
		"........",
		"........"))
	tests := []struct {
		result     Result
		code, want string
	}{
		// 6 mm bodies two steps of 2.54 mm apart
		{overlap, "fit-body-overlap", "S1 and S2 overlap by 0.9 mm on the front. Move them 1 hole further apart, or put one on the back."},
		{covered, "fit-joint-covered", "U1 covers 1 joint of R1 on the back. Solder R1 before U1."},
		{cycle, "fit-order-cycle", "No order of soldering works: U1 before U2, U2 before U1. Move one of U1 and U2, or put one on sockets."},
		{tight, "fit-lead-under-body", "R1 has its joint at G3 under the body of U1 on the back, which leaves 0.0 mm; it needs 2 mm. Move one of them, or raise U1 on sockets."},
	}
	for _, tt := range tests {
		if got := textOf(t, tt.result, tt.code); got != tt.want {
			t.Errorf("%s says\n%q, want\n%q", tt.code, got, tt.want)
		}
	}
}

// A part off the grid has no hole names, and a finding must still be writable as JSON.
func TestFindingsNameOnlyRealHoles(t *testing.T) {
	p := picture("s....", ".....", ".....")
	p.Placed[0].Turn = 2
	p.Parts["none"] = part.Definition{}
	for _, f := range Examine(p).Findings {
		for _, h := range f.Where.Holes {
			if !h.Valid() {
				t.Errorf("%s names the hole %s", f.Code, h)
			}
		}
	}
}
