package sheet

import (
	"regexp"
	"strings"

	"fascia/design/grid"
	"fascia/design/part"
)

// drawHeader draws the strip with a cell for each pin, and the pins' names across it.
func (k *sketch) drawHeader() {
	k.rect(k.main, 0.3, "body")
	for _, t := range k.def.Terminals {
		at := k.lead(t)
		k.rect(grid.RectOf(at, at).Grown(0.95), 0.25, "soft", "detail-middle")
	}
	k.dots("lead", 0.36)
	outer := k.box(terminalsBox(k.def)).Grown(0.2)
	for _, t := range k.def.Terminals {
		k.beside(t, k.shortWay(outer, t), 1, 1.5, 1.05, t.Name, "pin-outside", "detail-near")
	}
	if k.main.Width() >= k.main.Height() {
		k.text(left.middle(k.main).Add(grid.Point{X: -0.6}), 1.15, k.pl.Ref, "ref", "detail-middle", "finish")
	} else {
		k.text(top.middle(k.main).Add(grid.Point{Y: -0.9}), 1.15, k.pl.Ref, "ref", "detail-middle")
	}
}

// shortWay is the edge across the strip on the side of the named pin; for a single row, the top or
// the left.
func (k *sketch) shortWay(r grid.Rect, t part.Terminal) edge {
	at, c := k.lead(t), r.Centre()
	switch {
	case r.Width() >= r.Height() && at.Y > c.Y+0.1:
		return bottom
	case r.Width() >= r.Height():
		return top
	case at.X > c.X+0.1:
		return right
	}
	return left
}

// drawBattery draws the shroud of a connector, its mouth and the signs of its poles.
func (k *sketch) drawBattery() {
	k.rect(k.main, 0.4, "cap")
	k.rect(k.main.Grown(-min(k.main.Width(), k.main.Height())*0.16), 0.3, "line")
	k.dots("lead", 0.42)
	c := k.main.Centre()
	for _, t := range k.def.Terminals {
		sign := "+"
		switch {
		case t.Net == "battery -" || t.Name == "-" || t.Name == "GND":
			sign = "−"
		case t.Net != "battery +" && t.Name != "+":
			continue
		}
		at := k.lead(t)
		e := side(k.main, grid.Point{X: at.X + (at.X-c.X)*2, Y: at.Y})
		if k.main.Height() > k.main.Width() {
			e = side(k.main, grid.Point{X: at.X, Y: at.Y + (at.Y-c.Y)*2})
		}
		m, o := e.middle(k.main), e.outward()
		k.text(m.Add(grid.Point{X: o.X, Y: o.Y}), 1.8, sign, "polarity")
	}
	k.refBelow(k.pl.Value)
}

// drawCharger draws a small board with its charging socket, its chip and the names of its pads.
func (k *sketch) drawCharger() {
	k.rect(k.main, 0.6, "mask")
	k.drawSocket()
	c, o := k.main.Centre(), k.socketEdge().outward()
	mid := grid.Point{X: c.X - o.X*1.5, Y: c.Y - o.Y*1.5}
	k.rect(grid.RectOf(mid, mid).Grown(1.9), 0.2, "chip")
	k.edgeNames()
	k.dots("lead", 0.42)
	k.refCorner()
}

// socketBody is the body of the USB socket where the definition gives it one of its own: another
// than the chief that may overhang.
func (k *sketch) socketBody() (part.Body, bool) {
	for _, b := range k.def.Bodies {
		if b.Face == grid.Front && b.Overhang != "" && b.Rect != k.body.Rect {
			return b, true
		}
	}
	return part.Body{}, false
}

// socketEdge is the edge with the USB socket: the one the definition lets overhang, else the short
// one nearest the first terminal.
func (k *sketch) socketEdge() edge {
	if e, ok := edgeNamed(k.body.Overhang); ok {
		return k.turned(e)
	}
	if b, ok := k.socketBody(); ok {
		e, _ := edgeNamed(b.Overhang)
		return k.turned(e)
	}
	at, c := k.first(), k.main.Centre()
	switch wide := k.main.Width() > k.main.Height(); {
	case wide && at.X < c.X:
		return left
	case wide:
		return right
	case at.Y < c.Y:
		return top
	}
	return bottom
}

// drawSocket draws the metal shell of the USB socket: where its body is, else at the middle of its
// edge and a little proud of it.
func (k *sketch) drawSocket() {
	e := k.socketEdge()
	m, o := e.middle(k.main), e.outward()
	breadth := min(8, max(k.main.Width(), k.main.Height())*0.5)
	shell := axis{m, o, grid.Point{X: -o.Y, Y: o.X}}.bar(-4.6, 1, breadth/2)
	if b, ok := k.socketBody(); ok {
		shell = k.box(b.Rectangle())
	}
	k.rect(shell, 0.6, "steel")
	m = e.middle(shell)
	half := min(shell.Width(), shell.Height(), breadth)/2 - 0.6
	k.rect(axis{m, o, grid.Point{X: -o.Y, Y: o.X}}.bar(-0.55, 0, half), 0.2, "dark")
}

// drawExpander draws a chip with its notch, or a small board when it is not one.
func (k *sketch) drawExpander() {
	k.rect(k.main, 0.4, "chip")
	e := k.turned(top)
	if k.body.Rectangle().Width() > k.body.Rectangle().Height() {
		e = k.turned(left)
	}
	m, o := e.middle(k.main), e.outward()
	k.circle(grid.Point{X: m.X - o.X*0.9, Y: m.Y - o.Y*0.9}, 0.55, "soft")
	name := k.pl.Ref + " " + k.chipName()
	if w, h := k.main.Width()-2, k.main.Height()-4; h > w*2 {
		_, size := fitted(name, h, w, 1.6)
		k.upward(k.main.Centre(), size, name, "chip-text", "detail-middle")
	} else {
		lines, size := fitted(name, k.main.Width()-4, k.main.Height()-2, 1.6)
		k.lettered(k.main.Centre(), lines, size, "chip-text", "detail-middle")
	}
	k.dots("lead", 0.42)
	k.edgeNames()
}

// chipName is the part number on a chip: the fact, else the first word of the name that looks like
// one, else the name.
func (k *sketch) chipName() string {
	if k.def.Facts.Chip != "" {
		return k.def.Facts.Chip
	}
	for _, word := range strings.FieldsFunc(k.def.Name, func(r rune) bool { return r == ' ' || r == ',' }) {
		if partNumber.MatchString(word) {
			return word
		}
	}
	return k.def.Name
}

var partNumber = regexp.MustCompile(`^[A-Z]{2,}[0-9]{3,}[A-Z0-9-]*$`)
