package wiring

import (
	"fmt"
	"slices"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// A Cut is a hole at which a strip is to be cut through before any part goes in. No lead is in it.
type Cut struct {
	Board string    `json:"board"`
	Hole  grid.Hole `json:"hole"`
	Why   string    `json:"why"`
}

// withCuts is the panel with the cuts that its strips need beside the maker's own: wherever two leads
// that follow each other on a strip must not be one node, half-way between them. Where no hole is free
// between them there is no cut, and the strip shorts them. The panel itself stays as it is.
func withCuts(p *panel.Panel, n *netlist.Result) (*panel.Panel, []Cut) {
	if !slices.ContainsFunc(p.Boards, func(b panel.Board) bool { return b.Copper == panel.Strips }) {
		return p, nil
	}
	s := stripLeads(p, n)
	var all []Cut
	q := *p
	q.Boards = slices.Clone(p.Boards)
	for i := range q.Boards {
		b := &q.Boards[i]
		if b.Copper != panel.Strips {
			continue
		}
		cuts := s.cuts(b)
		b.Cuts = slices.Clone(b.Cuts)
		for _, c := range cuts {
			b.Cuts = append(b.Cuts, c.Hole)
		}
		all = append(all, cuts...)
	}
	return &q, all
}

// A stripLead is what is in a hole of a strip: a lead of a net, or one that is to stay open.
type stripLead struct {
	name  string
	open  bool
	faces [2]bool // on which its joint is made; both when the hole is one node
}

// holeLeads tells what is in which hole, and where the maker's own wires lie.
type holeLeads struct {
	leads  map[grid.Hole][]stripLead
	wanted map[grid.Hole]bool
}

func stripLeads(p *panel.Panel, n *netlist.Result) holeLeads {
	s := holeLeads{map[grid.Hole][]stripLead{}, map[grid.Hole]bool{}}
	for _, net := range n.Nets {
		for _, t := range net.Terminals {
			l := stripLead{name: net.Name}
			l.faces[t.Face] = true
			if t.OneNode {
				l.faces = [2]bool{true, true}
			}
			s.leads[t.Hole] = append(s.leads[t.Hole], l)
		}
	}
	for _, o := range n.Open {
		s.leads[o.Hole] = append(s.leads[o.Hole],
			stripLead{name: o.TerminalRef.String() + ", which is to stay open", open: true, faces: [2]bool{true, true}})
	}
	for _, l := range p.Wires.Locked {
		for _, h := range append([]grid.Hole{l.From, l.To}, l.Path...) {
			s.wanted[h] = true
		}
	}
	return s
}

// cuts lists the cuts that a board needs, strip by strip.
func (s *holeLeads) cuts(b *panel.Board) []Cut {
	lines, along, step := b.Rows, b.Columns, grid.Offset{Cols: 1}
	if b.Along == "columns" {
		lines, along, step = b.Columns, b.Rows, grid.Offset{Rows: 1}
	}
	own := map[grid.Hole]bool{}
	for _, h := range b.Cuts {
		own[h] = true
	}
	var list []Cut
	for line := range lines {
		at := b.At.Add(grid.Offset{Cols: line * step.Rows, Rows: line * step.Cols})
		var free []grid.Hole // since the lead before
		var before []stripLead
		for range along {
			switch here := s.leads[at]; {
			case own[at]:
				before, free = nil, nil
			case len(here) == 0:
				free = append(free, at)
			default:
				one, other, apart := apart(before, here)
				if hole, ok := s.choose(free); apart && ok {
					list = append(list, Cut{Board: b.ID, Hole: hole, Why: fmt.Sprintf("parts %s from %s", one, other)})
				}
				before, free = here, nil
			}
			at = at.Add(step)
		}
	}
	return list
}

// apart reports whether leads in two holes must not be one node, and names the first that must not.
func apart(before, here []stripLead) (one, other string, yes bool) {
	for _, a := range before {
		for _, b := range here {
			meet := a.faces[0] && b.faces[0] || a.faces[1] && b.faces[1]
			if meet && a.name != b.name && !(a.open && b.open) {
				return a.name, b.name, true
			}
		}
	}
	return "", "", false
}

// choose takes the middle one of free holes, past those that the maker's own wires use if it can.
func (s *holeLeads) choose(free []grid.Hole) (grid.Hole, bool) {
	var fit []grid.Hole
	for _, h := range free {
		if !s.wanted[h] {
			fit = append(fit, h)
		}
	}
	if len(fit) == 0 {
		fit = free // a wish must give way before nets do
	}
	if len(fit) == 0 {
		return grid.Hole{}, false
	}
	return fit[(len(fit)-1)/2], true
}

// WithCuts is a copy of p whose boards hold the cuts of r beside the maker's own, to draw and to build
// from. It is p itself when there are none.
func (r *Result) WithCuts(p *panel.Panel) *panel.Panel {
	if len(r.Cuts) == 0 {
		return p
	}
	q := *p
	q.Boards = slices.Clone(p.Boards)
	for i := range q.Boards {
		b := &q.Boards[i]
		b.Cuts = slices.Clone(b.Cuts)
		for _, c := range r.Cuts {
			if c.Board == b.ID {
				b.Cuts = append(b.Cuts, c.Hole)
			}
		}
	}
	return &q
}
