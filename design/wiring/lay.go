package wiring

import (
	"slices"

	"fascia/design/grid"
)

// layInsulated joins two joints by an insulated wire, and the group of the second with the tree.
func (g *grower) layInsulated(from, to spot) {
	g.add(piece{kind: Insulated, path: []spot{from, to}})
	g.out.insulated++
	m, _ := g.marked(g.fd.class[to])
	g.enter(int(m))
}

// layRun turns a path of the wave into bare runs, split where it changes the face or follows the
// board's copper, and takes what it covers and the group at its end into the tree.
func (g *grower) layRun(path []spot) {
	fd := g.fd
	m, _ := g.marked(fd.class[path[len(path)-1]])
	if !g.laySolder(path) {
		first := 0
		for i := 1; i < len(path); i++ {
			way := g.wave.way[path[i]]
			if way < 4 {
				continue
			}
			g.layWire(path[first:i])
			if way == byFace && !fd.oneNode(path[i]) {
				g.add(piece{kind: Bare, through: true, path: []spot{path[i]}})
			}
			first = i
		}
		g.layWire(path[first:])
	}
	for _, s := range path {
		g.claim(s)
	}
	g.enter(int(m))
}

// claim takes the copper at s into the tree, unless it is the net's own, and names the task whose
// run it trespasses on.
func (g *grower) claim(s spot) {
	c := g.fd.class[s]
	if _, ours := g.marked(c); ours {
		return
	}
	g.setMark(c, inTree)
	g.tree = append(g.tree, c)
	g.joints = append(g.joints, g.fd.jointsOf(c)...)
	g.out.claimed = append(g.out.claimed, c)
	if o := g.owner[c]; o > nobody && o != g.me && !slices.Contains(g.out.crossed, int(o-1)) {
		g.out.crossed = append(g.out.crossed, int(o-1))
	}
}

func (g *grower) layWire(path []spot) {
	if len(path) > 1 {
		g.add(piece{kind: Bare, path: slices.Clone(path)})
	}
}

// laySolder joins two leads by solder alone where that can be.
func (g *grower) laySolder(path []spot) bool {
	if !g.canSolder(path) {
		return false
	}
	for i := range path[1:] {
		g.add(piece{kind: Solder, path: []spot{path[i], path[i+1]}})
	}
	return true
}

// canSolder reports whether solder alone joins the ends of a path of the wave: leads whose pads are
// neighbours, or have one free pad between them in a straight line.
func (g *grower) canSolder(path []spot) bool {
	if len(path) < 2 || len(path) > 3 || bends(g.fd, path) > 0 {
		return false
	}
	if g.fixed[g.fd.class[path[0]]] != g.me || g.fixed[g.fd.class[path[len(path)-1]]] != g.me {
		return false
	}
	for _, s := range path[1:] {
		if g.wave.way[s] >= 4 {
			return false
		}
	}
	return g.fd.costs.bridge <= perHole && g.linesUp(path)
}

// linesUp reports whether the bridges of path, with those that touch them already, join at most
// three pads and in a straight line. Solder does not flow round a corner and stay there.
func (g *grower) linesUp(path []spot) bool {
	pads := slices.Clone(path)
	for i := 0; i < len(pads); i++ {
		for _, pieces := range [][]piece{g.tasks[g.me-1].base, g.out.pieces} {
			for n := range pieces {
				if mate := pieces[n].bridged(pads[i]); mate != nowhere && !slices.Contains(pads, mate) {
					pads = append(pads, mate)
				}
			}
		}
	}
	sameRow, sameCol := true, true
	for _, s := range pads {
		sameRow = sameRow && g.fd.hole(s).Row == g.fd.hole(pads[0]).Row
		sameCol = sameCol && g.fd.hole(s).Col == g.fd.hole(pads[0]).Col
	}
	return len(pads) <= 3 && (sameRow || sameCol)
}

// bridged returns the pad that a bridge of solder joins with s, or nowhere.
func (pc *piece) bridged(s spot) spot {
	switch {
	case pc.kind != Solder:
	case pc.path[0] == s:
		return pc.path[1]
	case pc.path[1] == s:
		return pc.path[0]
	}
	return nowhere
}

// addCrossing finds a free hole near both the tree and what it lacks that can be soldered on both
// faces, and makes it one more group to be joined: what can be reached on one face only meets there
// what can be reached on the other. On an unplated board a link goes through the hole. It returns
// false when there is no such hole, or one was added already to no avail.
func (g *grower) addCrossing() bool {
	if len(g.groups) > 2*len(g.tasks[g.me-1].groups) {
		return false
	}
	best, least := nowhere, beyondPrice
	for c := range g.fd.holes {
		s := spot(2 * c)
		if !g.fd.isFree(s) || !g.fd.reach[s] || !g.fd.reach[s|1] || !g.isUnclaimed(s) || !g.isUnclaimed(s|1) {
			continue
		}
		if d := g.detour(s); d < least {
			best, least = s, d
		}
	}
	if best == nowhere {
		return false
	}
	n := len(g.groups)
	sides := []spot{best, best | 1}
	if g.fd.oneNode(best) {
		sides = sides[:1]
	}
	crossing := group{joints: sides}
	for _, s := range sides {
		crossing.classes = append(crossing.classes, g.fd.class[s])
		g.setMark(g.fd.class[s], int32(n))
		g.out.claimed = append(g.out.claimed, g.fd.class[s])
	}
	g.groups = append(g.groups, crossing)
	g.near = append(g.near, nearest{cost: beyondPrice})
	g.missing++
	if !g.fd.oneNode(best) {
		g.add(piece{kind: Bare, through: true, path: []spot{best | spot(grid.Back)}})
	}
	return true
}

func (g *grower) isUnclaimed(s spot) bool {
	c := g.fd.class[s]
	_, ours := g.marked(c)
	return !ours && g.owner[c] == nobody && g.fd.group[c] == nil
}

// detour estimates the way from the tree through the hole of s to the nearest group that the tree
// lacks, each part bare or insulated, whichever is cheaper; beyondPrice when there is none.
func (g *grower) detour(s spot) price {
	toTree, toGroup := beyondPrice, beyondPrice
	part := func(a spot) price {
		d := g.fd.distance(a, s)
		return min(perHole*price(d), g.fd.costs.insulatedWire(d))
	}
	for _, a := range g.joints {
		if g.endsAt(a) < max(crowdedEnds, g.fd.ends) {
			toTree = min(toTree, part(a))
		}
	}
	for n := range g.groups {
		if !g.lacks(n) {
			continue
		}
		for _, b := range g.groups[n].joints {
			toGroup = min(toGroup, part(b))
		}
	}
	return min(toTree+toGroup, beyondPrice)
}
