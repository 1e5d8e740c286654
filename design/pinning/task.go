package pinning

import (
	"fmt"
	"maps"
	"slices"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/search"
	"fascia/design/signal"
)

// A task is the question put to Assign, with everything looked up once. Signals and pins go by
// their index.
type task struct {
	panel   *panel.Panel
	module  *controller.Module
	chip    controller.Chip
	ref     string
	signals []signal.Signal
	pins    []controller.Pin // every pin that the module brings out, in GPIO order
	hole    []grid.Hole      // of each pin
	joined  []bool           // pins that a join of the maker's uses
	kept    []bool           // pins to be kept free
	digital []bool           // pins without an analogue input
	line    [][]line         // by signal, then pin
	can     [][]ability      // by signal, then pin
	spares  []spare          // what is to be spared, the most important first
	weight  levels
	cost    [][]int // by signal, then pin

	runs  [][]int // signals that take consecutive GPIOs, in order
	buses [][]int // signals of one bus; a signal in a run is of none
	locks []lock  // in order of the names they are written under
	lock  []int   // pin that a signal is locked to, -1 for none; the first of several

	findings []finding.Finding
}

// An ability is how a pin can carry a signal, if it can.
type ability struct {
	controller.Function
	ok bool
}

// A lock ties a signal to a pin.
type lock struct {
	name        string // as the maker wrote it
	signal, pin int
}

func newTask(p *panel.Panel, m *controller.Module, ref string, signals []signal.Signal) *task {
	t := &task{panel: p, module: m, chip: m.Chip, ref: ref, signals: signals, pins: m.Pins[:min(len(m.Pins), search.MaxSlots)]}
	joined := signal.JoinedGPIOs(p, ref)
	for _, pin := range t.pins {
		hole, _ := p.HoleOf(panel.TerminalRef{Ref: ref, Terminal: pin.Terminal})
		t.hole = append(t.hole, hole)
		t.joined = append(t.joined, slices.Contains(joined, pin.Name))
		t.kept = append(t.kept, slices.Contains(p.Pins.KeepFree, pin.Name))
		_, analogue := t.chip.Can(pin.GPIO, part.ADC)
		t.digital = append(t.digital, !analogue)
	}
	t.can = t.abilities()
	t.runs = gather(signals, func(s signal.Signal) string { return s.Run })
	t.buses = gather(signals, func(s signal.Signal) string {
		if s.Run != "" || !onBus(s.Wants) {
			return ""
		}
		return s.Bus
	})
	t.line = t.lines()
	t.readLocks()
	t.readKept()
	t.readSpares()
	t.weight = t.weigh()
	t.cost = t.prices()
	return t
}

// abilities looks every signal up on every pin.
func (t *task) abilities() [][]ability {
	byWant := map[part.Signal][]ability{}
	table := make([][]ability, len(t.signals))
	for s, want := range t.signals {
		row, known := byWant[want.Wants]
		if !known {
			row = make([]ability, len(t.pins))
			for i, pin := range t.pins {
				row[i].Function, row[i].ok = t.chip.Can(pin.GPIO, want.Wants)
			}
			byWant[want.Wants] = row
		}
		table[s] = row
	}
	return table
}

// onBus reports whether a signal is a line of a peripheral that has instances to choose from.
func onBus(s part.Signal) bool {
	return slices.Contains([]part.Signal{part.I2CSDA, part.I2CSCL, part.SPISCK, part.SPITX, part.SPIRX}, s)
}

// gather collects the signals that carry the same name, in order of first appearance.
func gather(signals []signal.Signal, name func(signal.Signal) string) [][]int {
	var sets [][]int
	index := map[string]int{}
	for i, s := range signals {
		n := name(s)
		if n == "" {
			continue
		}
		if _, ok := index[n]; !ok {
			index[n] = len(sets)
			sets = append(sets, nil)
		}
		sets[index[n]] = append(sets[index[n]], i)
	}
	return sets
}

// readLocks turns the maker's locks into indices. A lock that names nothing is a finding, and is
// left out.
func (t *task) readLocks() {
	byName := map[string]int{}
	for i := len(t.signals) - 1; i >= 0; i-- {
		for _, served := range t.signals[i].Terminals {
			byName[served.String()] = i
		}
	}
	for i := len(t.signals) - 1; i >= 0; i-- {
		byName[t.signals[i].ID] = i
	}
	t.lock = slices.Repeat([]int{-1}, len(t.signals))
	for _, name := range slices.SortedFunc(maps.Keys(t.panel.Pins.Locked), panel.CompareRefs) {
		gpio := t.panel.Pins.Locked[name]
		s, known := byName[name]
		pin := t.pinNamed(gpio)
		switch {
		case !known:
			t.findings = append(t.findings, t.lockOfNothing(name, gpio))
		case pin < 0:
			t.findings = append(t.findings, t.lockToNothing(s, name, gpio))
		default:
			t.locks = append(t.locks, lock{name, s, pin})
			if t.lock[s] < 0 {
				t.lock[s] = pin
			}
		}
	}
}

func (t *task) pinNamed(gpio string) int {
	return slices.IndexFunc(t.pins, func(p controller.Pin) bool { return p.Name == gpio })
}

func (t *task) lockOfNothing(name, gpio string) finding.Finding {
	text := fmt.Sprintf("%s is locked to %s, but nothing called %s wants a pin.", name, gpio, name)
	where := finding.Where{Pin: gpio}
	if i := slices.IndexFunc(t.panel.Keys(), func(k panel.KeyRef) bool { return k.ID == name }); i >= 0 {
		text = fmt.Sprintf("%s is locked to %s, but that key is read through a row and a column.", name, gpio)
		where.Keys = []string{name}
	}
	return finding.Finding{Severity: finding.Mind, Code: "pin-lock-unknown", Where: where, Text: text,
		Fix: fmt.Sprintf("Take the lock of %s away.", name)}
}

func (t *task) lockToNothing(s int, name, gpio string) finding.Finding {
	text := fmt.Sprintf("%s is locked to %s, which %s does not bring out.", name, gpio, t.ref)
	if n, ok := controller.ParseGPIO(gpio); !ok || n >= t.chip.GPIOs {
		text = fmt.Sprintf("%s is locked to %s, but the %s has no such GPIO.", name, gpio, t.chip.Name)
	}
	return finding.Finding{Severity: finding.Mind, Code: "pin-lock-unknown", Where: t.where(s), Text: text,
		Fix: fmt.Sprintf("Lock it to %s, or take the lock away.", t.ableNames(s))}
}

// readKept reports names that can be kept free of nothing.
func (t *task) readKept() {
	for _, name := range t.panel.Pins.KeepFree {
		if n, ok := controller.ParseGPIO(name); !ok || n >= t.chip.GPIOs {
			t.findings = append(t.findings, finding.Finding{Severity: finding.Mind, Code: "pin-keep-unknown",
				Where: finding.Where{Pin: name},
				Text:  fmt.Sprintf("%s is to be kept free, but the %s has no such GPIO.", name, t.chip.Name),
				Fix:   "Name a GPIO such as GP0, or take the wish away."})
		}
	}
}

// where points at what a signal serves.
func (t *task) where(s int) finding.Where {
	w := finding.Where{Net: t.signals[s].Net}
	if want := t.signals[s]; want.Net == "key "+want.ID {
		w.Keys = []string{want.ID}
	}
	for _, served := range t.signals[s].Terminals {
		if !slices.Contains(w.Refs, served.Ref) {
			w.Refs = append(w.Refs, served.Ref)
		}
	}
	if pin := t.lock[s]; pin >= 0 {
		w.Pin = t.pins[pin].Name
	}
	return w
}

// able reports whether pin can carry what signal s wants.
func (t *task) able(s, pin int) bool { return t.can[s][pin].ok }

// required reports whether signal s must have a pin. A lock is a wish for one, and a run has no gaps.
func (t *task) required(s int) bool {
	want := t.signals[s]
	return !want.Optional || want.Run != "" || t.lock[s] >= 0
}

func (t *task) serial(pin int) bool { return t.pins[pin].GPIO <= 1 }

func (t *task) analogue(pin int) bool { return !t.digital[pin] }
