// Package ipc356 writes a netlist as electrical test data for bare boards, in the format of
// IPC-D-356A, and reads such a file back strictly. A file counts in the unit that it names; X goes
// to the right and Y up, seen from the primary side, which is the front. It knows nothing of wires.
//
// The standard is sold. Columns are those of a public reader of fabrication files and of a printed
// sample record, the order of the records that of a format guide; what the two leave open is from
// memory. Names that do not fit their field have an alias: of a net by the standard's own NNAME, of
// a reference or pin, and of a net that is not plain ASCII, in a comment that other readers pass over.
package ipc356

import (
	"fmt"
	"math"

	"fascia/design/grid"
)

// Units says what the numbers of a file count. Only these two are read alike everywhere: whole
// numbers on a grid of 0.1 inch, and thousandths of a millimetre.
type Units int

// The units of a file. TenThousandthInch reaches 99.9999 inch either way, Micrometre 999.999 mm.
const (
	TenThousandthInch Units = iota // P  UNITS CUST 0
	Micrometre                     // P  UNITS CUST 1
)

// millimetre is one count in millimetres.
func (u Units) millimetre() float64 {
	if u == Micrometre {
		return 0.001
	}
	return 0.00254
}

// Counts is a length in whole counts, the nearest.
func (u Units) Counts(mm grid.Millimetre) int {
	return int(math.Round(float64(mm) / u.millimetre()))
}

// Millimetres is the length of so many counts.
func (u Units) Millimetres(counts int) grid.Millimetre {
	return grid.Millimetre(float64(counts) * u.millimetre())
}

// A File is one netlist. Its texts are printable ASCII without blanks at their ends, but for names of
// nets, references and pins, which may be any.
type File struct {
	Job, Code, Title, Number, Revision string // at most 71 characters
	Units                              Units
	Comments                           []string // at most 77 characters, and none begins with ALIAS
	Points                             []Point
}

// A Kind is the operation code of a test record.
type Kind string

// The kinds of point that are written and read.
const (
	Through Kind = "317" // a hole with a pad: a terminal or a via
	Surface Kind = "327" // a pad without a hole
	Tooling Kind = "367" // a hole without plating that carries no net
)

// A Point is one place that a tester touches. Lengths are in counts of the file.
type Point struct {
	Kind     Kind
	Net      string // "" when it is deliberately on none
	Ref, Pin string
	Mid      bool // in the middle of its net rather than at an end
	Hole     int  // drilled diameter; 0 without a hole
	Plated   bool
	Side     int // 0 both, 1 the primary side, 2 the secondary side of a board of two layers
	X, Y     int
	Width    int // of the pad; 0 when it is not said
	Height   int // of the pad; 0 when it is round
	Turn     int // in degrees
	Mask     Mask
}

// A Mask says which sides of a point are covered with solder mask.
type Mask int

// What may be said of solder mask (meaning from memory).
const (
	MaskUnsaid Mask = iota
	MaskNone
	MaskPrimary
	MaskSecondary
	MaskBoth
)

// Largest values that the fields hold.
const (
	mostCoordinate = 999999
	mostSize       = 9999
)

// valid says what keeps a point out of a file, or nil.
func (p *Point) valid() error {
	switch {
	case p.Kind != Through && p.Kind != Surface && p.Kind != Tooling:
		return fmt.Errorf("kind %q is none of 317, 327 and 367", p.Kind)
	case (p.Kind == Surface) != (p.Hole == 0):
		return fmt.Errorf("a hole of %d counts does not go with kind %s", p.Hole, p.Kind)
	case p.Plated && p.Kind != Through:
		return fmt.Errorf("only a through hole is plated")
	case p.Pin != "" && p.Ref == "":
		return fmt.Errorf("pin %q has no reference", p.Pin)
	case outside(p.X, -mostCoordinate, mostCoordinate) || outside(p.Y, -mostCoordinate, mostCoordinate):
		return fmt.Errorf("%d, %d takes more than six digits", p.X, p.Y)
	case outside(p.Hole, 0, mostSize) || outside(p.Width, 0, mostSize) || outside(p.Height, 0, mostSize):
		return fmt.Errorf("hole %d, pad %d x %d: four digits at most", p.Hole, p.Width, p.Height)
	case p.Width == 0 && p.Height > 0:
		return fmt.Errorf("a pad of no width is %d high", p.Height)
	case outside(p.Turn, 0, 359) || outside(p.Side, 0, 99) || outside(int(p.Mask), 0, int(MaskBoth)):
		return fmt.Errorf("turn %d, side %d or mask %d is out of range", p.Turn, p.Side, p.Mask)
	}
	return nil
}

func outside(n, least, most int) bool { return n < least || n > most }

// A Net is the points of one net, in the order of the file.
type Net struct {
	Name   string
	Points []Point
}

// Nets gathers the points that are on a net, in order of each net's first.
func (f *File) Nets() []Net {
	var nets []Net
	at := map[string]int{}
	for _, p := range f.Points {
		if p.Net == "" {
			continue
		}
		i, known := at[p.Net]
		if !known {
			i = len(nets)
			at[p.Net] = i
			nets = append(nets, Net{Name: p.Net})
		}
		nets[i].Points = append(nets[i].Points, p)
	}
	return nets
}
