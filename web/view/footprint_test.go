package view

import (
	"encoding/json"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/part"
)

// Every part of the catalogue has a picture that holds all its holes and bodies, and a shape that the
// scripts can read.
func TestOutlineOf(t *testing.T) {
	for id, d := range part.BuiltIn() {
		o := OutlineOf(d)
		for _, at := range o.Terminals {
			if !o.Box.Contains(at) {
				t.Errorf("%s: a hole at %v lies outside its picture %v", id, at, o.Box)
			}
		}
		for _, b := range o.Bodies {
			if !b.Rect.Inside(o.Box) {
				t.Errorf("%s: a body %v lies outside its picture %v", id, b.Rect, o.Box)
			}
		}
		var shape handShape
		if err := json.Unmarshal([]byte(o.JSON), &shape); err != nil || len(shape.Holes) != len(d.Terminals) || shape.Kind != d.Kind {
			t.Errorf("%s: the shape reads back as %+v, %v", id, shape, err)
		}
		if got := strings.Count(o.pads(), "M"); got != len(d.Terminals) {
			t.Errorf("%s: %d dots for %d holes", id, got, len(d.Terminals))
		}
	}
}

func TestLengthsInAttributes(t *testing.T) {
	for in, want := range map[grid.Millimetre]string{0: "0", 2.54: "2.54", 2.5400000001: "2.54", -0.815: "-0.82", 10: "10"} {
		if got := mm(in); got != want {
			t.Errorf("%v is written %q, want %q", float64(in), got, want)
		}
	}
}

// The words follow the figure that is seen, for those who hear the page.
func TestTabSays(t *testing.T) {
	tests := []struct {
		tab  Tab
		want string
	}{
		{Tab{Label: "Scan"}, ""},
		{Tab{Label: "Place", Stops: 1, Minds: 2}, "note to stop for, 2 notes to mind"},
		{Tab{Label: "Wire", Minds: 2}, "notes to mind"},
		{Tab{Label: "Build", Progress: "3/42"}, "steps done"},
	}
	for _, tt := range tests {
		if got := tt.tab.Says(); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
