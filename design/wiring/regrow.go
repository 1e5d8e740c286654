package wiring

import "slices"

// regrow joins the groups of task i anew, but keeps those of its wires that some group hangs on. What
// leads nowhere then is taken off.
func (g *grower) regrow(i, start int, kept []piece, sketch bool) layout {
	t := &g.tasks[i]
	g.begin(i, t, sketch)
	g.keep(kept)
	g.join(t, start)
	if !g.out.failed {
		g.prune(t)
	}
	return g.out
}

// keep makes one group of the groups that kept wires join.
func (g *grower) keep(kept []piece) {
	groups := len(g.groups)
	up := make([]int, groups+len(kept)) // groups, then pieces: one that it hangs together with
	for n := range up {
		up[n] = n
	}
	find := func(n int) int {
		for up[n] != n {
			n = up[n]
		}
		return n
	}
	pieceAt := map[spot]int{}
	for n := range kept {
		for _, c := range g.fd.touched(&kept[n]) {
			other, known := pieceAt[c]
			if m, ok := g.marked(c); ok {
				other, known = int(m), true
			} else if !known {
				pieceAt[c] = groups + n
			}
			if known {
				if a, b := find(other), find(groups+n); a != b {
					up[max(a, b)] = min(a, b) // a group's number is less than a piece's
				}
			}
		}
	}
	merged := make([]group, groups)
	for n, group := range g.groups {
		root := &merged[find(n)]
		if find(n) == n {
			root.classes, root.joints = slices.Clip(group.classes), slices.Clip(group.joints)
			continue
		}
		root.classes, root.joints = append(root.classes, group.classes...), append(root.joints, group.joints...)
	}
	for n := range kept {
		root := find(groups + n)
		if root >= groups {
			continue
		}
		g.add(kept[n])
		if kept[n].kind == Insulated {
			g.out.insulated++
		}
		for _, c := range g.fd.touched(&kept[n]) {
			if _, own := g.marked(c); own {
				continue
			}
			g.setMark(c, int32(root))
			merged[root].classes = append(merged[root].classes, c)
			merged[root].joints = append(merged[root].joints, g.fd.jointsOf(c)...)
			g.out.claimed = append(g.out.claimed, c)
		}
	}
	g.groups, g.near = g.groups[:0], g.near[:0]
	for n := range merged {
		if find(n) != n {
			continue
		}
		for _, c := range merged[n].classes {
			g.setMark(c, int32(len(g.groups)))
		}
		g.groups = append(g.groups, merged[n])
		g.near = append(g.near, nearest{cost: beyondPrice})
	}
}

// touched lists the classes on which a piece lies or ends, some perhaps twice.
func (fd *field) touched(pc *piece) []spot {
	list := make([]spot, 0, len(pc.path)+1)
	for _, s := range pc.path {
		list = append(list, fd.class[s])
	}
	if pc.through {
		list = append(list, fd.class[pc.path[0]^1])
	}
	return list
}
