package wiring_test

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/wiring"
)

// A picture is a board drawn hole by hole. A capital letter is a lead of the net of that name,
// soldered on the back; a small letter one soldered on the front; x is a lead that stays open and
// # a hole to be kept clear. Leads are called by their letter and count: A1 is the first A, row by row.
type picture struct {
	board  func(b *panel.Board)
	metal  [][]string // leads that are one metal, such as A1, A2
	locked []panel.LockedWire
	bodies []fit.Body
	rows   []string
}

type drawn struct {
	p    panel.Panel
	fit  fit.Result
	nets netlist.Result
}

func oneFace(b *panel.Board)  { b.Plated, b.Faces = false, panel.BackOnly }
func unplated(b *panel.Board) { b.Plated = false }
func strips(b *panel.Board)   { b.Plated, b.Faces, b.Copper = false, panel.BackOnly, panel.Strips }

func (pic picture) draw() drawn {
	d := drawn{p: panel.New("picture")}
	b := &d.p.Boards[0]
	b.Columns, b.Rows = len(pic.rows[0]), len(pic.rows)
	if pic.board != nil {
		pic.board(b)
	}
	at := map[string]grid.Hole{}
	face := map[string]grid.Face{}
	count := map[string]int{}
	var leads []string
	for row, line := range pic.rows {
		for col, r := range line {
			h := grid.Hole{Col: col, Row: row}
			switch {
			case r == '#':
				d.p.Wires.KeepOut = append(d.p.Wires.KeepOut, h)
			case r != '.':
				letter := strings.ToUpper(string(r))
				count[letter]++
				lead := fmt.Sprintf("%s%d", letter, count[letter])
				leads = append(leads, lead)
				at[lead] = h
				if r >= 'a' && r != 'x' {
					face[lead] = grid.Back
				}
			}
		}
	}
	d.p.Wires.Locked = pic.locked
	done := map[string]bool{}
	for _, lead := range leads {
		set := []string{lead}
		for _, m := range pic.metal {
			if slices.Contains(m, lead) {
				set = m
			}
		}
		if !done[lead] {
			d.addPart(set, at, face)
		}
		for _, l := range set {
			done[l] = true
		}
	}
	d.p.Tidy()
	d.fit = fit.Examine(&d.p)
	if pic.bodies != nil { // put in by hand, with a part for Verify to find them on
		d.addBodies(pic.bodies)
	}
	d.addNets()
	return d
}

// addPart places one part with a terminal for each lead of a set, named like the lead.
func (d *drawn) addPart(set []string, at map[string]grid.Hole, face map[string]grid.Face) {
	first := at[set[0]]
	def := part.Definition{Name: set[0], Kind: part.Other, Prefix: "X"}
	pose := grid.Pose{Face: face[set[0]]}
	for _, lead := range set {
		o := at[lead].Minus(first)
		if pose.Face == grid.Back {
			o.Cols = -o.Cols
		}
		def.Terminals = append(def.Terminals, part.Terminal{Name: lead, At: [2]int{o.Cols, o.Rows}})
	}
	if len(set) > 1 {
		def.Joined = [][]string{set}
	}
	d.p.Parts["part-"+set[0]] = def
	d.p.Placed = append(d.p.Placed, panel.Placed{Ref: set[0], Part: "part-" + set[0], At: first, Face: face[set[0]]})
}

// addBodies places a part without leads on the board for each body.
func (d *drawn) addBodies(bodies []fit.Body) {
	for i, b := range bodies {
		id := fmt.Sprintf("body-%d", i)
		rect := [4]float64{float64(b.Rect.Min.X), float64(b.Rect.Min.Y), float64(b.Rect.Max.X), float64(b.Rect.Max.Y)}
		d.p.Parts[id] = part.Definition{Kind: part.Other, Bodies: []part.Body{{Face: b.Face, Rect: rect, StandOff: float64(b.StandOff)}}}
		d.p.Placed = append(d.p.Placed, panel.Placed{Ref: b.Ref, Part: id})
	}
	d.fit = fit.Examine(&d.p)
}

func (d *drawn) addNets() {
	byNet := map[string][]netlist.Terminal{}
	for i := range d.p.Placed {
		pl := &d.p.Placed[i]
		for _, t := range d.p.Parts[pl.Part].Terminals {
			h := pl.Pose().Hole(t.Offset())
			term := netlist.Terminal{TerminalRef: panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name},
				Hole: h, Face: pl.Face.Other(), OneNode: d.p.BoardAt(h).OneNode()}
			if t.Name[0] == 'X' {
				d.nets.Open = append(d.nets.Open, netlist.Open{TerminalRef: term.TerminalRef, Hole: h, Why: "drawn so"})
				continue
			}
			byNet[t.Name[:1]] = append(byNet[t.Name[:1]], term)
		}
	}
	for c := 'A'; c <= 'Z'; c++ {
		if terms := byNet[string(c)]; len(terms) > 1 {
			slices.SortFunc(terms, func(s, t netlist.Terminal) int { return s.TerminalRef.Compare(t.TerminalRef) })
			d.nets.Nets = append(d.nets.Nets, netlist.Net{Name: string(c), Class: netlist.Signal, Terminals: terms})
		}
	}
}

func (d *drawn) route() wiring.Result { return wiring.Route(&d.p, &d.fit, &d.nets) }

// spell writes a wire list a wire a word group: "bare A A1-D1", with the corners of a bent run.
func spell(wires []wiring.Wire) []string {
	var list []string
	for _, w := range wires {
		kind := string(w.Kind)
		if w.Through {
			kind = "through"
		}
		corners := []string{w.From.String()}
		for i := 1; i+1 < len(w.Path); i++ {
			if w.Path[i].Minus(w.Path[i-1]) != w.Path[i+1].Minus(w.Path[i]) {
				corners = append(corners, w.Path[i].String())
			}
		}
		corners = append(corners, w.To.String())
		if w.Through {
			corners = corners[:1]
		}
		face := ""
		if w.Face == grid.Front {
			face = " front"
		}
		list = append(list, kind+" "+w.Net+" "+strings.Join(corners, "-")+face)
	}
	return list
}
