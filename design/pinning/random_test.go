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
		p.Pins.KeepFree = append(p.Pins.KeepFree, some("keep"))
	}
	if n("joins", 3) == 0 {
		pin, _ := m.Pin(some("join"))
		p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"U1." + pin.Terminal}}}
	}
	return p, m, list
}

// Whatever is asked: pins keep every rule, and a refusal comes with a reason and a stop.
func TestAssignKeepsTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 4 {
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

// score is what an assignment gives up, most weighty first, written down anew from Assign's contract.
type score struct{ leftOut, serial, analogue, holes, numbers int }

func (s score) less(o score) bool {
	a, b := []int{s.leftOut, s.serial, s.analogue, s.holes, s.numbers}, []int{o.leftOut, o.serial, o.analogue, o.holes, o.numbers}
	return slices.Compare(a, b) < 0
}

func scoreOf(p *panel.Panel, list []signal.Signal, pins []Pin) score {
	s := score{leftOut: len(list) - len(pins)}
	for i, want := range list {
		for _, pin := range pins {
			if pin.Signal != want.ID {
				continue
			}
			if pin.Number < 2 {
				s.serial++
			}
			if pin.Number >= 26 && want.Wants != part.ADC {
				s.analogue++
			}
			h, _ := p.HoleOf(want.Terminals[0])
			s.holes += int(math.Abs(float64(h.Col-pin.Hole.Col)) + math.Abs(float64(h.Row-pin.Hole.Row)))
			s.numbers += (search.MaxSlots - i) * pin.Number
		}
	}
	return s
}

// tryAll finds the best score by trying everything and asking Check.
func tryAll(p *panel.Panel, m *controller.Module, list []signal.Signal) (best score, ok bool) {
	var pins []Pin
	var try func(i int)
	try = func(i int) {
		if i == len(list) {
			if s := scoreOf(p, list, pins); (!ok || s.less(best)) && len(Check(p, m, list, pins)) == 0 {
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
			if got := scoreOf(p, list, r.Pins); len(r.Conflict) > 0 || got != want || r.Cost != float64(want.holes) || !r.Proved {
				t.Fatalf("got %+v (cost %v, proved %v), best %+v; %v", got, r.Cost, r.Proved, want, r.Findings)
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
			conflict := task.conflict(task.mustHold())
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
		r := Assign(p, m, "U1", list)
		if len(r.Conflict) == 0 {
			if faults := Check(p, m, list, r.Pins); len(faults) > 0 {
				t.Fatalf("%v", faults)
			}
		} else if finding.Count(r.Findings, finding.Stop) == 0 || r.Findings[0].Text == "" {
			t.Fatalf("no reason: %+v", r)
		}
	})
}
