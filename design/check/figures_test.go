package check

import (
	"math"
	"slices"
	"testing"

	"fascia/design/controller"
	"fascia/design/part"
)

// R = (Vs - VF) / I, then the next higher value of the series, then I back from it. Formula: data
// sheet of a 5 mm round LED; series: IEC 60063; forward volts are planning values, from memory.
func TestLEDResistor(t *testing.T) {
	tests := []struct {
		colour          string
		supply, forward float64
		wantMA          float64
		exact, e24      float64
		getsMA          float64
	}{
		{"red", 3.3, 1.8, 2, 750, 750, 2.00},
		{"yellow", 3.3, 2.0, 5, 260, 270, 4.81},
		{"yellow", 5.0, 2.0, 10, 300, 300, 10.0},
		{"white", 3.3, 2.9, 2, 200, 200, 2.00},
		{"white at 3.2 V", 5.0, 3.2, 5, 360, 360, 5.00},
		{"white, 2.7 V piece", 3.3, 2.7, 0, 0, 220, 2.7},
		{"white, 2.9 V piece", 3.3, 2.9, 0, 0, 220, 1.8},
		{"white, 3.1 V piece", 3.3, 3.1, 0, 0, 220, 0.9},
	}
	for _, tt := range tests {
		if tt.wantMA > 0 {
			exact := (tt.supply - tt.forward) / tt.wantMA * 1000
			if math.Abs(exact-tt.exact) > 0.01 || nextE24(exact) != tt.e24 {
				t.Errorf("%s: %.1f ohms and %.0f, want %.0f and %.0f", tt.colour, exact, nextE24(exact), tt.exact, tt.e24)
			}
		}
		if got := seriesMilliamps(tt.supply, tt.forward, tt.e24); math.Abs(got-tt.getsMA) > 0.051 {
			t.Errorf("%s: %.3f mA through %.0f ohms, want %.2f", tt.colour, got, tt.e24, tt.getsMA)
		}
	}
	if got := seriesMilliamps(1.5, 1.8, 100); got != 0 {
		t.Errorf("below its forward voltage an LED takes %.2f mA, want 0", got)
	}
}

// The same figures from a panel: what one LED takes of the chip's total.
func TestLampsOfAPanel(t *testing.T) {
	tests := []struct {
		colour, ohms, source string
		want                 float64
	}{
		{"red", "750", "5 mm LED data sheet, IEC 60063", 2.00},
		{"yellow", "270", "5 mm LED data sheet, IEC 60063", 4.81},
		{"white", "200", "5 mm LED data sheet, IEC 60063", 2.00},
		{"red", "820", "E12 of IEC 60063", 1.83},
		{"white", "220", "E12 of IEC 60063", 1.82},
	}
	for _, tt := range tests {
		d := newDesk()
		d.panel.Find("D1").Value, d.panel.Find("R1").Value = tt.colour, tt.ohms
		v := viewOf(d.plan())
		if len(v.lamps) != 1 {
			t.Fatalf("%d lamps, want 1", len(v.lamps))
		}
		if got := v.lamps[0].milliamps(); math.Abs(got-tt.want) > 0.005 {
			t.Errorf("%s with %s: %.3f mA, want %.2f (%s)", tt.colour, tt.ohms, got, tt.want, tt.source)
		}
	}
}

// Totals of the two chips: RP2040 data sheet table 627, RP2350 data sheet table 1438.
func TestChipTotals(t *testing.T) {
	for name, want := range map[string]float64{"RP2040": 50, "RP2350": 100} {
		c, _ := controller.ChipNamed(name)
		if c.SourceTotalMA != want || c.SinkTotalMA != want {
			t.Errorf("%s gives %.0f and takes %.0f mA, want %.0f", name, c.SourceTotalMA, c.SinkTotalMA, want)
		}
	}
}

// IEC 60063, table of E24.
func TestNextE24(t *testing.T) {
	tests := []struct{ ohms, want float64 }{
		{1, 1}, {1.01, 1.1}, {260, 270}, {2.61, 2.7}, {8.25, 9.1}, {9.2, 10}, {999, 1000}, {4700, 4700},
		{1e6, 1e6}, {0, 100}, {-5, 100}, {math.Inf(1), 100},
	}
	for _, tt := range tests {
		if got := nextE24(tt.ohms); math.Abs(got-tt.want) > tt.want*1e-9 {
			t.Errorf("nextE24(%g) = %g, want %g", tt.ohms, got, tt.want)
		}
	}
	for decade := 1.0; decade < 1e6; decade *= 10 {
		for _, step := range e24 {
			if got := nextE24(step * decade); math.Abs(got-step*decade) > got*1e-9 {
				t.Errorf("nextE24(%g) = %g: values of the series are their own next", step*decade, got)
			}
		}
	}
}

// (VDD - VOL) / IOL at 3.3 V, 0.4 V and 3 mA: UM10204 7.1, tables 10 and 11.
func TestLeastBusOhms(t *testing.T) {
	if got := math.Round(leastBusOhms); got != 967 {
		t.Errorf("least pull-up %.1f ohms, want 967", leastBusOhms)
	}
}

// Two modules of 4.7 kilohms halve: parallel resistance.
func TestParallel(t *testing.T) {
	if got := parallel([]pullUp{{ohms: 4700}, {ohms: 4700}}); math.Abs(got-2350) > 1e-9 {
		t.Errorf("4.7 and 4.7 kilohms are %.1f ohms, want 2350", got)
	}
}

// FuzzUsage: what is read is written so that it reads the same again.
func FuzzUsage(f *testing.F) {
	for _, s := range []string{"07:04", "0C:0192", "07:4", ":", "07:éé", "07:004f"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if once := canonicalUsage(text); once != canonicalUsage(once) {
			t.Fatalf("%q is written %q, and that %q", text, once, canonicalUsage(once))
		}
	})
}

func TestFigure(t *testing.T) {
	for x, want := range map[float64]string{2: "2", 0.5: "0.5", 12.346: "12.35", 0: "0", 100: "100", 0.001: "0"} {
		if got := figure(x); got != want {
			t.Errorf("figure(%g) = %q, want %q", x, got, want)
		}
	}
	if got := resistance(4700) + ", " + resistance(220); got != "4.7 kilohms, 220 ohms" {
		t.Errorf("resistances read %q", got)
	}
}

// Every colour that the rules advise is a colour that part knows.
func TestColourNames(t *testing.T) {
	want := "red, orange, yellow, green, bright green, blue, white, violet or infrared"
	if got := colourNames(); got != want || !slices.ContainsFunc(part.Colours, func(c part.Colour) bool { return c.Name == "violet" }) {
		t.Errorf("colours read %q, want %q", got, want)
	}
}
