package reading

import (
	"slices"

	"fascia/design/circuit"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/scan"
)

// Ends of a contact that are no pin.
const (
	ground = -1
	supply = -2
	nobody = -1 // in place of a select line
)

// A hookup is the wires between pins, keys and lamps. It never changes once it is made.
type hookup struct {
	figures   Figures
	active    circuit.Level // of the select lines and of pressed matrix keys
	pins      []pin
	pinOf     map[string]int // by net
	contacts  []contact
	contactOf map[string]int // by key
	lamps     []lamp
	rows      []int // pins that are read while a line is selected
	selects   []int // pins that are selected in turn
	direct    []int // pins of keys that have one of their own
	keys      []key
	leak      *circuit.Law // of every input, nil when they do not leak
}

// A pin is one end of a net at the controller or at an expander.
type pin struct {
	net     string
	figures *Figures
	rest    Drive      // what it does while it is not selected
	outside [2]float64 // least and most ohms of a resistor to the level of rest; 0 without one
	up      bool       // that resistor goes to the supply
}

// A contact joins two ends. A diode in it lets current pass from the first to the second.
type contact struct {
	from, to int // pins, ground or supply
	ohms     [2]float64
	diode    circuit.Diode // of no saturation current when there is none
}

// A lamp is an LED with its resistor, from one end to the other.
type lamp struct {
	ref      string
	from, to int
	model    circuit.Diode
}

// A key is where a key is read.
type key struct {
	id     string
	row    int           // the pin
	line   int           // place in selects, or nobody
	active circuit.Level // when pressed
}

func (k key) state(l circuit.Level) State {
	switch l {
	case circuit.Undefined:
		return Undefined
	case k.active:
		return Pressed
	}
	return Released
}

// A hooker puts a hookup together.
type hooker struct {
	*hookup
	values
	scan *scan.Result
}

func hook(p *panel.Panel, s *scan.Result, n *netlist.Result, f Figures) *hookup {
	h := hooker{&hookup{figures: f, active: circuit.Low, pinOf: map[string]int{}, contactOf: map[string]int{}},
		valuesOf(p, n), s}
	if s.Active == "high" {
		h.active = circuit.High
	}
	if f.Leaky {
		h.leak = padLeak(f)
	}
	if len(s.Cells) > 0 {
		h.addLines()
	}
	h.addCells()
	h.addDirect()
	h.addLamps()
	return h.hookup
}

// addPin adds a pin of the controller and returns it, as it was when its net is known already.
func (h *hooker) addPin(net string, rest Drive) int {
	if i, ok := h.pinOf[net]; ok {
		return i
	}
	h.pinOf[net] = len(h.pins)
	h.pins = append(h.pins, pin{net: net, figures: &h.figures, rest: rest})
	return len(h.pins) - 1
}

// pulled is what a line does that rests at the opposite of active, and its resistor if that is not
// the chip's own.
func (h *hooker) pulled(i int, active circuit.Level) {
	at := &h.pins[i]
	at.up = active == circuit.Low
	switch {
	case h.scan.Pulls == "external":
		at.outside = h.pullOhms(at.net)
	case at.up:
		at.rest = PullUp
	default:
		at.rest = PullDown
	}
}

// addLines adds the rows and the columns, or the lines that are both. A line that only selects is
// never read, so a program can leave its input off, and should where inputs leak: a column that is let
// go would feed 120 uA into every row that a held key joins it with.
func (h *hooker) addLines() {
	for i := range max(0, h.scan.Rows) {
		row := h.addPin(h.scan.RowNet(i), HiZ)
		h.pulled(row, h.active)
		h.rows = append(h.rows, row)
	}
	idle := Deaf
	if h.figures.SelectsHear {
		idle = HiZ
	}
	for j := range max(0, h.scan.Columns) {
		h.selects = append(h.selects, h.addPin(h.scan.ColumnNet(j), idle))
	}
}

// addCells adds the keys of the matrix. Current passes from row to column when the column is selected
// low, and from column to row when it is selected high.
func (h *hooker) addCells() {
	for _, c := range h.scan.Cells {
		if c.Row < 0 || c.Row >= len(h.rows) || c.Column < 0 || c.Column >= len(h.selects) {
			continue
		}
		at := contact{from: h.rows[c.Row], to: h.selects[c.Column], ohms: h.contactOhms(c.Key)}
		if h.active == circuit.High {
			at.from, at.to = at.to, at.from
		}
		if c.Diode {
			at.diode = h.keyDiode(c.Key)
		}
		h.contactOf[c.Key] = len(h.contacts)
		h.contacts = append(h.contacts, at)
		h.keys = append(h.keys, key{c.Key, h.rows[c.Row], c.Column, h.active})
	}
}

// addDirect adds the keys that have a line of their own, on the controller or on an expander. Where
// the part fixes the level of a press that level counts.
func (h *hooker) addDirect() {
	for _, d := range h.scan.Direct {
		active := h.pressLevel(d, h.active)
		i := h.addPin("key "+d.Key, HiZ)
		if d.Via != "" {
			f := expanderFigures()
			h.pins[i].figures, h.pins[i].rest, h.pins[i].up = &f, PullUp, true
		} else {
			h.pulled(i, active)
		}
		to := ground
		if active == circuit.High {
			to = supply
		}
		h.direct = append(h.direct, i)
		h.contactOf[d.Key] = len(h.contacts)
		h.contacts = append(h.contacts, contact{from: i, to: to, ohms: h.contactOhms(d.Key)})
		h.keys = append(h.keys, key{d.Key, i, nobody, active})
	}
}

// addLamps hangs the LEDs of select lines from the supply, or stands them on ground when the lines
// are selected high.
func (h *hooker) addLamps() {
	for _, l := range h.scan.Lamps {
		model, wired := h.lampModel(l.LED)
		if !wired || l.Line < 0 || l.Line >= len(h.selects) {
			continue
		}
		at := lamp{l.LED, supply, h.selects[l.Line], model}
		if h.active == circuit.High {
			at.from, at.to = h.selects[l.Line], ground
		}
		h.lamps = append(h.lamps, at)
	}
}

// keysOf lists the contacts of keys on a select line, by place in selects.
func (h *hookup) keysOf(line int) []int {
	var list []int
	for _, k := range h.keys {
		if i := h.contactOf[k.id]; k.line == line && !slices.Contains(list, i) {
			list = append(list, i)
		}
	}
	return list
}
