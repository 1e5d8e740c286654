package fit

import (
	"fmt"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// tact is the 6 x 6 mm switch on 3 x 2 steps: handbook parts 2.1 and 2.3, after the B3F data sheet.
func tact() part.Definition {
	return part.Definition{Name: "tactile switch", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{
			{Name: "A1", At: [2]int{0, 0}, MM: [2]float64{0.56, 0.29}, Lead: 0.8},
			{Name: "A2", At: [2]int{3, 0}, MM: [2]float64{7.06, 0.29}, Lead: 0.8},
			{Name: "B1", At: [2]int{0, 2}, MM: [2]float64{0.56, 4.79}, Lead: 0.8},
			{Name: "B2", At: [2]int{3, 2}, MM: [2]float64{7.06, 4.79}, Lead: 0.8},
		},
		Joined:   [][]string{{"A1", "A2"}, {"B1", "B2"}},
		Contacts: []part.Contact{{Name: "press", Between: [2]string{"A1", "B1"}}},
		Bodies:   []part.Body{{Rect: [4]float64{0.81, -0.46, 6.81, 5.54}, Height: 4.3}},
	}
}

// straight is a part whose leads sit on their holes, with one body over all of them.
func straight(prefix string, kind part.Kind, leads [][2]int, body part.Body) part.Definition {
	d := part.Definition{Name: string(kind), Kind: kind, Prefix: prefix, Bodies: []part.Body{body}}
	for i, at := range leads {
		d.Terminals = append(d.Terminals, part.Terminal{Name: fmt.Sprint(i + 1), At: at,
			MM: [2]float64{float64(at[0]) * 2.54, float64(at[1]) * 2.54}, Lead: 0.5})
	}
	return d
}

var square = [][2]int{{0, 0}, {3, 0}, {0, 3}, {3, 3}}

// board is a small module of 3 x 3 steps with a pin in each corner.
func board(standOff float64, bodies ...part.Body) part.Definition {
	d := straight("U", part.Other, square, part.Body{Rect: [4]float64{-1.3, -1.3, 8.92, 8.92}, Height: standOff + 3, StandOff: standOff})
	d.Bodies = append(d.Bodies, bodies...)
	return d
}

// shelf holds what a letter of a picture places.
func shelf() map[rune]part.Definition {
	socketed := board(11, part.Body{Rect: [4]float64{-1.27, -1.27, 1.27, 8.89}, Height: 8.5},
		part.Body{Rect: [4]float64{6.35, -1.27, 8.89, 8.89}, Height: 8.5})
	socketed.Bodies[0].Plugged = true
	led := straight("D", part.LED, [][2]int{{0, 0}, {1, 0}}, part.Body{Rect: [4]float64{-1.63, -2.9, 4.17, 2.9}, Height: 8.6, Shape: "round"})
	plug := straight("J", part.Battery, [][2]int{{0, 0}, {0, 1}}, part.Body{Rect: [4]float64{-3, -2, 3, 4.5}, Height: 7.5, Overhang: "left"})
	plug.Terminals[0].MM, plug.Terminals[1].MM = [2]float64{0, 0.27}, [2]float64{0, 2.27}
	wide := straight("K", part.Switch, [][2]int{{0, 0}, {2, 1}}, part.Body{Rect: [4]float64{-3.99, -5.26, 11.61, 10.34}, Height: 11.6})
	wide.Contacts = []part.Contact{{Name: "press", Between: [2]string{"1", "2"}}}
	wide.Terminals[1].MM, wide.Terminals[0].Lead = [2]float64{6.35, 2.54}, 1.5
	lugs := straight("E", part.Encoder, [][2]int{{0, 0}, {1, 0}, {2, 0}}, part.Body{Rect: [4]float64{-2, -1, 7, 5}, Height: 6.5})
	lugs.Drills = []part.Drill{{MM: [2]float64{7.62, 2.54}, Diameter: 2, Why: "lug"}}
	return map[rune]part.Definition{
		's': tact(),
		'r': straight("R", part.Resistor, [][2]int{{0, 0}, {4, 0}}, part.Body{Rect: [4]float64{1.93, -1.2, 8.23, 1.2}, Height: 2.4}),
		'f': board(0),   // flat on the board
		'p': board(2.5), // on header pins
		'h': board(6),   // on high pins
		'k': socketed,
		'l': led,
		'j': plug,
		'w': wide,
		'e': lugs,
	}
}

// picture draws a plated board: each letter puts the first terminal of a part from the shelf into
// that hole, on the back when it is a capital. References count in reading order.
func picture(rows ...string) *panel.Panel {
	p := panel.New("picture")
	p.Boards[0].Columns, p.Boards[0].Rows = len(rows[0]), len(rows)
	shelf, counts := shelf(), map[string]int{}
	for row, line := range rows {
		for col, letter := range line {
			d, ok := shelf[letter|0x20]
			if letter == '.' || !ok {
				continue
			}
			counts[d.Prefix]++
			face := grid.Front
			if letter < 'a' {
				face = grid.Back
			}
			id := strings.ToLower(string(letter))
			p.Parts[id] = d
			p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprintf("%s%d", d.Prefix, counts[d.Prefix]), Part: id,
				At: grid.Hole{Col: col, Row: row}, Face: face})
		}
	}
	p.Tidy()
	return &p
}

// change applies edits to a picture.
func change(p *panel.Panel, edits ...func(*panel.Panel)) *panel.Panel {
	for _, edit := range edits {
		edit(p)
	}
	return p
}

// short writes findings as "stop fit-hole-shared S1+S2".
func short(list []finding.Finding) []string {
	lines := []string{}
	for _, f := range list {
		lines = append(lines, fmt.Sprintf("%s %s %s", f.Severity, f.Code, f.Where))
	}
	return lines
}

// textOf returns text and fix of the only finding with that code.
func textOf(t *testing.T, r Result, code string) string {
	t.Helper()
	var found []string
	for _, f := range r.Findings {
		if f.Code == code {
			found = append(found, f.Text+" "+f.Fix)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%d findings %s, want 1: %q", len(found), code, found)
	}
	return found[0]
}
