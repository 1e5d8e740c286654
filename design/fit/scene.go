package fit

import (
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// A scene is a panel with everything in its place, and what the rules have said of it so far.
type scene struct {
	panel    *panel.Panel
	outlines []grid.Rect // of each board, as it is once the seams are filed
	spots    []spot
	result   Result
	refused  map[pair]bool // parts that cannot both stay where they are
}

// A spot is one placed part and its share of the result's lists.
type spot struct {
	placed *panel.Placed
	def    *part.Definition
	leads  []Lead
	bodies []Body
	drills []Drill
}

// A pair is two references, the first in the panel's order first.
type pair struct{ a, b string }

func pairOf(a, b string) pair {
	if panel.CompareRefs(a, b) > 0 {
		a, b = b, a
	}
	return pair{a, b}
}

// lay puts every part into its place.
func lay(p *panel.Panel) *scene {
	s := &scene{panel: p, outlines: filedOutlines(p), refused: map[pair]bool{}}
	defs := map[string]*part.Definition{}
	s.spots = make([]spot, len(p.Placed))
	for i := range p.Placed {
		pl := &p.Placed[i]
		if defs[pl.Part] == nil {
			d := p.Parts[pl.Part]
			defs[pl.Part] = &d
		}
		s.spots[i] = spot{placed: pl, def: defs[pl.Part]}
		s.put(&s.spots[i])
	}
	s.result.index = indexOf(&s.result)
	return s
}

// put appends the part's leads, bodies and drills to the result.
func (s *scene) put(sp *spot) {
	pose, d, ref := sp.placed.Pose(), sp.def, sp.placed.Ref
	r := &s.result
	shift := s.shift(sp)
	leads, bodies, drills := len(r.Leads), len(r.Bodies), len(r.Drills)
	for _, t := range d.Terminals {
		l := Lead{TerminalRef: panel.TerminalRef{Ref: ref, Terminal: t.Name}, Hole: pose.Hole(t.Offset()),
			Face: pose.Face, SolderFace: pose.Face.Other(), Thick: grid.Millimetre(t.Lead)}
		nominal, centre := pose.Point(t.Point()).Add(shift), l.Hole.Centre().Add(shift)
		if b := s.panel.BoardAt(l.Hole); b != nil {
			l.Board = b.ID
			centre = l.Hole.Centre().Add(b.Misfit())
		}
		l.Residual = nominal.Distance(centre)
		r.Leads = append(r.Leads, l)
	}
	for _, b := range d.Bodies {
		r.Bodies = append(r.Bodies, Body{Ref: ref, Face: pose.Side(b.Face), Rect: moved(pose.Rect(b.Rectangle()), shift),
			Height: grid.Millimetre(b.Height), StandOff: grid.Millimetre(b.StandOff), Plugged: b.Plugged, Round: b.Shape == "round"})
	}
	for _, h := range d.Drills {
		at := pose.Point(grid.Point{X: grid.Millimetre(h.MM[0]), Y: grid.Millimetre(h.MM[1])})
		r.Drills = append(r.Drills, Drill{Ref: ref, At: at.Add(shift), Diameter: grid.Millimetre(h.Diameter), Why: h.Why})
	}
	sp.leads, sp.bodies, sp.drills = slices.Clip(r.Leads[leads:]), slices.Clip(r.Bodies[bodies:]), slices.Clip(r.Drills[drills:])
}

// shift is how far the part is moved off the common grid so that its leads suit the holes of the
// boards they are in: with the one board, or half-way between two that miss each other.
func (s *scene) shift(sp *spot) grid.Point {
	var reach grid.Rect
	first := true
	for _, t := range sp.def.Terminals {
		b := s.panel.BoardAt(sp.placed.Pose().Hole(t.Offset()))
		if b == nil {
			continue
		}
		m := b.Misfit()
		if first {
			reach, first = grid.Rect{Min: m, Max: m}, false
		}
		reach = reach.Union(grid.Rect{Min: m, Max: m})
	}
	return reach.Centre()
}

func moved(r grid.Rect, by grid.Point) grid.Rect {
	return grid.Rect{Min: r.Min.Add(by), Max: r.Max.Add(by)}
}

// say adds a finding. Holes that lie outside the grid have no name and are left out of where.
func (s *scene) say(severity finding.Severity, code string, where finding.Where, text, fix string) {
	where.Holes = slices.DeleteFunc(slices.Clone(where.Holes), func(h grid.Hole) bool { return !h.Valid() })
	if len(where.Holes) == 0 {
		where.Holes = nil
	}
	s.result.Findings = append(s.result.Findings,
		finding.Finding{Severity: severity, Code: code, Where: where, Text: text, Fix: fix})
}

// distinct returns the holes in order, each once.
func distinct(holes []grid.Hole) []grid.Hole {
	holes = slices.Clone(holes)
	slices.SortFunc(holes, grid.Hole.Compare)
	return slices.Compact(holes)
}

// holeNames writes holes as a sentence does.
func holeNames(holes []grid.Hole) string {
	names := make([]string, len(holes))
	for i, h := range holes {
		names[i] = h.String()
	}
	return finding.Names(names)
}
