package view

import (
	"strings"

	"github.com/a-h/templ"
)

// A PinPart is what the Wire room says of the pins.
type PinPart struct {
	Module      templ.Component // the module drawn with its pins; nil when there is none
	ModuleAs    string          // U1, RP2040 module
	Figures     PinFigures
	Conflict    []string
	Concessions []Concession
	Ties        []Tie // to let go of, while the wishes clash and no pin has a row
	Pins        []PinRow
	Lines       []LineRow // of expanders
	Kept        []KeptPin
	Free        []string // GPIOs that nothing uses
	Wishes      []WishRow
	Reach       string // JSON: for each signal the pins that it could be tied to
}

// PinFigures say how good the assignment is.
type PinFigures struct {
	Says            string
	Cost, Crossings string // as numbers for the scripts, "" for none
}

// A PinRow is one signal with its pin.
type PinRow struct {
	Signal, Net, GPIO, ModulePin, Function, Reason, Hole string
	Able, Unable                                         []string // GPIOs that could take it, and the others
	Locked                                               bool
	Price                                                string // what the lock costs
}

// A Tie is a signal that the maker tied to a pin.
type Tie struct{ Signal, Net, GPIO string }

// A LineRow is a key on a line of an expander.
type LineRow struct{ Key, Legend, Net, Line, Hole string }

// A KeptPin is a GPIO that the maker keeps free.
type KeptPin struct{ GPIO, Price string }

// A Concession is one wish to change so that the others hold, what that leaves, and the edit that
// does it; "" when none does it alone.
type Concession struct{ Says, Leaves, Edit string }

// A WishRow is one thing that the pins are asked to spare.
type WishRow struct {
	Name, Says string
	On         bool
	Place      string   // 1st, 2nd …
	GaveWay    []string // to what it had to give way
	Price      string
	// The edits, as JSON; "" where there is nothing to do.
	Up, Down, Switch string
}

// wishID makes the name of a wish fit for an id.
func wishID(name string) string { return strings.ToLower(slug(name)) }
