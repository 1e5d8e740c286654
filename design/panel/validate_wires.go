package panel

import (
	"fmt"
	"slices"

	"fascia/design/grid"
	"fascia/design/part"
)

// MaxWireCost bounds each of the maker's own costs, in holes.
const MaxWireCost = 1000

func (p *Panel) validWires() *FileError {
	w := &p.Wires
	if len(w.Locked) > MaxHoles {
		return fault("/wires/locked", "holds more than %d wires", MaxHoles)
	}
	for i := range w.Locked {
		if e := w.Locked[i].valid(fmt.Sprintf("/wires/locked/%d", i)); e != nil {
			return e
		}
	}
	if len(w.KeepOut) > MaxHoles {
		return fault("/wires/keep_out", "holds more than %d holes", MaxHoles)
	}
	for i, f := range w.NoRuns {
		if slices.Contains(w.NoRuns[:i], f) {
			return fault(fmt.Sprintf("/wires/no_runs/%d", i), "%s stands twice", f)
		}
	}
	if w.Ends != 0 && (w.Ends < UsualEnds || w.Ends > MostEnds) {
		return fault("/wires/ends", "must be %d or %d", UsualEnds, MostEnds)
	}
	if c := w.Costs; c != nil {
		for i, v := range []float64{c.Bend, c.Solder, c.Insulated, c.PerHole, c.Through} {
			if !(v >= 0 && v <= MaxWireCost) {
				name := [...]string{"bend", "solder", "insulated", "per_hole", "through"}[i]
				return fault("/wires/costs/"+name, "must be 0 to %d holes", MaxWireCost)
			}
		}
	}
	return p.validNetWishes()
}

func (w *LockedWire) valid(at string) *FileError {
	switch {
	case !slices.Contains([]string{"solder", "bare", "insulated"}, w.Kind):
		return fault(at+"/kind", "%q: write solder, bare or insulated", w.Kind)
	case w.From == w.To:
		return fault(at+"/to", "a wire has two ends")
	case len(w.Path) > MaxMembers:
		return fault(at+"/path", "holds more than %d holes", MaxMembers)
	case len(w.Path) > 0 && w.Kind != "bare":
		return fault(at+"/path", "only a bare run has a path")
	case len(w.Path) > 0 && (w.Path[0] != w.From || w.Path[len(w.Path)-1] != w.To):
		return fault(at+"/path", "must lead from %s to %s", w.From, w.To)
	}
	for i := 1; i < len(w.Path); i++ {
		if step := w.Path[i].Minus(w.Path[i-1]); step == (grid.Offset{}) || step.Cols != 0 && step.Rows != 0 {
			return fault(fmt.Sprintf("%s/path/%d", at, i), "a run goes along a row or a column from bend to bend")
		}
	}
	return validWire(at, w.Colour, w.Gauge)
}

func validWire(at, colour string, gauge int) *FileError {
	if colour != "" && !slices.Contains(Colours, colour) {
		return fault(at+"/colour", "%q is none of %q", colour, Colours)
	}
	if gauge != 0 && !slices.Contains(Gauges, gauge) {
		return fault(at+"/gauge", "%d is none of %d", gauge, Gauges)
	}
	return nil
}

func (p *Panel) validNetWishes() *FileError {
	if len(p.Wires.Nets) > MaxHoles {
		return fault("/wires/nets", "holds more than %d nets", MaxHoles)
	}
	for i, n := range p.Wires.Nets {
		at := fmt.Sprintf("/wires/nets/%d", i)
		if bad := part.CleanText(n.Net, 60); bad != "" || n.Net == "" {
			return fault(at+"/net", "%s", orEmpty(bad))
		}
		if slices.ContainsFunc(p.Wires.Nets[:i], func(o NetWish) bool { return o.Net == n.Net }) {
			return fault(at+"/net", "%s stands twice", n.Net)
		}
		if e := validWire(at, n.Colour, n.Gauge); e != nil {
			return e
		}
	}
	return nil
}
