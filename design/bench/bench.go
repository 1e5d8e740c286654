// Package bench turns a wire list and what fits where into steps to solder by: lowest parts first,
// joints before what covers them, and the cautions that belong to the work.
package bench

import "fascia/design/grid"

// A Step is one thing to do at the bench.
type Step struct {
	ID      string      `json:"id"`    // stable while the thing it speaks of stays, for ticks
	Stage   string      `json:"stage"` // heading it stands under
	Title   string      `json:"title"`
	Text    string      `json:"text"`
	Caution string      `json:"caution,omitempty"`
	Face    grid.Face   `json:"face"` // the face to look at
	Refs    []string    `json:"refs,omitempty"`
	Holes   []grid.Hole `json:"holes,omitempty"`
	Wire    int         `json:"wire,omitempty"` // step number of the wire in the wire list
}
