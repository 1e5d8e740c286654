package sheet

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"

	"fascia/design/grid"
	"fascia/design/panel"
)

// Write draws d as v says into w, as one svg element. The same drawing and view give the same
// bytes. The only errors are those of w. Time and size grow with parts and wires, hardly with holes.
func (d Drawing) Write(w io.Writer, v View) error {
	p := pen{classes: v.Style == Screen || v.Style == Bench, coarse: v.Style == Picture}
	if v.Style != Screen {
		p.palette = paletteOf(v.Style)
	}
	switch v.Style {
	case Picture:
		v.Face = grid.Front
	case Bench:
		v.Room = "build"
	}
	s := scene{pen: &p, Drawing: d, View: v, lens: lens{v.Face, Mirror(d.Panel)}}
	s.routes = s.laidRoutes()
	s.cells = s.readCells()
	s.window = s.visible()
	s.draw()
	_, err := w.Write(append(p.out, '\n'))
	return err
}

// A scene is one drawing under way.
type scene struct {
	*pen
	Drawing
	View
	lens
	window grid.Rect            // the part of the sheet that is shown
	cells  map[string]string    // in the Scan room: where each key is read
	routes map[int][]grid.Point // how each insulated wire runs on the board, by its index
}

// Room for labels round the boards, in millimetres.
const (
	labelRoom   = 3.2
	pictureRoom = 2
)

// visible is the viewBox.
func (s *scene) visible() grid.Rect {
	switch s.Style {
	case Picture:
		return shaped(s.extent(s.Panel, pictureRoom), 4, 3)
	case Print:
		return s.paper()
	case Bench:
		if len(s.Holes) > 0 {
			return s.closeUp()
		}
	}
	return s.withNames(s.extent(s.Panel, labelRoom))
}

// shaped grows r to the proportion of width to height, its middle staying.
func shaped(r grid.Rect, width, height grid.Millimetre) grid.Rect {
	c, w, h := r.Centre(), r.Width(), r.Height()
	if w*height < h*width {
		w = h * width / height
	} else {
		h = w * height / width
	}
	return grid.RectOf(grid.Point{X: c.X - w/2, Y: c.Y - h/2}, grid.Point{X: c.X + w/2, Y: c.Y + h/2})
}

func (s *scene) draw() {
	s.root()
	if s.Style == Print || s.Style == Bench {
		s.rect(s.window, 0, "paper")
	}
	s.layer(s.drawBoards, "boards")
	s.layer(s.drawCopper, s.copperClasses()...)
	if s.Style != Picture {
		s.layer(s.drawLabels, "labels")
		s.layer(s.drawLegs, "hints")
		s.layer(func() { s.drawParts(s.Face.Other()) }, "others")
	}
	s.layer(func() { s.drawWires(s.Face.Other()) }, "wires")
	if s.wiresOnTop() {
		s.layer(func() { s.drawParts(s.Face) }, "parts")
		s.layer(func() { s.drawWires(s.Face) }, "wires")
		s.drawPinNames()
	} else {
		s.layer(func() { s.drawWires(s.Face) }, "wires")
		s.layer(func() { s.drawParts(s.Face) }, "parts")
	}
	switch s.Style {
	case Screen:
		s.layer(s.drawMarks, "marks")
		s.layer(func() {}, "overlay")
	case Bench:
		s.layer(s.drawRings, "marks")
	case Print:
		s.layer(s.drawPaperMarks, "paper-marks")
	}
	s.newline()
	s.end("svg")
}

// wiresOnTop reports whether the wires are what the drawing is about, so that no part may hide
// those of the face in view; elsewhere they run under the parts, as those of the other face always
// do.
func (s *scene) wiresOnTop() bool {
	return s.Style == Bench || s.Style == Print && s.Room == "wire" || s.Style == Screen && (s.Room == "wire" || s.Room == "build")
}

func (s *scene) root() {
	p := s.pen
	p.tag("svg", "sheet-drawing", class("face-"+s.Face.String()), roomClass(s.Room))
	p.word("xmlns", "http://www.w3.org/2000/svg")
	p.viewBox(s.window)
	if s.Style == Print {
		p.word("width", string(appendMM(nil, s.window.Width()))+"mm")
		p.word("height", string(appendMM(nil, s.window.Height()))+"mm")
	}
	p.word("data-face", s.Face.String())
	mirror := ""
	if s.Face == grid.Back {
		mirror = string(appendMM(nil, s.mirror))
	}
	p.word("data-mirror", mirror)
	p.word("data-pitch", strconv.FormatFloat(float64(grid.Pitch), 'f', -1, 64))
	p.word("text-anchor", "middle")
	p.word("font-family", sansFaces)
	p.open()
	p.title(s.subject())
}

// subject says what is seen, for those who cannot see it.
func (s *scene) subject() string {
	if s.Face == grid.Back {
		return s.Panel.Name + ", back, mirrored as the solderer sees it"
	}
	return s.Panel.Name + ", front"
}

// shows reports whether anything in r, on the sheet, is inside the window.
func (s *scene) shows(r grid.Rect) bool { return r.Grown(2).Overlap(s.window) > 0 }

// readCells says for each key where it is read, in the Scan room: r0 c3 for row 0, column 3, and l0 l3
// where the lines do both.
func (s *scene) readCells() map[string]string {
	cells := map[string]string{}
	if s.Scan == nil || s.Room != "scan" {
		return cells
	}
	form := "r%d c%d"
	if s.Scan.Style == "lines" {
		form = "l%d l%d"
	}
	for _, c := range s.Scan.Cells {
		cells[c.Key] = fmt.Sprintf(form, c.Row, c.Column)
	}
	for _, d := range s.Scan.Direct {
		cells[d.Key] = cmp.Or(d.Via, "own pin")
	}
	return cells
}

// copperClasses keeps the holes in the background at the bench.
func (s *scene) copperClasses() []class {
	if s.Style == Bench {
		return []class{"copper", "backdrop"}
	}
	return []class{"copper"}
}

// partsOn lists the parts mounted on a face, in the panel's order.
func (s *scene) partsOn(face grid.Face) []*panel.Placed {
	var list []*panel.Placed
	for i := range s.Panel.Placed {
		if pl := &s.Panel.Placed[i]; pl.Face == face {
			list = append(list, pl)
		}
	}
	return list
}

// ringed reports whether the bench drawing speaks of h.
func (s *scene) ringed(h grid.Hole) bool { return slices.Contains(s.Holes, h) }
