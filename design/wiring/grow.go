package wiring

import "slices"

// Wire ends on one joint beyond what the maker allows: three when there is no other way, then any
// number, both with a finding.
const (
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
	crowded   spot  // a joint with more wire ends than the maker allows, or nowhere
	bared     bool  // the maker wanted no bare run, but there was no other way
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

	me       int16
	round    bool    // insulated wires may lead round an edge: nothing else is left
	sketch   bool    // other nets' runs may be trespassed on, at a price
	trespass price   // of each hole of such a run
	rent     []price // by class: what it costs to cover it, other nets' runs being no matter; nil when they are
	age      int32   // of the marks below
	markAge  []int32
	mark     []int32 // by class: the group it belongs to, or inTree
	endsAge  []int32
	ends     []int8 // wire ends by joint
	tree     []spot // classes of the tree
	joints   []spot // joints of the tree
	groups   []group
	near     []nearest // by group: the nearest insulated wire from the tree
	missing  int
	out      layout
}

const inTree int32 = -1

// nearest is the cheapest insulated wire between the tree and a group.
type nearest struct {
	cost price // beyondPrice when there is none
	from spot
	to   spot
	upTo int // joints of the tree that have been looked at
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
	g.join(t, start)
	if !g.out.failed && len(g.groups) > len(t.groups) {
		g.prune(t)
	}
	return g.out
}

// join joins the groups at hand, from the one numbered start.
func (g *grower) join(t *task, start int) {
	if len(g.groups) == 0 {
		return
	}
	g.missing = len(g.groups)
	g.enter(start % len(g.groups))
	for limit := g.fd.ends; g.missing > 0; {
		from, to, dear := g.cheapestInsulated(limit)
		met := g.spreadBare(t, limit, dear)
		switch {
		case met != nowhere:
			g.layRun(g.wave.path(met))
		case from != nowhere:
			if !g.mayBare(t) || g.rent != nil || !g.layLanding(from, to) && !g.layLanding(to, from) {
				g.layInsulated(from, to)
			}
		case g.addCrossing():
			continue
		case !g.round:
			g.round = true
			continue
		case !g.mayBare(t):
			g.out.bared = true
			continue
		case limit < crowdedEnds:
			limit = crowdedEnds
			continue
		case limit == crowdedEnds:
			limit = anyEnds
			continue
		default:
			g.out.failed = true
			g.out.price = beyondPrice
			return
		}
		limit = g.fd.ends
	}
}

// mayBare reports whether bare runs may be laid for a net.
func (g *grower) mayBare(t *task) bool { return !t.wish.Insulated || g.out.bared }

// spreadBare spreads a wave, but not for a net that takes no bare run: there it goes as far as solder
// flows, and is followed only when solder will do.
func (g *grower) spreadBare(t *task, ends int8, limit price) spot {
	if g.mayBare(t) {
		return g.spread(ends, limit)
	}
	met := g.spread(ends, min(limit, 2*(perHole+frontStep)))
	if met != nowhere && !g.canSolder(g.wave.path(met)) {
		return nowhere
	}
	return met
}

func (g *grower) begin(i int, t *task, sketch bool) {
	g.me, g.sketch, g.round = int16(i+1), sketch, false
	g.age++
	g.tree, g.joints, g.near = g.tree[:0], g.joints[:0], g.near[:0]
	g.groups = append(g.groups[:0], t.groups...)
	g.out = layout{crowded: nowhere}
	for n, group := range g.groups {
		for _, c := range group.classes {
			g.setMark(c, int32(n))
		}
		g.near = append(g.near, nearest{cost: beyondPrice})
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
	if n > g.fd.ends {
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
