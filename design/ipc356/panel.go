package ipc356

import (
	"fmt"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// What perfboard has at each hole, in millimetres: a hole of 1.0 (proto-board maker's documentation)
// and a round pad of 1.8 (common practice, no source).
const (
	holeMM = 1.0
	padMM  = 1.8
)

// Of is the netlist of a panel: a point for each terminal on a board, nets in order, then what is to
// stay open. The origin is the hole furthest to the left and down; where that leaves six digits too
// few, the one in the middle. Mounting holes are left out: they are on no net, and not every reader
// takes them.
//
// A plated hole is reached from both sides. One that is not, with copper on one face, is reached from
// there. With copper on both, each ring is a node of its own, so the point is the ring that its
// terminal is soldered to (mapping of our own: the standard speaks of finished boards).
func Of(p *panel.Panel, n *netlist.Result, u Units) File {
	o := originOf(p, u)
	f := File{Job: Plain(p.Name, mostValue), Code: "00", Title: Plain(p.Name, mostValue), Number: "1", Revision: "-", Units: u,
		Comments: []string{
			"One point a terminal. The primary side is the front, X to the right and Y up.",
			fmt.Sprintf("X and Y count from hole %s. N/C is left open deliberately.", o),
		}}
	for _, net := range n.Nets {
		for _, t := range net.Terminals {
			f.add(p, o, net.Name, t)
		}
	}
	for _, open := range n.Open {
		t := netlist.Terminal{TerminalRef: open.TerminalRef, Hole: open.Hole}
		if pl := p.Find(open.Ref); pl != nil {
			t.Face = pl.Face.Other()
		}
		f.add(p, o, "", t)
	}
	return f
}

// add lists a terminal, or says in a comment that it is off every board.
func (f *File) add(p *panel.Panel, origin grid.Hole, net string, t netlist.Terminal) {
	b := p.BoardAt(t.Hole)
	if b == nil {
		f.Comments = append(f.Comments, Plain(t.TerminalRef.String()+" lies off every board and is left out.", mostComment))
		return
	}
	at, from := t.Hole.Centre().Add(b.Misfit()), origin.Centre()
	f.Points = append(f.Points, Point{
		Kind: Through, Net: net, Ref: t.Ref, Pin: t.Terminal, Hole: f.Units.Counts(holeMM), Plated: b.Plated, Side: sideOf(b, t.Face),
		X: f.Units.Counts(at.X - from.X), Y: f.Units.Counts(from.Y - at.Y), Width: f.Units.Counts(padMM), Mask: MaskNone,
	})
}

// sideOf is the side from which a terminal that is soldered on a face is reached.
func sideOf(b *panel.Board, soldered grid.Face) int {
	front, back := b.HasCopper(grid.Front), b.HasCopper(grid.Back)
	switch {
	case front && back && b.Plated:
		return 0
	case !back || front && soldered == grid.Front:
		return 1
	}
	return 2
}

// originOf is the hole from which a panel's coordinates count.
func originOf(p *panel.Panel, u Units) grid.Hole {
	var least, most grid.Hole
	for i := range p.Boards {
		b := &p.Boards[i]
		end := b.At.Add(grid.Offset{Cols: b.Columns - 1, Rows: b.Rows - 1})
		if i == 0 {
			least, most = b.At, end
		}
		least = grid.Hole{Col: min(least.Col, b.At.Col), Row: min(least.Row, b.At.Row)}
		most = grid.Hole{Col: max(most.Col, end.Col), Row: max(most.Row, end.Row)}
	}
	span := max(most.Col-least.Col, most.Row-least.Row)
	if u.Counts(grid.Pitch*grid.Millimetre(span+10)) > mostCoordinate { // ten holes for what seams shift
		return grid.Hole{Col: (least.Col + most.Col) / 2, Row: (least.Row + most.Row) / 2}
	}
	return grid.Hole{Col: least.Col, Row: most.Row}
}
