package pinning

import (
	"fascia/design/grid"
	"fascia/design/panel"
)

// farthest caps a distance, which strange panels could make as long as they like.
const farthest = 2000

// distances gives the holes, along rows and columns, from each pin to the nearest hole that each
// signal serves. What serves nothing that is placed is near everywhere.
func (t *task) distances() [][]int {
	table := make([][]int, len(t.signals))
	for s := range t.signals {
		table[s] = make([]int, len(t.pins))
		holes := t.servedHoles(s)
		for i, at := range t.hole {
			nearest := farthest
			for _, h := range holes {
				nearest = min(nearest, at.Steps(h))
			}
			if len(holes) == 0 {
				nearest = 0
			}
			table[s][i] = nearest
		}
	}
	return table
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
