// Package wiring joins every net with a tree of leg bridges, solder bridges, bare runs and
// insulated wires, cheapest first. Bare metal never crosses or touches another net on its face.
// Verify checks a result by means of its own that share nothing with the search.
//
// Prices are in holes of bare wire: a bare run costs its length and 0.3 a bend, a solder bridge 0.5,
// an insulated wire 10 and 1.2 a hole, a link through an unplated board 3, unless the maker has costs
// of their own. Solder joins leads whose pads are neighbours, or have one free pad between them in a
// straight line: at most three pads. Bare metal keeps to one board, but for runs of the maker's over a
// seam, and off bodies that leave less than 1 mm, leads of other nets, the side of a lead on which its
// part is, and holes that are to stay clear. Strips that would join two nets are cut between them.
package wiring

import (
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/netlist"
)

// A Kind is one of the four ways to join two holes.
type Kind string

// The ways to join, cheapest first. A Leg bridge is metal inside a part and needs no work.
const (
	Leg       Kind = "leg"
	Solder    Kind = "solder"
	Bare      Kind = "bare"
	Insulated Kind = "insulated"
)

// A Wire joins From and To. Path holds every hole that a bare run covers, ends included; for the
// other kinds it is just the two ends. Lengths are in millimetres.
type Wire struct {
	Step     int           `json:"step"` // its place in the order of work, from 1; 0 for a leg bridge
	Net      string        `json:"net"`
	Class    netlist.Class `json:"class"`
	Kind     Kind          `json:"kind"`
	Face     grid.Face     `json:"face"`
	From     grid.Hole     `json:"from"`
	To       grid.Hole     `json:"to"`
	Path     []grid.Hole   `json:"path"`
	LengthMM float64       `json:"length_mm"`         // along the run, centre to centre
	CutMM    float64       `json:"cut_mm"`            // what to cut off the reel: length, two strips and slack; 0 for legs and bridges
	Colour   string        `json:"colour"`            // IEC 60757 letters; "" for bare metal
	Gauge    string        `json:"gauge"`             // AWG 26, or 0.5 mm tinned; "" for legs and bridges
	Round    bool          `json:"round,omitempty"`   // insulated, soldered at From on Face and at To on the other: it leads round an edge
	Locked   bool          `json:"locked,omitempty"`  // the maker wants it just so
	Seam     bool          `json:"seam,omitempty"`    // a run of the maker's that bridges the seam between two boards
	Through  bool          `json:"through,omitempty"` // a bare link through one hole, soldered on both faces of an unplated board
}

// Counts says how many wires there are of each kind.
type Counts struct {
	Legs      int `json:"legs"`
	Solder    int `json:"solder"`
	Bare      int `json:"bare"`
	Insulated int `json:"insulated"`
}

func countsOf(wires []Wire) Counts {
	var c Counts
	for i := range wires {
		switch wires[i].Kind {
		case Leg:
			c.Legs++
		case Solder:
			c.Solder++
		case Bare:
			c.Bare++
		case Insulated:
			c.Insulated++
		}
	}
	return c
}

// A Result is the wire list.
type Result struct {
	Wires    []Wire            `json:"wires"` // legs first, then by step
	Cost     float64           `json:"cost"`  // in holes: bare length + bends + bridges + insulated wires at their price
	Bound    float64           `json:"bound"`
	Gap      float64           `json:"gap"`
	Proved   bool              `json:"proved"`
	Findings []finding.Finding `json:"-"`

	Counts         Counts `json:"counts"`
	InsulatedBound int    `json:"insulated_bound"` // no way to join all nets has fewer insulated wires
	Cuts           []Cut  `json:"cuts,omitempty"`  // to be made before all else, beside the maker's own

	moves int // that it was bettered by
}
