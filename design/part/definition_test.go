package part

import (
	"math"
	"slices"
	"testing"

	"fascia/design/grid"
)

func TestMetal(t *testing.T) {
	d := BuiltIn()["tact6"]
	if got := d.Metal("A2"); !slices.Equal(got, []string{"A1", "A2"}) {
		t.Errorf("Metal(A2) = %v", got)
	}
	led := BuiltIn()["led3"]
	if got := led.Metal("A"); !slices.Equal(got, []string{"A"}) {
		t.Errorf("Metal of a lone terminal = %v", got)
	}
}

func TestFindByName(t *testing.T) {
	tact, nav := BuiltIn()["tact6"], BuiltIn()["nav5"]
	if c, ok := tact.Contact(""); !ok || c.Name != "press" {
		t.Errorf("the only contact = %+v, %v", c, ok)
	}
	if c, ok := nav.Contact(""); ok {
		t.Errorf("one of five contacts without a name = %+v", c)
	}
	if c, ok := nav.Contact("left"); !ok || c.Between != [2]string{"COM", "LEFT"} {
		t.Errorf("left = %+v, %v", c, ok)
	}
	if c, ok := nav.Contact("back"); ok {
		t.Errorf("back = %+v", c)
	}
	if x, ok := tact.Terminal("B2"); !ok || x.Offset() != (grid.Offset{Cols: 3, Rows: 2}) {
		t.Errorf("B2 = %+v, %v", x, ok)
	}
	if x, ok := tact.Terminal("C1"); ok {
		t.Errorf("C1 = %+v", x)
	}
}

// TestOutlinesMakeSense: a display's window lies on its body, and every lead comes out of a body or
// at most 3.5 mm beside one, so that no figure was typed with a wrong sign or place.
func TestOutlinesMakeSense(t *testing.T) {
	for id, d := range BuiltIn() {
		windows := 0
		for _, b := range d.Bodies {
			if len(b.Window) == 0 {
				continue
			}
			windows++
			if w, r := b.Window, b.Rect; w[0] < r[0] || w[1] < r[1] || w[2] > r[2] || w[3] > r[3] {
				t.Errorf("%s: window %v is not on body %v", id, w, r)
			}
		}
		if (d.Kind == Display) != (windows == 1) {
			t.Errorf("%s has %d windows", id, windows)
		}
		for _, terminal := range d.Terminals {
			if gap := besideBodies(d.Bodies, terminal.Point()); gap > 3.5 {
				t.Errorf("%s: terminal %s lies %.1f mm beside its body", id, terminal.Name, gap)
			}
		}
	}
}

// besideBodies is how far p lies outside the nearest body.
func besideBodies(bodies []Body, p grid.Point) float64 {
	least := math.Inf(1)
	for _, b := range bodies {
		x := max(b.Rect[0]-float64(p.X), float64(p.X)-b.Rect[2], 0)
		y := max(b.Rect[1]-float64(p.Y), float64(p.Y)-b.Rect[3], 0)
		least = min(least, math.Hypot(x, y))
	}
	return least
}

// TestOutlines holds outlines against their sources, in millimetres: size seen from above, height.
func TestOutlines(t *testing.T) {
	tests := []struct {
		id         string
		wide, long float64
		source     string
	}{
		{"tact6", 6, 6, "B3F data sheet"},
		{"tact12", 12, 12, "B3F 12 x 12 data sheet"},
		{"encoder-push", 12.5, 13.4, "PEC11R data sheet"},
		{"keyswitch-full", 15.6, 15.6, "key-switch maker's developer page"},
		{"oled096-i2c", 27.3, 27.8, "0.96 inch I2C display wiki page"},
		{"oled13-i2c", 35.4, 33.5, "from memory"},
		{"oled091-i2c", 38, 12, "article on a 0.91 inch module, September 2025"},
		{"tft13-spi7", 28, 39, "from memory"},
		{"tft18-spi8", 34.5, 56, "ST7735S specification table; long form from memory"},
		{"lcd1602-i2c", 80, 36, "1602A module page"},
		{"piezo12", 12.2, 12.2, "PS series data sheet"},
		{"led3", 3.8, 3.8, "GB-413 data sheet"},
	}
	for _, tt := range tests {
		r := BuiltIn()[tt.id].Bodies[0].Rectangle()
		if math.Abs(float64(r.Width())-tt.wide) > 0.005 || math.Abs(float64(r.Height())-tt.long) > 0.005 {
			t.Errorf("%s is %.2f x %.2f mm, want %g x %g (%s)", tt.id, r.Width(), r.Height(), tt.wide, tt.long, tt.source)
		}
	}
}
