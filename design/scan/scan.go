// Package scan lays keys out for reading: a pin for each, or a matrix whose columns are selected
// one after the other while its rows are read. It finds ghosts (unpressed cells that read as
// pressed because current reaches them through three or more closed keys) and the keys that need
// a diode. Rows and columns count from 0. It knows keys and cells, and nothing of pins or wires.
package scan

import "fascia/design/finding"

// A Result is how the keys are read.
type Result struct {
	Style        string            `json:"style"` // direct, matrix, mixed (a matrix and keys of their own pins) or none
	Rows         int               `json:"rows"`
	Columns      int               `json:"columns"`
	Active       string            `json:"active"` // level of a pressed key and of the selected column: low or high
	Pulls        string            `json:"pulls"`  // internal or external
	Reader       string            `json:"reader"` // pio or polled
	Why          string            `json:"why"`    // the choice in a sentence or two
	Choices      []Choice          `json:"choices"`
	Cells        []Cell            `json:"cells"`  // matrix keys, by row then column
	Direct       []Direct          `json:"direct"` // keys with a pin of their own, in key order
	Ghosts       []Ghost           `json:"ghosts"`
	PeriodMicros float64           `json:"period_us"` // time to read all keys once
	Cost         float64           `json:"cost"`      // estimated holes of wire for all rows and columns
	Bound        float64           `json:"bound"`     // no arrangement costs less
	Gap          float64           `json:"gap"`       // (cost-bound)/bound, 0 when bound is 0
	Proved       bool              `json:"proved"`
	Findings     []finding.Finding `json:"-"`
}

// A Choice is one way to read the keys, for the table that explains the decision.
type Choice struct {
	Method       string  `json:"method"` // direct or matrix
	Rows         int     `json:"rows"`
	Columns      int     `json:"columns"`
	Pins         int     `json:"pins"`
	Diodes       int     `json:"diodes"` // keys that need one for the declared chords
	PeriodMicros float64 `json:"period_us"`
	Length       float64 `json:"length"` // holes of wire: of a draft, for the chosen and the runner-up of the best found; 0 where not worked out
	Fits         bool    `json:"fits"`   // pins are enough
	Chosen       bool    `json:"chosen"`
	Verdict      string  `json:"verdict"` // in words
}

// A Cell is a key's place in the matrix.
type Cell struct {
	Key    string `json:"key"`
	Legend string `json:"legend"`
	Row    int    `json:"row"`
	Column int    `json:"column"`
	Code   int    `json:"code"` // row * columns + column
	Diode  bool   `json:"diode"`
	Usage  string `json:"usage"`
}

// A Direct key has a pin of its own. Codes go on after the matrix: rows * columns, and up. Pin is
// the terminal wired to the GPIO and Return the one wired to ground, or to 3V3 when Active is high:
// a contact's first and second terminal, unless contacts of one part share the first (then the
// shared one returns) or a terminal is ground by nature.
type Direct struct {
	Pin    string `json:"pin"`    // ref.terminal
	Return string `json:"return"` // ref.terminal
	Key    string `json:"key"`
	Legend string `json:"legend"`
	Code   int    `json:"code"`
	Usage  string `json:"usage"`
}

// A Ghost is an unpressed key that reads as pressed while part of a chord is held.
type Ghost struct {
	Chord   string   `json:"chord"`
	Pressed []string `json:"pressed"` // the held keys that the current passes through
	Phantom string   `json:"phantom"` // the key that reads as pressed
	Row     int      `json:"row"`
	Column  int      `json:"column"`
}
