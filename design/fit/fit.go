// Package fit works out what occupies what: which lead is in which hole, which body covers which
// holes on which face, what collides, hangs over or spans a seam, and which joints must be made
// before another part covers them. It knows nothing of nets.
package fit

import (
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// A Lead is one terminal in its hole.
type Lead struct {
	panel.TerminalRef
	Hole       grid.Hole       // where it sits; may lie off every board
	Face       grid.Face       // the face its part's body is on
	SolderFace grid.Face       // the face its joint is made on: the other one
	Board      string          // "" when off every board
	Residual   grid.Millimetre // nominal lead to hole centre, seam misfit included
}

// A Body is one body of one placed part, where it lies.
type Body struct {
	Ref      string
	Face     grid.Face
	Rect     grid.Rect
	Height   grid.Millimetre
	StandOff grid.Millimetre
	Plugged  bool // comes off its socket
}

// An Order says that First must be soldered before Then covers its joint at Hole.
type Order struct {
	First, Then string
	Hole        grid.Hole
	Face        grid.Face
}

// A Result is what fits where. Leads and bodies are in order of the panel's parts.
type Result struct {
	Leads    []Lead
	Bodies   []Body
	Orders   []Order
	Findings []finding.Finding
}
