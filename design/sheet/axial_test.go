package sheet

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

func TestBands(t *testing.T) {
	const table = "IEC 60062 colour table; worked values from memory"
	tests := []struct {
		ohms float64
		want []int
	}{
		{330, []int{3, 3, 1, gold}},       // orange orange brown gold
		{4700, []int{4, 7, 2, gold}},      // yellow violet red gold
		{10_000, []int{1, 0, 3, gold}},    // brown black orange gold
		{1_000_000, []int{1, 0, 5, gold}}, // brown black green gold
		{100, []int{1, 0, 1, gold}},       // brown black brown gold
		{22, []int{2, 2, 0, gold}},        // red red black gold
		{4.7, []int{4, 7, gold, gold}},    // yellow violet gold gold
		{0.47, []int{4, 7, silver, gold}}, // yellow violet silver gold
		{4990, []int{4, 9, 9, 1, 1}},      // yellow white white brown brown
		{1.5e9, []int{1, 5, 8, gold}},     // brown green grey gold
		{0, nil}, {-1, nil}, {math.NaN(), nil}, {math.Inf(1), nil}, {1e15, nil}, {1e-6, nil},
	}
	for _, tt := range tests {
		if got := Bands(tt.ohms); !slices.Equal(got, tt.want) {
			t.Errorf("Bands(%v) = %v, want %v (%s)", tt.ohms, got, tt.want, table)
		}
	}
}

// Reading the bands as the standard says gives the value back, to three figures.
func TestBandsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ohms := math.Pow(10, rapid.Float64Range(0, 9).Draw(t, "power"))
		b := Bands(ohms)
		if len(b) != 4 && len(b) != 5 {
			t.Fatalf("Bands(%v) = %v", ohms, b)
		}
		value := 0.0
		for _, digit := range b[:len(b)-2] {
			value = value*10 + float64(digit)
		}
		power := map[int]float64{gold: -1, silver: -2}
		p, special := power[b[len(b)-2]]
		if !special {
			p = float64(b[len(b)-2])
		}
		if value *= math.Pow(10, p); math.Abs(value/ohms-1) > 0.0051 {
			t.Fatalf("Bands(%v) = %v, which reads %v", ohms, b, value)
		}
	})
}

// drawn draws one part of the catalogue alone and returns its group.
func drawn(t *testing.T, pl panel.Placed, d part.Definition) *node {
	t.Helper()
	p := panel.New("x")
	pl.Ref, pl.Part, pl.At = "X1", "x", grid.MustHole("J9")
	p.Parts["x"], p.Placed = d, []panel.Placed{pl}
	return parse(t, write(t, Drawing{Panel: &p}, View{})).with("part")[0]
}

// across is the middle of a rectangle along x or, turned, along y.
func middle(t *testing.T, n *node) (x, y float64) {
	t.Helper()
	return n.number(t, "x") + n.number(t, "width")/2, n.number(t, "y") + n.number(t, "height")/2
}

func TestResistorShowsItsValue(t *testing.T) {
	c := part.BuiltIn()
	n := drawn(t, panel.Placed{Value: "4.7k"}, c["resistor-quarter"])
	var last float64
	for _, band := range []string{"band-4", "band-7", "band-2", "band-gold"} {
		found := n.with(band)
		if len(found) != 1 {
			t.Fatalf("4.7k has %d of %s, want 1", len(found), band)
		}
		x, _ := middle(t, found[0])
		if x <= last {
			t.Errorf("%s is not right of the band before it", band)
		}
		last = x
	}
	if !strings.Contains(n.words(), "X1 4.7k") {
		t.Errorf("the value is not written: %s", n.words())
	}
	if n := drawn(t, panel.Placed{Value: "<b>"}, c["resistor-quarter"]); len(n.with("band-gold")) != 0 {
		t.Error("a resistor of no known value has bands")
	}
}

// The band of a diode is at its cathode, whichever way it lies.
func TestDiodeBandIsAtItsCathode(t *testing.T) {
	d := part.BuiltIn()["diode-1n4148"]
	for turn := range grid.Turn(4) {
		for _, face := range []grid.Face{grid.Front, grid.Back} {
			p := panel.New("x")
			pl := panel.Placed{Ref: "X1", Part: "x", At: grid.MustHole("J9"), Turn: turn, Face: face}
			p.Parts["x"], p.Placed = d, []panel.Placed{pl}
			n := parse(t, write(t, Drawing{Panel: &p}, View{Face: face})).with("part")[0]
			bx, by := middle(t, n.with("band-silver")[0])
			at := map[string][2]float64{}
			for _, e := range n.all() {
				switch {
				case e.attr["data-terminal"] == "":
				case e.name == "circle":
					at[e.attr["data-terminal"]] = [2]float64{e.number(t, "cx"), e.number(t, "cy")}
				default:
					x, y := middle(t, e)
					at[e.attr["data-terminal"]] = [2]float64{x, y}
				}
			}
			toA := math.Hypot(bx-at["A"][0], by-at["A"][1])
			toK := math.Hypot(bx-at["K"][0], by-at["K"][1])
			if len(at) != 2 || toK >= toA {
				t.Errorf("turn %d on the %s: the band is %.1f from A and %.1f from K", turn, face, toA, toK)
			}
		}
	}
}

func TestLEDShowsItsColour(t *testing.T) {
	d := part.BuiltIn()["led5"]
	for _, c := range part.Colours {
		want := "lens-" + strings.ReplaceAll(c.Name, " ", "-")
		if n := drawn(t, panel.Placed{Value: c.Name}, d); len(n.with(want)) != 1 {
			t.Errorf("a %s LED does not have a lens of class %s", c.Name, want)
		}
	}
	if n := drawn(t, panel.Placed{Value: "plaid"}, d); len(n.with("lens-white")) != 1 {
		t.Error("an LED of no known colour is not clear")
	}
}
