package wiring

import "slices"

// mostLanding is how many holes a landing may lie from its joint.
const mostLanding = 2

// layLanding joins a and b like layInsulated, but where a can be soldered on the front alone it
// first leads a short bare run to a free hole beside it: from there the wire lies on the back, out
// of the player's way. It returns false when that is impossible or dearer.
func (g *grower) layLanding(a, b spot) bool {
	fd := g.fd
	cost, _ := fd.insulated(a, b)
	if !fd.oneNode(a) || fd.reach[a|1] {
		return false
	}
	var best []spot
	for k := range steps {
		path := []spot{a &^ 1}
		for len(path) <= mostLanding {
			n := fd.next[path[len(path)-1]][k]
			if n == nowhere || !fd.open[n] || !fd.isFree(n) || !g.isUnclaimed(n) {
				break
			}
			path = append(path, n)
			rest, round := fd.insulated(n, b)
			_, back := fd.meet(n, b)
			if all := perHole*price(len(path)-1) + rest; back && !round && all < cost {
				best, cost = slices.Clone(path), all
			}
		}
	}
	if best == nil {
		return false
	}
	g.layWire(best)
	for _, s := range best[1:] {
		g.claim(s)
	}
	g.add(piece{kind: Insulated, path: []spot{fd.canon(best[len(best)-1]), b}})
	g.out.insulated++
	for _, end := range []spot{a, b} {
		if m, ok := g.marked(fd.class[end]); ok && m != inTree {
			g.enter(int(m))
		}
	}
	return true
}
