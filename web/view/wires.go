package view

import "encoding/json"

// A WirePart is the wire list and what the maker wants of it.
type WirePart struct {
	Wires   []WireRow // to be made
	Legs    []WireRow // metal inside parts
	Cuts    []CutRow  // of strips, before all else
	Orders  []OrderLink
	Totals  string
	Quality string
	Face    string // up
	Joins   []JoinRow
	Ends    []string // terminals that a join may name
	KeepOut []ClearHole
	Holes   map[string][]string // of each net
	WireWishes
}

// holesText is which holes each net has, as JSON in an attribute.
func (p WirePart) holesText() string {
	text, err := json.Marshal(p.Holes)
	if err != nil {
		panic(err) // strings always encode
	}
	return string(text)
}

// A WireRow is one wire of the list.
type WireRow struct {
	Step, Index                int // in the order of work; in the plan's list, as on the drawing
	Net, Kind, KindSays, Face  string
	From, To, Holes            string
	Length, Cut, Colour, Gauge string
	ColourSays                 string
	Done, Locked               bool
	Switch                     string // the edit that locks it as it is, or leaves it to Fascia again
}

// says names a wire.
func (w WireRow) says() string { return "the wire of " + w.Net + " from " + w.From + " to " + w.To }

// A CutRow is one hole at which a strip is cut through.
type CutRow struct{ Hole, Board, Why string }

// An OrderLink sorts the list.
type OrderLink struct {
	Says, Href string
	Current    bool
}

// A ClearHole takes no wire; Price is the name of what it costs.
type ClearHole struct{ Hole, Price string }

// A JoinRow is a connection that the maker asked for.
type JoinRow struct{ Name, Terminals string }

// WireWishes are what the maker wants of wires.
type WireWishes struct {
	Own     []OwnWire
	Nets    []NetRow
	Wished  int // nets with a wish
	Faces   []FaceWish
	Three   bool // wire ends in one joint
	Costs   []CostRow
	Usual   string // the edit that takes the usual costs again; "" when they are
	Base    string // the edit of all that holds for all wires, as it is
	Colours []Choice
	Gauges  []Choice
}

// An OwnWire is one that the maker wants just so. Index is its place in the plan's list, -1 when the
// plan had to leave it out.
type OwnWire struct {
	Index                     int
	Kind, KindSays, Net, Face string
	From, To, Holes, Colour   string
	Price, Unlock             string
}

// A NetRow is what is wanted of one net's wires. Usual is the colour that they have without a wish.
type NetRow struct {
	Net, Colour, Gauge, Usual, Price string
	Insulated, Wished                bool
}

// A FaceWish says whether a face takes bare runs.
type FaceWish struct {
	Face, Price string
	NoRuns      bool
}

// A CostRow is one cost in holes of bare wire.
type CostRow struct{ Name, Says, Holes string }

// A Choice is one option of a list.
type Choice struct{ Value, Says string }

func lockState(locked bool) string {
	if locked {
		return "true"
	}
	return "false"
}

func lockTitle(locked bool) string {
	if locked {
		return "Yours: press to leave it to Fascia"
	}
	return "Keep this wire just so"
}

func either(first, otherwise string) string {
	if first != "" {
		return first
	}
	return otherwise
}
