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

// A pinName is what a used pin carries, and where that is written.
type pinName struct {
	terminal part.Terminal
	edge     edge
	text     string
	gap      grid.Millimetre // from the lead to where the name begins
}

// usedPins lists the pins in use. A name begins outside the module's edge; one that would run over
// the edge of the board and the labels there begins beyond them.
func (k *sketch) usedPins() []pinName {
	var list []pinName
	for _, t := range k.def.Terminals {
		pin, ok := k.pins[t.Name]
		if !ok {
			continue
		}
		n := pinName{t, k.edgeOf(t), shortened(pin.Net, MaxLegend), 0}
		n.gap = k.outside(t, n.edge)
		if toEdge := k.beyond(t, n.edge, k.boards); n.gap < toEdge+labelRoom && n.end() > toEdge {
			n.gap = toEdge + labelRoom + 0.4
		}
		list = append(list, n)
	}
	return list
}

// end is how far from the lead the name ends. Widths are estimates, so a tenth is added: a name that
// is cut off at the edge of the sheet is worse than a wider sheet.
func (n pinName) end() grid.Millimetre { return n.gap + breadth(n.text)*usedSize*1.1 + 0.4 }

// room is what the name covers, as the part lies on the sheet.
func (k *sketch) room(n pinName) grid.Rect {
	x := axisOf(k.lead(n.terminal), k.lead(n.terminal).Add(n.edge.outward()))
	return x.bar(n.gap, n.end(), usedSize/2)
}

// usedNames writes what the used pins carry, unless that is left for later.
func (k *sketch) usedNames() {
	if k.late {
		return
	}
	for _, n := range k.usedPins() {
		k.beside(n.terminal, n.edge, 1, n.gap, usedSize, n.text, "used-name", "detail-middle")
	}
}

// drawPinNames writes what the used pins carry over the wires that leave them.
func (s *scene) drawPinNames() {
	if s.Pins == nil || s.Panel.Find(s.Pins.Module) == nil {
		return
	}
	k := s.sketch(s.Panel.Find(s.Pins.Module))
	k.late = false
	s.tag("g", "hints")
	s.word("transform", k.shift())
	s.open()
	k.usedNames()
	s.end("g")
}

// beyond is how far it is from a lead to edge e of r.
func (k *sketch) beyond(t part.Terminal, e edge, r grid.Rect) grid.Millimetre {
	o, d := e.outward(), e.middle(r).Minus(k.lead(t))
	return d.X*o.X + d.Y*o.Y
}

// outside is how far from its lead a name begins that is to be clear of the part's own edge.
func (k *sketch) outside(t part.Terminal, e edge) grid.Millimetre {
	return max(k.beyond(t, e, k.main), 0) + 0.7
}

// nameRooms are the rooms that the names of used pins take on the sheet.
func (s *scene) nameRooms() []grid.Rect {
	if s.Pins == nil || s.Panel.Find(s.Pins.Module) == nil {
		return nil
	}
	k := s.sketch(s.Panel.Find(s.Pins.Module))
	var rooms []grid.Rect
	for _, n := range k.usedPins() {
		rooms = append(rooms, box(k.room(n)).moved(s.hole(k.pl.At)))
	}
	return rooms
}

// withNames grows r by the room that the names of used pins take.
func (s *scene) withNames(r grid.Rect) grid.Rect {
	for _, room := range s.nameRooms() {
		r = r.Union(room)
	}
	return r
}
