package pinning

import (
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
