// Package sheet draws: a panel on screen and on paper as SVG in true millimetres, each face as the
// one who looks at it sees it, so that the back is mirrored. What the maker decided is inked, what
// was worked out is pencilled. It decides nothing.
package sheet

import (
	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/wiring"
)

// A Drawing is what there is to draw. Every stage but Panel may be nil.
type Drawing struct {
	Panel    *panel.Panel
	Fit      *fit.Result
	Scan     *scan.Result
	Pins     *pinning.Result
	Nets     *netlist.Result
	Wiring   *wiring.Result
	Findings []finding.Finding
}

// A View says how to draw it.
type View struct {
	Face  grid.Face
	Style Style
	Room  string      // place, scan, wire or build: what is shown in full ink
	Holes []grid.Hole // for Bench: the holes to zoom to and ring
	Wire  int         // for Bench: the wire's step to draw in full ink
	Built int         // for Bench: wires up to this step are drawn as built
}

// A Style is what a drawing is for.
type Style uint8

// Screen is styled by the page's stylesheet; Print carries its own styles at true size; Picture is
// the small picture of a panel; Bench is one step of the checklist.
const (
	Screen Style = iota
	Print
	Picture
	Bench
)
