package sheet

import "fascia/design/grid"

// drawGeneric is a box with its name on it, for parts of no kind we know.
func (k *sketch) drawGeneric() {
	k.outline(k.body, k.main, "body")
	k.nameOn(k.clearOfLeads())
	k.edgeNames()
	k.dots("lead", 0.42)
	k.refBelow(k.pl.Value)
}

// nameOn writes the definition's name into r, or nothing when r is too small to read it in.
func (k *sketch) nameOn(r grid.Rect) {
	if r.Width() < 2 || r.Height() < 1 {
		return
	}
	lines, size := fitted(k.def.Name, r.Width(), r.Height(), 1.5)
	k.lettered(r.Centre(), lines, size, "pin-name", "detail-middle")
}

// clearOfLeads is the chief body without the strips along its edges where leads and their names are.
func (k *sketch) clearOfLeads() grid.Rect {
	r := k.main.Grown(-0.6)
	for _, t := range k.def.Terminals {
		at, room := k.lead(t), 1.4+breadth(t.Name)*0.9
		switch k.edgeOf(t) {
		case left:
			r.Min.X = max(r.Min.X, at.X+room)
		case right:
			r.Max.X = min(r.Max.X, at.X-room)
		case top:
			r.Min.Y = max(r.Min.Y, at.Y+room)
		case bottom:
			r.Max.Y = min(r.Max.Y, at.Y-room)
		}
	}
	return r
}
