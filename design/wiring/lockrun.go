package wiring

import (
	"fmt"
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// lockedSolder are the bridges of a short row of pads from one spot to the other.
func (g *grower) lockedSolder(l *panel.LockedWire, from, to spot) ([]piece, string) {
	o := l.To.Minus(l.From)
	if o.Cols != 0 && o.Rows != 0 || l.From.Steps(l.To) > 2 {
		return nil, "solder joins neighbours, or two pads with one between them in a straight line"
	}
	path, why := g.along([]grid.Hole{l.From, l.To}, l.Face)
	if why != "" {
		return nil, why
	}
	g.out = layout{}
	if !g.linesUp(path) {
		return nil, "with your other bridges, solder would join more than three pads or turn a corner"
	}
	var pieces []piece
	t := &g.tasks[g.me-1]
	for i := range path[1:] {
		if n := t.groupOf(g.fd.class[path[i]]); n >= 0 && n == t.groupOf(g.fd.class[path[i+1]]) {
			continue // another wire of the maker's joins these two already
		}
		pieces = append(pieces, piece{kind: Solder, path: []spot{path[i], path[i+1]}, locked: l})
	}
	return pieces, ""
}

// lockedRun is the way of a bare run: through the bends that the maker gave, or the cheapest.
func (g *grower) lockedRun(l *panel.LockedWire, from, to spot) ([]spot, string) {
	if len(l.Path) > 0 {
		return g.along(l.Path, l.Face)
	}
	for _, s := range []spot{from, to} {
		if why := g.blocked(s); why != "" {
			return nil, why
		}
	}
	if path := g.lead(from, to); path != nil {
		return path, ""
	}
	return nil, "no bare run can get there on this face"
}

// along follows bends hole by hole, or says what is in the way.
func (g *grower) along(bends []grid.Hole, face grid.Face) ([]spot, string) {
	at := bends[0]
	path := []spot{g.fd.at(at, face)}
	for _, bend := range bends[1:] {
		for o := bend.Minus(at); at != bend; {
			step := grid.Offset{Cols: sign(o.Cols), Rows: sign(o.Rows)}
			s := g.fd.at(at.Add(step), face)
			last := path[len(path)-1]
			switch {
			case s == nowhere:
				return nil, fmt.Sprintf("it would leave the board behind %s", at)
			case !g.fd.together(s, last):
				return nil, fmt.Sprintf("no seam joins the boards at %s", at)
			case slices.Contains(path, s):
				return nil, fmt.Sprintf("it comes over %s twice", at.Add(step))
			}
			path, at = append(path, s), at.Add(step)
		}
	}
	for i, s := range path {
		if why := g.blocked(s); why != "" {
			return nil, why
		}
		if i > 0 && g.fd.on[path[i-1]/2] == g.fd.on[s/2] && !slices.Contains(g.fd.next[path[i-1]][:], s) {
			return nil, fmt.Sprintf("a body lies across the way from %s to %s", g.fd.hole(path[i-1]), g.fd.hole(s))
		}
	}
	return path, ""
}

// together reports whether two spots are on one board, or on two that a seam joins: there a run of the
// maker's may bridge it.
func (fd *field) together(s, t spot) bool {
	a, b := fd.boardOf(s), fd.boardOf(t)
	return a == b || a.Seam != nil && a.Seam.Board == b.ID || b.Seam != nil && b.Seam.Board == a.ID
}

func sign(n int) int { return max(-1, min(1, n)) }

// blocked says why bare metal of the net at hand may not lie at s, or "".
func (g *grower) blocked(s spot) string {
	fd := g.fd
	h, face, class := fd.hole(s), fd.face(s), fd.class[s]
	switch o := g.owner[class]; {
	case o == nobody || o == g.me:
	case o == barrier:
		return fmt.Sprintf("it would touch a lead that is to stay open at %s", h)
	case fd.leads[s] == 0 && g.claimedByLock(o, class):
		return fmt.Sprintf("it would cross your own wire of %s at %s", g.tasks[o-1].net.Name, h)
	default:
		return fmt.Sprintf("it would touch %s at %s", g.tasks[o-1].net.Name, h)
	}
	if !fd.pass[s] {
		ref, covered := fd.fit.Covered(h, face, bareRoom)
		switch {
		case slices.Contains(fd.panel.Wires.KeepOut, h):
			return fmt.Sprintf("%s is to stay clear", h)
		case !fd.boardOf(s).HasCopper(face):
			return fmt.Sprintf("%s has no copper on the %s", h, face)
		case covered:
			return fmt.Sprintf("%s lies under the body of %s", h, ref)
		case slices.Contains(fd.boardOf(s).Cuts, h):
			return fmt.Sprintf("the strip is cut at %s", h)
		case fd.leads[s] < 0:
			return fmt.Sprintf("the lead at %s is soldered on the other face", h)
		}
		return fmt.Sprintf("%s has lost its copper", h)
	}
	return ""
}

// claimedByLock reports whether a locked wire of task o-1 covers a class.
func (g *grower) claimedByLock(o int16, class spot) bool {
	return slices.ContainsFunc(g.tasks[o-1].base, func(pc piece) bool {
		return slices.ContainsFunc(pc.path, func(s spot) bool { return g.fd.class[s] == class })
	})
}

// lead returns the cheapest bare run from one spot to another on their face, or nil.
func (g *grower) lead(from, to spot) []spot {
	w, fd := g.wave, g.fd
	w.reset()
	w.offer(from, from, atStart, 0, beyondPrice)
	for s := w.take(); s != nowhere; s = w.take() {
		if s == to {
			return w.path(s)
		}
		for k, n := range fd.next[s] {
			if n == nowhere {
				continue
			}
			if _, ok := g.toll(n); !ok {
				continue
			}
			cost := w.cost[s] + perHole
			if w.way[s] < 4 && w.way[s] != int8(k) {
				cost += fd.costs.waveBend()
			}
			w.offer(n, s, int8(k), cost, beyondPrice)
		}
	}
	return nil
}

// CanLock says why a wire that the maker draws would be refused, beside those that are locked
// already: that it would join two nets, leave the boards, end or lie where no iron or wire gets, or
// cross another wire of the maker's. It returns "" when the wire can be had. A locked wire between
// the same holes on the same face counts as replaced. It takes a few milliseconds.
func CanLock(p *panel.Panel, f *fit.Result, n *netlist.Result, l panel.LockedWire) string {
	return Try(p, f, n, l).Why
}
