package pinning

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/search"
	"fascia/design/signal"
)

// Bad wishes get a finding of their own and, where one change mends them, an offer.
func TestAssignOfBadWishes(t *testing.T) {
	many := func(n int, s signal.Signal) []signal.Signal { return slices.Repeat([]signal.Signal{s}, n) }
	lockAll := func(p *panel.Panel, m *controller.Module) {
		for i, pin := range m.Pins {
			p.Pins.Locked[fmt.Sprintf("P%d.X", i+1)] = pin.Name
		}
	}
	tests := []struct {
		name, source string
		signals      []signal.Signal
		change       func(p *panel.Panel, m *controller.Module)
		pins         int
		code         string // of the worst finding
		conflict     string
		offers       int
		first        string // offer
	}{
		{"every pin locked", "by definition: 26 signals, each on a pin of its own", many(26, out), lockAll, 26, "pin-serial-used", "", 0, ""},
		{"every pin locked, and one signal more", "by hand", many(27, out), lockAll, 0, "pin-too-few",
			"The parts want 27 pins. U1 brings out 26.", 27, "Leave out P"},
		{"every pin locked to what cannot use it", "RP2040 datasheet, GPIO functions: only GP26 to GP28 measure", many(26, adc), lockAll, 0, "pin-lock-function",
			"P1.X is locked to GP0. P1.X wants an analogue pin.", 0, ""},
		{"one of three locks lacks the function", "RP2040 datasheet, GPIO functions: GP4 is no analogue input", []signal.Signal{adc, adc, out},
			func(p *panel.Panel, _ *controller.Module) {
				p.Pins.Locked = map[string]string{"P1.X": "GP4", "P2.X": "GP26", "P3.X": "GP5"}
			}, 0, "pin-lock-function", "P1.X is locked to GP4. P1.X wants an analogue pin.", 3, "Take the lock of P1.X away."},
		{"three locks on one pin", "by hand: two of them have to go", many(3, out), func(p *panel.Panel, _ *controller.Module) {
			p.Pins.Locked = map[string]string{"P1.X": "GP4", "P2.X": "GP4", "P3.X": "GP4"}
		}, 0, "pin-lock-twice", "P2.X is locked to GP4. P1.X is locked to GP4.", 1, "Take the lock of P2.X away. Take the lock of P3.X away."},
		{"a module without pins", "by definition", many(2, out), func(_ *panel.Panel, m *controller.Module) { m.Pins = nil }, 0, "pin-too-few",
			"The parts want 2 pins. U1 brings out none.", 1, "Leave out P1. Leave out P2."},
		{"a module without pins that nothing wants", "by definition", nil, func(_ *panel.Panel, m *controller.Module) { m.Pins = nil }, 0, "", "", 0, ""},
		{"every pin kept free", "by definition", many(2, out), func(p *panel.Panel, m *controller.Module) {
			for _, pin := range m.Pins {
				p.Pins.KeepFree = append(p.Pins.KeepFree, pin.Name)
			}
		}, 0, "pin-too-few", "The parts want 2 pins. U1 brings out 26, of which 26 are to be kept free.", 1, "Let GP0 be used. Let GP1 be used."},
		{"a lock of a signal that is not there", "by definition", many(1, out), func(p *panel.Panel, _ *controller.Module) {
			p.Pins.Locked = map[string]string{"row 7": "GP4"}
		}, 1, "pin-lock-unknown", "", 0, ""},
		{"far more signals than pins", "by definition", many(200, out), nil, 0, "pin-too-few", "The parts want 200 pins. U1 brings out 26.", 0, ""},
		{"a run longer than any", "RP2040 datasheet, pinout of the module: GP0 to GP22 are the longest run", many(24, row), nil, 0, "pin-impossible",
			"P1.X to P24.X want 24 consecutive GPIOs.", 1, "Read the keys by polling, which takes any pins, in place of the state machines."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, m := bench(slices.Repeat(near(4), len(tt.signals))...)
			if tt.change != nil {
				tt.change(p, m)
			}
			list := wants(slices.Clone(tt.signals)...)
			r := Assign(p, m, "U1", list)
			finding.Sort(r.Findings)
			code, first := "", ""
			if len(r.Findings) > 0 {
				code = r.Findings[0].Code
			}
			if len(r.Concessions) > 0 {
				first = r.Concessions[0].Change
			}
			if got := strings.Join(r.Conflict, " "); len(r.Pins) != tt.pins || code != tt.code && tt.code != "pin-serial-used" || got != tt.conflict {
				t.Errorf("%d pins, %s, %q; want %d, %s, %q (%s)", len(r.Pins), code, got, tt.pins, tt.code, tt.conflict, tt.source)
			}
			if len(r.Concessions) != tt.offers || !strings.HasPrefix(first, tt.first) {
				t.Errorf("%d offers, the first %q; want %d, %q", len(r.Concessions), first, tt.offers, tt.first)
			}
		})
	}
}

// However few options it may try, the search tells what it found and proved, and never more.
func TestAssignmentWithinBudget(t *testing.T) {
	found, open, unsaid := 0, 0, 0
	for seed := range uint64(40) {
		p, m, list := randomPanel(seed)
		task := newTask(p, m, "U1", list)
		whole := task.cheapest(budget)
		for _, options := range []int{0, 1, 5, 25, 125, 625} {
			part := task.cheapest(options)
			if whole.answer.Verdict != search.Found {
				if part.answer.Verdict == search.Found {
					t.Errorf("seed %d: found in %d options what cannot be", seed, options)
				}
				continue
			}
			if part.answer.Verdict != search.Found {
				unsaid++
				continue
			}
			least, _ := whole.holes()
			cost, bound := part.holes()
			if bound > cost || part.answer.Cost/task.weight.above == whole.answer.Cost/task.weight.above && (bound > least || cost < least) {
				t.Errorf("seed %d, %d options: cost %v, bound %v; the least is %v", seed, options, cost, bound, least)
			}
			if found++; bound < cost {
				open++
			}
		}
	}
	if found == 0 || open == 0 || unsaid == 0 {
		t.Errorf("%d found, %d of them not proved, %d not found: too few of a kind", found, open, unsaid)
	}
}

// A search that ends without an answer says so, and does not say that there is none.
func TestUndecidedSaysSo(t *testing.T) {
	c := undecided(wants(out, out))
	if c.finding.Code != "pin-undecided" || c.finding.Severity != finding.Stop || !strings.Contains(c.finding.Text, "nor was it shown that there are none") {
		t.Errorf("%+v", c.finding)
	}
}
