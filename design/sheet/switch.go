package sheet

import (
	"strings"

	"fascia/design/grid"
)

// drawSwitch draws a key: its body, the four legs with the joined pairs barred, the cap with its
// legend. A switch of several contacts is a navigation switch with a hat.
func (k *sketch) drawSwitch() {
	k.legs()
	k.outline(k.body, k.main, "body")
	if len(k.def.Contacts) > 1 {
		k.drawHat()
		return
	}
	rim := min(0.55, k.main.Width()/10, k.main.Height()/10)
	top := k.main.Grown(-rim)
	if e, ok := k.plungerEdge(); ok {
		k.sidePlunger(e)
	}
	k.joinedBars("bar", "detail-near")
	k.dots("lead", 0.42)
	legend := ""
	if k.pl.Key != nil {
		legend = k.pl.Key.Legend
	}
	k.keyGroup(k.pl.Ref, func() {
		if k.body.Shape == "round" {
			k.circle(top.Centre(), top.Width()/2, "cap")
		} else {
			k.rect(top, min(top.Width(), top.Height())/6, "cap")
		}
		k.hidden()
		if legend == "" {
			k.circle(top.Centre(), min(top.Width(), top.Height())*0.3, "soft")
		}
		lines, size := fitted(legend, top.Width()-0.5, top.Height()-0.5, top.Height()*0.56)
		k.lettered(top.Centre(), lines, size, "legend")
	})
	k.refBelow(k.cells[k.pl.Ref])
}

// keyGroup holds what belongs to one key, so that the page can find it by the key's id.
func (k *sketch) keyGroup(id string, draw func()) {
	k.tag("g", "key")
	if k.classes {
		k.word("data-key", id)
	}
	k.open()
	draw()
	k.end("g")
}

// legs draws the metal from where each lead leaves the body to the hole it is bent into.
func (k *sketch) legs() {
	t := &trace{}
	for _, term := range k.def.Terminals {
		t.move(k.at(term.Point())).line(k.lead(term))
	}
	k.path(t, "leg-edge", "detail-middle")
	k.path(t, "leg-metal", "detail-middle")
}

// plungerEdge is where a side-operated switch is pressed.
func (k *sketch) plungerEdge() (edge, bool) {
	e, ok := edgeNamed(k.body.Overhang)
	if !ok {
		return 0, false
	}
	return k.turned(e), true
}

// turned is where an edge of the definition comes to lie on the sheet.
func (k *sketch) turned(e edge) edge {
	r := k.body.Rectangle()
	return side(k.main, k.at(e.middle(r)))
}

func (k *sketch) sidePlunger(e edge) {
	m, o := e.middle(k.main), e.outward()
	across := grid.Point{X: o.Y, Y: o.X}
	a := grid.Point{X: m.X + across.X*1.2, Y: m.Y + across.Y*1.2}
	z := grid.Point{X: m.X - across.X*1.2 + o.X*0.9, Y: m.Y - across.Y*1.2 + o.Y*0.9}
	k.rect(grid.RectOf(a, z), 0.3, "cap")
}

// ways are the directions of a navigation switch by the usual names of its contacts, as drawn at
// turn 0.
var ways = map[string]grid.Point{
	"up": {Y: -1}, "down": {Y: 1}, "left": {X: -1}, "right": {X: 1},
	"north": {Y: -1}, "south": {Y: 1}, "west": {X: -1}, "east": {X: 1},
}

// drawHat draws a navigation switch: a hat with an arrowhead for each way and a legend beside it.
func (k *sketch) drawHat() {
	c, r := k.main.Centre(), min(k.main.Width(), k.main.Height())/2
	k.circle(c, r*0.92, "cap")
	k.circle(c, r*0.28, "soft")
	heads := &trace{}
	for _, contact := range k.def.Contacts {
		legend := k.pl.Keys[contact.Name].Legend
		way, ok := ways[strings.ToLower(contact.Name)]
		at := c
		if ok {
			way = k.at(way).Minus(k.at(grid.Point{}))
			at = grid.Point{X: c.X + way.X*r*0.56, Y: c.Y + way.Y*r*0.52}
			k.arrowhead(heads, axisOf(c, grid.Point{X: c.X + way.X, Y: c.Y + way.Y}), r)
		}
		k.keyGroup(k.pl.Ref+"."+contact.Name, func() {
			lines, size := fitted(legend, r*0.5, r*0.3, r*0.24)
			k.lettered(at, lines, size, "legend")
		})
	}
	k.path(heads, "solid")
	k.dots("lead", 0.42)
	k.refBelow("")
}

func (k *sketch) arrowhead(t *trace, x axis, r grid.Millimetre) {
	t.lines(x.at(r*0.89, 0), x.at(r*0.78, -r*0.1), x.at(r*0.78, r*0.1)).closed()
}
