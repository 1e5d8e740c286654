package view

import "strings"

// A Word is a choice with its plain name.
type Word struct{ Value, Label, Prefix string }

// DefinableKinds are the kinds of part that the simple form can describe.
var DefinableKinds = []Word{
	{"switch", "a push switch (a key)", "S"},
	{"selector", "a slide or latching switch", "SW"},
	{"resistor", "a resistor", "R"},
	{"diode", "a diode", "D"},
	{"led", "an LED", "D"},
	{"capacitor", "a capacitor", "C"},
	{"header", "a connector or header", "J"},
	{"other", "something else", "X"},
}

// sides are in the order of a board's margins.
var sides = []string{"left", "top", "right", "bottom"}

// A shortcut is one line of the sheet of keys.
type shortcut struct {
	Keys []string
	Does string
}

var boardKeys = []shortcut{
	{[]string{"← ↑ → ↓"}, "move the cursor one hole; with Shift five"},
	{[]string{"Home", "End"}, "first or last column of the board; with Ctrl its first or last hole"},
	{[]string{"Enter"}, "place the part in hand, select what lies there, or type the legend of the selected key"},
	{[]string{"Space"}, "lift the part under the cursor; put it down again"},
	{[]string{"Enter", "Space"}, "while a chord is told: press the key under the cursor, or let it go"},
	{[]string{"Shift", "Enter"}, "add the part under the cursor to the selection, or take it out"},
	{[]string{"R"}, "turn right by a quarter; with Shift left"},
	{[]string{"F"}, "change the face of the part"},
	{[]string{"D"}, "take a copy in hand"},
	{[]string{"Delete"}, "remove what is selected"},
	{[]string{"Escape"}, "let go, then clear the selection"},
	{[]string{"W", "K"}, "in the Wire room: draw a wire from hole to hole with Enter; keep holes clear. Escape takes back, then ends it"},
	{[]string{"N"}, "go to the next part; with Shift to the one before"},
	{[]string{"B"}, "show the other face"},
	{[]string{"+", "-", "0"}, "zoom in, zoom out, fit the board"},
	{[]string{"Ctrl", "A"}, "select every part"},
	{[]string{"Ctrl", "Z"}, "undo; Ctrl Y or Ctrl Shift Z does it again"},
	{[]string{"Drag"}, "a part: move it. Empty board: pan. With Shift: select what the frame holds"},
	{[]string{"Ctrl", "wheel"}, "zoom; two fingers do it on a touch screen"},
	{[]string{"Double press"}, "on a key: type its legend"},
}

// slug makes a kind fit for an id.
func slug(kind string) string { return strings.ReplaceAll(kind, " ", "-") }
