package pinning

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// What is to be spared is spared in the maker's order, and says what it gave way to. RP2040 data sheet,
// GPIO functions: GP0 and GP1 are UART0 and I2C0, GP2 and GP3 I2C1, GP26 to GP28 ADC0 to ADC2.
func TestSpare(t *testing.T) {
	maybe := func(s signal.Signal) signal.Signal { s.Optional = true; return s }
	other := func(s signal.Signal) signal.Signal { s.Bus = "other"; return s }
	serial, analogue, bus := panel.SerialConsole, panel.AnaloguePins, panel.I2CBus
	tests := []struct {
		name, source string
		gpios        []int // that the module brings out
		signals      []signal.Signal
		prefer       []string
		change       func(p *panel.Panel)
		pins         string
		says         string
	}{
		{"the console first", "by hand", []int{0, 1, 26, 27}, []signal.Signal{out, out}, []string{serial, analogue}, nil, "GP26 GP27",
			"pin-analogue-used: GP26 and GP27 are no analogue inputs any more, as sparing the serial console comes first."},
		{"the analogue pins first", "by hand", []int{0, 1, 26, 27}, []signal.Signal{out, out}, []string{analogue, serial}, nil, "GP0 GP1",
			"pin-serial-used: There is no serial console on GP0 and GP1, as sparing the analogue pins comes first."},
		{"nothing spared, and all beside GP1", "by hand", []int{0, 1, 26, 27}, []signal.Signal{out, out}, nil, nil, "GP0 GP1", ""},
		{"one of two analogue pins", "by hand: GP27 is a row nearer", []int{2, 26, 27}, []signal.Signal{out, out}, []string{analogue}, nil, "GP2 GP27",
			"pin-analogue-used: GP27 is no analogue input any more, as P2.X had no other pin."},
		{"an optional signal has its pin all the same", "by hand", []int{0, 2}, []signal.Signal{out, maybe(out)}, []string{serial}, nil, "GP0 GP2",
			"pin-serial-used: There is no serial console on GP0 and GP1, as P2.X would go without a pin otherwise."},
		{"a lock is a wish too", "by hand", []int{0, 1, 2}, []signal.Signal{out}, []string{serial}, func(p *panel.Panel) { p.Pins.Locked["P1.X"] = "GP1" }, "GP1",
			"pin-serial-used: There is no serial console on GP0 and GP1, as you locked P1.X to GP1."},
		{"an I2C instance", "by hand: GP0 or GP1 alone would leave neither whole", []int{0, 1, 2, 3}, []signal.Signal{out, out}, []string{bus}, nil, "GP0 GP1", ""},
		{"an I2C instance that is not the console's", "by hand", []int{0, 1, 2, 3}, []signal.Signal{out, out}, []string{serial, bus}, nil, "GP2 GP3", ""},
		{"an I2C instance before the console", "by hand: three of four pins leave no instance whole, and one pin of the console is enough", []int{0, 1, 2, 3}, []signal.Signal{out, out, out}, []string{bus, serial}, nil, "GP0 GP2 GP3",
			"pin-i2c-used: No I2C bus is left to use, as signals that had no other pin leave none whole.\n" +
				"pin-serial-used: There is no serial console on GP0 and GP1, as P1.X had no other pin."},
		{"the panel's own bus does not count", "by hand: GP2 and GP3 for the panel's, or GP0 and GP1", []int{0, 1, 2, 3, 4}, []signal.Signal{sda, scl, out}, []string{bus}, nil, "GP0 GP1 GP4", ""},
		{"two buses of the panel's", "the chip has two", []int{0, 1, 2, 3, 4, 5, 6, 7}, []signal.Signal{sda, scl, other(sda), other(scl)}, []string{bus}, nil, "GP0 GP1 GP2 GP3",
			"pin-i2c-used: No I2C bus is left to use, as the panel's own buses use both."},
		{"pins kept free are not the next part's", "by definition of the wish", []int{0, 1, 2, 3}, []signal.Signal{out}, []string{bus},
			func(p *panel.Panel) { p.Pins.KeepFree = []string{"GP1"} }, "GP0", ""},
		{"pins kept free take the last bus", "by definition of the wish", []int{0, 1, 2}, []signal.Signal{out}, []string{bus},
			func(p *panel.Panel) { p.Pins.KeepFree = []string{"GP1"} }, "GP0",
			"pin-i2c-used: No I2C bus is left to use, as signals that had no other pin and pins kept free leave none whole."},
		{"an analogue signal takes nothing from them", "by hand: GP27 is a row nearer", []int{26, 27}, []signal.Signal{adc}, []string{analogue}, nil, "GP27", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, m := bench(slices.Repeat(near(1), len(tt.signals))...)
			m.Pins = slices.DeleteFunc(m.Pins, func(pin controller.Pin) bool { return !slices.Contains(tt.gpios, pin.GPIO) })
			p.Pins.Prefer = tt.prefer
			if tt.change != nil {
				tt.change(p)
			}
			r := Assign(p, m, "U1", wants(slices.Clone(tt.signals)...))
			var pins, says []string
			for _, pin := range r.Pins {
				pins = append(pins, pin.GPIO)
			}
			slices.SortFunc(pins, func(a, b string) int { return len(a)*100 + int(a[len(a)-1]) - len(b)*100 - int(b[len(b)-1]) })
			for _, f := range r.Findings {
				says = append(says, f.Code+": "+f.Text)
			}
			if got := strings.Join(pins, " "); got != tt.pins || strings.Join(says, "\n") != tt.says || len(says) != len(r.GaveWay) {
				t.Errorf("%s\n%s\nwant %s\n%s\n(%s)", got, strings.Join(says, "\n"), tt.pins, tt.says, tt.source)
			}
		})
	}
}

// Room for a bus is found where the search for least length alone would not leave it.
func TestSpareBusCostsWire(t *testing.T) {
	p, m := bench(near(2, 4)...)
	m.Pins = m.Pins[:4]
	list := wants(out, signal.Signal{Wants: part.DigitalIn, Direction: "in"})
	p.Pins.Prefer = nil
	without := Assign(p, m, "U1", list)
	p.Pins.Prefer = []string{panel.I2CBus}
	with := Assign(p, m, "U1", list)
	if without.Cost != 2 || with.Cost != 5 || !with.Proved || len(with.GaveWay) > 0 {
		t.Errorf("cost %v without and %v with, gave way %v; want 2 and 5 (by hand: rows 2 and 4, then 4 and 5)", without.Cost, with.Cost, with.GaveWay)
	}
}
