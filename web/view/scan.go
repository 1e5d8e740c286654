package view

// A ScanRoom is how the keys are read: the wishes, the choice, the matrix and the chords.
type ScanRoom struct {
	Style, Active, Pulls, Diodes, Reader string // the wishes
	Rows, Columns                        int
	Why                                  string
	Summary                              string
	Choices                              []ScanChoice
	Matrix                               Matrix
	Direct                               []DirectKey
	Ghosts                               []Ghost
	Chords                               []Chord
	Keys                                 []ChordKey // for a chord that is still to be made
	NextChord                            string
}

// A ScanChoice is one row of the table that explains the decision.
type ScanChoice struct {
	Method, Shape, Pins, Diodes, Time, Verdict string
	Fits, Chosen                               bool
}

// A Matrix is drawn as a table. Heads carry the GPIO where it is known.
type Matrix struct {
	Columns []Line
	Rows    []MatrixRow
	Low     bool // the selected column is driven low
}

// A Line is one row or column.
type Line struct{ What, Number, Net, Pin string }

// A MatrixRow is one row of cells.
type MatrixRow struct {
	Line
	Cells []MatrixCell
}

// A MatrixCell is one place of the matrix; Key is "" where no key has it.
type MatrixCell struct {
	Key, Legend string
	Code        int
	Diode       bool
	Ghost       bool
	GhostSays   string
}

// A DirectKey has a pin of its own.
type DirectKey struct {
	Key, Legend, Pin, Net string
	Code                  int
}

// A Ghost is an unpressed key that would read as pressed.
type Ghost struct{ Chord, Pressed, Phantom, Legend string }

// A Chord is a set of keys to be pressed together.
type Chord struct {
	Name   string
	Says   string // the legends, in words
	Refs   string // key ids with spaces between
	Keys   []ChordKey
	Ghosts int
}

// A ChordKey is one key with whether it belongs to the chord.
type ChordKey struct {
	ID, Legend string
	In         bool
}

func (c MatrixCell) class() string {
	switch {
	case c.Key == "":
		return "cell cell-none"
	case c.Ghost:
		return "cell cell-ghost"
	}
	return "cell"
}

func legendOr(legend, ref string) string {
	if legend == "" {
		return ref
	}
	return legend
}
