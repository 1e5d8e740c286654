// Package scan lays keys out for reading: a pin for each, a matrix whose columns are selected one
// after the other while its rows are read, lines that both read and select, or an I2C expander; and
// it compares all of them. It finds ghosts (unpressed cells that read as pressed because current
// reaches them through three or more closed keys) and the keys that need a diode. Rows and columns
// count from 0. It knows keys and cells, and nothing of pins or wires.
package scan

import (
	"fmt"

	"fascia/design/finding"
)

// A Result is how the keys are read.
type Result struct {
	Style        string            `json:"style"` // direct, matrix, mixed (a matrix and keys of their own pins), lines, expander or none
	Rows         int               `json:"rows"`
	Columns      int               `json:"columns"`
	Active       string            `json:"active"` // level of a pressed key and of the selected column: low or high
	Pulls        string            `json:"pulls"`  // internal or external
	Reader       string            `json:"reader"` // pio or polled
	Why          string            `json:"why"`    // the choice in a sentence or two
	Choices      []Choice          `json:"choices"`
	Cells        []Cell            `json:"cells"`  // matrix keys, by row then column
	Direct       []Direct          `json:"direct"` // keys with a pin of their own, in key order
	Lamps        []Lamp            `json:"lamps"`  // LEDs of the select lines, by line
	Ghosts       []Ghost           `json:"ghosts"`
	PeriodMicros float64           `json:"period_us"` // time to read all keys once
	Cost         float64           `json:"cost"`      // estimated holes of wire for all rows and columns
	Bound        float64           `json:"bound"`     // no arrangement costs less
	Gap          float64           `json:"gap"`       // (cost-bound)/bound, 0 when bound is 0
	Proved       bool              `json:"proved"`
	DiodeBound   int               `json:"diode_bound"`   // no arrangement in these rows and columns does with fewer diodes
	DiodesProved bool              `json:"diodes_proved"` // there are no more than that; with none wished for, those that would be needed
	Findings     []finding.Finding `json:"-"`
}

// RowNet and ColumnNet name the nets of the lines that read and that select.
func (r *Result) RowNet(i int) string { return r.lineName("row", i) }

// ColumnNet names the net of a select line; see RowNet.
func (r *Result) ColumnNet(j int) string { return r.lineName("column", j) }

func (r *Result) lineName(side string, i int) string {
	if r.Style == "lines" {
		side = "line"
	}
	return fmt.Sprintf("%s %d", side, i)
}

// A Lamp is the LED that lights while its line is selected. On a line that is selected low it hangs
// from 3V3, on one that is selected high from the line; a resistor is in series.
type Lamp struct {
	Line int    `json:"line"` // the column
	LED  string `json:"led"`  // reference
}

// A Choice is one way to read the keys, for the table that explains the decision.
type Choice struct {
	Method       string  `json:"method"`  // direct, matrix, matrix with diodes, lines with diodes or expander
	Wish         Wish    `json:"wish"`    // what to ask for to get it; without a style when nothing gets it
	Rows         int     `json:"rows"`    // lines on both sides for lines with diodes
	Columns      int     `json:"columns"` //
	Pins         int     `json:"pins"`    // of the controller, those of a bus that is there already aside
	Diodes       int     `json:"diodes"`  // keys that have one; of a plain matrix those that would need one for the declared chords
	Parts        int     `json:"parts"`   // to buy and solder beside the keys: diodes, expanders, pull resistors
	Joints       int     `json:"joints"`  // that those parts add
	Chords       int     `json:"chords"`  // declared chords of two keys or more
	SafeChords   int     `json:"safe"`    // of those, the ones that never ghost once the diodes counted in Parts are in
	WakeMicros   float64 `json:"wake_us"` // longest from a press to the first reading that shows it, asleep until then
	IdleMicroamp float64 `json:"idle_ua"` // what waiting for a press draws in lines, pulls and added chips, no key held
	HeldMicroamp float64 `json:"held_ua"` // the same with one key held, at the strongest pull
	PeriodMicros float64 `json:"period_us"`
	Length       float64 `json:"length"` // holes of wire: of a draft, for the chosen and the runner-up of the best found; 0 where not worked out
	Fits         bool    `json:"fits"`   // it can be had: pins and addresses are enough and no contact forbids it
	Chosen       bool    `json:"chosen"`
	Verdict      string  `json:"verdict"` // in words
}

// A Wish is the part of the panel's wishes that picks one way to read the keys.
type Wish struct {
	Style   string `json:"style"`
	Rows    int    `json:"rows"`
	Columns int    `json:"columns"`
	Diodes  string `json:"diodes"`
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
	Pin    string `json:"pin"`           // ref.terminal
	Return string `json:"return"`        // ref.terminal
	Via    string `json:"via,omitempty"` // ref.terminal of an expander's line in place of a GPIO
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
