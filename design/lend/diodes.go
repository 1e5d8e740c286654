// Package lend proposes places for parts that a plan asks for and the panel lacks. What it returns
// is an edit for the maker to take or leave; it decides nothing by itself.
package lend

import (
	"cmp"
	"fmt"
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"

	"github.com/go-json-experiment/json/jsontext"
)

// usualDiode is what is proposed where the panel has no diode yet.
const usualDiode = "diode-1n4148"

// mostAway is how many holes a diode may lie from the key that it serves.
const mostAway = 12

// Diodes proposes a place near each key that wants a diode and has none, as one edit. It returns
// nil when no key lacks one, or when there is no room for any.
func Diodes(p *panel.Panel, f *fit.Result, s *scan.Result, n *netlist.Result) *panel.Together {
	lacking := lackingKeys(p, s, n)
	if len(lacking) == 0 {
		return nil
	}
	id, d := diodeOf(p)
	r := newRoom(p, f)
	edit := &panel.Together{}
	refs := refsOf(p, d.Prefix)
	for _, k := range lacking {
		pose, ok := r.near(legOf(p, k), &d)
		if !ok {
			continue
		}
		ref := refs()
		r.take(ref, pose, &d)
		text, err := panel.EncodeEdit(&panel.Place{Placed: panel.Placed{Ref: ref, Part: id, At: pose.At, Turn: pose.Turn, Face: pose.Face}})
		if err != nil {
			panic(fmt.Sprintf("lend: a placement cannot be written: %v", err))
		}
		edit.Edits = append(edit.Edits, jsontext.Value(text))
	}
	switch len(edit.Edits) {
	case 0:
		return nil
	case 1:
		edit.What = "Place 1 diode"
	default:
		edit.What = fmt.Sprintf("Place %d diodes", len(edit.Edits))
	}
	return edit
}

func lackingKeys(p *panel.Panel, s *scan.Result, n *netlist.Result) []panel.KeyRef {
	var lacking []panel.KeyRef
	for _, k := range p.Keys() {
		wants := slices.ContainsFunc(s.Cells, func(c scan.Cell) bool { return c.Key == k.ID && c.Diode })
		has := slices.ContainsFunc(n.Pairs, func(pair netlist.Pair) bool { return pair.Of == k.ID && pair.With != "" })
		if wants && !has {
			lacking = append(lacking, k)
		}
	}
	return lacking
}

// diodeOf is the kind of diode that the panel has already, else the usual one.
func diodeOf(p *panel.Panel) (string, part.Definition) {
	if placed := p.OfKind(part.Diode); len(placed) > 0 {
		return placed[0].Part, p.Definition(placed[0])
	}
	if d, ok := p.Parts[usualDiode]; ok {
		return usualDiode, d
	}
	return usualDiode, part.BuiltIn()[usualDiode]
}

// refsOf gives out references that the panel does not use yet.
func refsOf(p *panel.Panel, prefix string) func() string {
	number := 0
	return func() string {
		for {
			number++
			if ref := fmt.Sprintf("%s%d", prefix, number); p.Find(ref) == nil {
				return ref
			}
		}
	}
}

// legOf is the hole of the leg that the diode will be wired to.
func legOf(p *panel.Panel, k panel.KeyRef) grid.Pose {
	pl := p.Find(k.Ref)
	h, _ := p.HoleOf(panel.TerminalRef{Ref: k.Ref, Terminal: k.Contact.Between[1]})
	return grid.Pose{At: h, Face: pl.Face}
}

// near returns the free place whose first lead is nearest to a leg, on the leg's face; ties go to
// the upper left, then to fewer turns.
func (r *room) near(leg grid.Pose, d *part.Definition) (grid.Pose, bool) {
	var places []grid.Pose
	for row := -mostAway; row <= mostAway; row++ {
		for col := -mostAway; col <= mostAway; col++ {
			h := leg.At.Add(grid.Offset{Cols: col, Rows: row})
			for turn := range grid.Turn(4) {
				places = append(places, grid.Pose{At: h, Turn: turn, Face: leg.Face})
			}
		}
	}
	slices.SortStableFunc(places, func(a, b grid.Pose) int {
		return cmp.Or(cmp.Compare(a.At.Steps(leg.At), b.At.Steps(leg.At)), a.At.Compare(b.At), cmp.Compare(a.Turn, b.Turn))
	})
	for _, pose := range places {
		if r.fits(pose, d) {
			return pose, true
		}
	}
	return grid.Pose{}, false
}
