package bom

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"fascia/design/panel"
	"fascia/design/wiring"
)

// solderKind is what suits perfboard (common practice, no source).
const solderKind = "0.6 to 0.8 mm, rosin core"

// A reel is one kind of wire: Colour is "" for bare metal.
type reel struct{ gauge, colour string }

// A cut is what comes off one reel.
type cut struct {
	lengths int
	mm      float64 // of all of them, with what the ends and the slack take
	longest float64
}

// wire totals what to cut off each reel, in metres rounded up to a centimetre: bare wire first, then
// insulated wire thick to thin, then the solder, with how many bridges it makes.
func wire(w *wiring.Result) []Line {
	cuts := map[reel]cut{}
	bridges := 0
	for i := range w.Wires {
		x := &w.Wires[i]
		if x.Kind == wiring.Solder {
			bridges++
		}
		if x.CutMM <= 0 {
			continue
		}
		r := reel{x.Gauge, x.Colour}
		c := cuts[r]
		cuts[r] = cut{c.lengths + 1, c.mm + x.CutMM, max(c.longest, x.CutMM)}
	}
	var lines []Line
	for _, r := range slices.SortedFunc(maps.Keys(cuts), reel.compare) {
		c := cuts[r]
		lines = append(lines, Line{Quantity: 1, Part: r.name(), Value: fmt.Sprintf("%.2f m", metres(c.mm)), Refs: []string{},
			Note: fmt.Sprintf("%s of at most %.0f mm, ends and slack included", counted(c.lengths, "length"), math.Ceil(c.longest))})
	}
	if len(lines) > 0 || bridges > 0 {
		lines = append(lines, Line{Quantity: 1, Part: "solder", Value: solderKind, Refs: []string{}, Note: counted(bridges, "bridge") + " between pads"})
	}
	return lines
}

// compare puts bare wire first, then sorts by gauge and the order of the standard's colours.
func (r reel) compare(other reel) int {
	return cmp.Or(cmp.Compare(min(1, len(r.colour)), min(1, len(other.colour))), cmp.Compare(r.gauge, other.gauge),
		cmp.Compare(slices.Index(panel.Colours, r.colour), slices.Index(panel.Colours, other.colour)), cmp.Compare(r.colour, other.colour))
}

// name is what to ask a shop for.
func (r reel) name() string {
	if r.colour == "" {
		return "bare wire, " + r.gauge
	}
	if name := colourNames[r.colour]; name != "" {
		return "insulated wire, " + r.gauge + ", " + name + " (" + r.colour + ")"
	}
	return "insulated wire, " + r.gauge + ", " + r.colour
}

// colourNames are the colours by their letters.
//
// IEC 60757.
var colourNames = map[string]string{"BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green", "BU": "blue",
	"VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "GD": "gold", "TQ": "turquoise", "SR": "silver"}

// metres rounds millimetres up to a hundredth of a metre.
func metres(mm float64) float64 { return math.Ceil(mm/10-1e-9) / 100 }

// counted writes a number of things: no bridges, 1 bridge, 2 bridges.
func counted(n int, thing string) string {
	switch n {
	case 0:
		return "no " + thing + "s"
	case 1:
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
