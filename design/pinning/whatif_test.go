package pinning

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// In column K, pins 1 to 20 of the module take rows 2 to 21; GP2 is pin 4, in row 5.
func TestWhatIf(t *testing.T) {
	tests := []struct {
		name, source string
		targets      []grid.Hole
		signals      []signal.Signal
		change       func(p *panel.Panel, m *controller.Module)
		want         string
	}{
		{"nothing asked", "by definition", near(4), []signal.Signal{out}, func(p *panel.Panel, _ *controller.Module) { p.Pins.Prefer = nil }, ""},
		{"a lock two pins further on", "by hand: GP4 is pin 6, two rows below GP2; it is closed to P2", near(4, 15), []signal.Signal{out, in},
			func(p *panel.Panel, _ *controller.Module) {
				p.Pins.Prefer, p.Pins.Locked["P1.X"] = nil, "GP4"
			}, "lock P1.X GP4 (GP2) closes 1: Costs 2 holes of wire. Without it: GP2."},
		{"a lock where the signal would be anyway", "by hand", near(4), []signal.Signal{out}, func(p *panel.Panel, _ *controller.Module) {
			p.Pins.Prefer, p.Pins.Locked["P1.X"] = nil, "GP2"
		}, "lock P1.X GP2 (GP2) closes 0: Costs nothing."},
		{"a lock that crosses another line", "by hand: P1 beside GP3, P2 beside GP2: each is a row away from the other's",
			[]grid.Hole{{Col: 7, Row: 5}, {Col: 7, Row: 4}}, []signal.Signal{out, out}, func(p *panel.Panel, _ *controller.Module) {
				p.Pins.Prefer, p.Pins.Locked["P1.X"] = nil, "GP2"
			}, "lock P1.X GP2 (GP3) closes 1: Costs 2 holes of wire and 1 crossing. Without it: GP3."},
		{"a pin kept free", "by hand: GP3 is one row below GP2", near(4), []signal.Signal{out}, func(p *panel.Panel, _ *controller.Module) {
			p.Pins.Prefer, p.Pins.KeepFree = nil, []string{"GP2"}
		}, "keep GP2  () closes 1: Costs 1 hole of wire."},
		{"the console spared", "by hand: GP2 is three rows below GP0", near(1), []signal.Signal{out}, nil,
			"spare serial console  () closes 2: Costs 3 holes of wire.\nspare analogue pins  () closes 3: Costs nothing."},
		{"a lock in the middle of a run", "by hand: GP2 closes GP0-GP2 to three lines each; they move from GP0-GP2 to GP3-GP5, rows 1, 2, 4 to 5, 6, 7", append([]grid.Hole{{Col: 11, Row: 4}}, near(2, 3, 4)...), []signal.Signal{out, row, row, row},
			func(p *panel.Panel, m *controller.Module) {
				p.Pins.Prefer, p.Pins.Locked["P1.X"], m.Pins = nil, "GP2", m.Pins[:6]
			}, "lock P1.X GP2 (GP3) closes 9: Costs 6 holes of wire. Without it: GP3."},
		{"a lock that takes the console", "by hand: without it P1 goes down to GP2, three rows, and P2 to GP3, one", near(1, 4), []signal.Signal{out, out}, func(p *panel.Panel, m *controller.Module) {
			p.Pins.Prefer, p.Pins.Locked["P1.X"] = []string{panel.SerialConsole}, "GP0"
		}, "lock P1.X GP0 (GP2) closes 1: Costs the serial console, and saves 4 holes of wire. Without it: GP2.\nspare serial console  () closes 0: Costs nothing."},
		{"an I2C instance spared", "RP2040 datasheet, GPIO functions: GP0 and GP1 are I2C0, GP2 and GP3 I2C1; rows 1 and 2 or 4 and 5 in place of 2 and 4", near(2, 4), []signal.Signal{out, out},
			func(p *panel.Panel, m *controller.Module) {
				p.Pins.Prefer, m.Pins = []string{panel.I2CBus}, m.Pins[:4]
			}, "spare I2C bus  () closes 0: Costs 3 holes of wire."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, m := bench(tt.targets...)
			if tt.change != nil {
				tt.change(p, m)
			}
			list := wants(slices.Clone(tt.signals)...)
			r := Assign(p, m, "U1", list)
			var got []string
			for _, price := range WhatIf(p, m, "U1", list, &r) {
				got = append(got, fmt.Sprintf("%s %s %s (%s) closes %d: %s", price.Kind, price.Wish, price.GPIO, price.Instead, price.Closed, price.Says))
				if !price.Proved {
					t.Errorf("not proved: %+v", price)
				}
			}
			if got := strings.Join(got, "\n"); got != tt.want {
				t.Errorf("got\n%s\nwant\n%s\n(%s)", got, tt.want, tt.source)
			}
		})
	}
}

// A price is the difference that taking the wish away makes, whatever else is asked.
func TestPricesAreDifferences(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		p, m, list := drawTask(t, nil, 20)
		with := Assign(p, m, "U1", list)
		for _, price := range WhatIf(p, m, "U1", list, &with) {
			seen++
			q := p.Clone()
			var edit panel.Edit
			switch price.Kind {
			case PriceOfLock:
				edit = &panel.LockPin{Signal: price.Wish}
			case PriceOfKeep:
				edit = &panel.KeepFree{GPIO: price.Wish}
			case PriceOfSpare:
				edit = &panel.Prefer{Spare: slices.DeleteFunc(slices.Clone(p.Pins.Prefer), func(s string) bool { return s == price.Wish })}
			}
			q, _, err := panel.Apply(q, edit)
			if err != nil {
				t.Fatal(err)
			}
			without := Assign(&q, m, "U1", list)
			if price.Length != with.Cost-without.Cost || price.Crossings != with.Crossings-without.Crossings || price.LeftOut != len(without.Pins)-len(with.Pins) {
				t.Fatalf("%+v; with it %v and %d, without %v and %d", price, with.Cost, with.Crossings, without.Cost, without.Crossings)
			}
			if price.Proved && price.Length < 0 && price.LeftOut <= 0 && len(price.Broken) == 0 {
				t.Fatalf("a wish that only saves wire: %+v", price)
			}
		}
	})
	if seen == 0 {
		t.Error("no wish was priced")
	}
}

// Nothing to compare with: no module, no pins, no wishes.
func TestWhatIfOfNothing(t *testing.T) {
	p, m := bench(near(4)...)
	p.Pins.Locked["P1.X"] = "GP2"
	list := wants(signal.Signal{Wants: part.ADC})
	r := Assign(p, m, "U1", list)
	if got := WhatIf(p, m, "U1", list, &r); got == nil || len(got) > 0 {
		t.Errorf("impossible: %v", got)
	}
	r = Assign(p, nil, "", list)
	if got := WhatIf(p, nil, "", list, &r); got == nil || len(got) > 0 {
		t.Errorf("without a module: %v", got)
	}
}
