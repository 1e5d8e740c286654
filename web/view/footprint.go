package view

import (
	"encoding/json"
	"fmt"
	"strings"

	"fascia/design/grid"
	"fascia/design/part"
)

// An Outline is a definition reduced to what a small picture and a hand on the board need: its
// holes from the first terminal, its bodies, and the rectangle that holds all of it.
type Outline struct {
	Terminals []grid.Point // centres of the holes it takes
	Bodies    []OutlineBody
	Box       grid.Rect
	JSON      string // {"holes": [[c, r]…], "body": [l, t, r, b], "kind": …, "contacts": […]} for scripts
}

// An OutlineBody is one body; those on the back are dashed.
type OutlineBody struct {
	Rect  grid.Rect
	Back  bool
	Round bool
}

// OutlineOf reduces d.
func OutlineOf(d part.Definition) Outline {
	o := Outline{}
	hand := handShape{Kind: d.Kind, Contacts: []string{}}
	for i, t := range d.Terminals {
		centre := t.Offset().Point()
		o.Terminals = append(o.Terminals, centre)
		pad := grid.Rect{Min: centre, Max: centre}.Grown(grid.Pitch / 2)
		if i == 0 {
			o.Box = pad
		}
		o.Box = o.Box.Union(pad)
		hand.Holes = append(hand.Holes, t.At)
	}
	for _, b := range d.Bodies {
		r := b.Rectangle()
		o.Bodies = append(o.Bodies, OutlineBody{r, b.Face == grid.Back, b.Shape == "round"})
		o.Box = o.Box.Union(r)
		hand.Bodies = append(hand.Bodies, handBody{b.Face, b.Rect, b.Shape == "round"})
	}
	for _, c := range d.Contacts {
		hand.Contacts = append(hand.Contacts, c.Name)
	}
	text, err := json.Marshal(hand)
	if err != nil {
		panic(err) // numbers and strings always marshal
	}
	o.JSON = string(text)
	return o
}

type handShape struct {
	Kind     part.Kind  `json:"kind"`
	Holes    [][2]int   `json:"holes"`
	Bodies   []handBody `json:"bodies"`
	Contacts []string   `json:"contacts"`
}

type handBody struct {
	Face  grid.Face  `json:"face"`
	Rect  [4]float64 `json:"rect"`
	Round bool       `json:"round"`
}

// pads are the holes as a path of dots: strokes without length, with round ends.
func (o Outline) pads() string {
	var d strings.Builder
	for _, t := range o.Terminals {
		d.WriteString("M" + mm(t.X) + " " + mm(t.Y) + "h0")
	}
	return d.String()
}

// viewBox frames the outline with half a millimetre of air.
func (o Outline) viewBox() string {
	b := o.Box.Grown(0.5)
	return fmt.Sprintf("%.2f %.2f %.2f %.2f", b.Min.X, b.Min.Y, b.Width(), b.Height())
}

func (b OutlineBody) radius() string {
	if b.Round {
		return mm(min(b.Rect.Width(), b.Rect.Height()) / 2)
	}
	return "0.4"
}

func (b OutlineBody) class() string {
	if b.Back {
		return "fp-body fp-back"
	}
	return "fp-body"
}
