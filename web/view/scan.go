package view

import (
	"encoding/json"
	"fmt"
	"strings"

	"fascia/design/panel"
)

// A ScanRoom is how the keys are read: the matrix, the chords, the ways to choose from, the diodes and
// the wishes.
type ScanRoom struct {
	Wishes    panel.Scan
	Style     string // in use
	Why       string
	Summary   string
	Measure   Measure
	Matrix    Matrix
	Direct    []DirectKey
	Ghosts    bool // some chord has one
	Chords    []Chord
	Keys      []ChordKey // that a chord may name
	NextChord string
	Place     string   // address of the Place room
	Methods   []Method // to compare first
	Others    []Method // the rest
	Offers    []Offer  // of parts that the way in use asks for
	Diodes    Diodes
	Lamps     Lamps
}

// A Measure is how good the arrangement is, in holes of wire.
type Measure struct{ Cost, Bound, Gap, Says string }

// A Matrix is drawn as a table. Heads carry the GPIO where it is known.
type Matrix struct {
	Columns []Line
	Rows    []MatrixRow
	Lines   bool // the same lines stand on both sides, and the diagonal holds nothing
	Low     bool // the selected line is driven low
}

// A Line is one row or column. Its keys have spaces between.
type Line struct {
	Net, Pin, Keys string
	Hue            string // a letter, the same for all that shows this line
}

// A MatrixRow is one row of cells.
type MatrixRow struct {
	Line
	Cells []MatrixCell
}

// A MatrixCell is one place of the matrix; Key is "" where no key has it.
type MatrixCell struct {
	Key, Legend       string
	Row, Column       string // nets
	RowHue, ColumnHue string
	Code              int
	Diode             bool
	Never             bool   // of a line with itself: no key can be there
	Ghost             string // says when it reads as pressed; "" for never
}

// A DirectKey has a pin of its own, or a line of an expander.
type DirectKey struct {
	Key, Legend, Pin, Net string
	Code                  int
}

// A ChordKey is one key that a chord may name.
type ChordKey struct{ ID, Legend string }

// A Chord is keys to be pressed together, as the panel has it, with what is read then.
type Chord struct {
	panel.Chord
	Says    string // the keys, in words
	Reading Reading
}

// Keys lists all that it names, with spaces between.
func (c Chord) refs() string { return strings.Join(c.All(), " ") }

// text is the chord as the form takes it up.
func (c Chord) text() string { return jsonText(c.Chord) }

// A Reading says what is read while the keys of a chord are held. It is sent to the page as it is.
type Reading struct {
	Keys   []string       `json:"keys"`
	State  string         `json:"state"` // none, safe, ghost or perhaps
	Says   string         `json:"says"`
	Ghosts []GhostReading `json:"ghosts"`
	Fix    string         `json:"fix"`
	More   int            `json:"more"` // ghosts that are not listed
}

// A GhostReading is one key that reads as pressed, and why.
type GhostReading struct {
	Key     string   `json:"key"`
	Says    string   `json:"says"`
	Way     string   `json:"way"`     // of the current
	Pressed []string `json:"pressed"` // in the order of the current
	Perhaps bool     `json:"perhaps"` // the level is neither low nor high for certain
}

// Mark is the word that stands for the state, beside its colour.
func (r Reading) Mark() string {
	switch r.State {
	case "ghost":
		return "ghost"
	case "perhaps":
		if len(r.Ghosts) == 0 {
			return "in doubt"
		}
		return "possible ghost"
	case "safe":
		return "safe"
	}
	return ""
}

// A Method is one row of the table that explains the decision.
type Method struct {
	ID, Name, Shape                                                              string
	Pins, Parts, Joints, Diodes, Chords, Period, Wake, Idle, Held, Wire, Verdict string
	Fits, Chosen                                                                 bool
	Unsafe                                                                       bool   // some declared chord ghosts
	Lend                                                                         string // what the server lends with it
	Edit                                                                         string // the members of the edit that takes it; "" when nothing does
}

// figures are the cells of a method's row between its name and its verdict.
func (m Method) figures() []figure {
	return []figure{
		{"Pins", m.Pins, ""}, {"Parts", m.Parts, "to buy and solder beside the keys"}, {"Joints", m.Joints, "that those parts add"},
		{"Diodes", m.Diodes, ""}, {"Chords", m.Chords, "safe, of those told"}, {"Scan", m.Period, "to read all keys once"},
		{"Wakes", m.Wake, "longest from a press to the first reading, asleep until then"}, {"Idle", m.Idle, "drawn while no key is held"},
		{"Held", m.Held, "drawn while one key is held"}, {"Wire", m.Wire, "estimated, in holes"},
	}
}

// none stands where a method has no such figure.
const none = "–"

type figure struct{ Label, Value, Means string }

// Diodes tells what each diode is for.
type Diodes struct {
	Direction string // of all of them
	Guards    []Guard
	Others    string // those that no chord needs
	Proved    string // whether fewer would do
}

// A Guard is the reason of one diode.
type Guard struct{ Key, Legend, Says, Keys string }

// Lamps is which LEDs light with the select lines.
type Lamps struct {
	Lines []LampLine
	LEDs  []Word // on the panel
	Edit  string // the wishes that the form starts from
	Offer Offer  // of LEDs for the lines
}

// A LampLine is one select line with its LED, "" for none.
type LampLine struct {
	Line
	LED string
}

func (c MatrixCell) class() string {
	words := []string{"cell"}
	switch {
	case c.Never:
		words = append(words, "cell-never")
	case c.Key == "":
		words = append(words, "cell-none")
	case c.Ghost != "":
		words = append(words, "cell-ghost")
	}
	return strings.Join(append(words, "row-"+c.RowHue, "col-"+c.ColumnHue), " ")
}

func legendOr(legend, ref string) string {
	if legend == "" {
		return ref
	}
	return legend
}

// jsonText writes what always can be written.
func jsonText(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("view: %v", err))
	}
	return string(text)
}

// letChoose is the wishes without a way of the maker's own.
func letChoose(w panel.Scan) string {
	w.Style, w.Rows, w.Columns = "auto", 0, 0
	return wishesText(w)
}

// wishesText is the wishes as a form starts from them.
func wishesText(w panel.Scan) string { return jsonText(map[string]panel.Scan{"scan": w}) }
