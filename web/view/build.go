package view

import "fascia/design/grid"

// A BuildRoom is the checklist to solder by.
type BuildRoom struct {
	Stages      []Stage
	Done, Total int
	Now         *BenchStep // the step on the bench; nil when there are none
	Before      string     // address of the step before it; "" at the start
	After       string
	Number      int    // of Now, from 1
	Local       string // whose word stands above these steps
}

// A Stage is a heading of the checklist.
type Stage struct {
	Name  string
	Steps []BenchStep
	Done  int
}

// A BenchStep is one thing to do.
type BenchStep struct {
	ID, Title, Text, Caution string
	Face                     grid.Face
	Refs, Holes              string
	Wire                     int
	Done, Now                bool
	Href                     string // the Build room with this step on the bench
	Picture                  string // address of its picture
}
