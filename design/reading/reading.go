// Package reading works out what the controller reads when keys are held: not by logic but from the
// voltages of the circuit that keys, diodes, pulls, pin drivers and the LEDs of select lines make,
// against the limits of the chip's inputs. Volts and ohms, milliamperes where the name says so. A
// voltage between the limits, or one that would change with the part in hand, is undefined and never
// guessed. It knows nets and keys, and nothing of holes, wires or programs.
package reading

import (
	"slices"

	"fascia/design/circuit"
	"fascia/design/controller"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/scan"
)

// A State is what a key reads as.
type State string

// The states of a key.
const (
	Pressed   State = "pressed"
	Released  State = "not pressed"
	Undefined State = "undefined"
)

// A Reading is what the controller sees of the keys while some are held.
type Reading struct {
	Lines  []Line  `json:"lines"`  // select lines in order, each while it is selected
	Direct []Input `json:"direct"` // lines of keys that have one of their own
	Keys   []Key   `json:"keys"`   // matrix keys in the order of the scan, then the others
}

// A Line is one select line while it is selected.
type Line struct {
	Input
	Rows []Input `json:"rows"` // the lines read meanwhile
}

// An Input is one line that is read. Volts are the least and the most over all ends of the figures.
type Input struct {
	Net   string        `json:"net"`
	Volts [2]float64    `json:"volts"`
	Level circuit.Level `json:"level"`
}

// A Key is one key as it reads, with the voltage of its line at that moment.
type Key struct {
	Key   string     `json:"key"`
	State State      `json:"state"`
	Volts [2]float64 `json:"volts"`
}

// A Reader reads the keys of one panel. It is not for use by two goroutines at once.
type Reader struct {
	hookup   *hookup
	networks [2]*Network // at the corners that every reading must agree at
	held     []bool      // by contact
}

// New wires the keys up as the scan and the netlist say. Without a netlist every diode that the scan
// asks for and every resistor that it needs is taken to be there; without a chip the figures are
// those of the RP2040. What the scan names and the panel lacks is taken at its usual values.
func New(p *panel.Panel, s *scan.Result, n *netlist.Result, chip *controller.Chip) *Reader {
	return NewWith(p, s, n, FiguresOf(chip, stepping(p, chip)))
}

// NewWith is New with figures of one's own.
func NewWith(p *panel.Panel, s *scan.Result, n *netlist.Result, f Figures) *Reader {
	h := hook(p, s, n, f)
	return &Reader{hookup: h, held: make([]bool, len(h.contacts)),
		networks: [2]*Network{newNetwork(h, Strong), newNetwork(h, Weak)}}
}

// stepping is that of the first module with the chip, as its maker wrote it down.
func stepping(p *panel.Panel, chip *controller.Chip) string {
	for _, m := range p.Modules() {
		if d := p.Definition(m); chip != nil && d.Facts.Chip == chip.Name {
			return m.Value
		}
	}
	return ""
}

// Network returns the wires of the panel at one corner of the figures, with all pins high-impedance
// and no key held, to be driven pin by pin.
func (r *Reader) Network(c Corner) *Network { return newNetwork(r.hookup, c) }

// Read tells what the controller sees while the given keys are held: each select line in turn, the
// others let go. Unknown names are ignored.
func (r *Reader) Read(pressed []string) Reading {
	r.hold(pressed)
	h := r.hookup
	reading := Reading{Lines: []Line{}, Direct: []Input{}, Keys: make([]Key, 0, len(h.keys))}
	var spans [][]span
	for _, line := range h.selects {
		of := r.survey(line)
		spans = append(spans, of)
		l := Line{Input: h.input(line, of[line]), Rows: make([]Input, 0, len(h.rows))}
		for _, row := range h.rows {
			if row != line {
				l.Rows = append(l.Rows, h.input(row, of[row]))
			}
		}
		reading.Lines = append(reading.Lines, l)
	}
	var rest []span
	if len(h.direct) > 0 {
		rest = r.survey(nobody)
	}
	for _, line := range h.direct {
		reading.Direct = append(reading.Direct, h.input(line, rest[line]))
	}
	for _, k := range h.keys {
		of := rest
		if k.line >= 0 {
			of = spans[k.line]
		}
		in := h.input(k.row, of[k.row])
		reading.Keys = append(reading.Keys, Key{k.id, k.state(in.Level), in.Volts})
	}
	return reading
}

// hold closes the contacts of the pressed keys.
func (r *Reader) hold(pressed []string) {
	clear(r.held)
	for _, id := range pressed {
		if i, ok := r.hookup.contactOf[id]; ok {
			r.held[i] = true
		}
	}
	for _, n := range r.networks {
		for i, down := range r.held {
			n.Press(i, down)
		}
	}
}

// survey returns the span of every pin while one line is selected, over both corners and, where pins
// leak, over what they may have come from.
func (r *Reader) survey(line int) []span {
	of := make([]span, len(r.hookup.pins))
	for _, n := range r.networks {
		n.Rest()
		n.Select(line)
		if !r.hookup.figures.Leaky {
			note(of, n.Solve())
			continue
		}
		for _, volts := range [2]float64{0, r.hookup.figures.Volts} {
			n.ComeFrom(volts)
			note(of, n.Solve())
		}
	}
	return of
}

// Pressed lists the keys that read as pressed for sure, and doubtful those that read either way.
func (r Reading) Pressed() (sure, doubtful []string) {
	for _, k := range r.Keys {
		switch k.State {
		case Pressed:
			sure = append(sure, k.Key)
		case Undefined:
			doubtful = append(doubtful, k.Key)
		}
	}
	return sure, doubtful
}

// Faithful reports whether exactly the held keys read as pressed and no reading is in doubt.
func (r Reading) Faithful(held []string) bool {
	for _, k := range r.Keys {
		want := Released
		if slices.Contains(held, k.Key) {
			want = Pressed
		}
		if k.State != want {
			return false
		}
	}
	return true
}
