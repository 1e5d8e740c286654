package sheet

import (
	"math"

	"fascia/design/grid"
)

// drawEncoder draws the case, its bush, the shaft with its flat, and the two ways it turns.
func (k *sketch) drawEncoder() {
	k.legs()
	k.outline(k.body, k.main, "steel")
	c, r := k.main.Centre(), min(k.main.Width(), k.main.Height())/2
	k.circle(c, r*0.86, "cap")
	k.circle(c, r*0.56, "steel")
	flat := k.at(grid.Point{Y: -1})
	k.path(flattened(c, r*0.44, c.Add(flat)), "cap")
	for _, way := range []float64{1, -1} {
		k.turnArrow(c, r*0.71, way)
	}
	k.edgeNames()
	k.dots("lead", 0.42)
	k.keyLegends(c, r*0.7)
	k.refCorner()
}

// turnArrow is a short arc with a head at its end; way 1 is clockwise on the sheet.
func (k *sketch) turnArrow(c grid.Point, r grid.Millimetre, way float64) {
	from, to := -math.Pi/2+way*0.35, -math.Pi/2+way*1.15
	k.path(arc(c, r, math.Min(from, to), math.Max(from, to)), "line")
	tip := grid.Point{X: c.X + r*grid.Millimetre(math.Cos(to)), Y: c.Y + r*grid.Millimetre(math.Sin(to))}
	run := grid.Point{X: -grid.Millimetre(math.Sin(to) * way), Y: grid.Millimetre(math.Cos(to) * way)}
	x := axisOf(tip, tip.Add(run))
	k.path(new(trace).lines(x.at(0.35, 0), x.at(-0.35, -0.32), x.at(-0.35, 0.32)).closed(), "solid")
}

// keyLegends writes the legends of a part whose push is a key, in the middle of its knob.
func (k *sketch) keyLegends(c grid.Point, width grid.Millimetre) {
	legend := ""
	if k.pl.Key != nil {
		legend = k.pl.Key.Legend
	}
	for _, contact := range k.def.Contacts {
		if key, ok := k.pl.Keys[contact.Name]; ok && legend == "" {
			legend = key.Legend
		}
	}
	if len(k.def.Contacts) == 0 {
		return
	}
	k.keyGroup(k.pl.Ref, func() {
		lines, size := fitted(legend, width, width*0.8, 1.6)
		k.lettered(c, lines, size, "legend")
	})
}

// drawJoystick draws the carrier, the gimbal's dome and the thumb stick with its four ways.
func (k *sketch) drawJoystick() {
	k.outline(k.body, k.main, "mask")
	c, r := k.dome()
	k.circle(c, r, "body")
	k.circle(c, r*0.66, "cap")
	k.circle(c, r*0.4, "soft")
	heads := &trace{}
	for _, way := range []grid.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} {
		x := axisOf(c, c.Add(way))
		heads.lines(x.at(r*0.94, 0), x.at(r*0.78, -r*0.11), x.at(r*0.78, r*0.11)).closed()
	}
	k.path(heads, "solid")
	k.haloedNames()
	k.dots("lead", 0.42)
	k.keyLegends(c, r*0.6)
	k.refCorner()
}

// dome is the round body that the thumb moves, or as large a one as the case takes.
func (k *sketch) dome() (grid.Point, grid.Millimetre) {
	for _, b := range k.def.Bodies {
		if r := k.box(b.Rectangle()); b.Shape == "round" && b.Face == grid.Front {
			return r.Centre(), r.Width() / 2
		}
	}
	return k.main.Centre(), min(k.main.Width(), k.main.Height()) * 0.43
}

// drawSelector draws a slide with its knob at the first terminal's end, or a latching button when
// the case is nearly square.
func (k *sketch) drawSelector() {
	k.legs()
	k.outline(k.body, k.main, "steel")
	k.dots("lead", 0.36)
	w, h := k.main.Width(), k.main.Height()
	c := k.main.Centre()
	if max(w, h) < 1.35*min(w, h) {
		k.rect(k.main.Grown(-min(w, h)*0.2), 0.5, "cap")
		k.rect(k.main.Grown(-min(w, h)*0.3), 0.3, "soft")
	} else {
		x := axisOf(c, grid.Point{X: c.X + 1, Y: c.Y})
		if h > w {
			x = axisOf(c, grid.Point{X: c.X, Y: c.Y + 1})
		}
		long, half := max(w, h)/2, min(w, h)*0.24
		k.rect(x.bar(-long*0.62, long*0.62, half), 0.2, "dark")
		toward := grid.Millimetre(1)
		if d := k.first().Minus(c); d.X*x.along.X+d.Y*x.along.Y < 0 {
			toward = -1
		}
		near, far := toward*long*0.04, toward*long*0.58
		k.rect(x.bar(min(near, far), max(near, far), half), 0.2, "cap")
	}
	k.hidden()
	k.refBelow(k.pl.Value)
}
