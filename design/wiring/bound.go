package wiring

import "fascia/design/panel"

// setBounds gives every task a price below which its groups cannot be joined, whatever the other
// nets do: each of k-1 joins costs a bridge; two groups cost a straight or bent run or an insulated
// wire between the nearest of their pads; and the ascent, which takes longer, knows what is in the way.
func (g *grower) setBounds(quick bool) {
	var a *ascent
	if !quick {
		a = newAscent(g.fd)
	}
	for i := range g.tasks {
		t := &g.tasks[i]
		k := len(t.groups)
		if k < 2 {
			continue
		}
		t.bound = g.fd.costs.leastJoin() * price(k-1)
		if !quick {
			t.bound = max(t.bound, a.bound(t, int16(i+1), g.fixed))
		}
		if k == 2 && g.fd.padsOnly() {
			t.bound = max(t.bound, pairBound(g.fd, &t.groups[0], &t.groups[1]))
		}
		t.spread = leastTree(g.fd, t.groups)
	}
}

// padsOnly reports whether no board's copper joins holes.
func (fd *field) padsOnly() bool {
	for i := range fd.boards {
		if fd.boards[i].Copper != panel.Pads {
			return false
		}
	}
	return true
}

// pairBound is the least price of one run or one insulated wire between two groups.
func pairBound(fd *field, a, b *group) price {
	least, far := beyondPrice, fd.costs.farHole
	if !fd.bends() {
		far = min(far, perHole) // part of the way may be a landing
	}
	for _, s := range fd.spotsOf(a) {
		for _, t := range fd.spotsOf(b) {
			o := fd.hole(t).Minus(fd.hole(s))
			d := fd.distance(s, t)
			run := perHole * price(d)
			switch straight := o.Cols == 0 || o.Rows == 0; {
			case !straight && fd.bends():
				run += min(fd.costs.bend, fd.costs.through)
			case !straight:
			case d <= 2:
				run = min(run, fd.costs.bridge*price(d))
			}
			least = min(least, run, fd.costs.insulated+far*price(d))
		}
	}
	return least
}

// bends reports whether every turn of a bare run is a bend. On a plated board a run may change its
// face there instead.
func (fd *field) bends() bool {
	for i := range fd.boards {
		if fd.boards[i].Plated {
			return false
		}
	}
	return true
}

// spotsOf lists the spots of a group's copper, one face of each hole only where they are one node.
func (fd *field) spotsOf(g *group) []spot {
	var list []spot
	for _, c := range g.classes {
		for _, s := range fd.members(c) {
			if fd.canon(s) == s {
				list = append(list, s)
			}
		}
	}
	return list
}

// leastTree returns the length of a least spanning tree over the groups, hole to hole.
func leastTree(fd *field, groups []group) int {
	const far = 1 << 30
	spots := make([][]spot, len(groups))
	reach := make([]int, len(groups))
	for i := range groups {
		spots[i], reach[i] = fd.spotsOf(&groups[i]), far
	}
	in := make([]bool, len(groups))
	at, sum := 0, 0
	for range len(groups) - 1 {
		in[at] = true
		next := -1
		for i := range groups {
			if in[i] {
				continue
			}
			for _, s := range spots[at] {
				for _, t := range spots[i] {
					reach[i] = min(reach[i], fd.distance(s, t))
				}
			}
			if next < 0 || reach[i] < reach[next] {
				next = i
			}
		}
		at = next
		sum += reach[at]
	}
	return sum
}
