package pinning

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// A model is an integer program for an assignment, in the LP format, built from the panel and the
// closed forms of the function table alone.
type model struct {
	panel     *panel.Panel
	module    *controller.Module
	signals   []signal.Signal
	objective []string
	rows      []string
	binaries  []string
	kept      []bool
	constant  int
}

// The weights of the levels, each more than those below can come to: 1,500 holes, a handful of pins.
const (
	weightSpare   = 1_500
	weightLeftOut = weightSpare * 6 * 6 * 6
	weightUnmet   = weightLeftOut * 12 // a signal that must have a pin and has none
)

// write gives the program for a panel: x signal pin, one for a signal on a pin; b run pin, for a run
// that begins there; z bus instance; d, c pin and h, for an I2C instance spared; u signal, for one without.
func (m *model) write() string {
	m.kept = make([]bool, len(m.module.Pins))
	for g, pin := range m.module.Pins {
		joined := slices.ContainsFunc(m.panel.Joins, func(j panel.Join) bool { return slices.Contains(j.Terminals, "U1."+pin.Terminal) })
		m.kept[g] = joined || slices.Contains(m.panel.Pins.KeepFree, pin.Name)
	}
	for s := range m.signals {
		m.signal(s)
	}
	m.runs()
	m.buses("I2C")
	m.buses("SPI")
	m.slices()
	m.spareBus()
	m.pins()
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n obj: %s\nSubject To\n", strings.ReplaceAll(strings.Join(m.objective, "\n + "), "+ -", "- "))
	for i, row := range m.rows {
		fmt.Fprintf(&b, " r%d: %s\n", i, row)
	}
	fmt.Fprintf(&b, "Binary\n %s\nEnd\n", strings.Join(m.binaries, "\n "))
	return b.String()
}

func (m *model) binary(name string, cost int) string {
	m.binaries = append(m.binaries, name)
	if cost != 0 {
		m.objective = append(m.objective, fmt.Sprintf("%d %s", cost, name))
	}
	return name
}

func (m *model) row(terms []string, end string) {
	if len(terms) == 0 {
		terms = []string{"0 none"}
	}
	m.rows = append(m.rows, strings.ReplaceAll(strings.Join(terms, " + "), "+ -", "- ")+" "+end)
}

func (m *model) able(s, g int) bool {
	_, ok := instanceFor(m.module.Pins[g].GPIO, m.signals[s].Wants)
	return ok && !m.kept[g]
}

func (m *model) x(s, g int) string { return fmt.Sprintf("x_%d_%d", s, m.module.Pins[g].GPIO) }

func (m *model) signal(s int) {
	want := m.signals[s]
	target, _ := m.panel.HoleOf(want.Terminals[0])
	lock, locked := m.panel.Pins.Locked[want.ID]
	var terms []string
	for g, pin := range m.module.Pins {
		if !m.able(s, g) || locked && lock != pin.Name {
			continue
		}
		hole, _ := m.panel.HoleOf(panel.TerminalRef{Ref: "U1", Terminal: pin.Terminal})
		cost := hole.Steps(target)
		for i, what := range m.panel.Pins.Prefer {
			weight := weightSpare * int(math.Pow(6, float64(len(m.panel.Pins.Prefer)-1-i)))
			if what == panel.SerialConsole && pin.GPIO < 2 || what == panel.AnaloguePins && pin.GPIO >= 26 && want.Wants != part.ADC {
				cost += weight
			}
		}
		terms = append(terms, m.binary(m.x(s, g), cost))
	}
	weight := weightUnmet
	if want.Optional && !locked {
		weight = weightLeftOut
	}
	m.row(append(terms, m.binary(fmt.Sprintf("u_%d", s), weight)), "= 1")
}

// runs ties the lines of a run together: as many lines on a pin as stretches that cover it.
func (m *model) runs() {
	for _, name := range []string{"rows", "columns"} {
		var lines []int
		for s, want := range m.signals {
			if want.Run == name {
				lines = append(lines, s)
			}
		}
		if len(lines) == 0 {
			continue
		}
		covers := map[int][]string{}
		var starts []string
		for g := range m.module.Pins {
			last := g + len(lines) - 1
			if last >= len(m.module.Pins) || m.module.Pins[last].GPIO-m.module.Pins[g].GPIO != len(lines)-1 {
				continue
			}
			start := m.binary(fmt.Sprintf("b_%s_%d", name, g), 0)
			starts = append(starts, start)
			for i := g; i <= last; i++ {
				covers[i] = append(covers[i], "-1 "+start)
			}
		}
		m.row(starts, "<= 1")
		for g := range m.module.Pins {
			var terms []string
			for _, s := range lines {
				if lock, locked := m.panel.Pins.Locked[m.signals[s].ID]; m.able(s, g) && (!locked || lock == m.module.Pins[g].Name) {
					terms = append(terms, m.x(s, g))
				}
			}
			if terms = append(terms, covers[g]...); len(terms) > 0 {
				m.row(terms, "<= 0")
			}
		}
	}
}

// buses puts each bus of a kind on an instance of its own.
func (m *model) buses(kind string) {
	users := [2][]string{}
	for _, name := range m.busNames(kind) {
		var instances []string
		for i := range 2 {
			z := m.binary(fmt.Sprintf("z_%s_%d", strings.ReplaceAll(name, " ", ""), i), 0)
			instances, users[i] = append(instances, z), append(users[i], z)
			for s, want := range m.signals {
				for g, pin := range m.module.Pins {
					lock, locked := m.panel.Pins.Locked[want.ID]
					if n, _ := instanceFor(pin.GPIO, want.Wants); want.Bus == name && m.able(s, g) && n == i && (!locked || lock == pin.Name) {
						m.row([]string{m.x(s, g), "-1 " + z}, "<= 0")
					}
				}
			}
		}
		m.row(instances, "<= 1")
	}
	for i := range 2 {
		if kind == "I2C" && slices.Contains(m.panel.Pins.Prefer, panel.I2CBus) {
			users[i] = append(users[i], m.binary(fmt.Sprintf("w_%d", i), 0))
		}
		if len(users[i]) > 1 {
			m.row(users[i], "<= 1")
		}
	}
}

func (m *model) busNames(kind string) (names []string) {
	for _, want := range m.signals {
		if strings.HasPrefix(want.Bus, kind) && !slices.Contains(names, want.Bus) {
			names = append(names, want.Bus)
		}
	}
	return names
}

// slices lets one signal at most have each PWM slice.
func (m *model) slices() {
	for slice := range 8 {
		var terms []string
		for s, want := range m.signals {
			for g, pin := range m.module.Pins {
				if n, _ := instanceFor(pin.GPIO, part.PWM); want.Wants == part.PWM && n == slice && m.has(s, g) {
					terms = append(terms, m.x(s, g))
				}
			}
		}
		if len(terms) > 1 {
			m.row(terms, "<= 1")
		}
	}
}

// has reports whether x of a signal and a pin is in the program.
func (m *model) has(s, g int) bool { return slices.Contains(m.binaries, m.x(s, g)) }

// spareBus gives the two lines of an I2C instance pins of their own, or pays for not doing so.
func (m *model) spareBus() {
	i := slices.Index(m.panel.Pins.Prefer, panel.I2CBus)
	if i < 0 {
		return
	}
	weight := weightSpare * int(math.Pow(6, float64(len(m.panel.Pins.Prefer)-1-i)))
	h := m.binary("h", -weight)
	m.constant += weight
	m.row([]string{"w_0", "w_1", "-1 " + h}, "= 0")
	for line, wants := range map[string]part.Signal{"d": part.I2CSDA, "c": part.I2CSCL} {
		terms := []string{"-1 " + h}
		for g, pin := range m.module.Pins {
			if n, ok := instanceFor(pin.GPIO, wants); ok && !m.kept[g] {
				v := m.binary(fmt.Sprintf("%s_%d", line, pin.GPIO), 0)
				terms = append(terms, v)
				m.row([]string{v, fmt.Sprintf("-1 w_%d", n)}, "<= 0")
			}
		}
		m.row(terms, "= 0")
	}
}

func (m *model) pins() {
	for g, pin := range m.module.Pins {
		var terms []string
		for s := range m.signals {
			if m.has(s, g) {
				terms = append(terms, m.x(s, g))
			}
		}
		for _, line := range []string{"d", "c"} {
			if v := fmt.Sprintf("%s_%d", line, pin.GPIO); slices.Contains(m.binaries, v) {
				terms = append(terms, v)
			}
		}
		if len(terms) > 1 {
			m.row(terms, "<= 1")
		}
		for s, want := range m.signals {
			if m.panel.Pins.Locked[want.ID] == pin.Name {
				m.row(slices.DeleteFunc(slices.Clone(terms), func(v string) bool { return v == m.x(s, g) }), "= 0")
			}
		}
	}
}

// weighed is what an assignment costs in the program.
func weighed(p *panel.Panel, m *controller.Module, list []signal.Signal, pins []Pin) int {
	score := scoreOf(p, m, list, pins)
	total := score[0]*weightLeftOut + score[len(score)-3]
	for i := range p.Pins.Prefer {
		total += score[1+i] * weightSpare * int(math.Pow(6, float64(len(p.Pins.Prefer)-1-i)))
	}
	return total
}

// Small panels get the pins that integer programs say are best, and are refused when those leave a
// signal without.
func TestAssignEqualsIntegerProgram(t *testing.T) {
	refused := 0
	for seed := range uint64(300) {
		p, m, list := smallPanel(seed)
		program := model{panel: p, module: m, signals: list}
		text := program.write()
		best := byCBC(t, text) + program.constant
		if seed%8 == 0 {
			if other := byGLPK(t, text) + program.constant; other != best {
				t.Fatalf("seed %d: the solvers disagree: %d and %d", seed, best, other)
			}
		}
		r := Assign(p, m, "U1", list)
		if best >= weightUnmet {
			refused++
			if len(r.Conflict) == 0 {
				t.Errorf("seed %d: pins where none can be", seed)
			}
			continue
		}
		if got := weighed(p, m, list, r.Pins); len(r.Conflict) > 0 || got != best || !r.Proved {
			t.Errorf("seed %d: %d (proved %v), the program says %d; %v", seed, got, r.Proved, best, r.Conflict)
		}
		if faults := Check(p, m, list, r.Pins); faults != nil {
			t.Errorf("seed %d: %v", seed, faults)
		}
	}
	if refused < 60 || refused > 180 {
		t.Errorf("%d of 300 panels are impossible", refused)
	}
}
