package wiring

import "fascia/design/grid"

// An ascent finds how little a net can cost alone on its boards, other nets' leads and all bodies in
// its way. Its graph has a node for each piece of copper and one for the air over each hole, in which
// insulated wires run: half of the price of one wire up, what a hole of it costs a step, half down. A
// set of nodes that holds some group but not the first must be entered by every wiring; the method
// packs such sets, each with a width, so that no arc is entered for more than it costs. The sum of the
// widths is a bound. Bends count for nothing.
//
// Wong, A dual ascent approach for Steiner tree problems on a directed graph, 1984 (from memory).
type ascent struct {
	fd    *field
	first []int32 // by node: its first arc; one entry more than nodes
	to    []int32
	back  []int32 // by arc: the arc the other way
	price []price
	left  []price // by arc: what is left of its price for the net at hand
	alias []int32 // by node: the node that stands for its group
	seen  []int32 // by node: the number of the search that met it
	round int32
	queue []int32
}

// ascentWork is how many nodes may be looked at for one net before the bound is taken as it is.
const ascentWork = 60_000

func newAscent(fd *field) *ascent {
	a := &ascent{fd: fd}
	upInAir, stepInAir := fd.costs.insulated/2, fd.costs.farHole
	ground := len(fd.class)
	a.alias = make([]int32, ground+len(fd.holes)+1)
	a.seen = make([]int32, len(a.alias))
	hub := int32(len(a.alias) - 1) // over the gaps between boards
	var links []link
	for s := range fd.class {
		for k, n := range fd.next[s][:2] {
			if n != nowhere && fd.open[s] && fd.open[n] && fd.class[s] != fd.class[n] && !(s&1 == 1 && fd.oneNode(spot(s)) && fd.next[s^1][k] != nowhere) {
				links = append(links, link{fd.class[s], fd.class[n], perHole})
			}
		}
		if s&1 == 0 && !fd.oneNode(spot(s)) && fd.isFree(spot(s)) {
			links = append(links, link{fd.class[s], fd.class[s|1], fd.costs.through})
		}
		if fd.canon(spot(s)) == spot(s) {
			links = append(links, link{fd.class[s], int32(ground + s/2), upInAir})
		}
	}
	for c, h := range fd.holes {
		edge := false
		for k, o := range steps {
			n := fd.at(h.Add(o), grid.Front)
			edge = edge || n == nowhere
			if n != nowhere && k < 2 {
				links = append(links, link{int32(ground + c), int32(ground) + n/2, stepInAir})
			}
		}
		if edge && len(fd.boards) > 1 {
			links = append(links, link{int32(ground + c), hub, stepInAir / 2})
		}
	}
	a.setLinks(links)
	return a
}

// A link is a pair of arcs.
type link struct {
	a, b int32
	cost price
}

func (a *ascent) setLinks(links []link) {
	a.first = make([]int32, len(a.alias)+1)
	for _, l := range links {
		a.first[l.a+1]++
		a.first[l.b+1]++
	}
	for i := 1; i < len(a.first); i++ {
		a.first[i] += a.first[i-1]
	}
	next := make([]int32, len(a.alias))
	copy(next, a.first)
	a.to, a.back = make([]int32, 2*len(links)), make([]int32, 2*len(links))
	a.price, a.left = make([]price, 2*len(links)), make([]price, 2*len(links))
	for _, l := range links {
		i, j := next[l.a], next[l.b]
		next[l.a]++
		next[l.b]++
		a.to[i], a.to[j], a.back[i], a.back[j] = l.b, l.a, j, i
		a.price[i], a.price[j] = l.cost, l.cost
	}
}

// bound returns a price below which task me-1 cannot be joined, given who owns what for good.
func (a *ascent) bound(t *task, me int16, fixed []int16) price {
	copy(a.left, a.price)
	for i := range a.alias {
		a.alias[i] = int32(i)
		if i < len(fixed) && fixed[i] != nobody && fixed[i] != me {
			a.alias[i] = -1
		}
	}
	for _, g := range t.groups {
		for _, c := range g.classes {
			a.alias[c] = g.classes[0]
		}
	}
	a.cheapenSolder(t, me, fixed)
	return a.pack(t)
}

// cheapenSolder sets the price of the steps between two groups' pads that solder alone may join.
func (a *ascent) cheapenSolder(t *task, me int16, fixed []int16) {
	fd := a.fd
	for _, g := range t.groups {
		for _, c := range g.classes {
			for _, s := range fd.members(c) {
				for k, n := range fd.next[s] {
					if n == nowhere {
						continue
					}
					if fixed[fd.class[n]] == me {
						a.setPrice(c, fd.class[n], fd.costs.bridge)
					} else if m := fd.next[n][k]; m != nowhere && fixed[fd.class[n]] == nobody && fixed[fd.class[m]] == me {
						a.setPrice(c, fd.class[n], fd.costs.bridge)
						a.setPrice(fd.class[n], fd.class[m], fd.costs.bridge)
					}
				}
			}
		}
	}
}

func (a *ascent) setPrice(m, n int32, p price) {
	for e := a.first[m]; e < a.first[m+1]; e++ {
		if a.to[e] == n {
			a.left[e], a.left[a.back[e]] = min(a.left[e], p), min(a.left[a.back[e]], p)
		}
	}
}

// pack widens sets round one group after the other, the smallest set first, until all reach the
// first group.
func (a *ascent) pack(t *task) price {
	root := t.groups[0].classes[0]
	size := make([]int, len(t.groups)) // of the set round each group when last looked at; -1 when done
	size[0] = -1
	classes := map[int32][]spot{}
	for _, g := range t.groups {
		classes[g.classes[0]] = g.classes
	}
	var sum price
	for work := 0; work < ascentWork; {
		n := -1
		for i, s := range size {
			if s >= 0 && (n < 0 || s < size[n]) {
				n = i
			}
		}
		if n < 0 {
			break
		}
		entering, width := a.set(t.groups[n].classes[0], root, classes)
		work += len(a.queue)
		if entering == nil {
			size[n] = -1
			continue
		}
		size[n] = len(a.queue)
		for _, e := range entering {
			a.left[e] -= width
		}
		sum += width
	}
	return sum
}

// set gathers the nodes from which node at is reached for nothing. It returns the arcs that enter
// them and the least that is left of any; nil when the root is among them, or nothing enters.
func (a *ascent) set(at, root int32, classes map[int32][]spot) (entering []int32, width price) {
	a.round++
	a.queue = append(a.queue[:0], at)
	a.seen[at] = a.round
	for i := 0; i < len(a.queue); i++ {
		n := a.queue[i]
		if n == root {
			return nil, 0
		}
		if group, ok := classes[n]; ok {
			for _, c := range group {
				entering = a.enter(c, entering)
			}
			continue
		}
		entering = a.enter(n, entering)
	}
	kept := entering[:0]
	width = beyondPrice
	for _, e := range entering {
		if tail := a.alias[a.to[a.back[e]]]; a.seen[tail] != a.round { // its tail did not come in later
			kept = append(kept, e)
			width = min(width, a.left[e])
		}
	}
	if len(kept) == 0 {
		return nil, 0
	}
	return kept, width
}

// enter looks at the arcs into node n. Those that cost nothing any more bring in their tails.
func (a *ascent) enter(n int32, entering []int32) []int32 {
	for e := a.first[n]; e < a.first[n+1]; e++ {
		tail := a.alias[a.to[e]]
		if tail < 0 || a.seen[tail] == a.round {
			continue
		}
		if a.left[a.back[e]] > 0 {
			entering = append(entering, a.back[e])
			continue
		}
		a.seen[tail] = a.round
		a.queue = append(a.queue, tail)
	}
	return entering
}
