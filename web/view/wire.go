package view

// A WireRoom is the pins, the wires, the parts list and the files.
type WireRoom struct {
	PinPart
	WirePart
	BOM     []BOMRow
	Missing int // lines of which the maker has too few
	Files   []Download
}

// A BOMRow is one line of the parts list.
type BOMRow struct {
	Line, Quantity, Have, Need int
	Part, Value, Refs, Note    string
	ID                         string // for the stock; "" where none is kept
}

// A Download is one output.
type Download struct{ Href, Name, Says string }
