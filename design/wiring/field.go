package wiring

import (
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// A spot is one face of one hole: twice the number of the hole's cell, and one more for the back.
// Where both faces of a hole are one node, the even spot stands for both: see canon.
type spot = int32

const nowhere spot = -1

// bareRoom is what a bare wire needs under a body: 0.5 mm of wire and as much solder.
const bareRoom grid.Millimetre = 1.0

// besideBody is what a bare wire keeps from the side of a body, as fit counts it.
const besideBody grid.Millimetre = 0.3

// A field is what the boards, their copper and the parts on them allow, whatever the nets. Copper
// joins spots into classes; a class goes by the first of its spots.
type field struct {
	panel  *panel.Panel
	fit    *fit.Result
	costs  prices
	ends   int8 // most wire ends in one joint, as a rule
	boards []panel.Board
	single []bool          // of each board: both faces of a hole are one node
	first  []int32         // of each board: its first cell
	holes  []grid.Hole     // by cell
	on     []uint8         // by cell: its board
	class  []spot          // by spot
	group  map[spot][]spot // spots of the classes that are more than one hole
	pass   []bool          // by spot: bare metal may cover it
	open   []bool          // by spot: so it may, and the maker takes bare runs on this face
	reach  []bool          // by spot: the iron gets at a joint here, on this very face
	joint  []bool          // by spot: a wire may end on it
	leads  []int8          // by spot: leads whose joints are made here; -1 when a lead only passes
	next   [][4]spot       // by spot: where a bare run may go on, in the order of steps
}

// steps are the four ways a bare run may go, and the spot beside by them.
var steps = [4]grid.Offset{{Cols: 1}, {Rows: 1}, {Cols: -1}, {Rows: -1}}

func newField(p *panel.Panel, f *fit.Result, n *netlist.Result) *field {
	fd := &field{panel: p, fit: f, costs: pricesOf(&p.Wires), ends: int8(panel.UsualEnds), boards: p.Boards, group: map[spot][]spot{}}
	if p.Wires.Ends > 0 {
		fd.ends = int8(p.Wires.Ends)
	}
	for i := range p.Boards {
		b := &p.Boards[i]
		fd.first = append(fd.first, int32(len(fd.holes)))
		fd.single = append(fd.single, b.OneNode())
		for r := range b.Rows {
			for c := range b.Columns {
				fd.holes = append(fd.holes, b.At.Add(grid.Offset{Cols: c, Rows: r}))
				fd.on = append(fd.on, uint8(i))
			}
		}
	}
	fd.layCopper()
	fd.setLeads(n)
	fd.setOpen(p, f)
	fd.setNext(f)
	return fd
}

// at returns the spot of a hole and face, or nowhere.
func (fd *field) at(h grid.Hole, face grid.Face) spot {
	for i := range fd.boards {
		if b := &fd.boards[i]; b.Holds(h) {
			d := h.Minus(b.At)
			return 2*(fd.first[i]+int32(d.Rows*b.Columns+d.Cols)) + spot(face)
		}
	}
	return nowhere
}

func (fd *field) hole(s spot) grid.Hole       { return fd.holes[s/2] }
func (fd *field) face(s spot) grid.Face       { return grid.Face(s & 1) }
func (fd *field) boardOf(s spot) *panel.Board { return &fd.boards[fd.on[s/2]] }
func (fd *field) oneNode(s spot) bool         { return fd.single[fd.on[s/2]] }
func (fd *field) distance(a, b spot) int      { return fd.hole(a).Steps(fd.hole(b)) }

// canon returns the spot that stands for the joint at s.
func (fd *field) canon(s spot) spot {
	if fd.oneNode(s) {
		return s &^ 1
	}
	return s
}

// setLeads counts the joints of leads, and marks the faces on which a lead only passes.
func (fd *field) setLeads(n *netlist.Result) {
	fd.leads = make([]int8, len(fd.class))
	for _, net := range n.Nets {
		for _, t := range net.Terminals {
			if s := fd.at(t.Hole, t.Face); s != nowhere {
				fd.leads[s] = min(fd.leads[s], 100) + 1
				if fd.leads[s^1] == 0 {
					fd.leads[s^1] = -1
				}
			}
		}
	}
	for _, o := range n.Open {
		for face := grid.Front; face <= grid.Back; face++ {
			if s := fd.at(o.Hole, face); s != nowhere && fd.leads[s] == 0 {
				fd.leads[s] = -1
			}
		}
	}
}

func (fd *field) setOpen(p *panel.Panel, f *fit.Result) {
	for _, list := range []*[]bool{&fd.pass, &fd.open, &fd.reach, &fd.joint} {
		*list = make([]bool, len(fd.class))
	}
	kept := map[grid.Hole]bool{}
	for _, h := range p.Wires.KeepOut {
		kept[h] = true
	}
	cut := map[grid.Hole]bool{}
	for i := range fd.boards {
		if fd.boards[i].Copper == panel.Strips {
			for _, h := range fd.boards[i].Cuts {
				cut[h] = true
			}
		}
	}
	for c, h := range fd.holes {
		_, drilled := f.Drilled(h)
		if kept[h] {
			continue
		}
		whole := !drilled && !cut[h]
		for face := grid.Front; face <= grid.Back; face++ {
			s := spot(2*c) + spot(face)
			_, under := f.Covered(h, face, bareRoom)
			_, hidden := f.Covered(h, face, fit.JointRoom)
			copper := fd.boardOf(s).HasCopper(face)
			fd.pass[s] = whole && copper && !under && fd.leads[s] >= 0
			fd.open[s] = fd.pass[s] && !slices.Contains(p.Wires.NoRuns, face)
			fd.reach[s] = copper && !hidden && !underOwn(f, h, face) && (whole || max(fd.leads[s], fd.leads[s^1]) > 0)
			fd.joint[s] = fd.reach[s] && fd.leads[s] >= 0
		}
		if fd.oneNode(spot(2 * c)) {
			s := spot(2 * c)
			hasLead := max(fd.leads[s], fd.leads[s|1]) > 0
			fd.joint[s] = (fd.reach[s] || fd.reach[s|1]) && (hasLead || fd.leads[s] == 0)
			fd.joint[s|1] = fd.joint[s]
		}
	}
}

// underOwn reports whether the body of the part whose lead is in h lies over h on a face: between a
// board and its own header no iron fits, whatever the stand-off.
func underOwn(f *fit.Result, h grid.Hole, face grid.Face) bool {
	for _, l := range f.LeadAt(h) {
		for i := range f.Bodies {
			if b := &f.Bodies[i]; b.Ref == l.Ref && b.Face == face && !b.Plugged && b.Rect.Contains(h.Centre()) {
				return true
			}
		}
	}
	return false
}

// meet says on which faces an insulated wire may join the joints at a and b: the iron must get at
// both its ends.
func (fd *field) meet(a, b spot) (front, back bool) {
	on := func(s, face spot) bool {
		return fd.reach[s&^1|face] && (fd.oneNode(s) || s&1 == face)
	}
	return on(a, 0) && on(b, 0), on(a, 1) && on(b, 1)
}

// insulated is the price of an insulated wire between two joints; round means that no face has
// both, so that it must lead round an edge of the boards from one face to the other.
func (fd *field) insulated(a, b spot) (cost price, round bool) {
	cost = fd.costs.insulatedWire(fd.distance(a, b))
	switch front, back := fd.meet(a, b); {
	case back:
		return cost, false
	case front:
		return cost + onFront, false
	}
	return cost + roundEdge, true
}

// mayRound reports whether a wire may lead round an edge from a to b: each end is one node on both
// faces and can be soldered on one of them.
func (fd *field) mayRound(a, b spot) bool {
	return fd.oneNode(a) && fd.oneNode(b) && (fd.reach[a] || fd.reach[a^1]) && (fd.reach[b] || fd.reach[b^1])
}

// isFree reports whether nothing is in the hole of s that a through link would meet.
func (fd *field) isFree(s spot) bool {
	return fd.pass[s] && fd.pass[s^1] && fd.leads[s] == 0 && fd.leads[s^1] == 0
}
