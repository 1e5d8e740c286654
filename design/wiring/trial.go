package wiring

import (
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// A Trial is how a wire would come out that the maker draws.
type Trial struct {
	Net  string      // that it would be of; "" when an end carries none or the wire would join two
	Path []grid.Hole // every hole that a bare run would cover, else the two ends; nil when it cannot be had
	Why  string      // what is in the way, as by CanLock; "" for nothing
}

// Try lays a wire that the maker draws beside those that are locked already, and says how it would
// run or why it cannot. A locked wire between the same holes on the same face counts as replaced.
func Try(p *panel.Panel, f *fit.Result, n *netlist.Result, l panel.LockedWire) Trial {
	p, _ = withCuts(p, n)
	fd := newField(p, f, n)
	tasks, owner, _ := newTasks(p, fd, n)
	g := newGrower(fd, tasks, owner)
	others := slices.DeleteFunc(slices.Clone(p.Wires.Locked), func(o panel.LockedWire) bool {
		return o.Face == l.Face && (o.From == l.From && o.To == l.To || o.From == l.To && o.To == l.From)
	})
	g.lockWires(others)
	t := Trial{Why: g.lockWire(&l)}
	from, to := fd.at(l.From, l.Face), fd.at(l.To, l.Face)
	if from == nowhere || to == nowhere {
		return t
	}
	if a := g.owner[fd.class[from]]; a > nobody && a == g.owner[fd.class[to]] {
		t.Net = g.tasks[a-1].net.Name
		for _, pc := range g.tasks[a-1].base {
			if pc.locked == &l {
				for _, s := range pc.path {
					t.Path = append(t.Path, fd.hole(s))
				}
			}
		}
	}
	t.Path = slices.Compact(t.Path) // a bridge over three pads is two pieces
	return t
}
