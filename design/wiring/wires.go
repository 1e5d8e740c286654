package wiring

import (
	"cmp"
	"slices"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// wires turns the layouts into the wire list: leg bridges first, then the wires in order of work.
func (s *search) wires(p *panel.Panel) []Wire {
	var list []Wire
	for i := range s.tasks {
		t := &s.tasks[i]
		for _, pieces := range [][]piece{t.base, s.best[i].pieces} {
			for n := range pieces {
				list = append(list, s.wire(p, t, &pieces[n]))
			}
		}
	}
	order(list)
	return append(legs(p, s.fd, s.tasks, list), list...)
}

// wire dresses one piece.
func (s *search) wire(p *panel.Panel, t *task, pc *piece) Wire {
	fd, net := s.fd, t.net
	w := Wire{Net: net.Name, Class: net.Class, Kind: pc.kind, Face: fd.face(pc.path[0]), Through: pc.through, Locked: pc.locked != nil}
	for _, sp := range pc.path {
		w.Path = append(w.Path, fd.hole(sp))
	}
	if last := len(w.Path) - 1; w.Path[last].Before(w.Path[0]) {
		slices.Reverse(w.Path)
	}
	w.From, w.To = w.Path[0], w.Path[len(w.Path)-1]
	w.Seam = pc.kind == Bare && slices.ContainsFunc(pc.path, func(sp spot) bool { return fd.on[sp/2] != fd.on[pc.path[0]/2] })
	switch {
	case pc.kind == Insulated && pc.locked == nil:
		w.Face = s.faceBetween(pc.path[0], pc.path[1])
		if _, w.Round = fd.insulated(pc.path[0], pc.path[1]); w.Round && !fd.reach[fd.at(w.From, w.Face)] {
			w.Face = w.Face.Other()
		}
	case pc.through:
		w.Face = grid.Back
	}
	gauge := t.wish.Gauge
	if w.Kind == Insulated {
		w.Colour = Colour(p, net)
		if l := pc.locked; l != nil {
			w.Colour = cmp.Or(l.Colour, w.Colour)
			gauge = cmp.Or(l.Gauge, gauge)
		}
	}
	w.measure(cmp.Or(gauge, gaugeNumber(net.Class)))
	return w
}

// faceBetween chooses the face on which an insulated wire lies: the only one on which both its ends
// can be soldered, else the one on which the leads at its ends are, else the back.
func (s *search) faceBetween(a, b spot) grid.Face {
	switch canFront, canBack := s.fd.meet(a, b); {
	case canFront && !canBack:
		return grid.Front
	case canBack && !canFront:
		return grid.Back
	}
	var front, back int
	for _, sp := range []spot{a, b} {
		if !s.fd.oneNode(sp) {
			return s.fd.face(sp)
		}
		for _, face := range []spot{sp &^ 1, sp | 1} {
			board := s.fd.boardOf(face)
			if !board.HasCopper(s.fd.face(face)) {
				continue
			}
			onlyFace := !board.HasCopper(s.fd.face(face).Other())
			if s.fd.leads[face] > 0 || onlyFace {
				if s.fd.face(face) == grid.Back {
					back++
				} else {
					front++
				}
			}
		}
	}
	if front > 0 && back == 0 {
		return grid.Front
	}
	return grid.Back
}

// classOrder is the order of work: matrix lines, supplies, then signals.
var classOrder = []netlist.Class{netlist.Row, netlist.Column, netlist.Ground, netlist.Supply, netlist.Signal, netlist.Link}

// order sorts wires into the order of work and numbers them from 1: bridges and bare runs first,
// since insulated wires lie over them; by class of net; each net together, nearest the top left first.
//
// Order of assembly: common practice, no source.
func order(list []Wire) {
	firstOf := map[string]int{}
	for i, w := range list {
		if _, ok := firstOf[w.Net]; !ok {
			firstOf[w.Net] = i
		}
	}
	slices.SortStableFunc(list, func(a, b Wire) int {
		return cmp.Or(cmp.Compare(layer(a), layer(b)),
			cmp.Compare(slices.Index(classOrder, a.Class), slices.Index(classOrder, b.Class)),
			cmp.Compare(firstOf[a.Net], firstOf[b.Net]), a.From.Compare(b.From), a.To.Compare(b.To),
			cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Face, b.Face))
	})
	for i := range list {
		list[i].Step = i + 1
	}
}

func layer(w Wire) int {
	if w.Kind == Insulated {
		return 1
	}
	return 0
}
