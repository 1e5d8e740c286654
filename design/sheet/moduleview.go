package sheet

import (
	"errors"
	"io"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
)

// ErrNoModule says that a panel has no module to draw.
var ErrNoModule = errors.New("the panel has no module")

// The columns beside a module, in millimetres from its edge outward: a rail, the pin's own name, the
// signal it carries and what the pin does for it.
const (
	nameAt      = 2
	signalAt    = 8.6
	dutyAt      = 20.5
	pinTextEnds = 33
)

// Module draws the module alone with every pin named: its number, its GPIO, the signal it carries
// and what the pin does for it, or that it is free, kept free or a supply. It is seen from its own
// chip side with its socket up, whatever way it lies on the board. It is of the Screen style.
func Module(w io.Writer, d Drawing) error {
	pl := moduleOf(d)
	if pl == nil {
		return ErrNoModule
	}
	p := pen{classes: true}
	m := moduleSheet{scene: scene{pen: &p, Drawing: d}}
	m.placed = *pl
	m.placed.At, m.placed.Face = grid.Hole{}, grid.Front
	for m.placed.Turn = 0; m.placed.Turn < 3; m.placed.Turn++ {
		if m.sketch(&m.placed).socketEdge() == top {
			break
		}
	}
	m.k = m.sketch(&m.placed)
	if d.Pins != nil && d.Pins.Module != pl.Ref {
		m.k.pins = nil
	}
	m.draw()
	_, err := w.Write(append(p.out, '\n'))
	return err
}

func moduleOf(d Drawing) *panel.Placed {
	if d.Pins != nil {
		if pl := d.Panel.Find(d.Pins.Module); pl != nil {
			return pl
		}
	}
	if list := d.Panel.Modules(); len(list) > 0 {
		return list[0]
	}
	return nil
}

// A moduleSheet is the drawing of a module under way.
type moduleSheet struct {
	scene
	placed panel.Placed
	k      *sketch
}

func (m *moduleSheet) draw() {
	k := m.k
	r := k.main.Grown(2)
	for _, t := range k.def.Terminals {
		e := k.edgeOf(t)
		o, at := e.outward(), e.middle(k.main)
		r = r.Union(grid.RectOf(at, at.Add(grid.Point{X: o.X * pinTextEnds, Y: o.Y * pinTextEnds})))
	}
	m.window = r
	p := m.pen
	p.tag("svg", "sheet-drawing", "module-drawing")
	p.word("xmlns", "http://www.w3.org/2000/svg")
	p.viewBox(r)
	p.word("data-ref", m.placed.Ref)
	p.word("text-anchor", "middle")
	p.word("font-family", sansFaces)
	p.open()
	p.title(m.placed.Ref + ", " + k.def.Name + ", every pin and what it carries")
	p.rect(k.main, 1, "mask")
	k.drawSocket()
	c, half := k.main.Centre(), min(3.5, k.main.Width()*0.16)
	p.rect(grid.RectOf(c, c).Grown(half), 0.2, "chip")
	lines, size := fitted(k.chipName(), half*1.7, half*1.2, 1.4)
	p.lettered(c, lines, size, "chip-text")
	for i, t := range k.def.Terminals {
		m.drawPin(i, t)
	}
	p.newline()
	p.end("svg")
}

// A pinState is what is to be said of one pin of the module.
type pinState struct {
	class        class
	signal, duty string
	rail         class
	locked       bool
}

func (m *moduleSheet) stateOf(t part.Terminal) pinState {
	pin, used := m.k.pins[t.Name]
	switch {
	case used:
		return pinState{"pin-used", pin.Net, duty(pin), "pin-rail", m.locked(pin)}
	case slices.Contains(m.Panel.Pins.KeepFree, t.GPIO) && t.GPIO != "":
		return pinState{"pin-kept", "kept free", "", "pin-rail-free", false}
	case t.GPIO != "":
		return pinState{"pin-open", "free", "", "pin-rail-free", false}
	case t.Net != "":
		return pinState{"pin-power", t.Net, "", "pin-rail-heavy", false}
	}
	return pinState{"pin-open", "", "", "pin-rail-free", false}
}

// duty says what a pin does for its signal: PIO in, pull up.
func duty(pin pinning.Pin) string {
	if pin.Pull == "up" || pin.Pull == "down" {
		return pin.Function + ", pull " + pin.Pull
	}
	return pin.Function
}

// locked reports whether the maker tied the pin's signal, or anything it serves, to this pin.
func (m *moduleSheet) locked(pin pinning.Pin) bool {
	if m.Panel.Pins.Locked[pin.Signal] == pin.GPIO {
		return true
	}
	return slices.ContainsFunc(pin.Serves, func(t panel.TerminalRef) bool {
		return m.Panel.Pins.Locked[t.String()] == pin.GPIO
	})
}

func (m *moduleSheet) drawPin(i int, t part.Terminal) {
	k, p := m.k, m.pen
	s, pin := m.stateOf(t), m.k.pins[t.Name]
	p.newline()
	p.tag("g", "pin", s.class)
	p.word("data-terminal", t.Name)
	p.word("data-pin", t.Pin)
	if t.GPIO != "" {
		p.word("data-gpio", t.GPIO)
	}
	if s.class == "pin-used" {
		p.word("data-signal", pin.Signal)
		p.word("data-net", pin.Net)
	}
	p.open()
	p.title(pinSentence(t, s, pin))
	e, at := k.edgeOf(t), k.lead(t)
	x := axis{at, e.outward(), grid.Point{X: 1}}
	gap := k.outside(t, e) - 0.7
	if e == left || e == right {
		x.across = grid.Point{Y: 1}
	}
	p.rect(x.bar(-3, gap+pinTextEnds, grid.Pitch/2), 0, "hit")
	p.line(x.at(0.6, 0), x.at(gap+nameAt-0.5, 0), s.rail)
	if i == 0 {
		p.rect(grid.RectOf(at, at).Grown(0.8), 0, "pin-pad")
	} else {
		p.circle(at, 0.8, "pin-pad")
	}
	label := pinLabel(t)
	if e == left || e == right {
		k.beside(t, e, -1, 1.3, 1.2, t.Pin, "pin-number")
	} else {
		label = t.Pin + " " + label // beside the long rows there is no room inside
	}
	m.column(t, gap+nameAt, signalAt-nameAt-0.6, 1.7, label, "pin-gpio")
	begin := gap + signalAt
	if s.locked {
		m.padlock(x.at(begin+0.5, 0))
		begin += 1.6
	}
	signal := class("pin-signal")
	if s.class != "pin-used" {
		signal = "pin-free"
	}
	m.column(t, begin, gap+dutyAt-begin-0.4, 1.8, s.signal, signal)
	m.column(t, gap+dutyAt, pinTextEnds-dutyAt, 1.5, s.duty, "pin-duty")
	p.end("g")
}

// column writes s outward from a pin, in letters of the given size or as small as fits the width.
func (m *moduleSheet) column(t part.Terminal, at, width, size grid.Millimetre, s string, c class) {
	s = shortened(s, MaxLegend)
	m.k.beside(t, m.k.edgeOf(t), 1, at, min(size, 0.93*width/max(breadth(s), 1)), s, c)
}

// pinSentence is GP4, pin 6: row 0, PIO in, and why.
func pinSentence(t part.Terminal, s pinState, pin pinning.Pin) string {
	words := pinLabel(t)
	if t.Pin != "" {
		words += ", pin " + t.Pin
	}
	for _, more := range []string{s.signal, s.duty} {
		if more != "" {
			words += ", " + more
		}
	}
	if s.locked {
		words += ", locked"
	}
	if pin.Reason != "" {
		words += ". " + pin.Reason
	}
	return words
}

// padlock marks a signal that the maker tied to its pin.
func (m *moduleSheet) padlock(c grid.Point) {
	m.path(arc(grid.Point{X: c.X, Y: c.Y - 0.15}, 0.38, 3.1416, 6.2832), "lock")
	m.rect(grid.RectOf(grid.Point{X: c.X - 0.6, Y: c.Y - 0.1}, grid.Point{X: c.X + 0.6, Y: c.Y + 0.75}), 0.15, "lock-case")
}
