// Package hold says what is read while keys are held together: which others read as pressed, the way
// the current takes to them, which further diodes would stop it, and what each diode that is there
// stops. It takes a scan as decided, finds the ways by logic, leaves to a judge what the voltages make
// of them, and knows nothing of pins or wires.
package hold

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/scan"
)

// A Reading is what is read while any of a chord's sets of keys is held, all of it or part of it: fingers
// do not come down at once.
type Reading struct {
	Keys   []string `json:"keys"`   // that the chord names and the panel has
	Sets   int      `json:"sets"`   // different sets of keys that the chord stands for
	Safe   int      `json:"safe"`   // of those, the ones without a ghost in any part
	Whole  bool     `json:"whole"`  // every set and every part was looked at
	Ghosts []Ghost  `json:"ghosts"` // no smaller part of their pressed keys has one; fewest keys first
	Diodes []string `json:"diodes"` // the fewest further keys that need a diode to be rid of all ghosts
	Cured  bool     `json:"cured"`  // those diodes are enough
}

// A Ghost is a key that nobody holds and that reads as pressed.
type Ghost struct {
	Key     string   `json:"key"`
	Row     int      `json:"row"`
	Column  int      `json:"column"`
	Pressed []string `json:"pressed"` // what must be held for it, in the order of the current
	Way     []string `json:"way"`     // of the current: net, key, net, key, … net
	OnWay   bool     `json:"on_way"`  // it is of the chord itself, and reads before it is pressed
	Doubt   bool     `json:"doubt"`   // its line is then neither low nor high for certain
}

// A Level is what a key reads as that nobody holds.
type Level int

// The levels, as a judge tells them.
const (
	Apart Level = iota // as not pressed
	Doubt              // neither for certain
	Joins              // as pressed
)

// A Judge tells what a key reads as while only the given ones are held.
type Judge func(pressed []string, key string) Level

// Of works out what is read while the keys of c are held. Names that are no keys of r are ignored. Without
// a judge, two diodes or more on the way leave a reading in doubt, and fewer make it sure.
func Of(r *scan.Result, c *panel.Chord, judge Judge) Reading {
	b := benchOf(r)
	b.judge = judge
	h := b.held(c)
	w := b.search(h, nil)
	sets, whole := b.sets(c)
	got := Reading{Keys: b.known(c.All()), Sets: len(sets), Whole: whole && w.whole, Ghosts: []Ghost{}, Diodes: []string{}, Cured: true}
	for _, set := range sets {
		if !slices.ContainsFunc(w.found, func(p path) bool { return within(p.keys, set) }) {
			got.Safe++
		}
	}
	for _, p := range w.found {
		got.Ghosts = append(got.Ghosts, b.ghost(p, got.Keys))
	}
	if len(w.found) > 0 {
		var more []int
		more, got.Cured = b.cure(h, w.found)
		for _, k := range more {
			got.Diodes = append(got.Diodes, b.cells[k].Key)
		}
	}
	return got
}

// ghost writes a path out. With pull-ups the current flows from the row that reads to the column that
// is driven low; with pull-downs the other way.
func (b *bench) ghost(p path, chord []string) Ghost {
	at := b.cells[p.phantom]
	g := Ghost{Key: at.Key, Row: at.Row, Column: at.Column, OnWay: slices.Contains(chord, at.Key), Way: []string{b.name(p.nodes[0])}, Doubt: p.doubt}
	for i, k := range p.keys {
		g.Pressed = append(g.Pressed, b.cells[k].Key)
		g.Way = append(g.Way, b.cells[k].Key, b.name(p.nodes[i+1]))
	}
	if b.result.Active == "high" {
		slices.Reverse(g.Pressed)
		slices.Reverse(g.Way)
	}
	return g
}
