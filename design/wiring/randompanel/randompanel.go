// Package randompanel makes valid panels by chance for tests: boards of all kinds of copper, parts
// of the built-in catalogue that do not get into each other's way, keys, chords and wishes. The same
// seed gives the same panel. It knows what can stand where, and nothing of nets or wires.
package randompanel

import (
	"fmt"
	"math/rand/v2"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// Make returns the panel of a seed. It is valid (panel.Validate) and its parts fit.
func Make(seed uint64) panel.Panel {
	m := maker{Rand: rand.New(rand.NewPCG(seed, 0xFA5C1A)), p: panel.New(fmt.Sprintf("random %d", seed))}
	m.style = pick(&m, []string{"auto", "auto", "direct", "matrix", "matrix", "matrix", "lines", "lines", "expander"})
	m.p.Boards = m.boards()
	m.placeParts()
	m.cutStrips()
	m.joins()
	m.wishes()
	m.p.Tidy()
	return m.p
}

type maker struct {
	*rand.Rand
	p      panel.Panel
	style  string         // how the keys are to be read
	count  map[string]int // references given by prefix
	leads  []lead
	bodies []body
	drills []drill
}

// chance is true in so many of a hundred cases.
func (m *maker) chance(percent int) bool { return m.IntN(100) < percent }

// between returns a number from low to high, both included.
func (m *maker) between(low, high int) int { return low + m.IntN(high-low+1) }

func pick[T any](m *maker, list []T) T { return list[m.IntN(len(list))] }

// boards makes one board, or two that touch.
func (m *maker) boards() []panel.Board {
	a := m.board("A", grid.Hole{}, m.between(10, 60), m.between(10, 40))
	boards := []panel.Board{a}
	if a.Columns <= 30 && m.chance(40) {
		b := m.board("B", grid.Hole{Col: a.Columns + m.between(0, 2), Row: m.between(0, 3)}, m.between(10, 30), a.Rows)
		b.Seam = &panel.Seam{Board: "A", Side: "right"}
		boards = append(boards, b)
	}
	return boards
}

func (m *maker) board(id string, at grid.Hole, columns, rows int) panel.Board {
	b := panel.Board{ID: id, At: at, Columns: columns, Rows: rows, Copper: panel.Pads}
	switch m.IntN(8) {
	case 0, 1, 2:
		b.Plated = true
	case 3:
		b.Faces = panel.BackOnly
	case 4:
		b.Faces = panel.FrontOnly
	case 5: // both faces, not plated
	case 6:
		b.Copper, b.Faces = panel.Strips, panel.BackOnly
		if m.chance(50) {
			b.Along = "columns"
		}
	case 7:
		b.Copper, b.Plated = panel.Groups, m.chance(50)
		b.Groups = m.groups(&b)
	}
	return b
}

// groups ties holes of each row together by twos to fives, and leaves some alone.
func (m *maker) groups(b *panel.Board) [][]grid.Hole {
	var groups [][]grid.Hole
	size := m.between(2, 5)
	for row := range b.Rows {
		for col := 0; col+size <= b.Columns; col += size {
			if m.chance(15) {
				continue
			}
			var g []grid.Hole
			for k := range size {
				g = append(g, b.At.Add(grid.Offset{Cols: col + k, Rows: row}))
			}
			groups = append(groups, g)
		}
	}
	return groups
}

// placeParts puts on what a console has, as far as there is room.
func (m *maker) placeParts() {
	m.count = map[string]int{}
	shelf := part.BuiltIn()
	byKind := map[part.Kind][]string{}
	for _, id := range shelf.IDs() {
		byKind[shelf[id].Kind] = append(byKind[shelf[id].Kind], id)
	}
	wanted := m.wanted()
	for _, kind := range wanted {
		if ids := byKind[kind]; len(ids) > 0 {
			m.place(pick(m, ids), shelf)
		}
	}
}

// wanted lists the kinds of part to try, the bulky ones first.
func (m *maker) wanted() []part.Kind {
	var kinds []part.Kind
	some := func(kind part.Kind, percent, most int) {
		if m.chance(percent) {
			for range m.between(1, most) {
				kinds = append(kinds, kind)
			}
		}
	}
	some(part.Module, 85, 1)
	if m.style == "expander" {
		some(part.Expander, 90, 3)
	}
	some(part.Display, 60, 2)
	some(part.Charger, 20, 1)
	some(part.PowerSwitch, 25, 1)
	some(part.Battery, 30, 1)
	some(part.Joystick, 25, 1)
	some(part.Encoder, 25, 2)
	some(part.Expander, 10, 1)
	some(part.Switch, 95, 30)
	some(part.Selector, 20, 2)
	some(part.LED, 60, 6)
	some(part.Piezo, 40, 1)
	some(part.Buzzer, 15, 1)
	some(part.Diode, 50, 20)
	some(part.Resistor, 80, 14)
	some(part.Capacitor, 40, 3)
	some(part.Header, 40, 2)
	some(part.Transistor, 15, 2)
	some(part.Other, 10, 1)
	return kinds
}
