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
	Thick      grid.Millimetre // diagonal or diameter of the lead; 0 when unknown
}

// A Body is one body of one placed part, where it lies.
type Body struct {
	Ref      string
	Face     grid.Face
	Rect     grid.Rect
	Height   grid.Millimetre
	StandOff grid.Millimetre
	Plugged  bool // comes off its socket
	Round    bool // a disc within Rect
}

// A Drill is one hole that a placed part wants off the grid.
type Drill struct {
	Ref      string
	At       grid.Point
	Diameter grid.Millimetre
	Why      string
}

// An Order says that First must be soldered before Then covers its joint at Hole. When Under is
// set it is First's body or a bend of its lead that comes to lie under Then, not a joint.
type Order struct {
	First, Then string
	Hole        grid.Hole
	Face        grid.Face
	Under       bool
}

// A Result is what fits where. Leads, bodies and drills are in order of the panel's parts, orders
// by the covering part, then the covered one. It is read-only once made.
type Result struct {
	Leads    []Lead
	Bodies   []Body
	Drills   []Drill
	Orders   []Order
	Findings []finding.Finding

	index *index // nil in a Result made by hand, which is then searched from end to end
}

// rules say what is wrong with a panel laid out as a scene, in the order in which they build on
// each other: the later ones keep silent about pairs of parts that an earlier one has refused.
var rules = []func(*scene){
	(*scene).offBoard, (*scene).boardsOverlap, (*scene).seams, (*scene).wrongFace,
	(*scene).sharedHoles, (*scene).overlaps, (*scene).covers, (*scene).cycles,
	(*scene).overhangs, (*scene).overSeams, (*scene).residuals, (*scene).thickLeads,
	(*scene).drills, (*scene).closeKeys,
}

// Examine lays every part of p in its place and says what does not fit. It never changes p; a part
// without a definition takes no room. Time grows with the number of parts and the holes they cover.
func Examine(p *panel.Panel) Result {
	s := lay(p)
	for _, rule := range rules {
		rule(s)
	}
	finding.Sort(s.result.Findings)
	return s.result
}
