package view

import "github.com/a-h/templ"

// A WireRoom is the pins, the wires, the parts list and the files.
type WireRoom struct {
	Module   templ.Component // the module drawn with its pins; nil when there is none
	ModuleAs string          // U1, RP2040 module
	Conflict []string
	Ties     []Tie // to let go of, while the wishes clash and no pin has a row
	Pins     []PinRow
	Free     []FreePin
	GPIOs    []string  // that the module brings out
	PinsSay  string    // how good the assignment is
	Wires    []WireRow // to be made, in order of work
	Legs     []WireRow // metal inside parts
	WiresSay string
	Joins    []JoinRow
	Ends     []string // terminals that a join may name
	KeepOut  []string
	BOM      []BOMRow
	Missing  int // lines of which the maker has too few
	Files    []Download
}

// A PinRow is one signal with its pin.
type PinRow struct {
	Signal, Net, GPIO, ModulePin, Function, Reason, Hole string
	Locked                                               bool
}

// A Tie is a signal that the maker tied to a pin.
type Tie struct{ Signal, GPIO string }

// A FreePin is a GPIO that nothing uses.
type FreePin struct {
	GPIO string
	Kept bool // the maker keeps it free
}

// A WireRow is one wire of the list.
type WireRow struct {
	Step, Index                int // in the order of work; in the plan's list, as on the drawing
	Net, Kind, KindSays, Face  string
	From, To, Holes            string
	Length, Cut, Colour, Gauge string
	ColourSays                 string
	Done                       bool
}

// A JoinRow is a connection that the maker asked for.
type JoinRow struct{ Name, Terminals string }

// A BOMRow is one line of the parts list.
type BOMRow struct {
	Line, Quantity, Have, Need int
	Part, Value, Refs, Note    string
	ID                         string // for the stock; "" where none is kept
}

// A Download is one output.
type Download struct{ Href, Name, Says string }
