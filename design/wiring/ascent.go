package wiring

import (
	"slices"

	"fascia/design/grid"
)

// An ascent finds how little a net can cost alone on its boards, other nets' leads and all bodies in
// its way. Its graph has a node for each piece of copper and one for the air over each hole, in which
// insulated wires run: half of the price of one wire up, what a hole of it costs a step, half down. A
// set of nodes that holds some group but not a certain one, the root, must be entered by every wiring; the method
// packs such sets, each with a width, so that no arc is entered for more than it costs. The sum of the
// widths is a bound. Bends count for nothing.
//
// Wong, A dual ascent approach for Steiner tree problems on a directed graph, 1984 (from memory).
type ascent struct {
	fd    *field
	first []int32 // by node: its first arc; one entry more than nodes
	to    []int32
	back  []int32 // by arc: the arc the other way
	price []price // by arc
	rent  []price // by class: what it costs to enter it beside, so that nets share the board
	left  []price // by arc: what is left of its price for the net at hand
	alias []int32 // by node: the node that stands for its group
	seen  []int32 // by node: the number of the search that met it
	round int32
	taken []int32 // by node: the number of the search that took it
	dist  []price
	order []int32
	heap  farHeap
	own   [1]int32
}

// ascentWork is how many nodes may be looked at for one net before the bound is taken as it is.
const ascentWork = 400_000

func newAscent(fd *field) *ascent {
	a := &ascent{fd: fd}
	upInAir := fd.costs.insulated / 2
	sky := skyOver(fd)
	ground := int32(len(fd.class))
	a.alias = make([]int32, int(ground)+len(sky.columns)*len(sky.rows))
	a.seen, a.taken, a.dist = make([]int32, len(a.alias)), make([]int32, len(a.alias)), make([]price, len(a.alias))
	var links []link
	for s := range fd.class {
		for k, n := range fd.next[s][:2] {
			if n != nowhere && fd.open[s] && fd.open[n] && fd.class[s] != fd.class[n] && !(s&1 == 1 && fd.oneNode(spot(s)) && fd.next[s^1][k] != nowhere && fd.open[s^1] && fd.open[n^1]) {
				links = append(links, link{fd.class[s], fd.class[n], perHole})
			}
		}
		if s&1 == 0 && !fd.oneNode(spot(s)) && fd.isFree(spot(s)) {
			links = append(links, link{fd.class[s], fd.class[s|1], fd.costs.through})
		}
		if fd.canon(spot(s)) == spot(s) && fd.joint[s] {
			up := upInAir
			if back := spot(s) | 1; !fd.reach[back] || !fd.oneNode(back) && s&1 == 0 {
				up += onFront / 2 // a wire from here lies on the front, which costs more
			}
			links = append(links, link{fd.class[s], ground + sky.over(fd.hole(spot(s))), up})
		}
	}
	a.setLinks(sky.links(links, ground, fd.costs.farHole))
	return a
}

// A sky is the air over the boards, by the columns and rows in which there are holes.
type sky struct{ columns, rows []int }

func skyOver(fd *field) sky {
	var s sky
	for _, h := range fd.holes {
		s.columns, s.rows = append(s.columns, h.Col), append(s.rows, h.Row)
	}
	slices.Sort(s.columns)
	slices.Sort(s.rows)
	s.columns, s.rows = slices.Compact(s.columns), slices.Compact(s.rows)
	return s
}

// over is the number of the air over a hole.
func (s *sky) over(h grid.Hole) int32 {
	col, _ := slices.BinarySearch(s.columns, h.Col)
	row, _ := slices.BinarySearch(s.rows, h.Row)
	return int32(row*len(s.columns) + col)
}

// links adds the ways through the air, which lead over gaps between boards too.
func (s *sky) links(list []link, first int32, step price) []link {
	for r := range s.rows {
		for c := range s.columns {
			at := first + int32(r*len(s.columns)+c)
			if c > 0 {
				list = append(list, link{at - 1, at, step * price(s.columns[c]-s.columns[c-1])})
			}
			if r > 0 {
				list = append(list, link{at - int32(len(s.columns)), at, step * price(s.rows[r]-s.rows[r-1])})
			}
		}
	}
	return list
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

// bound returns a price below which task me-1 cannot be joined, given who owns what for good. Which
// group is t.root makes a little difference.
func (a *ascent) bound(t *task, me int16, fixed []int16) price {
	a.reset(t)
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

// reset gives every arc its whole price, with the rent of the class that it enters. For a net that
// takes no bare run, the arcs between two classes are out of reach but for links.
func (a *ascent) reset(t *task) {
	copy(a.left, a.price)
	ground := int32(len(a.fd.class))
	for n := range ground {
		rent := a.rentOf(n)
		for e := a.first[n]; e < a.first[n+1]; e++ {
			a.left[a.back[e]] += rent
			if t.wish.Insulated && a.to[e] < ground && a.to[e] != n^1 {
				a.left[a.back[e]] = beyondPrice
			}
		}
	}
}

func (a *ascent) rentOf(n int32) price {
	if int(n) >= len(a.rent) {
		return 0
	}
	return a.rent[n]
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
			b := a.back[e]
			a.left[e], a.left[b] = min(a.left[e], p+a.rentOf(n)), min(a.left[b], p+a.rentOf(m))
		}
	}
}

// pack widens sets round one group after the other, the smallest set first, until all reach the
// root. A set grows by whole distances: all the sets within a distance of the group are packed
// at once, up to the nearest group that is not in them yet.
func (a *ascent) pack(t *task) price {
	root := t.groups[t.root].classes[0]
	size := make([]int, len(t.groups)) // of the set round each group when last looked at; -1 when done
	size[t.root] = -1
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
		width, met := a.walk(t.groups[n].classes[0], root, classes)
		work += len(a.order)
		sum += width
		size[n] = len(a.order)
		if width > 0 {
			a.reduce(width, classes)
		}
		if met == root || met < 0 {
			size[n] = -1
		}
	}
	return sum
}

// walk finds how far a node is from the nearest group that is not at no distance at all, or from the
// root. It returns 0 and the root when that is no distance away, and no node when nothing is there.
// a.order holds the nodes that are nearer, each with its distance in a.dist.
func (a *ascent) walk(at, root int32, classes map[int32][]spot) (width price, met int32) {
	a.round++
	a.order = a.order[:0]
	a.heap = append(a.heap[:0], far{0, at})
	a.seen[at], a.dist[at] = a.round, 0
	for len(a.heap) > 0 {
		f := a.heap.pop()
		if f.dist > a.dist[f.node] || a.taken[f.node] == a.round {
			continue
		}
		a.taken[f.node] = a.round
		group, isGroup := classes[f.node]
		if f.node == root || isGroup && f.dist > 0 {
			return f.dist, f.node
		}
		a.order = append(a.order, f.node)
		if !isGroup {
			a.push(f.node, f.dist)
		}
		for _, c := range group {
			a.push(c, f.dist)
		}
	}
	return 0, -1
}

// push offers the tails of the arcs into node n.
func (a *ascent) push(n int32, dist price) {
	for e := a.first[n]; e < a.first[n+1]; e++ {
		tail := a.alias[a.to[e]]
		if tail < 0 {
			continue
		}
		d := dist + a.left[a.back[e]]
		if a.seen[tail] == a.round && a.dist[tail] <= d {
			continue
		}
		a.seen[tail], a.dist[tail] = a.round, d
		a.heap.push(far{d, tail})
	}
}

// reduce takes from every arc what the sets of the last walk use of it.
func (a *ascent) reduce(width price, classes map[int32][]spot) {
	for _, n := range a.order {
		into := a.own[:1]
		into[0] = n
		if group, ok := classes[n]; ok {
			into = group
		}
		for _, c := range into {
			for e := a.first[c]; e < a.first[c+1]; e++ {
				tail := a.alias[a.to[e]]
				if tail < 0 || tail == n {
					continue
				}
				reach := width
				if a.taken[tail] == a.round {
					reach = min(width, a.dist[tail])
				}
				if used := reach - a.dist[n]; used > 0 {
					a.left[a.back[e]] -= used
				}
			}
		}
	}
}

// A far is a node and how far it is.
type far struct {
	dist price
	node int32
}

// A farHeap gives the nearest first.
type farHeap []far

func (h *farHeap) push(f far) {
	q := append(*h, f)
	i := len(q) - 1
	for i > 0 && q[(i-1)/2].dist > f.dist {
		q[i] = q[(i-1)/2]
		i = (i - 1) / 2
	}
	q[i] = f
	*h = q
}

func (h *farHeap) pop() far {
	q := *h
	top, last := q[0], q[len(q)-1]
	q = q[:len(q)-1]
	i := 0
	for 2*i+1 < len(q) {
		k := 2*i + 1
		if k+1 < len(q) && q[k+1].dist < q[k].dist {
			k++
		}
		if q[k].dist >= last.dist {
			break
		}
		q[i] = q[k]
		i = k
	}
	if len(q) > 0 {
		q[i] = last
	}
	*h = q
	return top
}
