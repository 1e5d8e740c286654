package view

import "fascia/design/grid"

// A Slip is the sheet of paper about the selected thing, or about the panel when nothing is.
type Slip struct {
	Many  []string // references, when several parts are selected
	Part  *SlipPart
	Notes string // the maker's notes on the panel, when nothing is selected
	Refs  string // references with spaces between
}

// A SlipPart is the slip of one placed part.
type SlipPart struct {
	Ref, Name, Kind string
	At, Turn        string
	Face            grid.Face
	Outline         Outline
	Value           string
	Values          []string
	ValueLabel      string // resistance, colour, stepping …; "" when the part has no value
	Address         string
	Addresses       []string
	Contacts        []Contact
	Ends            []End
	Facts           []string // figures worth knowing, each a phrase with its unit
	Definition      string   // as JSON, for saving as the maker's own
	OwnID, ID       string   // id to save under; id of the definition
}

// A Contact is a contact that is or may become a key.
type Contact struct {
	ID, Name  string // S9.up, up
	Is        bool   // has a meaning
	Legend    string
	Usage     string // as shown in the picker: Keypad + (07:57)
	Direct    bool
	Place     string // row 1, column 3; or GP4 alone
	Suggested *Usage // what the legend plainly means, when nothing is said yet
}

// An End is a terminal with what it is joined to.
type End struct {
	Name, Hole, Net, Pin string
	Locked               bool
	Why                  string // for a terminal left open
}

// A Usage is a HID usage that a key may mean.
type Usage struct{ Code, Name string }

// Shown is how the picker writes it; scripts read the code in the brackets.
func (u Usage) Shown() string { return u.Name + " (" + u.Code + ")" }
