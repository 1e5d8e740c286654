package sheet

import (
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/wiring"
)

// drawLegs hints at the bridges that are metal inside a part and need no work.
func (s *scene) drawLegs() {
	if s.Wiring == nil || s.Style == Bench {
		return
	}
	for i, w := range s.Wiring.Wires {
		if w.Kind == wiring.Leg {
			s.openWire(i, w, "built")
			s.line(s.hole(w.From), s.hole(w.To), "leg-hint")
			s.end("g")
		}
	}
}

// drawWires draws the wires of a face and, on the face in view, the names of the nets.
func (s *scene) drawWires(face grid.Face) {
	if s.Wiring == nil {
		return
	}
	for i, w := range s.Wiring.Wires {
		if w.Kind != wiring.Leg && w.Face == face && s.drawsWire(w) {
			s.drawWire(i, w)
		}
	}
	if face == s.Face && (s.Style == Screen || s.Style == Print) {
		s.drawTags()
	}
}

// drawsWire leaves out what would only be in the way: on the bench the wires of later steps, and in
// the small picture all of them.
func (s *scene) drawsWire(w wiring.Wire) bool {
	switch s.Style {
	case Bench:
		return (w.Step <= s.Built || w.Step == s.Wire) && s.shows(s.wireBox(w))
	case Picture:
		return false
	}
	return true
}

func (s *scene) wireBox(w wiring.Wire) grid.Rect {
	r := grid.RectOf(s.hole(w.From), s.hole(w.To))
	for _, h := range w.Path {
		r = r.Union(grid.RectOf(s.hole(h), s.hole(h)))
	}
	return r.Grown(grid.Pitch)
}

// openWire starts a wire's group. What is neither built nor the maker's own is pencilled.
func (s *scene) openWire(i int, w wiring.Wire, state class) {
	classes := []class{"wire", wireClass(w.Kind), netClass(w.Class), class("face-" + w.Face.String()), state}
	s.newline()
	s.tag("g", classes...)
	if s.classes {
		s.whole("data-wire", w.Step)
		s.whole("data-index", i)
		s.word("data-net", w.Net)
		s.word("data-face", w.Face.String())
		s.word("data-from", w.From.String())
		s.word("data-to", w.To.String())
	}
	s.open()
	if s.classes {
		s.title(wireSentence(w))
	}
}

// wireSentence says what a wire is: row 0, bare run on the back, C5 to C9.
func wireSentence(w wiring.Wire) string {
	kind := map[wiring.Kind]string{wiring.Leg: "leg bridge", wiring.Solder: "solder bridge", wiring.Bare: "bare run"}[w.Kind]
	if kind == "" {
		kind = "insulated wire " + w.Colour
	}
	return w.Net + ", " + kind + " on the " + w.Face.String() + ", " + w.From.String() + " to " + w.To.String()
}

func (s *scene) state(w wiring.Wire) class {
	switch {
	case s.Style == Bench && w.Step == s.Wire:
		return "lit"
	case s.Style == Bench:
		return "faint"
	case s.Style == Print, w.Step <= s.Built, w.Locked:
		return "built"
	}
	return "pencil"
}

func (s *scene) drawWire(i int, w wiring.Wire) {
	s.openWire(i, w, s.state(w))
	defer s.end("g")
	run := s.run(i, w)
	if w.Face != s.Face {
		s.path(run, "far-wire")
		return
	}
	edge, core := []class{}, []class{}
	if w.Class == netlist.Ground || w.Class == netlist.Supply {
		edge, core = []class{"heavy-edge"}, []class{"heavy-core"}
	}
	switch w.Kind {
	case wiring.Solder:
		s.path(run, "bead-edge")
		s.path(run, "bead")
		s.path(run, "bead-shine")
	case wiring.Bare:
		s.path(run, append(edge, "bare-edge")...)
		s.path(run, append(core, "bare-metal")...)
		s.path(run, append(lineKind(w.Class), "bare-core")...)
	default:
		s.path(run, "insulated-halo")
		s.path(run, append(edge, "insulated-edge")...)
		s.path(run, append(core, "insulated-core", colourClass(w.Colour))...)
		if line := lineKind(w.Class); line != nil {
			s.path(run, append(line, "tracer")...)
		}
		s.wireEnds(i, w)
	}
}

// lineKind is the tracer of a net that tells it from others without colour: dashed for columns,
// dash-dot for signals, dotted for links. Rows are plain; grounds and supplies are heavy.
func lineKind(c netlist.Class) []class {
	switch c {
	case netlist.Column:
		return []class{"tracer-column"}
	case netlist.Signal:
		return []class{"tracer-signal"}
	case netlist.Link:
		return []class{"tracer-link"}
	}
	return nil
}

// run is the line of a wire on the sheet: from hole to hole for bare metal, along its lane with
// rounded corners when insulated.
func (s *scene) run(i int, w wiring.Wire) *trace {
	if route, ok := s.routes[i]; ok {
		points := make([]grid.Point, len(route))
		for j, q := range route {
			points[j] = s.lens.point(q)
		}
		return new(trace).smooth(points, 0.9)
	}
	path := w.Path
	if len(path) < 2 {
		path = []grid.Hole{w.From, w.To}
	}
	t := new(trace)
	for j, h := range corners(path) {
		if j == 0 {
			t.move(s.hole(h))
			continue
		}
		t.line(s.hole(h))
	}
	return t
}

// corners leaves out the holes that a run goes straight through.
func corners(path []grid.Hole) []grid.Hole {
	kept := []grid.Hole{path[0]}
	for i := 1; i < len(path)-1; i++ {
		if path[i].Minus(path[i-1]) != path[i+1].Minus(path[i]) {
			kept = append(kept, path[i])
		}
	}
	return append(kept, path[len(path)-1])
}

// wireEnds draws the stripped tips and writes the colour's letters a little along from each, or
// once in the middle of a wire too short for both.
func (s *scene) wireEnds(i int, w wiring.Wire) {
	route := make([]grid.Point, len(s.routes[i]))
	total := grid.Millimetre(0)
	for j, q := range s.routes[i] {
		route[j] = s.lens.point(q)
		if j > 0 {
			total += route[j].Distance(route[j-1])
		}
	}
	s.circle(route[0], 0.42, "wire-end")
	s.circle(route[len(route)-1], 0.42, "wire-end")
	places := []grid.Millimetre{lettersAt, total - lettersAt}
	if total < 4*lettersAt {
		places = []grid.Millimetre{total / 2}
	}
	for _, at := range places {
		s.text(along(route, at), 0.9, w.Colour, "letters", "detail-near")
	}
}

// lettersAt is how far from its hole a wire carries the letters of its colour, in millimetres.
const lettersAt = 1.35

// along is the point at distance d from the start of a route.
func along(route []grid.Point, d grid.Millimetre) grid.Point {
	for j := 1; j < len(route); j++ {
		leg := route[j].Distance(route[j-1])
		if d <= leg {
			return towards(route[j-1], route[j], d)
		}
		d -= leg
	}
	return route[len(route)-1]
}
