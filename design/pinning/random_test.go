package pinning

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/search"
	"fascia/design/signal"
)

// drawTask draws signals for a module that brings out the given GPIOs, and wishes about pins.
func drawTask(t *rapid.T, gpios []int, most int) (*panel.Panel, *controller.Module, []signal.Signal) {
	n := func(name string, most int) int { return rapid.IntRange(0, most).Draw(t, name) }
	list := crowd(n("rows", 4), n("columns", 4), n("SPI", 2), n("I2C", 2), n("ADC", 3), n("PWM", 3), n("plain", 10))
	for len(list) > most {
		i := rapid.IntRange(0, len(list)-1).Draw(t, "drop")
		list = slices.Delete(list, i, i+1)
	}
	for i := range list {
		list[i].ID, list[i].Net = "", ""
		list[i].Optional = list[i].Run == "" && rapid.IntRange(0, 5).Draw(t, "optional") == 0
	}
	list = wants(list...)
	holes := make([]grid.Hole, len(list))
	for i := range holes {
		holes[i] = grid.Hole{Col: rapid.IntRange(0, 40).Draw(t, "col"), Row: rapid.IntRange(0, 30).Draw(t, "row")}
	}
	p, m := bench(holes...)
	m.Pins = slices.DeleteFunc(m.Pins, func(pin controller.Pin) bool { return gpios != nil && !slices.Contains(gpios, pin.GPIO) })
	some := func(name string) string {
		return m.Pins[rapid.IntRange(0, len(m.Pins)-1).Draw(t, name)].Name
	}
	for range n("locks", 2) {
		if len(list) > 0 {
			p.Pins.Locked[list[rapid.IntRange(0, len(list)-1).Draw(t, "locked")].ID] = some("lock")
		}
	}
	for range n("kept", 2) {
		if gpio := some("keep"); !slices.Contains(p.Pins.KeepFree, gpio) {
			p.Pins.KeepFree = append(p.Pins.KeepFree, gpio)
		}
	}
	p.Pins.Prefer = rapid.Permutation(panel.Spared).Draw(t, "prefer")[:n("spared", len(panel.Spared))]
	if n("joins", 3) == 0 {
		pin, _ := m.Pin(some("join"))
		p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"U1." + pin.Terminal}}}
	}
	return p, m, list
}

// Whatever is asked: pins keep every rule, and a refusal comes with a reason and a stop.
func TestAssignKeepsTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 2 {
			p, m, list := drawTask(t, nil, 27)
			r := Assign(p, m, "U1", list)
			if len(r.Conflict) == 0 {
				if r.Bound > r.Cost || r.Proved != (r.Cost == r.Bound) {
					t.Fatalf("cost %v, bound %v, proved %v", r.Cost, r.Bound, r.Proved)
				}
				if faults := Check(p, m, list, r.Pins); len(faults) > 0 {
					t.Fatalf("%v", faults)
				}
				if finding.Count(r.Findings, finding.Stop) > 0 {
					t.Fatalf("pins and a stop: %v", r.Findings)
				}
				continue
			}
			if len(r.Pins) > 0 || finding.Count(r.Findings, finding.Stop) == 0 {
				t.Fatalf("a conflict, %d pins and %v", len(r.Pins), r.Findings)
			}
		}
	})
}

// scoreOf is what an assignment gives up, most weighty first, written down anew from Assign's contract:
// optional signals, what was to be spared, holes, crossings, numbers.
func scoreOf(p *panel.Panel, m *controller.Module, list []signal.Signal, pins []Pin) []int {
	serial, analogue, holes, numbers, crossings := 0, 0, 0, 0, 0
	var lines [][2]grid.Hole
	for i, want := range list {
		for _, pin := range pins {
			if pin.Signal != want.ID {
				continue
			}
			if pin.Number < 2 {
				serial++
			}
			if pin.Number >= 26 && want.Wants != part.ADC {
				analogue++
			}
			h, _ := p.HoleOf(want.Terminals[0])
			holes += int(math.Abs(float64(h.Col-pin.Hole.Col)) + math.Abs(float64(h.Row-pin.Hole.Row)))
			numbers += (search.MaxSlots - i) * pin.Number
			for _, l := range lines {
				if meets(l[0], l[1], h, pin.Hole) {
					crossings++
				}
			}
			lines = append(lines, [2]grid.Hole{h, pin.Hole})
		}
	}
	score := []int{len(list) - len(pins)}
	for _, what := range p.Pins.Prefer {
		spoilt := map[string]int{panel.SerialConsole: serial, panel.AnaloguePins: analogue, panel.I2CBus: busSpoilt(p, m, list, pins)}
		score = append(score, spoilt[what])
	}
	return append(score, holes, crossings, numbers)
}

// busSpoilt is 0 when an I2C instance is left with a free pin for each line, else 1. RP2040 data sheet,
// GPIO functions: GP0, 1, 4, 5, 8, 9 ... are I2C0, the others I2C1; even ones SDA, odd ones SCL.
func busSpoilt(p *panel.Panel, m *controller.Module, list []signal.Signal, pins []Pin) int {
	free := [2][2]bool{}
	for _, out := range m.Pins {
		used := slices.ContainsFunc(pins, func(pin Pin) bool { return pin.GPIO == out.Name }) || slices.Contains(p.Pins.KeepFree, out.Name) ||
			slices.ContainsFunc(p.Joins, func(j panel.Join) bool { return slices.Contains(j.Terminals, "U1."+out.Terminal) })
		free[out.GPIO/2%2][out.GPIO%2] = free[out.GPIO/2%2][out.GPIO%2] || !used
	}
	for _, pin := range pins {
		if s, _ := named(list, pin.Signal); s.Wants == part.I2CSDA || s.Wants == part.I2CSCL {
			free[pin.Number/2%2] = [2]bool{}
		}
	}
	if free[0][0] && free[0][1] || free[1][0] && free[1][1] {
		return 0
	}
	return 1
}

// meets solves a + t(b-a) = c + u(d-c) for t and u, both from 0 to 1; lines on one straight line meet
// where their shadows on both axes do.
func meets(a, b, c, d grid.Hole) bool {
	rx, ry, sx, sy := b.Col-a.Col, b.Row-a.Row, d.Col-c.Col, d.Row-c.Row
	qx, qy := c.Col-a.Col, c.Row-a.Row
	within := func(n, of int) bool { return of > 0 && 0 <= n && n <= of || of < 0 && of <= n && n <= 0 }
	if det := rx*sy - ry*sx; det != 0 {
		return within(qx*sy-qy*sx, det) && within(qx*ry-qy*rx, det)
	}
	if qx*ry-qy*rx != 0 || qx*sy-qy*sx != 0 {
		return false
	}
	shadows := func(a, b, c, d int) bool { return max(min(a, b), min(c, d)) <= min(max(a, b), max(c, d)) }
	return shadows(a.Col, b.Col, c.Col, d.Col) && shadows(a.Row, b.Row, c.Row, d.Row)
}

// tryAll finds the best score by trying everything and asking Check.
func tryAll(p *panel.Panel, m *controller.Module, list []signal.Signal) (best []int, ok bool) {
	var pins []Pin
	var try func(i int)
	try = func(i int) {
		if i == len(list) {
			if s := scoreOf(p, m, list, pins); (!ok || slices.Compare(s, best) < 0) && len(Check(p, m, list, pins)) == 0 {
				best, ok = s, true
			}
			return
		}
		want := list[i]
		for _, out := range m.Pins {
			f, can := m.Can(out.Name, want.Wants)
			if !can || slices.ContainsFunc(pins, func(p Pin) bool { return p.Number == out.GPIO }) {
				continue
			}
			if want.Run != "" {
				f.Name = "PIO " + want.Direction
			}
			hole, _ := p.HoleOf(panel.TerminalRef{Ref: "U1", Terminal: out.Terminal})
			pins = append(pins, Pin{Signal: want.ID, GPIO: out.Name, Number: out.GPIO, ModulePin: out.Number,
				Terminal: out.Terminal, Function: f.Name, Pull: "none", Hole: hole})
			try(i + 1)
			pins = pins[:len(pins)-1]
		}
		if want.Optional {
			try(i + 1)
		}
	}
	try(0)
	return best, ok
}

// On small modules the answer is the best there is, and a refusal is right.
func TestAssignEqualsTryingAll(t *testing.T) {
	modules := [][]int{{0, 1, 2, 3, 4, 5}, {0, 1, 4, 5, 26, 27}, {2, 3, 18, 19, 26}, {6, 8, 22, 26, 27, 28}}
	refused := 0
	rapid.Check(t, func(t *rapid.T) {
		for range 2 {
			p, m, list := drawTask(t, rapid.SampledFrom(modules).Draw(t, "module"), 5)
			r := Assign(p, m, "U1", list)
			want, ok := tryAll(p, m, list)
			if !ok {
				refused++
				if len(r.Conflict) == 0 {
					t.Fatalf("pins where none can be: %v", r.Pins)
				}
				continue
			}
			got := scoreOf(p, m, list, r.Pins)
			if len(r.Conflict) > 0 || !slices.Equal(got, want) || r.Cost != float64(want[len(want)-3]) || r.Crossings != want[len(want)-2] || !r.Proved || !r.Untangled {
				t.Fatalf("%v: got %v (%+v), best %v", p.Pins.Prefer, got, r, want)
			}
		}
	})
	if refused == 0 {
		t.Error("no instance was impossible, so refusals went unchecked")
	}
}

// A conflict clashes, and does not without any one of its wishes.
func TestConflictIsSmallest(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		for range 4 {
			p, m, list := drawTask(t, []int{0, 1, 2, 3, 4, 5, 8, 9, 10, 16, 17, 26, 27}, 14)
			task := newTask(p, m, "U1", list)
			if len(task.plainClashes()) > 0 || search.Feasible(&task.problem(task.allWishes()).Problem, budget) != search.Impossible {
				continue
			}
			seen++
			tried := 0
			conflict := task.conflict(task.mustHold(), &tried)
			verdict := func(wishes []wish) search.Verdict {
				return search.Feasible(&task.problem(wishes).Problem, budget)
			}
			if v := verdict(conflict); v != search.Impossible {
				t.Fatalf("%v: %v", v, task.sentences(conflict))
			}
			for i := range conflict {
				if v := verdict(slices.Delete(slices.Clone(conflict), i, i+1)); v != search.Found {
					t.Fatalf("%v without %q: %v", v, task.sentence(conflict[i]), task.sentences(conflict))
				}
			}
		}
	})
	if seen == 0 {
		t.Error("no instance was impossible")
	}
}

// The same panel gives the same bytes.
func TestAssignIsTheSameEachTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, m, list := drawTask(t, nil, 26)
		a, b := Assign(p, m, "U1", list), Assign(p, m, "U1", list)
		if fmt.Sprintf("%+v", a) != fmt.Sprintf("%+v", b) {
			t.Fatalf("%+v\n%+v", a, b)
		}
	})
}

// Odd wishes, odd modules and names of nothing get an answer that keeps the rules, or a reason.
func TestAssignTakesAnything(t *testing.T) {
	odd := []part.Signal{"", "telepathy", part.PWM, part.ADC, part.DigitalIn, part.DigitalOut, part.I2CSDA, part.SPIRX}
	rapid.Check(t, func(t *rapid.T) {
		list := make([]signal.Signal, rapid.IntRange(0, 90).Draw(t, "signals"))
		for i := range list {
			list[i] = signal.Signal{ID: fmt.Sprint(i), Net: fmt.Sprint(i), Wants: rapid.SampledFrom(odd).Draw(t, "wants"), Direction: "in",
				Optional: rapid.IntRange(0, 9).Draw(t, "optional") > 0, Run: rapid.SampledFrom([]string{"", "", "", "", "", "a", "b"}).Draw(t, "run")}
			if rapid.IntRange(0, 9).Draw(t, "on a bus") == 0 {
				list[i].Bus = fmt.Sprint(i)
			}
			if rapid.Bool().Draw(t, "serves") {
				list[i].Terminals = []panel.TerminalRef{{Ref: rapid.SampledFrom([]string{"P1", "P9", "U1"}).Draw(t, "ref"), Terminal: "X"}}
			}
		}
		p, m := bench(grid.Hole{Col: -50, Row: 4000})
		m.Pins = m.Pins[:rapid.IntRange(0, len(m.Pins)).Draw(t, "pins")]
		p.Pins.Locked = rapid.MapOfN(rapid.SampledFrom([]string{"0", "1", "P1.X", "row 0", ""}), rapid.SampledFrom([]string{"GP4", "GP5", "GP99", ""}), 0, 3).Draw(t, "locks")
		p.Pins.Prefer = rapid.SliceOfN(rapid.SampledFrom(append([]string{"", "peace"}, panel.Spared...)), 0, 4).Draw(t, "prefer")
		r := Assign(p, m, "U1", list)
		WhatIf(p, m, "U1", list, &r)
		for _, c := range r.Concessions {
			if _, err := panel.DecodeEdit(c.Edit); len(c.Edit) > 0 && err != nil {
				t.Fatal(err)
			}
		}
		if len(r.Conflict) == 0 {
			if faults := Check(p, m, list, r.Pins); len(faults) > 0 {
				t.Fatalf("%v", faults)
			}
		} else if finding.Count(r.Findings, finding.Stop) == 0 || r.Findings[0].Text == "" {
			t.Fatalf("no reason: %+v", r)
		}
	})
}
