package sheet

import (
	"fascia/design/grid"
	"fascia/design/part"
)

// drawModule draws the controller's board: its USB end, its pins with their numbers and names, its
// chip, and outside its edge the name of what each used pin carries.
func (k *sketch) drawModule() {
	k.rect(k.main, 1, "mask")
	k.socket(k.socketEdge(), 8, 5.6)
	c := k.main.Centre()
	half := min(3.5, min(k.main.Width(), k.main.Height())*0.16)
	chip := grid.RectOf(c, c).Grown(half)
	k.rect(chip, 0.2, "chip")
	lines, size := fitted(k.chipName(), half*1.7, half*1.2, 1.4)
	k.lettered(c, lines, size, "chip-text", "detail-middle")
	k.dots("lead", 0.5)
	for _, t := range k.def.Terminals {
		e := side(k.main, k.lead(t))
		k.besideSized(t, e, -1, 0.9, 0.95, t.Pin, "pin-number", "detail-near")
		k.besideSized(t, e, -1, 2.4, 1.05, pinLabel(t), "pin-name", "detail-near")
	}
	k.usedNames()
	k.refBelow("")
}

// pinLabel is what stands beside a module's pin: its GPIO, else its name.
func pinLabel(t part.Terminal) string {
	if t.GPIO != "" {
		return t.GPIO
	}
	return t.Name
}

// usedNames writes what each used pin carries, outside the edge it is at.
func (k *sketch) usedNames() {
	if len(k.pins) == 0 {
		return
	}
	for _, t := range k.def.Terminals {
		pin, ok := k.pins[t.Name]
		if !ok {
			continue
		}
		e := side(k.main, k.lead(t))
		o := e.outward()
		gap := k.lead(t).Minus(e.middle(k.main))
		out := -(gap.X*o.X + gap.Y*o.Y) // from the lead to the edge
		k.besideSized(t, e, 1, max(out, 0)+0.7, 1.25, shortened(pin.Net, MaxLegend), "used-name", "detail-middle")
	}
}
