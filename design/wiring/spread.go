package wiring

// cheapestInsulated returns the shortest insulated wire from the tree to a group that it lacks.
func (g *grower) cheapestInsulated(limit int8) (from, to spot, dear price) {
	best := -1
	for n := range g.groups {
		e := &g.near[n]
		if !g.lacks(n) {
			continue
		}
		if limit != g.fd.ends || e.cost < beyondPrice && (g.endsAt(e.from) >= limit || g.endsAt(e.to) >= limit) {
			*e = nearest{cost: beyondPrice}
		}
		g.update(e, n, limit)
		if e.cost < beyondPrice && (best < 0 || e.cost < g.near[best].cost) {
			best = n
		}
	}
	from, to, dear = nowhere, nowhere, beyondPrice
	if best >= 0 {
		e := g.near[best]
		from, to, dear = e.from, e.to, e.cost
	}
	if limit != g.fd.ends { // what was found holds for this limit alone
		for n := range g.near {
			g.near[n] = nearest{cost: beyondPrice}
		}
	}
	return from, to, dear
}

// update looks at the joints that the tree won since the last time.
func (g *grower) update(e *nearest, n int, limit int8) {
	for _, a := range g.joints[e.upTo:] {
		if g.endsAt(a) >= limit {
			continue
		}
		for _, b := range g.groups[n].joints {
			if g.fd.costs.insulatedWire(g.fd.distance(a, b)) >= e.cost || g.endsAt(b) >= limit {
				continue
			}
			if cost, round := g.fd.insulated(a, b); cost < e.cost && (!round || g.round && g.fd.mayRound(a, b)) {
				e.cost, e.from, e.to = cost, a, b
			}
		}
	}
	e.upTo = len(g.joints)
}

// spread sends a wave from the tree and returns where it met a missing group, or nowhere when that
// would cost more than the limit.
func (g *grower) spread(ends int8, limit price) spot {
	w, fd, bend := g.wave, g.fd, g.fd.costs.waveBend()
	w.reset()
	for _, c := range g.tree {
		for _, s := range fd.members(c) {
			if fd.open[s] && g.endsAt(s) < ends {
				w.offer(s, s, atStart, 0, limit)
			}
		}
	}
	for s := w.take(); s != nowhere; s = w.take() {
		class := fd.class[s]
		if m, ok := g.marked(class); ok && m != inTree {
			if g.endsAt(s) < ends {
				return s
			}
			continue
		}
		cost, way := w.cost[s], w.way[s]
		extra := perHole + frontStep*price(1-s&1)
		for k, n := range fd.next[s] {
			if n == nowhere || !fd.open[n] {
				continue
			}
			toll, ok := g.toll(n)
			if !ok {
				continue
			}
			c := cost + extra + toll
			if way < 4 && way != int8(k) {
				c += bend
			}
			w.offer(n, s, int8(k), c, limit)
		}
		g.changeFace(s, limit)
		if members, ok := fd.group[class]; ok && way != byCopper && way != atStart {
			for _, m := range members {
				if fd.open[m] {
					w.offer(m, s, byCopper, cost, limit)
				}
			}
		}
	}
	return nowhere
}

// changeFace offers the other face of the hole of s.
func (g *grower) changeFace(s spot, limit price) {
	fd := g.fd
	if !fd.open[s^1] || g.wave.way[s] == byFace || g.wave.way[s] == atStart && fd.oneNode(s) {
		return
	}
	cost := faceChange
	if !fd.oneNode(s) {
		if !fd.isFree(s) {
			return
		}
		cost = fd.costs.waveThrough()
	}
	if toll, ok := g.toll(s ^ 1); ok {
		g.wave.offer(s^1, s, byFace, g.wave.cost[s]+cost+toll, limit)
	}
}

// toll says what it costs to enter a spot beside the step, and whether the net may at all.
func (g *grower) toll(s spot) (price, bool) {
	class := g.fd.class[s]
	if g.mark[class] == inTree && g.markAge[class] == g.age {
		return 0, false // a run beside the tree's own
	}
	if g.rent != nil {
		return g.rent[class], g.fixed[class] == nobody || g.fixed[class] == g.me
	}
	switch o := g.owner[class]; {
	case o == nobody, o == g.me:
		return 0, true
	case g.sketch && o > nobody && g.fixed[class] == nobody:
		return g.trespass, true
	}
	return 0, false
}
