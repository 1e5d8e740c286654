package wiring

import (
	"fmt"
	"math"
	"slices"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
)

// Lengths at the ends of a wire, in millimetres (common practice, no source).
const (
	stripMM   = 4.0
	slackMM   = 3.0
	throughMM = 1.6  // thickness of the usual laminate (from memory)
	spare     = 1.05 // of an insulated wire, since it does not lie straight
)

// measure fills in length, cut and gauge from kind and path; gauge is that of an insulated wire. An insulated wire is reckoned
// along the rows and columns, as it is laid.
func (w *Wire) measure(gauge int) {
	switch w.Kind {
	case Leg:
		w.LengthMM = rounded(float64(w.From.Centre().Distance(w.To.Centre())))
	case Solder:
		w.LengthMM = rounded(float64(grid.Pitch))
	case Bare:
		length := float64(grid.Pitch) * float64(len(w.Path)-1)
		w.LengthMM = rounded(length)
		if w.Through {
			length = throughMM
		}
		w.CutMM = math.Ceil(rounded(length + 2*slackMM))
		w.Gauge = fmt.Sprintf("%.1f mm tinned", bareMM)
	case Insulated:
		length := float64(grid.Pitch) * float64(w.From.Steps(w.To))
		w.LengthMM = rounded(length)
		w.CutMM = math.Ceil(rounded((length + 2*(stripMM+slackMM)) * spare))
		w.Gauge = fmt.Sprintf("%s%d", awg, gauge)
	}
}

// rounded takes away what binary fractions add behind the hundredth of a millimetre.
func rounded(mm float64) float64 { return math.Round(mm*100) / 100 }

// Colours of wire by their letters.
//
// IEC 60757; the uses are common practice, no source.
const (
	black, brown, red, orange, yellow, green   = "BK", "BN", "RD", "OG", "YE", "GN"
	blue, violet, grey, white, pink, turquoise = "BU", "VT", "GY", "WH", "PK", "TQ"
)

// Colour is the colour of a net's wires: what the maker wants, else by what the net carries.
func Colour(p *panel.Panel, net *netlist.Net) string {
	if c := wishOf(p, net.Name).Colour; c != "" {
		return c
	}
	switch net.Class {
	case netlist.Ground:
		return black
	case netlist.Row:
		return white
	case netlist.Column:
		return blue
	case netlist.Supply:
		if net.Name == part.Supply3V3 {
			return orange
		}
		if net.Name == part.BatteryMinus {
			return black
		}
		return red
	}
	for _, t := range net.Terminals {
		if c := colourFor(p, t.TerminalRef); c != "" {
			return c
		}
	}
	return turquoise
}

// colourFor is the colour that a terminal asks for, or "".
func colourFor(p *panel.Panel, t panel.TerminalRef) string {
	pl := p.Find(t.Ref)
	if pl == nil {
		return ""
	}
	d := p.Definition(pl)
	switch d.Kind {
	case part.LED:
		return violet
	case part.Piezo, part.Buzzer, part.Transistor:
		return brown
	case part.Switch, part.Selector:
		return pink
	}
	if d.Kind == part.Module {
		return ""
	}
	for _, need := range d.Needs {
		if slices.Contains(d.Metal(need.Terminal), t.Terminal) {
			return needColours[need.Signal]
		}
	}
	for _, c := range d.Contacts {
		if slices.Contains(d.Metal(c.Between[0]), t.Terminal) || slices.Contains(d.Metal(c.Between[1]), t.Terminal) {
			return pink
		}
	}
	return ""
}

var needColours = map[part.Signal]string{
	part.I2CSCL: yellow, part.SPISCK: yellow, part.I2CSDA: green, part.SPITX: green, part.SPIRX: turquoise,
	part.DigitalOut: grey, part.DigitalIn: turquoise, part.ADC: turquoise, part.PWM: grey,
}
