package sheet

import (
	"fascia/design/grid"
	"fascia/design/part"
)

// drawFace draws a part as its maker knows it, seen from its own side, by its kind.
func (k *sketch) drawFace() {
	switch k.def.Kind {
	case part.Module:
		k.drawModule()
	case part.Switch:
		k.drawSwitch()
	case part.Selector, part.PowerSwitch:
		k.drawSelector()
	case part.Encoder:
		k.drawEncoder()
	case part.Joystick:
		k.drawJoystick()
	case part.Display:
		k.drawDisplay()
	case part.LED:
		k.drawLED()
	case part.Resistor:
		k.drawResistor()
	case part.Diode:
		k.drawDiode()
	case part.Capacitor:
		k.drawCapacitor()
	case part.Transistor:
		k.drawTransistor()
	case part.Piezo, part.Buzzer:
		k.drawSounder()
	case part.Header:
		k.drawHeader()
	case part.Battery:
		k.drawBattery()
	case part.Charger:
		k.drawCharger()
	case part.Expander:
		k.drawExpander()
	default:
		k.drawGeneric()
	}
}

// drawGeneric is a box with its name on it, for parts of no kind we know.
func (k *sketch) drawGeneric() {
	k.outline(k.body, k.main, "body")
	k.nameOn(k.main.Grown(-1.6))
	k.edgeNames()
	k.dots("lead", 0.42)
	k.refBelow(k.pl.Value)
}

// nameOn writes the definition's name into r, turned when r is much taller than wide.
func (k *sketch) nameOn(r grid.Rect) {
	if r.Width() < 2 || r.Height() < 1 {
		return
	}
	lines, size := fitted(k.def.Name, r.Width(), r.Height(), 1.6)
	k.lettered(r.Centre(), lines, size, "value", "detail-middle")
}

// edgeNames writes each terminal's name inside the body beside its lead, reading across the edge
// that the lead is nearest to.
func (k *sketch) edgeNames() {
	for _, t := range k.def.Terminals {
		k.beside(t, side(k.main, k.lead(t)), -1, 0.85, t.Name, "pin-name", "detail-near")
	}
}

// beside writes s next to a terminal, gap millimetres from its hole, outward across edge e for way
// 1 and inward for -1. Along the top and bottom it reads upward.
func (k *sketch) beside(t part.Terminal, e edge, way, gap grid.Millimetre, s string, classes ...class) {
	k.besideSized(t, e, way, gap, 1.05, s, classes...)
}

func (k *sketch) besideSized(t part.Terminal, e edge, way, gap, size grid.Millimetre, s string, classes ...class) {
	o := e.outward()
	at := k.lead(t).Add(grid.Point{X: o.X * way * gap, Y: o.Y * way * gap})
	// Text at the left edge going outward ends at its hole, and so does text going inward at the
	// right; reading upward, the bottom is where a line starts.
	ends := e == left && way > 0 || e == right && way < 0 || e == bottom && way > 0 || e == top && way < 0
	anchor := class("start")
	if ends {
		anchor = "finish"
	}
	classes = append(classes, anchor)
	if e == top || e == bottom {
		k.upward(at, size, s, classes...)
		return
	}
	k.text(at, size, s, classes...)
}
