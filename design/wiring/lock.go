package wiring

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
)

// lockWires takes the wires that the maker wants just so, in order; one whose ends carry no net yet
// waits for those that it leans on. Each must join two parts of one net that are not one conductor yet,
// or lead on from a net to a free hole; any other is left out and named.
func (g *grower) lockWires(locked []panel.LockedWire) []finding.Finding {
	var found []finding.Finding
	waiting := make([]*panel.LockedWire, len(locked))
	for i := range locked {
		waiting[i] = &locked[i]
	}
	for last := false; len(waiting) > 0; {
		var left []*panel.LockedWire
		for _, l := range waiting {
			why := g.lockWire(l)
			switch {
			case why == "":
			case why == noNet && !last:
				left = append(left, l)
			default:
				found = append(found, leftOut(l, why))
			}
		}
		last = len(left) == len(waiting)
		waiting = left
	}
	return found
}

// noNet is why a wire between free holes cannot be had.
const noNet = "neither end carries a net"

func leftOut(l *panel.LockedWire, why string) finding.Finding {
	return finding.Finding{Severity: finding.Mind, Code: "wire-lock-wrong",
		Where: finding.Where{Holes: []grid.Hole{l.From, l.To}},
		Text:  fmt.Sprintf("Your %s wire from %s to %s on the %s is left out: %s.", l.Kind, l.From, l.To, l.Face, why),
		Fix:   "Take the wish away, or give it other holes."}
}

// lockWire takes one wire, or says why not.
func (g *grower) lockWire(l *panel.LockedWire) string {
	fd := g.fd
	from, to := fd.at(l.From, l.Face), fd.at(l.To, l.Face)
	if from == nowhere || to == nowhere {
		return "one end lies off every board"
	}
	a, b := g.owner[fd.class[from]], g.owner[fd.class[to]]
	switch {
	case a == barrier || b == barrier:
		return "one end is a lead that is to stay open"
	case a == nobody && b == nobody:
		return noNet
	case a != nobody && b != nobody && a != b:
		return fmt.Sprintf("it would join %s with %s", g.tasks[a-1].net.Name, g.tasks[b-1].net.Name)
	}
	g.me, g.sketch = max(a, b), false
	t := &g.tasks[g.me-1]
	if t.groupOf(fd.class[from]) == t.groupOf(fd.class[to]) {
		return "its ends are one conductor already"
	}
	pieces, why := g.lockedPieces(l, from, to)
	if why != "" {
		return why
	}
	var covers []spot
	for _, pc := range pieces {
		t.base = append(t.base, pc)
		for _, s := range pc.path {
			g.owner[fd.class[s]], g.fixed[fd.class[s]] = g.me, g.me
		}
		covers = append(covers, pc.path...)
	}
	if a == nobody {
		slices.Reverse(covers) // so that it begins where the net is
	}
	t.merge(fd, covers)
	return ""
}

// lockedPieces are the wires that a wish asks for, or why it cannot be had.
func (g *grower) lockedPieces(l *panel.LockedWire, from, to spot) ([]piece, string) {
	fd := g.fd
	switch Kind(l.Kind) {
	case Solder:
		return g.lockedSolder(l, from, to)
	case Bare:
		path, why := g.lockedRun(l, from, to)
		return []piece{{kind: Bare, path: path, locked: l}}, why
	}
	switch {
	case !fd.joint[fd.canon(from)] || !fd.joint[fd.canon(to)]:
		return nil, "one end takes no wire"
	case !fd.reach[from] || !fd.reach[to]:
		return nil, "one end is covered on this face, so it cannot be soldered there"
	}
	return []piece{{kind: Insulated, path: []spot{from, to}, locked: l}}, ""
}

// groupOf returns the number of the group that holds a class, or -1.
func (t *task) groupOf(class spot) int {
	return slices.IndexFunc(t.groups, func(g group) bool { return slices.Contains(g.classes, class) })
}

// merge makes one group of all groups that a path meets and of what it covers beside.
func (t *task) merge(fd *field, path []spot) {
	into := t.groupOf(fd.class[path[0]])
	for _, s := range path {
		c := fd.class[s]
		switch n := t.groupOf(c); {
		case n == into:
		case n < 0:
			t.groups[into].classes = append(t.groups[into].classes, c)
			t.groups[into].joints = append(t.groups[into].joints, fd.jointsOf(c)...)
		default:
			t.groups[into].classes = append(t.groups[into].classes, t.groups[n].classes...)
			t.groups[into].joints = append(t.groups[into].joints, t.groups[n].joints...)
			t.groups = slices.Delete(t.groups, n, n+1)
			into = t.groupOf(fd.class[path[0]])
		}
	}
}
