package pinning

import (
	"cmp"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
)

// farthest caps a distance, which strange panels could make as long as they like.
const farthest = 2000

// A line is the straight line from a pin to the nearest hole that a signal serves.
type line struct {
	to    grid.Hole
	steps int  // holes along rows and columns, farthest at most
	none  bool // the signal serves nothing that is placed, and is near everywhere
}

// lines gives the line of each signal from each pin. Of several holes as near along rows and columns
// the one nearest as the crow flies counts, then the first.
func (t *task) lines() [][]line {
	table := make([][]line, len(t.signals))
	for s := range t.signals {
		table[s] = make([]line, len(t.pins))
		holes := t.servedHoles(s)
		for i, at := range t.hole {
			if len(holes) == 0 {
				table[s][i] = line{to: at, none: true}
				continue
			}
			nearest := slices.MinFunc(holes, func(a, b grid.Hole) int {
				return cmp.Or(cmp.Compare(at.Steps(a), at.Steps(b)), cmp.Compare(squared(at, a), squared(at, b)))
			})
			table[s][i] = line{to: nearest, steps: min(farthest, at.Steps(nearest))}
		}
	}
	return table
}

// squared is the square of the distance as the crow flies.
func squared(a, b grid.Hole) int {
	columns, rows := a.Col-b.Col, a.Row-b.Row
	return columns*columns + rows*rows
}

// servedHoles lists the holes of a signal's terminals and of what is one metal with them.
func (t *task) servedHoles(s int) (holes []grid.Hole) {
	for _, served := range t.signals[s].Terminals {
		pl := t.panel.Find(served.Ref)
		if pl == nil {
			continue
		}
		d := t.panel.Definition(pl)
		for _, name := range d.Metal(served.Terminal) {
			if h, ok := t.panel.HoleOf(panel.TerminalRef{Ref: served.Ref, Terminal: name}); ok {
				holes = append(holes, h)
			}
		}
	}
	return holes
}
