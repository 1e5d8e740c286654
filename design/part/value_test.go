package part

import (
	"math"
	"strconv"
	"testing"
)

func TestParseValue(t *testing.T) {
	tests := []struct {
		text string
		want float64
	}{ // letter codes as IEC 60062 writes them
		{"220", 220}, {"4.7k", 4700}, {"4k7", 4700}, {"220R", 220}, {"4R7", 4.7}, {"R47", 0.47}, {"1M", 1e6},
		{"100n", 1e-7}, {"2u2", 2.2e-6}, {"22 pF", 22e-12}, {"10 kohm", 1e4}, {"330 Ω", 330}, {" 1k ", 1000}, {"4µ7", 4.7e-6},
	}
	for _, tt := range tests {
		if got, err := ParseValue(tt.text); err != nil || math.Abs(got/tt.want-1) > 1e-12 {
			t.Errorf("ParseValue(%q) = %g, %v; want %g", tt.text, got, err, tt.want)
		}
	}
	for _, bad := range []string{"", "k", "-1", "+1", "1e3", "0x10", "0", "0k", "1_000", "1k2k3", "1,5k", "inf", "NaN", "1 2", "ten", "1.2.3"} {
		if got, err := ParseValue(bad); err == nil {
			t.Errorf("ParseValue(%q) = %g, want a refusal", bad, got)
		}
	}
}

// TestCatalogueValues: every value a resistor or capacitor is sold with can be read, and resistors
// carry preferred values (IEC 60063, E12).
func TestCatalogueValues(t *testing.T) {
	for id, d := range BuiltIn() {
		for _, text := range d.Facts.Values {
			switch d.Kind {
			case Resistor:
				if v, err := ParseValue(text); err != nil || E12.Next(v) != v {
					t.Errorf("%s: %q is no E12 value: %v", id, text, err)
				}
			case Capacitor:
				if _, err := ParseValue(text); err != nil {
					t.Errorf("%s: %v", id, err)
				}
			case LED:
				if _, ok := ColourNamed(text); !ok {
					t.Errorf("%s: no colour is called %q", id, text)
				}
			}
		}
		if d.Kind == LED && len(d.Facts.Values) != len(Colours) {
			t.Errorf("%s comes in %d of %d colours", id, len(d.Facts.Values), len(Colours))
		}
	}
}

// TestColours: forward ranges of the colour table of the 5 mm LED page; plan values from memory.
func TestColours(t *testing.T) {
	red, ok := ColourNamed("red")
	if !ok || red.PlanVolts != 1.8 || red.RangeVolts != [2]float64{1.63, 2.03} {
		t.Errorf("red = %+v, %v", red, ok)
	}
	if c, ok := ColourNamed("mauve"); ok {
		t.Errorf("mauve = %+v", c)
	}
}

func TestParseAddress(t *testing.T) {
	for text, want := range map[string]int{"0x08": 8, "0x3C": 0x3C, "0x3c": 0x3C, "0x77": 0x77} {
		if got, err := ParseAddress(text); err != nil || got != want {
			t.Errorf("ParseAddress(%q) = %d, %v", text, got, err)
		}
	}
	// UM10204 3.1.12 reserves 0x00 to 0x07 and 0x78 to 0x7F.
	for _, bad := range []string{"", "3C", "0x", "0x3", "0x3CC", "0x07", "0x78", "0x7F", "0x+9", "0x 9", "0X3C", "60", "0x3G"} {
		if got, err := ParseAddress(bad); err == nil {
			t.Errorf("ParseAddress(%q) = %d, want a refusal", bad, got)
		}
	}
}

// FuzzParseValue: an accepted value is positive and finite, and reads the same when it is written
// out in full.
func FuzzParseValue(f *testing.F) {
	for _, seed := range []string{"220", "4k7", "2u2", "100 nF", "1M", "µ", "1e9", "9999999999999999999999999999M"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := ParseValue(text)
		if err != nil {
			return
		}
		if !(v > 0) || math.IsInf(v, 0) {
			t.Fatalf("ParseValue(%q) = %g", text, v)
		}
		if again, err := ParseValue(strconv.FormatFloat(v, 'f', -1, 64)); err != nil || again != v {
			t.Fatalf("ParseValue(%q) = %g, written in full %g, %v", text, v, again, err)
		}
	})
}

// FuzzParseAddress: an accepted address is a 7-bit one that is not reserved.
func FuzzParseAddress(f *testing.F) {
	f.Add("0x3C")
	f.Add("0x78")
	f.Fuzz(func(t *testing.T, text string) {
		if n, err := ParseAddress(text); err == nil && (n < 0x08 || n > 0x77) {
			t.Fatalf("ParseAddress(%q) = %#x", text, n)
		}
	})
}
