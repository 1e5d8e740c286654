package sheet

import "fascia/design/part"

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
