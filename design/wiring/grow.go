package wiring

import "slices"

// Wire ends on one joint: two as a rule, three when there is no other way, more only with a finding.
const (
	usualEnds   int8 = 2
	crowdedEnds int8 = 3
	anyEnds     int8 = 100
)

// A layout is one way to join a net.
type layout struct {
	pieces    []piece
	claimed   []spot // classes that its runs took, beside the net's own
	price     price
	insulated int
	crossed   []int // other tasks whose runs it trespasses on; only of a sketch
	crowded   spot  // a joint with more than three wire ends, or nowhere
	failed    bool  // some group could not be reached
}

// A grower joins the groups of one net after the other: a tree grows from one group to the nearest
// that it lacks, by the cheaper of a bare run and an insulated wire.
type grower struct {
	fd    *field
	tasks []task
	owner []int16 // of classes, as the nets are laid now
	fixed []int16 // of classes, before any net is laid
	wave  *wave

	me      int16
	sketch  bool  // other nets' runs may be trespassed on, at a price
	age     int32 // of the marks below
	markAge []int32
	mark    []int32 // by class: the group it belongs to, or inTree
	endsAge []int32
	ends    []int8 // wire ends by joint
	tree    []spot // classes of the tree
	joints  []spot // joints of the tree
	groups  []group
	near    []nearest // by group: the nearest insulated wire from the tree
	missing int
	out     layout
}

const inTree int32 = -1

// nearest is the cheapest insulated wire between the tree and a group.
type nearest struct {
	holes int // -1 when there is none
	from  spot
	to    spot
	upTo  int // joints of the tree that have been looked at
}

func newGrower(fd *field, tasks []task, owner []int16) *grower {
	n := len(fd.class)
	return &grower{fd: fd, tasks: tasks, owner: owner, fixed: slices.Clone(owner), wave: newWave(fd),
		markAge: make([]int32, n), mark: make([]int32, n), endsAge: make([]int32, n), ends: make([]int8, n)}
}

// grow joins the groups of task i, from the one numbered start, and changes no owner. As a sketch
// it may lead over the runs of other nets and names them.
func (g *grower) grow(i, start int, sketch bool) layout {
	t := &g.tasks[i]
	g.begin(i, t, sketch)
	if len(g.groups) == 0 {
		return g.out
	}
	g.missing = len(g.groups)
	g.enter(start % len(g.groups))
	for limit := usualEnds; g.missing > 0; {
		from, to, dear := g.cheapestInsulated(limit)
		met := g.spread(limit, dear)
		switch {
		case met != nowhere:
			g.layRun(g.wave.path(met))
		case from != nowhere:
			g.layInsulated(from, to)
		case limit == usualEnds:
			limit = crowdedEnds
			continue
		case g.addThrough():
			continue
		case limit == crowdedEnds:
			limit = anyEnds
			continue
		default:
			g.out.failed = true
			g.out.price = beyondPrice
			return g.out
		}
		limit = usualEnds
	}
	return g.out
}

func (g *grower) begin(i int, t *task, sketch bool) {
	g.me, g.sketch = int16(i+1), sketch
	g.age++
	g.tree, g.joints, g.near = g.tree[:0], g.joints[:0], g.near[:0]
	g.groups = append(g.groups[:0], t.groups...)
	g.out = layout{crowded: nowhere}
	for n, group := range g.groups {
		for _, c := range group.classes {
			g.setMark(c, int32(n))
		}
		g.near = append(g.near, nearest{holes: -1})
	}
	for n := range t.base {
		g.countEnds(&t.base[n])
	}
}

func (g *grower) setMark(class spot, m int32) { g.markAge[class], g.mark[class] = g.age, m }

// marked returns the group that a class belongs to, inTree, or false when it is none of the net's.
func (g *grower) marked(class spot) (int32, bool) {
	return g.mark[class], g.markAge[class] == g.age
}

func (g *grower) endsAt(s spot) int8 {
	c := g.fd.canon(s)
	if g.endsAge[c] != g.age {
		return 0
	}
	return g.ends[c]
}

func (g *grower) addEnd(s spot) {
	c := g.fd.canon(s)
	n := g.endsAt(s) + 1
	g.endsAge[c], g.ends[c] = g.age, n
	if n > crowdedEnds {
		g.out.crowded = c
	}
}

func (g *grower) countEnds(pc *piece) {
	if pc.kind == Solder || pc.through {
		return
	}
	g.addEnd(pc.path[0])
	g.addEnd(pc.path[len(pc.path)-1])
}

// enter takes group n into the tree.
func (g *grower) enter(n int) {
	for _, c := range g.groups[n].classes {
		g.setMark(c, inTree)
		g.tree = append(g.tree, c)
	}
	g.joints = append(g.joints, g.groups[n].joints...)
	g.missing--
}

func (g *grower) lacks(n int) bool {
	m, ok := g.marked(g.groups[n].classes[0])
	return ok && m == int32(n)
}

// add puts a piece into the layout.
func (g *grower) add(pc piece) {
	g.out.price += pc.price(g.fd)
	g.countEnds(&pc)
	g.out.pieces = append(g.out.pieces, pc)
}

// cheapestInsulated returns the shortest insulated wire from the tree to a group that it lacks.
func (g *grower) cheapestInsulated(limit int8) (from, to spot, dear price) {
	best := -1
	for n := range g.groups {
		e := &g.near[n]
		if !g.lacks(n) {
			continue
		}
		if limit != usualEnds || e.holes >= 0 && (g.endsAt(e.from) >= limit || g.endsAt(e.to) >= limit) {
			*e = nearest{holes: -1}
		}
		g.update(e, n, limit)
		if e.holes >= 0 && (best < 0 || e.holes < g.near[best].holes) {
			best = n
		}
	}
	from, to, dear = nowhere, nowhere, beyondPrice
	if best >= 0 {
		e := g.near[best]
		from, to, dear = e.from, e.to, insulatedPrice(e.holes)
	}
	if limit != usualEnds { // what was found holds for this limit alone
		for n := range g.near {
			g.near[n] = nearest{holes: -1}
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
			d := g.fd.distance(a, b)
			if (e.holes < 0 || d < e.holes) && g.endsAt(b) < limit && g.fd.sameSide(a, b) {
				e.holes, e.from, e.to = d, a, b
			}
		}
	}
	e.upTo = len(g.joints)
}

// spread sends a wave from the tree and returns where it met a missing group, or nowhere when that
// would cost more than the limit.
func (g *grower) spread(ends int8, limit price) spot {
	w, fd := g.wave, g.fd
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
			if n == nowhere {
				continue
			}
			toll, ok := g.toll(n)
			if !ok {
				continue
			}
			c := cost + extra + toll
			if way < 4 && way != int8(k) {
				c += perBend
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
		cost = perThrough
	}
	if toll, ok := g.toll(s ^ 1); ok {
		g.wave.offer(s^1, s, byFace, g.wave.cost[s]+cost+toll, limit)
	}
}

// toll says what it costs to enter a spot beside the step, and whether the net may at all.
func (g *grower) toll(s spot) (price, bool) {
	class := g.fd.class[s]
	switch o := g.owner[class]; {
	case o == nobody, o == g.me:
		return 0, true
	case g.sketch && o > nobody && g.fixed[class] == nobody:
		return trespass, true
	}
	return 0, false
}
