package sheet

import (
	"fascia/design/grid"
)

// drawDisplay draws the board, the glass, the visible area with a faint picture that shows which
// way up it is, and the names at its header.
func (k *sketch) drawDisplay() {
	k.rect(k.main, 0.8, "mask")
	window, ok := k.windowBox()
	var glass grid.Rect
	if ok {
		glass = k.glassBox(window)
		k.rect(glass, 0.4, "glass")
		k.rect(window, 0.1, "window")
		k.sample()
	}
	k.namesClearOf(glass)
	k.dots("lead", 0.42)
	k.refCorner()
}

// namesClearOf writes the header's names no larger than fits between the pins and the glass; where
// pins come out behind the glass, over it.
func (k *sketch) namesClearOf(glass grid.Rect) {
	for _, t := range k.def.Terminals {
		e, at := k.edgeOf(t), k.lead(t)
		o, room := e.outward(), grid.Millimetre(10)
		near := e.middle(glass)
		if between := at.Minus(near); glass.Width() > 0 {
			room = between.X*o.X + between.Y*o.Y - 1
		}
		size := room / (0.62 * grid.Millimetre(max(len(t.Name), 1)))
		if size < 0.4 {
			k.edgeName(t, 1, "pin-outside")
			continue
		}
		k.edgeName(t, min(size, 1.05), "pin-name")
	}
}

func (k *sketch) windowBox() (grid.Rect, bool) {
	if len(k.body.Window) != 4 {
		return grid.Rect{}, false
	}
	return k.box(k.definedWindow()), true
}

func (k *sketch) definedWindow() grid.Rect {
	w := k.body.Window
	return grid.RectOf(
		grid.Point{X: grid.Millimetre(w[0]), Y: grid.Millimetre(w[1])},
		grid.Point{X: grid.Millimetre(w[2]), Y: grid.Millimetre(w[3])})
}

// glassBox is the glass round the visible area: 1.6 mm more on each side, inside the board.
func (k *sketch) glassBox(window grid.Rect) grid.Rect {
	g, in := window.Grown(1.6), k.main.Grown(-0.3)
	return grid.Rect{
		Min: grid.Point{X: max(g.Min.X, in.Min.X), Y: max(g.Min.Y, in.Min.Y)},
		Max: grid.Point{X: min(g.Max.X, in.Max.X), Y: min(g.Max.Y, in.Max.Y)},
	}
}

// sampleLines are the strokes of the picture on a display: from, to and down, as shares of its
// width and height. A heading, three lines and a gauge.
var sampleLines = [][3]grid.Millimetre{
	{0.08, 0.44, 0.17}, {0.8, 0.92, 0.17},
	{0.08, 0.62, 0.45}, {0.08, 0.78, 0.64}, {0.08, 0.36, 0.83}, {0.5, 0.92, 0.83},
}

// sample draws the picture as the definition has it, so that it turns with the part.
func (k *sketch) sample() {
	w := k.definedWindow()
	t := &trace{}
	for _, l := range sampleLines {
		y := w.Min.Y + w.Height()*l[2]
		t.move(k.at(grid.Point{X: w.Min.X + w.Width()*l[0], Y: y}))
		t.line(k.at(grid.Point{X: w.Min.X + w.Width()*l[1], Y: y}))
	}
	k.path(t, "sample")
}
