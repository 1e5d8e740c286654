package sheet

import (
	"math"

	"fascia/design/grid"
	"fascia/design/part"
)

// drawLED draws the flange with its flat at the cathode, and the lens in its colour.
func (k *sketch) drawLED() {
	c, r := k.main.Centre(), min(k.main.Width(), k.main.Height())/2
	lens := lensClass(k.value())
	if i := k.minus(); i >= 0 {
		k.path(flattened(c, r, k.lead(k.def.Terminals[i])), "lens", lens)
	} else {
		k.circle(c, r, "lens", lens)
	}
	k.circle(c, r*0.72, "line")
	k.path(arc(c, r*0.55, math.Pi*1.05, math.Pi*1.5), "shine")
	k.dots("lead", 0.36)
	k.polarities()
	k.refBelow("")
}

// flattened is a disc cut off straight on the side that faces towards.
func flattened(c grid.Point, r grid.Millimetre, toward grid.Point) *trace {
	x := axisOf(c, toward)
	const open = 0.72 // radians to each side of the flat, which leaves three quarters of the radius
	base := math.Atan2(float64(x.along.Y), float64(x.along.X))
	return arc(c, r, base+open, base+2*math.Pi-open).closed()
}

// arc is the part of a circle from one angle to another, clockwise on the sheet, in radians from
// the right.
func arc(c grid.Point, r grid.Millimetre, from, to float64) *trace {
	on := func(angle float64) grid.Point {
		return grid.Point{X: c.X + r*grid.Millimetre(math.Cos(angle)), Y: c.Y + r*grid.Millimetre(math.Sin(angle))}
	}
	return new(trace).move(on(from)).round(r, to-from > math.Pi, on(to))
}

// drawCapacitor draws a can with its minus stripe, or a flat body when it has no polarity.
func (k *sketch) drawCapacitor() {
	c, r := k.main.Centre(), min(k.main.Width(), k.main.Height())/2
	i := k.minus()
	if k.body.Shape == "round" && i >= 0 {
		k.circle(c, r, "body")
		x := axisOf(c, k.lead(k.def.Terminals[i]))
		base := math.Atan2(float64(x.along.Y), float64(x.along.X))
		k.path(arc(c, r*0.97, base-0.7, base+0.7).closed(), "dark")
		k.line(x.at(r*0.82, -r*0.16), x.at(r*0.82, r*0.16), "shine")
	} else {
		k.leadWires()
		k.rect(k.main, r*0.9, "clay")
	}
	k.dots("lead", 0.36)
	k.plusSign()
	k.refBelow(k.value())
}

// plusSign marks the positive terminal beside its lead, outside the body.
func (k *sketch) plusSign() {
	i := k.plus()
	if i < 0 {
		return
	}
	at := k.lead(k.def.Terminals[i])
	d := max(k.main.Width(), k.main.Height())/2 + 0.7 - at.Distance(k.main.Centre())
	k.text(towards(at, k.main.Centre(), -max(d, 0.9)), 1.5, "+", "polarity")
}

// drawTransistor draws the D of a small plastic case, its flat along the leads.
func (k *sketch) drawTransistor() {
	x, ok := k.leadAxis()
	if !ok || len(k.def.Terminals) != 3 {
		k.drawGeneric()
		return
	}
	c, r := k.main.Centre(), max(k.main.Width(), k.main.Height())/2
	// The body reaches furthest on its round side; the leads lie nearer to the flat.
	across := func(p grid.Point) grid.Millimetre {
		d := p.Minus(x.from)
		return d.X*x.across.X + d.Y*x.across.Y
	}
	bulge := x.across
	if across(c) < 0 {
		bulge = grid.Point{X: -bulge.X, Y: -bulge.Y}
	}
	base := math.Atan2(float64(bulge.Y), float64(bulge.X))
	half := min(k.main.Width(), k.main.Height()) / 2
	hub := grid.Point{X: c.X + bulge.X*(half-r), Y: c.Y + bulge.Y*(half-r)}
	open := math.Acos(clamp(float64((r-2*half)/r), -1, 1))
	k.path(arc(hub, r, base-open, base+open).closed(), "chip")
	k.dots("lead", 0.36)
	for _, t := range k.def.Terminals {
		at := k.lead(t)
		k.text(grid.Point{X: at.X - bulge.X*1.5, Y: at.Y - bulge.Y*1.5}, 1, t.Name, "pin-outside", "detail-near")
	}
	lines, size := fitted(k.pl.Ref, r*1.6, half*1.2, 1.3)
	k.lettered(grid.Point{X: c.X + bulge.X*half*0.4, Y: c.Y + bulge.Y*half*0.4}, lines, size, "chip-text", "detail-middle")
}

func clamp(v, least, most float64) float64 { return math.Max(least, math.Min(most, v)) }

// drawSounder draws the can of a piezo or a buzzer with its sound hole.
func (k *sketch) drawSounder() {
	c, r := k.main.Centre(), min(k.main.Width(), k.main.Height())/2
	k.outline(k.body, k.main, "body")
	k.circle(c, r*0.72, "soft", "detail-middle")
	k.circle(c, r*0.17, "dark")
	if k.def.Kind == part.Piezo {
		for i := range 3 {
			k.path(arc(c, r*(0.3+0.12*grid.Millimetre(i)), -0.6, 0.6), "soft", "detail-middle")
		}
	}
	k.dots("lead", 0.42)
	k.plusSign()
	k.refBelow("")
}
