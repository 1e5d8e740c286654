package wiring

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// A task is one net to be joined.
type task struct {
	net    *netlist.Net
	wish   panel.NetWish
	groups []group
	base   []piece // wires that the maker wants just so
	bound  price   // no way to join the groups costs less
	root   int     // the group from which the bound is best found
	spread int     // length of a least tree over the groups in a straight-line world
}

// A group is a set of terminals that are one conductor before any wire is laid: by the boards'
// copper, by metal inside parts, or by a wire that the maker locked.
type group struct {
	classes []spot
	joints  []spot // where a wire may end
}

// owners of classes: the number of a task and one more, nobody, or a lead that no net may meet.
const (
	nobody  int16 = 0
	barrier int16 = -1
)

// newTasks finds the groups of every net and who owns which copper.
func newTasks(p *panel.Panel, fd *field, n *netlist.Result) (tasks []task, owner []int16, found []finding.Finding) {
	owner = make([]int16, len(fd.class))
	shorts := shortList{fd: fd, seen: map[spot]bool{}}
	for i := range n.Nets {
		t := task{net: &n.Nets[i], wish: wishOf(p, n.Nets[i].Name)}
		off := t.gather(p, fd)
		for _, g := range t.groups {
			for _, c := range g.classes {
				if owner[c] > nobody && owner[c] != int16(i+1) {
					shorts.add(c, n.Nets[owner[c]-1].Name, t.net.Name)
					continue
				}
				owner[c] = int16(i + 1)
			}
		}
		if len(off) > 0 {
			found = append(found, offBoard(t.net, off))
		}
		tasks = append(tasks, t)
	}
	for _, o := range n.Open {
		for face := grid.Front; face <= grid.Back; face++ {
			if s := fd.at(o.Hole, face); s != nowhere {
				c := fd.class[s]
				if owner[c] == nobody {
					owner[c] = barrier
				} else if owner[c] > nobody {
					shorts.add(c, n.Nets[owner[c]-1].Name, o.TerminalRef.String()+", which is to stay open,")
				}
			}
		}
	}
	fd.closePassing(owner)
	return tasks, owner, append(found, shorts.found...)
}

// closePassing bars the copper that a lead only passes through, on boards whose faces are two nodes:
// whether they touch is anyone's guess.
func (fd *field) closePassing(owner []int16) {
	for s, n := range fd.leads {
		if c := fd.class[s]; n < 0 && !fd.oneNode(spot(s)) && owner[c] == nobody {
			owner[c] = barrier
		}
	}
}

// gather unites the net's terminals by copper and by metal. It returns the terminals that no wire
// can reach, being off every board.
func (t *task) gather(p *panel.Panel, fd *field) (off []netlist.Terminal) {
	var groups []group
	byClass, byMetal := map[spot]int{}, map[panel.TerminalRef]int{} // to a group's number
	into := func(from, to int) {                                    // all of group from goes into group to
		for c, g := range byClass {
			if g == from {
				byClass[c] = to
			}
		}
		for m, g := range byMetal {
			if g == from {
				byMetal[m] = to
			}
		}
		groups[to].classes = append(groups[to].classes, groups[from].classes...)
		groups[from].classes = nil
	}
	for _, term := range t.net.Terminals {
		metal := metalOf(p, term.TerminalRef)
		g, known := byMetal[metal]
		if !known {
			g = len(groups)
			groups = append(groups, group{})
			byMetal[metal] = g
		}
		s := fd.at(term.Hole, term.Face)
		if s == nowhere {
			continue
		}
		class := fd.class[s]
		other, known := byClass[class]
		switch {
		case !known:
			byClass[class] = g
			groups[g].classes = append(groups[g].classes, class)
		case other != g:
			into(max(g, other), min(g, other))
		}
	}
	for _, term := range t.net.Terminals {
		if fd.at(term.Hole, term.Face) == nowhere && len(groups[byMetal[metalOf(p, term.TerminalRef)]].classes) == 0 {
			off = append(off, term)
		}
	}
	for _, g := range groups {
		if len(g.classes) == 0 {
			continue
		}
		for _, c := range g.classes {
			g.joints = append(g.joints, fd.jointsOf(c)...)
		}
		t.groups = append(t.groups, g)
	}
	return off
}

// metalOf names the metal inside a part that a terminal belongs to, by its first terminal.
func metalOf(p *panel.Panel, t panel.TerminalRef) panel.TerminalRef {
	if pl := p.Find(t.Ref); pl != nil {
		d := p.Definition(pl)
		t.Terminal = d.Metal(t.Terminal)[0]
	}
	return t
}

func offBoard(net *netlist.Net, off []netlist.Terminal) finding.Finding {
	var refs []string
	for _, t := range off {
		if !slices.Contains(refs, t.Ref) {
			refs = append(refs, t.Ref)
		}
	}
	return finding.Finding{Severity: finding.Stop, Code: "wire-off-board",
		Where: finding.Where{Refs: refs, Net: net.Name},
		Text:  fmt.Sprintf("%s of %s lies off every board, so no wire of the plan can reach it.", off[0].TerminalRef, net.Name),
		Fix:   fmt.Sprintf("Move %s onto a board.", off[0].Ref)}
}

// A shortList says once for each piece of copper which nets meet on it.
type shortList struct {
	fd    *field
	seen  map[spot]bool
	found []finding.Finding
}

func (l *shortList) add(class spot, one, other string) {
	if l.seen[class] {
		return
	}
	l.seen[class] = true
	what, fix := "one hole", "Move one of the two."
	switch b := l.fd.boardOf(class); {
	case l.fd.group[class] == nil:
	case b.Copper == panel.Strips:
		what, fix = "one strip", "No hole is free between them for a cut: move one of the two."
	default:
		what, fix = "one group of holes", "Move one of the two to another group."
	}
	l.found = append(l.found, finding.Finding{Severity: finding.Stop, Code: "wire-copper-short",
		Where: finding.Where{Holes: []grid.Hole{l.fd.hole(class)}, Net: one},
		Text:  fmt.Sprintf("%s and %s meet on %s of board %s at %s.", one, other, what, l.fd.boardOf(class).ID, l.fd.hole(class)),
		Fix:   fix})
}
