// Package netlist says which terminals must be one node. Every terminal is in exactly one net or
// deliberately open, with the reason. Nets follow from what the parts are (supplies, signals), from
// the scan and the pins, from the maker's joins, and from pairing: an LED with its resistor, a key
// with its diode. It knows nothing of wires.
package netlist

import (
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// A Class says what a net is, for its colour and line.
type Class string

// The classes of net.
const (
	Ground Class = "ground"
	Supply Class = "supply"
	Row    Class = "row"
	Column Class = "column"
	Signal Class = "signal"
	Link   Class = "link" // between parts only, such as from a resistor to its LED
)

// A Net is a set of terminals that must be one node.
type Net struct {
	Name      string     `json:"name"`
	Class     Class      `json:"class"`
	Terminals []Terminal `json:"terminals"` // by reference, then terminal
}

// A Terminal is one end in its hole. Face is the face on which its joint is made; on a board whose
// faces are one node it has no meaning.
type Terminal struct {
	panel.TerminalRef
	Hole    grid.Hole
	Face    grid.Face
	OneNode bool // both faces of the hole are one node
}

// An Open terminal is deliberately unconnected.
type Open struct {
	panel.TerminalRef
	Hole grid.Hole
	Why  string
}

// A Pair says that part With was taken to serve Of: a resistor for an LED, a diode for a key, a
// resistor as the pull of a line.
type Pair struct {
	Of   string `json:"of"`   // D1, S5, or "row 0"
	With string `json:"with"` // R1, D7; "" when none was free
	Why  string `json:"why"`
}

// A Result is the netlist of a panel.
type Result struct {
	Nets     []Net
	Open     []Open
	Pairs    []Pair
	Findings []finding.Finding
}

// Net returns the net called name; false when there is none.
func (r *Result) Net(name string) (Net, bool) {
	for _, n := range r.Nets {
		if n.Name == name {
			return n, true
		}
	}
	return Net{}, false
}

// NetOf returns the name of the net that terminal t is on, or "" when it is open.
func (r *Result) NetOf(t panel.TerminalRef) string {
	for _, n := range r.Nets {
		for _, u := range n.Terminals {
			if u.TerminalRef == t {
				return n.Name
			}
		}
	}
	return ""
}
