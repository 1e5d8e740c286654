package view

// A WireRoom is the pins, the wires, the parts list and the files.
type WireRoom struct {
	PinPart
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
