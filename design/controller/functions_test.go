package controller

import (
	_ "embed"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/part"
)

// functionTable is the table the closed forms are held against; its head names its sources.
//
//go:embed testdata/functions.tsv
var functionTable string

// tableRow is one GPIO of the table; a dash stands for none.
type tableRow struct{ gpio, modulePin, spi, uart, i2c, pwm, adc, uartAgain string }

func table(t *testing.T) []tableRow {
	t.Helper()
	var rows []tableRow
	for line := range strings.Lines(functionTable) {
		if strings.HasPrefix(line, "#") || strings.HasPrefix(line, "gpio") {
			continue
		}
		c := strings.Split(strings.TrimSpace(line), "\t")
		rows = append(rows, tableRow{c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7]})
	}
	if len(rows) != 30 {
		t.Fatalf("the table holds %d GPIOs, want 30", len(rows))
	}
	return rows
}

func mustChip(t testing.TB, name string) Chip {
	t.Helper()
	c, ok := ChipNamed(name)
	if !ok {
		t.Fatalf("chip %s is not known", name)
	}
	return c
}

// TestFunctionsFollowTheTable compares every function of every GPIO of both chips by name.
func TestFunctionsFollowTheTable(t *testing.T) {
	for _, name := range []string{"RP2040", "RP2350"} {
		chip := mustChip(t, name)
		for i, row := range table(t) {
			want := []string{row.spi, row.uart}
			if name == "RP2350" && row.uartAgain != "-" {
				want = append(want, row.uartAgain)
			}
			want = append(want, row.i2c, row.pwm, "digital out", "digital in")
			if row.adc != "-" {
				want = append(want, row.adc)
			}
			var got []string
			for _, f := range chip.Functions(i) {
				got = append(got, f.Name)
			}
			if GPIOName(i) != row.gpio || !slices.Equal(got, want) {
				t.Errorf("%s %s: functions %q, want %q", name, row.gpio, got, want)
			}
		}
	}
}

// TestCan asks for each signal on each GPIO; what the table prints decides.
func TestCan(t *testing.T) {
	columns := []struct {
		signal part.Signal
		has    func(tableRow) string // the name the table gives the function, "" when it has none
	}{
		{part.SPIRX, func(r tableRow) string { return ending(r.spi, " RX") }},
		{part.SPISCK, func(r tableRow) string { return ending(r.spi, " SCK") }},
		{part.SPITX, func(r tableRow) string { return ending(r.spi, " TX") }},
		{part.I2CSDA, func(r tableRow) string { return ending(r.i2c, " SDA") }},
		{part.I2CSCL, func(r tableRow) string { return ending(r.i2c, " SCL") }},
		{part.PWM, func(r tableRow) string { return r.pwm }},
		{part.ADC, func(r tableRow) string { return strings.TrimPrefix(r.adc, "-") }},
		{part.DigitalOut, func(tableRow) string { return "digital out" }},
		{part.DigitalIn, func(tableRow) string { return "digital in" }},
	}
	if len(columns) != len(part.Signals) {
		t.Fatalf("%d signals are tested, there are %d", len(columns), len(part.Signals))
	}
	for _, name := range ChipNames() {
		chip := mustChip(t, name)
		for gpio, row := range table(t) {
			for _, c := range columns {
				got, ok := chip.Can(gpio, c.signal)
				if want := c.has(row); ok != (want != "") || got.Name != want {
					t.Errorf("%s: Can(%d, %s) = %q, %v; want %q", name, gpio, c.signal, got.Name, ok, want)
				}
			}
		}
	}
}

func ending(name, end string) string {
	if strings.HasSuffix(name, end) {
		return name
	}
	return ""
}

// TestFunctionNumbers checks that the numbers beside a name say the same as the name.
func TestFunctionNumbers(t *testing.T) {
	tests := []struct {
		gpio     int
		signal   part.Signal
		instance int
		channel  string
		source   string
	}{
		{4, part.I2CSDA, 0, "", "pico-sdk 2.2.0 io_bank0.h: GPIO4 F3 i2c0_sda"},
		{27, part.I2CSCL, 1, "", "pico-sdk 2.2.0 io_bank0.h: GPIO27 F3 i2c1_scl"},
		{18, part.SPISCK, 0, "", "pico-sdk 2.2.0 io_bank0.h: GPIO18 F1 spi0_sclk"},
		{11, part.SPITX, 1, "", "pico-sdk 2.2.0 io_bank0.h: GPIO11 F1 spi1_tx"},
		{21, part.PWM, 2, "B", "pico-sdk 2.2.0 io_bank0.h: GPIO21 F4 pwm_b_2"},
		{28, part.ADC, 2, "", "RP2040 data sheet table 615"},
	}
	for _, tt := range tests {
		for _, name := range ChipNames() {
			chip := mustChip(t, name)
			f, ok := chip.Can(tt.gpio, tt.signal)
			if !ok || f.Instance != tt.instance || f.Channel != tt.channel {
				t.Errorf("%s GP%d %s = %+v, %v; want instance %d channel %q (%s)", name, tt.gpio, tt.signal, f, ok, tt.instance, tt.channel, tt.source)
			}
		}
	}
}

// TestFunctionsOutside makes sure that a GPIO the chip lacks can do nothing.
func TestFunctionsOutside(t *testing.T) {
	chip := mustChip(t, "RP2040")
	rapid.Check(t, func(t *rapid.T) {
		gpio := rapid.IntRange(-1000, 1000).Filter(func(n int) bool { return n < 0 || n >= 30 }).Draw(t, "gpio")
		signal := rapid.SampledFrom(part.Signals).Draw(t, "signal")
		if f, ok := chip.Can(gpio, signal); ok || chip.Functions(gpio) != nil {
			t.Fatalf("GP%d: Can = %+v, want none", gpio, f)
		}
	})
	if f, ok := chip.Can(4, ""); ok {
		t.Errorf("Can(4, no signal) = %+v, want none", f)
	}
}

// TestTwinPWM states what makes GP(n) and GP(n+16) clash: one slice and channel.
func TestTwinPWM(t *testing.T) {
	chip := mustChip(t, "RP2350")
	for a := range 30 {
		for b := range a {
			fa, _ := chip.Can(a, part.PWM)
			fb, _ := chip.Can(b, part.PWM)
			if same := fa == fb; same != (a-b == 16) {
				t.Errorf("GP%d and GP%d share a PWM output: %v", a, b, same)
			}
		}
	}
}
