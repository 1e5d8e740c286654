package wiring

import "slices"

// prune takes off what a crossing left over: a link through a hole of which one side leads nowhere,
// and what leads to such a hole alone.
func (g *grower) prune(t *task) {
	for i := 0; i < len(g.out.pieces); i++ {
		pc := g.out.pieces[i]
		rest := g.needed(t, i)
		if len(rest) == len(pc.path) {
			continue
		}
		g.out.price -= pc.price(g.fd)
		if pc.path = rest; len(rest) > 0 {
			g.out.pieces[i].path = rest
			g.out.price += pc.price(g.fd)
		} else {
			g.out.pieces = slices.Delete(g.out.pieces, i, i+1)
		}
		i = -1 // what it hung on may lead nowhere now
	}
	g.out.insulated = 0
	for _, pc := range g.out.pieces {
		if pc.kind == Insulated {
			g.out.insulated++
		}
	}
	g.out.claimed = slices.DeleteFunc(g.out.claimed, func(c spot) bool { return !g.met(t, c, -1) })
}

// needed is the path of piece i without the ends that lead nowhere; nothing when all of it does.
func (g *grower) needed(t *task, i int) []spot {
	pc := &g.out.pieces[i]
	used := func(s spot) bool { return g.isOwn(t, g.fd.class[s]) || g.met(t, g.fd.class[s], i) }
	if pc.through && !used(pc.path[0]^1) {
		return nil
	}
	path := pc.path
	for len(path) > 0 && !used(path[0]) {
		path = path[1:]
	}
	for len(path) > 0 && !used(path[len(path)-1]) {
		path = path[:len(path)-1]
	}
	if len(path) < 2 && !pc.through || len(path) < len(pc.path) && pc.kind != Bare {
		return nil
	}
	return path
}

// isOwn reports whether the net's own leads are on copper c, before any wire is laid.
func (g *grower) isOwn(t *task, c spot) bool {
	return slices.ContainsFunc(t.groups, func(own group) bool { return slices.Contains(own.classes, c) })
}

// met reports whether a piece other than the i-th touches copper c.
func (g *grower) met(t *task, c spot, i int) bool {
	touches := func(pc piece) bool {
		on := func(s spot) bool { return g.fd.class[s] == c }
		return slices.ContainsFunc(pc.path, on) || pc.through && on(pc.path[0]^1)
	}
	for n := range g.out.pieces {
		if n != i && touches(g.out.pieces[n]) {
			return true
		}
	}
	return slices.ContainsFunc(t.base, touches)
}
