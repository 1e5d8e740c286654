package pinning

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
	"fascia/design/signal"
)

func gridHole(col, row int) grid.Hole { return grid.Hole{Col: col, Row: row} }

// near lists holes just left of the module's pins with these numbers, which are in column K.
func near(pins ...int) []grid.Hole {
	holes := make([]grid.Hole, len(pins))
	for i, pin := range pins {
		holes[i] = grid.Hole{Col: 9, Row: pin}
	}
	return holes
}

func pinsOf(r Result) (list []string) {
	for _, p := range r.Pins {
		list = append(list, fmt.Sprintf("%s %s %s: %s", p.Signal, p.GPIO, p.Function, p.Reason))
	}
	return list
}

var (
	in, out = signal.Signal{Wants: part.DigitalIn, Direction: "in"}, signal.Signal{Wants: part.DigitalOut, Direction: "out"}
	sda     = signal.Signal{Wants: part.I2CSDA, Bus: "I2C", Direction: "both"}
	scl     = signal.Signal{Wants: part.I2CSCL, Bus: "I2C", Direction: "both"}
	row     = signal.Signal{Wants: part.DigitalIn, Run: "rows", Direction: "in"}
	pwm     = signal.Signal{Wants: part.PWM, Direction: "out"}
	adc     = signal.Signal{Wants: part.ADC, Direction: "in"}
)

// Where each pin goes can be read off the drawing: in column K, pins 1 to 20 of the module take rows 2 to 21.
func TestAssign(t *testing.T) {
	maybe := func(s signal.Signal) signal.Signal { s.Optional = true; return s }
	tests := []struct {
		name, source string
		targets      []grid.Hole
		signals      []signal.Signal
		change       func(p *panel.Panel, m *controller.Module)
		want         []string
	}{
		{"the pin beside it", "by hand", near(4, 15), []signal.Signal{out, in}, nil,
			[]string{"P1.X GP2 digital out: nearest free pin", "P2.X GP11 digital in: nearest free pin"}},
		{"a bus on one instance", "RP2040 datasheet, GPIO functions: GP4 I2C0 SDA, GP5 I2C0 SCL", near(6, 7), []signal.Signal{sda, scl}, nil,
			[]string{"P1.X GP4 I2C0 SDA: nearest free pin that can be I2C0 SDA", "P2.X GP5 I2C0 SCL: nearest free pin that can be I2C0 SCL"}},
		{"two buses take two instances", "RP2040 datasheet, GPIO functions: GP6 I2C1 SDA, GP7 I2C1 SCL", near(6, 7, 6, 7),
			[]signal.Signal{sda, scl, {Wants: part.I2CSDA, Bus: "other", Direction: "both"}, {Wants: part.I2CSCL, Bus: "other", Direction: "both"}}, nil,
			[]string{"P1.X GP2 I2C1 SDA: nearest free pin that can be I2C1 SDA", "P2.X GP3 I2C1 SCL: nearest free pin that can be I2C1 SCL",
				"P3.X GP4 I2C0 SDA: nearest free pin that can be I2C0 SDA", "P4.X GP5 I2C0 SCL: nearest free pin that can be I2C0 SCL"}},
		{"a run goes the way its targets go", "RP2040 datasheet 3.5.6: consecutive pins", near(11, 10, 9), []signal.Signal{row, row, row}, nil,
			[]string{"P1.X GP8 PIO in: third of the run GP6-GP8 for the rows", "P2.X GP7 PIO in: second of the run GP6-GP8 for the rows",
				"P3.X GP6 PIO in: first of the run GP6-GP8 for the rows"}},
		{"a lock", "by hand", near(4), []signal.Signal{out}, func(p *panel.Panel, _ *controller.Module) { p.Pins.Locked["P1.X"] = "GP22" },
			[]string{"P1.X GP22 digital out: locked by you"}},
		{"a pin kept free", "by hand", near(4), []signal.Signal{out}, func(p *panel.Panel, _ *controller.Module) { p.Pins.KeepFree = []string{"GP2"} },
			[]string{"P1.X GP3 digital out: nearest free pin"}},
		{"a pin that a join uses", "by hand", near(4), []signal.Signal{out}, func(p *panel.Panel, _ *controller.Module) {
			p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"U1.4", "P1.X"}}}
		}, []string{"P1.X GP3 digital out: nearest free pin"}},
		{"the serial console stays", "RP2040 datasheet, GPIO functions: GP0 and GP1 are UART0", near(1), []signal.Signal{out}, nil,
			[]string{"P1.X GP2 digital out: nearest free pin, with GP0 and GP1 left for the serial console"}},
		{"analogue pins stay", "RP2040 datasheet, GPIO functions: GP26 to GP28 are ADC0 to ADC2", []grid.Hole{{Col: 18, Row: 10}}, []signal.Signal{out}, nil,
			[]string{"P1.X GP22 digital out: nearest free pin, with GP26 and GP27 left for analogue signals"}},
		{"an analogue signal takes one", "RP2040 datasheet, GPIO functions", []grid.Hole{{Col: 18, Row: 10}}, []signal.Signal{adc}, nil,
			[]string{"P1.X GP26 ADC0: nearest free pin with an analogue input"}},
		{"two tones never share a slice", "RP2040 datasheet 4.5.2: GP4 and GP5 are PWM2 A and B, GP3 is PWM1 B", near(6, 7), []signal.Signal{pwm, pwm}, nil,
			[]string{"P1.X GP3 PWM1 B: nearest free pin with a PWM slice to itself", "P2.X GP5 PWM2 B: nearest free pin with a PWM slice to itself"}},
		{"an optional signal goes without", "by hand", near(4, 5), []signal.Signal{maybe(out), out}, func(_ *panel.Panel, m *controller.Module) { m.Pins = m.Pins[2:3] },
			[]string{"P2.X GP2 digital out: nearest free pin"}},
		{"an optional bus goes without", "by hand", near(4, 5, 6), []signal.Signal{maybe(sda), maybe(scl), out}, func(_ *panel.Panel, m *controller.Module) { m.Pins = m.Pins[4:5] },
			[]string{"P3.X GP4 digital out: nearest free pin"}},
		{"a locked optional signal stays", "by hand", near(4, 5), []signal.Signal{maybe(out), maybe(out)}, func(p *panel.Panel, m *controller.Module) {
			m.Pins = m.Pins[2:3]
			p.Pins.Locked["P2.X"] = "GP2"
		}, []string{"P2.X GP2 digital out: locked by you"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, m := bench(tt.targets...)
			if tt.change != nil {
				tt.change(p, m)
			}
			list := wants(slices.Clone(tt.signals)...)
			r := Assign(p, m, "U1", list)
			if got := pinsOf(r); !slices.Equal(got, tt.want) {
				t.Errorf("got\n%s\nwant\n%s\n(%s) %v", strings.Join(got, "\n"), strings.Join(tt.want, "\n"), tt.source, r.Findings)
			}
			if faults := Check(p, m, list, r.Pins); faults != nil {
				t.Errorf("faults: %v", faults)
			}
			if !r.Proved || r.Gap != 0 {
				t.Errorf("cost %v, bound %v", r.Cost, r.Bound)
			}
			if len(r.Free)+len(r.Pins)+len(p.Joins) != len(m.Pins) {
				t.Errorf("%d pins, %d free of %d", len(r.Pins), len(r.Free), len(m.Pins))
			}
		})
	}
}

func TestAssignSays(t *testing.T) {
	many := func(n int, s signal.Signal) []signal.Signal { return slices.Repeat([]signal.Signal{s}, n) }
	lock := func(pairs ...string) func(p *panel.Panel, m *controller.Module) {
		return func(p *panel.Panel, _ *controller.Module) {
			for i := 0; i < len(pairs); i += 2 {
				p.Pins.Locked[pairs[i]] = pairs[i+1]
			}
		}
	}
	tests := []struct {
		name, source string
		signals      []signal.Signal
		change       func(p *panel.Panel, m *controller.Module)
		pins         int
		want         string // severity code where: text Fix
	}{
		{"nothing clashes", "by definition", many(3, out), nil, 3, ""},
		{"a lock of nothing", "by definition", many(1, out), lock("P9.X", "GP4"), 1,
			"mind pin-lock-unknown GP4: P9.X is locked to GP4, but nothing called P9.X wants a pin. Take the lock of P9.X away."},
		{"a lock to a pin that is not brought out", "Raspberry Pi Pico datasheet, pinout: GPIO23 is internal", many(1, out), lock("P1.X", "GP23"), 1,
			"mind pin-lock-unknown P1: P1.X is locked to GP23, which U1 does not bring out. Lock it to GP0, GP1, GP2, GP3, GP4 or another that can be digital out, or take the lock away."},
		{"a lock to no pin", "RP2040 has GPIO0 to GPIO29", many(1, out), lock("P1.X", "GP30"), 1,
			"mind pin-lock-unknown P1: P1.X is locked to GP30, but the RP2040 has no such GPIO. Lock it to GP0, GP1, GP2, GP3, GP4 or another that can be digital out, or take the lock away."},
		{"keeping no pin free", "RP2040 has GPIO0 to GPIO29", many(1, out), func(p *panel.Panel, _ *controller.Module) { p.Pins.KeepFree = []string{"LED", "GP25"} }, 1,
			"mind pin-keep-unknown LED: LED is to be kept free, but the RP2040 has no such GPIO. Name a GPIO such as GP0, or take the wish away."},
		{"a lock to a pin without the function", "RP2040 datasheet, GPIO functions", []signal.Signal{adc}, lock("P1.X", "GP4"), 0,
			"stop pin-lock-function P1: P1.X is locked to GP4, which cannot be ADC. Lock it to GP26, GP27 or GP28, or take the lock away."},
		{"two locks on one pin", "by definition", many(2, out), lock("P1.X", "GP4", "P2.X", "GP4"), 0,
			"stop pin-lock-twice P2+P1: P1.X and P2.X are both locked to GP4. Take the lock of P2.X away, or that of P1.X."},
		{"a lock on a pin kept free", "by definition", many(1, out), func(p *panel.Panel, m *controller.Module) {
			p.Pins.Locked["P1.X"] = "GP4"
			p.Pins.KeepFree = []string{"GP4"}
		}, 0, "stop pin-lock-kept P1: P1.X is locked to GP4, which is to be kept free. Take the lock of P1.X away, or let GP4 be used."},
		{"a lock on a pin that a join uses", "by definition", many(1, out), func(p *panel.Panel, m *controller.Module) {
			p.Pins.Locked["P1.X"] = "GP2"
			p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"U1.4"}}}
		}, 0, "stop pin-lock-joined P1: P1.X is locked to GP2, which one of your joins uses. Take the lock of P1.X away, or the join."},
		{"more signals than pins", "Raspberry Pi Pico datasheet, pinout: 26 GPIOs", many(29, out), nil, 0,
			"stop pin-too-few U1: The panel needs 29 pins; U1 brings out 26. Read the keys as a matrix with fewer lines, or leave out parts that want 3 pins."},
		{"as many as pins, but one kept", "Raspberry Pi Pico datasheet, pinout: 26 GPIOs", many(26, out), func(p *panel.Panel, _ *controller.Module) { p.Pins.KeepFree = []string{"GP4"} }, 0,
			"stop pin-too-few U1: The panel needs 26 pins; U1 brings out 26, of which 1 is to be kept free. Let 1 of those kept free be used, or leave out a part."},
		{"locks in the way of a run", "GP0-GP22 and GP26-GP28 are the runs of the module (RP2040 datasheet, pinout)", append(many(8, row), out, out, out),
			lock("P9.X", "GP4", "P10.X", "GP11", "P11.X", "GP17"), 0,
			"stop pin-impossible P9+P10+P11+P1+P2+P3+P4+P5+P6+P7+P8: These wishes cannot all hold: P9.X is locked to GP4. P10.X is locked to GP11. " +
				"P11.X is locked to GP17. P1.X to P8.X want 8 consecutive GPIOs. There is no free run of 8 consecutive GPIOs: the longest are GP5-GP10 (6), GP12-GP16 (5) and GP18-GP22 (5). Take the lock of P9.X away."},
		{"locks either side of a line of a run", "by hand: a run of three that holds GP1 is GP0-GP2 or GP1-GP3", append(many(3, row), out), lock("P3.X", "GP1", "P4.X", "GP2"), 0,
			"stop pin-impossible P3+P4+P1+P2: These wishes cannot all hold: P3.X is locked to GP1. P4.X is locked to GP2. P1.X to P3.X want 3 consecutive GPIOs. " +
				"No free run of 3 consecutive GPIOs holds GP1. Take the lock of P4.X away."},
		{"two locks that pull a run apart, twice", "by hand", many(3, row), lock("P1.X", "GP2", "P2.X", "GP9", "P3.X", "GP12"), 0,
			"stop pin-impossible P1+P2+P3: These wishes cannot all hold: P1.X is locked to GP2. P2.X is locked to GP9. P1.X to P3.X want 3 consecutive GPIOs. " +
				"GP2 and GP9 lie farther apart than 3 consecutive GPIOs reach. Read the keys by polling, which takes any pins, in place of the state machines."},
		{"six analogue signals", "RP2040 datasheet, GPIO functions: the module has three analogue pins", many(6, adc), nil, 0,
			"stop pin-impossible P1+P2+P3+P4: These wishes cannot all hold: P1.X wants an analogue pin. P2.X wants an analogue pin. " +
				"P3.X wants an analogue pin. P4.X wants an analogue pin. Leave out P1. Leave out P2. Leave out P3."},
		{"four analogue signals", "RP2040 datasheet, GPIO functions: the module has three analogue pins", many(4, adc), nil, 0,
			"stop pin-impossible P1+P2+P3+P4: These wishes cannot all hold: P1.X wants an analogue pin. P2.X wants an analogue pin. " +
				"P3.X wants an analogue pin. P4.X wants an analogue pin. Leave out P1."},
		{"nine tones", "RP2040 datasheet 4.5: eight slices", many(9, pwm), nil, 0, "stop pin-impossible P1+P2+P3+P4+P5+P6+P7+P8+P9: These wishes cannot all hold: " +
			nine("P%d.X wants a PWM slice to itself. ") + "Leave out P1."},
		{"a line that no pin can be", "RP2040 datasheet, GPIO functions", []signal.Signal{{Wants: "telepathy"}}, nil, 0,
			"stop pin-impossible P1: These wishes cannot all hold: P1.X wants a pin that can be telepathy. Leave out P1."},
		{"the console in use", "by hand", many(26, out), nil, 26,
			"note pin-serial-used U1: There is no serial console on GP0 and GP1, as P1.X and P2.X had no other pin. Watch the program over USB, or free a pin.\n" +
				"note pin-analogue-used U1: GP26, GP27 and GP28 are no analogue inputs any more, as P24.X, P25.X and P26.X had no other pin. " +
				"Free a pin if you want to measure more later."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, m := bench(slices.Repeat(near(4), len(tt.signals))...)
			if tt.change != nil {
				tt.change(p, m)
			}
			r := Assign(p, m, "U1", wants(slices.Clone(tt.signals)...))
			var said []string
			for _, f := range r.Findings {
				said = append(said, fmt.Sprintf("%s %s %s: %s %s", f.Severity, f.Code, f.Where, f.Text, f.Fix))
			}
			if got := strings.Join(said, "\n"); got != tt.want || len(r.Pins) != tt.pins {
				t.Errorf("%d pins and\n%s\nwant %d and\n%s\n(%s)", len(r.Pins), got, tt.pins, tt.want, tt.source)
			}
			if refused := finding.Count(r.Findings, finding.Stop) > 0; refused != (len(r.Conflict) > 0) {
				t.Errorf("conflict: %q", r.Conflict)
			}
		})
	}
}

func nine(format string) string {
	var b strings.Builder
	for i := range 9 {
		fmt.Fprintf(&b, format, i+1)
	}
	return b.String()
}

// A key of the matrix and a bus line shared by two parts can be locked by any name they go by.
func TestPlanTakesLocksByAnyName(t *testing.T) {
	p := keyPanel()
	p.Parts["module"] = module40()
	p.Parts["oled"] = part.Definition{Name: "display", Kind: part.Display, Prefix: "U",
		Terminals: []part.Terminal{{Name: "SDA"}, {Name: "SCL", At: [2]int{1, 0}}},
		Needs:     []part.Need{{Terminal: "SDA", Signal: part.I2CSDA}, {Terminal: "SCL", Signal: part.I2CSCL}}}
	p.Placed = append(p.Placed, panel.Placed{Ref: "U1", Part: "module", At: gridHole(20, 1)},
		panel.Placed{Ref: "U2", Part: "oled", At: gridHole(0, 12)}, panel.Placed{Ref: "U3", Part: "oled", At: gridHole(0, 14)})
	p.Pins.Locked = map[string]string{"U3.SCL": "GP9", "row 0": "GP10", "S2": "GP1", "S3.B1": "GP20"}
	d := p.Parts["module"]
	m, err := controller.FromDefinition(&d)
	if err != nil {
		t.Fatal(err)
	}
	r := Plan(p, &m, "U1", &scan.Result{Rows: 2, Columns: 2, Active: "low", Pulls: "internal", Reader: "pio",
		Cells: []scan.Cell{{Key: "S1"}, {Key: "S2", Column: 1}, {Key: "S3", Row: 1}, {Key: "S4", Row: 1, Column: 1}}})
	want := map[string]string{"U2.SCL": "GP9", "row 0": "GP10", "row 1": "GP11", "column 0": "GP20", "column 1": "GP21"}
	for _, pin := range r.Pins {
		if gpio, ok := want[pin.Signal]; ok && gpio != pin.GPIO {
			t.Errorf("%s is on %s, want %s", pin.Signal, pin.GPIO, gpio)
		}
	}
	if len(r.Pins) != 6 || len(r.Findings) != 1 || !strings.Contains(r.Findings[0].Text, "read through a row and a column") {
		t.Errorf("%d pins, findings %v", len(r.Pins), r.Findings)
	}
}

func TestPlanWithoutModule(t *testing.T) {
	p := panel.New("empty")
	if r := Plan(&p, nil, "", nil); len(r.Findings) > 0 || r.Pins == nil || r.Free == nil || !r.Proved {
		t.Errorf("nothing wanted: %+v", r)
	}
	r := Plan(keyPanel(), nil, "", &scan.Result{Active: "low", Direct: []scan.Direct{{Key: "S1"}}})
	if len(r.Pins) > 0 || len(r.Findings) != 1 || r.Findings[0].Code != "pin-no-module" || r.Findings[0].Severity != finding.Stop {
		t.Errorf("a key and no module: %+v", r)
	}
}
