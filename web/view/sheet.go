package view

import (
	"encoding/json"
	"strings"

	"github.com/a-h/templ"

	"fascia/design/grid"
)

// A Sheet is the page of one panel in one room.
type Sheet struct {
	Head
	ID, Name   string
	Rev        int64
	Room       string // place, scan, wire or build
	Face       grid.Face
	Tabs       []Tab
	Undo, Redo string // what they would do; "" for nothing
	Front      string // address of this page with the other face up
	Back       string
	Board      templ.Component
	BoardLabel string
	Block      TitleBlock
	Notes      Notes
	Slip       Slip
	Facts      Facts
	Content    templ.Component
	Dialogs    []templ.Component // dialogs of this room
}

// A Tab leads to a room.
type Tab struct {
	Number, Room, Label, Href string
	Stops, Minds              int
	Progress                  string // for Build: 3/42
	Current                   bool
}

// Says is what the figure of the tab counts, and the other counts in full: the words that follow the
// figure for those who hear the page.
func (t Tab) Says() string {
	var says []string
	if t.Stops > 0 {
		says = append(says, plural(t.Stops, "note to stop for", "notes to stop for"))
	}
	if t.Minds > 0 {
		says = append(says, plural(t.Minds, "note to mind", "notes to mind"))
	}
	if t.Progress != "" {
		says = append(says, t.Progress+" steps done")
	}
	if len(says) == 0 {
		return ""
	}
	_, first, _ := strings.Cut(says[0], " ")
	return strings.Join(append([]string{first}, says[1:]...), ", ")
}

// A TitleBlock is the summary at the lower right of the drawing.
type TitleBlock struct {
	Name   string
	Rev    int64
	Sheet  string // 1 of 4
	Face   string
	Boards []string
	Parts  string
	Pins   string
	Wires  []WireCount
	Stops  int
	Minds  int
	Notes  int
}

// A WireCount is how many wires there are of one kind.
type WireCount struct {
	Kind  string
	Count int
}

// Notes are the findings, those of this room first.
type Notes struct {
	Here, Elsewhere []Note
	Aside           []Note // severity note
	Offer           Offer
	Empty           bool // nothing is placed yet
}

// An Offer is an edit that would mend some of the notes at once, or one that the server works out when
// it is taken. Both are empty when there is none.
type Offer struct {
	Label string // such as "Place 3 diodes"
	Edit  string // the members of an edit of several taken together, as JSON
	Lend  string // what is lent
}

// Count is how many ask for something to be done.
func (n Notes) Count() int { return len(n.Here) + len(n.Elsewhere) }

// A Note is one finding in the margin.
type Note struct {
	ID                            string // of the element, the same while the finding stays
	Index                         int    // in the plan's list; the mark on the drawing has it too
	Severity, Code, Text, Fix     string
	Room                          string // where it is put right
	Refs, Keys, Holes, Net, Where string // lists with spaces between
	Href                          string // this page with what it speaks of selected
}

// Facts are what the scripts need to know of the panel: where things are, in holes.
type Facts struct {
	Panel  string      `json:"panel"`
	Name   string      `json:"name"`
	Rev    int64       `json:"rev"`
	Room   string      `json:"room"`
	Face   string      `json:"face"`
	Boards []BoardFact `json:"boards"`
	Parts  []PartFact  `json:"parts"`
}

// text is the facts as JSON. They travel in an attribute: a script element, even one of data, may not be
// renewed under Trusted Types.
func (f Facts) text() string {
	text, err := json.Marshal(f)
	if err != nil {
		panic(err) // numbers and strings always encode
	}
	return string(text)
}

// A BoardFact is one board in the common grid.
type BoardFact struct {
	ID      string `json:"id"`
	Col     int    `json:"col"`
	Row     int    `json:"row"`
	Columns int    `json:"columns"`
	Rows    int    `json:"rows"`
}

// A PartFact is one placed part. Box is the rectangle of its bodies in millimetres of the common
// grid; Holes are those of its terminals.
type PartFact struct {
	Ref   string     `json:"ref"`
	Name  string     `json:"name"`
	Kind  string     `json:"kind"`
	Face  string     `json:"face"`
	At    [2]int     `json:"at"`
	Holes [][2]int   `json:"holes"`
	Ends  []string   `json:"ends"` // names of the terminals
	Box   [4]float64 `json:"box"`
	Keys  []KeyFact  `json:"keys"`
}

// A KeyFact is a contact that is or may become a key.
type KeyFact struct {
	ID     string `json:"id"`
	Legend string `json:"legend"`
	Is     bool   `json:"is"`
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return number(n) + " " + many
}
