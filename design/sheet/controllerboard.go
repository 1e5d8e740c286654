package sheet

import (
	"fascia/design/grid"
	"fascia/design/part"
)

// drawModule draws the controller's board: its USB end, its pins with their numbers and names, its
// chip, and outside its edge the name of what each used pin carries.
func (k *sketch) drawModule() {
	k.rect(k.main, 1, "mask")
	k.drawSocket()
	c := k.main.Centre()
	half := min(3.5, min(k.main.Width(), k.main.Height())*0.16)
	chip := grid.RectOf(c, c).Grown(half)
	k.rect(chip, 0.2, "chip")
	lines, size := fitted(k.chipName(), half*1.7, half*1.2, 1.4)
	k.lettered(c, lines, size, "chip-text", "detail-middle")
	k.dots("lead", 0.5)
	for _, t := range k.def.Terminals {
		k.pinNames(t, half)
	}
	k.usedNames()
	o := k.socketEdge().outward()
	k.text(c.Add(grid.Point{X: -o.X * (half + 2), Y: -o.Y * (half + 1.3)}), 1.4, k.pl.Ref, "pin-name", "detail-middle")
}

// pinNames writes a pin's number and then its name inside the edge, no larger than fits beside the
// chip or the socket. At the short end of a module that has pins on three sides there is no room
// inside: the name of a pin that is not used goes outside.
func (k *sketch) pinNames(t part.Terminal, chip grid.Millimetre) {
	e, label := k.edgeOf(t), pinLabel(t)
	if long := k.longEdge(); (long == left) != (e == left || e == right) {
		if _, used := k.pins[t.Name]; !used {
			k.beside(t, e, 1, k.outside(t, e), 1, t.Pin+" "+label, "pin-outside", "detail-near")
		}
		return
	}
	k.beside(t, e, -1, 0.9, 0.95, t.Pin, "pin-number", "detail-near")
	at := k.lead(t)
	o, d := e.outward(), at.Minus(k.main.Centre())
	block := chip
	if at.Distance(k.socketEdge().middle(k.main)) < 12 {
		block = 4
	}
	room := d.X*o.X + d.Y*o.Y - 2.6 - block
	k.beside(t, e, -1, 2.4, max(0.6, min(1.05, room/(0.62*grid.Millimetre(len(label))))), label, "pin-name", "detail-near")
}

// longEdge is left when the module's long edges are its left and right, else top.
func (k *sketch) longEdge() edge {
	if k.main.Height() >= k.main.Width() {
		return left
	}
	return top
}

// pinLabel is what stands beside a module's pin: its GPIO, else its name.
func pinLabel(t part.Terminal) string {
	switch {
	case t.GPIO != "":
		return t.GPIO
	case t.Net == part.Ground:
		return "GND"
	}
	return t.Name
}

const usedSize = 1.25

// usedNames writes what each used pin carries, outside the edge it is at.
func (k *sketch) usedNames() {
	for _, t := range k.def.Terminals {
		if pin, ok := k.pins[t.Name]; ok {
			e := k.edgeOf(t)
			k.beside(t, e, 1, k.outside(t, e), usedSize, shortened(pin.Net, MaxLegend), "used-name", "detail-middle")
		}
	}
}

// outside is how far from its lead a used pin's name begins, to be clear of the edge.
func (k *sketch) outside(t part.Terminal, e edge) grid.Millimetre {
	o, inset := e.outward(), e.middle(k.main).Minus(k.lead(t))
	return max(inset.X*o.X+inset.Y*o.Y, 0) + 0.7
}

// withNames grows r by the room that the names of used pins take.
func (s *scene) withNames(r grid.Rect) grid.Rect {
	if s.Pins == nil || s.Panel.Find(s.Pins.Module) == nil {
		return r
	}
	pl := s.Panel.Find(s.Pins.Module)
	k := s.sketch(pl)
	for _, t := range k.def.Terminals {
		pin, ok := k.pins[t.Name]
		if !ok {
			continue
		}
		e := k.edgeOf(t)
		o, far := e.outward(), k.outside(t, e)+breadth(shortened(pin.Net, MaxLegend))*usedSize
		tip := s.hole(pl.At).Add(k.lead(t)).Add(grid.Point{X: o.X * far, Y: o.Y * far})
		r = r.Union(grid.RectOf(tip, tip))
	}
	return r
}
