package sheet

import (
	"fascia/design/grid"
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
		k.beside(t, k.shortWay(outer, t.Name), 1, 1.6, t.Name, "pin-name", "detail-near")
	}
	k.refBelow(k.pl.Value)
}

// shortWay is the edge across the strip on the side of the named pin; for a single row, the top or
// the left.
func (k *sketch) shortWay(r grid.Rect, name string) edge {
	t, _ := k.def.Terminal(name)
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
		x := axisOf(c, at)
		k.text(x.at(at.Distance(c)+1.5, 0), 1.7, sign, "polarity")
	}
	k.refBelow(k.pl.Value)
}

// drawCharger draws a small board with its charging socket, its chip and the names of its pads.
func (k *sketch) drawCharger() {
	k.rect(k.main, 0.6, "mask")
	e := k.socketEdge()
	k.socket(e, 7.4, 5)
	c, o := k.main.Centre(), e.outward()
	mid := grid.Point{X: c.X - o.X*1.5, Y: c.Y - o.Y*1.5}
	k.rect(grid.RectOf(mid, mid).Grown(1.9), 0.2, "chip")
	k.edgeNames()
	k.dots("lead", 0.42)
	k.refBelow(k.pl.Value)
}

// socketEdge is the edge with the USB socket: the one the definition lets overhang, else the short
// one nearest the first terminal.
func (k *sketch) socketEdge() edge {
	if e, ok := edgeNamed(k.body.Overhang); ok {
		return k.turned(e)
	}
	at := k.lead(k.def.Terminals[0])
	if k.main.Width() > k.main.Height() {
		if at.X < k.main.Centre().X {
			return left
		}
		return right
	}
	if at.Y < k.main.Centre().Y {
		return top
	}
	return bottom
}

// socket draws a metal shell at the middle of an edge, a little proud of it.
func (k *sketch) socket(e edge, breadth, depth grid.Millimetre) {
	m, o := e.middle(k.main), e.outward()
	x := axis{m, o, grid.Point{X: -o.Y, Y: o.X}}
	breadth = min(breadth, max(k.main.Width(), k.main.Height())*0.5)
	k.rect(x.bar(1-depth, 1, breadth/2), 0.5, "steel")
	k.rect(x.bar(0.5, 1, breadth/2-0.7), 0.2, "dark")
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
	lines, size := fitted(k.chipName(), k.main.Width()-3, k.main.Height()-3, 1.5)
	k.lettered(k.main.Centre(), lines, size, "chip-text", "detail-middle")
	k.dots("lead", 0.42)
	for _, t := range k.def.Terminals {
		k.beside(t, side(k.main, k.lead(t)), 1, 0.9, t.Name, "pin-name", "detail-near")
	}
	k.refBelow("")
}

func (k *sketch) chipName() string {
	if k.def.Facts.Chip != "" {
		return k.def.Facts.Chip
	}
	return k.def.Name
}
