// Package lend proposes places for parts that a plan asks for and the panel lacks: diodes of keys,
// LEDs of select lines with their resistors, expanders. What it returns is an edit for the maker to
// take or leave; it decides nothing by itself.
package lend

import (
	"fmt"
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
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
	r := newRoom(p, f)
	id, d := kindOf(p, part.Diode, usualDiode)
	end, _ := d.Terminal("A") // that meets the key
	if s.Active == "high" {
		end, _ = d.Terminal("K")
	}
	placed := 0
	for _, k := range lacking {
		pl := p.Find(k.Ref)
		leg, _ := p.HoleOf(panel.TerminalRef{Ref: k.Ref, Terminal: k.Contact.Between[1]})
		pose, ok := r.nearest(&d, around(leg, mostAway), []grid.Face{pl.Face}, func(pose grid.Pose) int {
			return pose.Hole(end.Offset()).Steps(leg)
		})
		if !ok {
			continue
		}
		r.place(panel.Placed{Part: id}, pose, &d)
		placed++
	}
	if placed == 0 {
		return nil
	}
	return r.together("Place " + count(placed, "diode", "diodes"))
}

func lackingKeys(p *panel.Panel, s *scan.Result, n *netlist.Result) []panel.KeyRef {
	wants := map[string]bool{}
	for _, c := range s.Cells {
		wants[c.Key] = c.Diode
	}
	for _, pair := range n.Pairs {
		if pair.With != "" {
			delete(wants, pair.Of)
		}
	}
	return slices.DeleteFunc(p.Keys(), func(k panel.KeyRef) bool { return !wants[k.ID] })
}

// kindOf is the part of a kind that the panel has placed already, else the usual one.
func kindOf(p *panel.Panel, kind part.Kind, usual string) (string, part.Definition) {
	if placed := p.OfKind(kind); len(placed) > 0 {
		return placed[0].Part, p.Definition(placed[0])
	}
	if d, ok := p.Parts[usual]; ok {
		return usual, d
	}
	return usual, part.BuiltIn()[usual]
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
