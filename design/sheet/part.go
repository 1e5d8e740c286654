package sheet

import (
	"strings"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
)

// A sketch is one part being drawn at its first hole, in sheet millimetres.
type sketch struct {
	*pen
	frame
	pl   *panel.Placed
	def  part.Definition
	main grid.Rect              // the outline of its chief body on the sheet
	body part.Body              // that body, as defined
	pins map[string]pinning.Pin // on the module: the pins in use, by terminal
	late bool                   // the names of pins in use are written later, over the wires

	boards grid.Rect         // the room that the boards take
	cells  map[string]string // in the Scan room: where each key is read, by its id
}

// drawParts draws the parts whose body is on face: inked as seen when that is the face in view,
// as a dashed outline with their solder joints when it is the other one.
func (s *scene) drawParts(face grid.Face) {
	for _, pl := range s.partsOn(face) {
		k := s.sketch(pl)
		if !s.shows(k.reach().moved(s.hole(pl.At))) {
			continue
		}
		s.newline()
		k.start(s.partClasses(pl)...)
		if face != s.Face || s.faint(pl) {
			k.drawFar()
		} else {
			k.drawUnder()
			k.drawFace()
		}
		s.end("g")
	}
}

func (s *scene) sketch(pl *panel.Placed) *sketch {
	k := &sketch{pen: s.pen, frame: frame{s.lens, pl.Pose()}, pl: pl, def: s.Panel.Parts[pl.Part]}
	k.body = chief(k.def)
	k.main = k.box(k.body.Rectangle())
	k.cells = s.cells
	here := s.hole(pl.At)
	k.boards = box(s.area(boardsExtent(s.Panel))).moved(grid.Point{X: -here.X, Y: -here.Y})
	if s.Pins != nil && s.Pins.Module == pl.Ref && s.Style != Picture && s.Style != Bench {
		k.pins = map[string]pinning.Pin{}
		for _, pin := range s.Pins.Pins {
			k.pins[pin.Terminal] = pin
		}
		k.late = s.wiresOnTop()
	}
	return k
}

// partClasses are the classes of a part's group. On the bench only what the step speaks of is lit.
func (s *scene) partClasses(pl *panel.Placed) []class {
	d := s.Panel.Parts[pl.Part]
	list := []class{"part", kindClass(d.Kind), "this-face"}
	if pl.Face != s.Face {
		list[2] = "other-face"
	}
	switch {
	case s.faint(pl):
		list = append(list, "faint")
	case s.Style == Bench:
		list = append(list, "lit")
	}
	return list
}

// faint reports whether a part is only there to find one's way by: at the bench, all that the step
// does not place. It is then no more than an outline, for it may not be on the board yet.
func (s *scene) faint(pl *panel.Placed) bool {
	return s.Style == Bench && (s.Wire != 0 || !s.allRinged(pl))
}

func (s *scene) allRinged(pl *panel.Placed) bool {
	for _, t := range s.Panel.Parts[pl.Part].Terminals {
		if !s.ringed(pl.Pose().Hole(t.Offset())) {
			return false
		}
	}
	return true
}

// chief is the body that a part is known by: the largest on the side it is mounted on. A part
// without one is drawn round its terminals.
func chief(d part.Definition) part.Body {
	var best part.Body
	area := grid.Millimetre(-1)
	for _, b := range d.Bodies {
		if r := b.Rectangle(); b.Face == grid.Front && r.Width()*r.Height() > area {
			best, area = b, r.Width()*r.Height()
		}
	}
	if area >= 0 {
		return best
	}
	r := terminalsBox(d).Grown(1.1)
	best.Rect = [4]float64{float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)}
	return best
}

func terminalsBox(d part.Definition) grid.Rect {
	var r grid.Rect
	for _, t := range d.Terminals {
		at := t.Offset().Point()
		r = r.Union(grid.Rect{Min: at, Max: at})
	}
	return r
}

type box grid.Rect

func (b box) moved(by grid.Point) grid.Rect { return grid.Rect{Min: b.Min.Add(by), Max: b.Max.Add(by)} }

// reach is all that the part covers, leads included.
func (k *sketch) reach() box {
	r := k.box(terminalsBox(k.def)).Grown(0.6)
	for _, b := range k.def.Bodies {
		r = r.Union(k.box(b.Rectangle()))
	}
	return box(r)
}

// shift moves what is drawn from the part's first hole to where that hole lies on the sheet.
func (k *sketch) shift() string {
	at := k.lens.hole(k.pl.At)
	return "translate(" + string(appendMM(nil, at.X)) + " " + string(appendMM(nil, at.Y)) + ")"
}

// start opens the part's group, with all that the page needs to move, name and select it.
func (k *sketch) start(classes ...class) {
	p := k.pen
	p.tag("g", classes...)
	if p.classes {
		p.word("data-ref", k.pl.Ref)
		p.word("data-part", k.pl.Part)
		p.word("data-at", k.pl.At.String())
		p.whole("data-turn", int(k.pl.Turn))
		p.word("data-part-face", k.pl.Face.String())
		p.word("data-name", k.def.Name)
	}
	p.word("transform", k.shift())
	p.open()
	if !p.coarse {
		p.title(sentence(k.pl, k.def))
	}
	if p.classes {
		p.rect(grid.Rect(k.reach()), 0, "hit")
	}
}

// sentence names a placed part: S1, key Frames +, tactile switch at C5.
func sentence(pl *panel.Placed, d part.Definition) string {
	words := []string{pl.Ref}
	if pl.Key != nil && pl.Key.Legend != "" {
		words = append(words, "key "+pl.Key.Legend)
	}
	name := d.Name
	if pl.Value != "" {
		name += ", " + pl.Value
	}
	where := " at " + pl.At.String()
	if pl.Face == grid.Back {
		where += " on the back"
	}
	return strings.Join(append(words, name+where), ", ")
}

// drawUnder draws what lies under the chief body: other bodies on this face, dashed those on the
// other one, and the holes to be drilled.
func (k *sketch) drawUnder() {
	for _, b := range k.def.Bodies {
		r := k.box(b.Rectangle())
		switch {
		case b.Face == grid.Back:
			k.outline(b, r, "far")
		case b.Rect != k.body.Rect && b.Overhang == "":
			k.outline(b, r, "body")
		}
	}
	for _, h := range k.def.Drills {
		k.circle(k.at(grid.Point{X: grid.Millimetre(h.MM[0]), Y: grid.Millimetre(h.MM[1])}), grid.Millimetre(h.Diameter/2), "drill")
	}
}

// outline draws a body as the disc or the rectangle it is.
func (k *sketch) outline(b part.Body, r grid.Rect, classes ...class) {
	if b.Shape == "round" {
		k.circle(r.Centre(), min(r.Width(), r.Height())/2, classes...)
		return
	}
	k.rect(r, min(0.6, r.Width()/6, r.Height()/6), classes...)
}

// drawFar draws a part of the other face: outlines dashed, joints as the solderer meets them.
func (k *sketch) drawFar() {
	if len(k.def.Bodies) == 0 {
		k.outline(k.body, k.main, "far")
	}
	for _, b := range k.def.Bodies {
		k.outline(b, k.box(b.Rectangle()), "far")
	}
	k.joinedBars("bar", "detail-near")
	k.dots("joint", 0.62)
	k.usedNames()
	if k.pl.Key != nil {
		lines, size := fitted(k.pl.Key.Legend, k.main.Width()-1.2, k.main.Height()-2, 1.6)
		k.lettered(k.main.Centre(), lines, size, "legend-far")
	}
	k.refBelow("")
}
