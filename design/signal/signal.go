// Package signal lists what the parts of a panel, keys aside, want from the controller: one signal
// for each pin that will be needed, with shared buses already merged. It chooses no pin.
package signal

import (
	"fascia/design/panel"
	"fascia/design/part"
)

// A Signal is one wish for one controller pin.
type Signal struct {
	ID        string      // the first terminal it serves, such as U2.SDA; for key lines "row 0", "column 3", or the key's id
	Net       string      // the net's name, such as "display SDA"
	Wants     part.Signal // what the pin must be able to do
	Bus       string      // signals with the same bus name must come from one peripheral instance; "" for none
	Terminals []panel.TerminalRef
	Direction string // out, in or both, seen from the controller
	Pull      string // up, down or ""
	Run       string // signals with the same run take consecutive GPIOs, in any order; "" for none
	Optional  bool   // may go without a pin when pins are short
}
