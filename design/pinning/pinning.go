// Package pinning gives every signal a GPIO that can do its job: functions from the chip's table,
// consecutive runs for the state machines, locks, kept pins and PWM slices. When the wishes cannot
// all hold it names a smallest set that clashes. It knows nothing of wires beyond distances.
package pinning

import (
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// A Result is which signal takes which pin.
type Result struct {
	Module      string            `json:"module"` // reference of the module; "" when there is none
	Chip        string            `json:"chip"`
	Pins        []Pin             `json:"pins"`                  // one a signal, in order of the signals; empty when impossible
	Free        []string          `json:"free"`                  // GPIO names left over
	Conflict    []string          `json:"conflict,omitempty"`    // when impossible: a smallest clashing set of wishes, each a sentence
	Concessions []Concession      `json:"concessions,omitempty"` // when impossible: what to change, the easiest first
	Cost        float64           `json:"cost"`                  // holes from pins to what they serve
	Bound       float64           `json:"bound"`                 // no assignment costs less
	Gap         float64           `json:"gap"`
	Proved      bool              `json:"proved"`
	Crossings   int               `json:"crossings"`          // pairs of straight lines, from a pin to what it serves, that meet
	Untangled   bool              `json:"untangled"`          // no assignment of that cost has fewer crossings; else none was found
	GaveWay     []string          `json:"gave_way,omitempty"` // what was to be spared and could not, in the maker's order
	Findings    []finding.Finding `json:"-"`

	nodes int // options tried, for the benchmarks
}

// A Pin is one signal's place.
type Pin struct {
	Signal    string              `json:"signal"`
	Net       string              `json:"net"`
	GPIO      string              `json:"gpio"`       // GP4
	Number    int                 `json:"-"`          // 4
	ModulePin string              `json:"module_pin"` // the number printed on the module
	Terminal  string              `json:"terminal"`   // of the module's definition
	Function  string              `json:"function"`   // I2C0 SDA, PWM2 A, PIO in, PIO both, digital out …
	Direction string              `json:"direction"`  // in, out or both
	Pull      string              `json:"pull"`       // up, down or none
	Hole      grid.Hole           `json:"-"`
	Reason    string              `json:"reason"` // why this pin, in a sentence
	Serves    []panel.TerminalRef `json:"-"`
}
