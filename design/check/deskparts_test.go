package check

import (
	"fmt"

	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
)

func (d *desk) battery() {
	def := part.Definition{Name: "battery connector", Kind: part.Battery, Prefix: "J", Terminals: ends("+", "-")}
	def.Terminals[0].Net, def.Terminals[1].Net = part.BatteryPlus, part.BatteryMinus
	d.place("J1", def)
	d.net(part.VSYS, netlist.Supply, "U1.VSYS", "J1.+")
	d.net(part.Ground, netlist.Ground, "J1.-")
}

func (d *desk) powerSwitch(ma float64) {
	def := part.Definition{Name: "slide switch", Kind: part.PowerSwitch, Prefix: "S", Terminals: ends("in", "out"), Facts: part.Facts{ContactMA: ma}}
	def.Terminals[0].Net, def.Terminals[1].Net = part.Charged, part.VSYS
	d.place("S9", def)
	d.net(part.Charged, netlist.Supply, "S9.in", "J1.+")
	d.net(part.VSYS, netlist.Supply, "U1.VSYS", "S9.out")
}

func (d *desk) charger() {
	def := part.Definition{Name: "charger", Kind: part.Charger, Prefix: "U", Terminals: ends("IN+", "IN-", "OUT+", "B+"), Facts: part.Facts{SupplyMinVolts: 4.5, SupplyMaxVolts: 5.5}}
	for i, n := range []string{part.Supply5V, part.Ground, part.Charged, part.BatteryPlus} {
		def.Terminals[i].Net = n
	}
	d.place("U8", def)
	d.net(part.Supply5V, netlist.Supply, "U1.5V", "U8.IN+")
	d.net(part.Ground, netlist.Ground, "U8.IN-")
	d.net(part.BatteryPlus, netlist.Supply, "U8.B+")
	d.net(part.VSYS, netlist.Supply, "U8.OUT+")
}

// feed moves the display's supply to another net.
func feed(net string) func(*desk) {
	return func(d *desk) {
		d.net(net, netlist.Supply, "U2.VCC")
		if net != part.Supply3V3 {
			d.net(net, netlist.Supply, "U1."+net)
		}
	}
}

func (d *desk) second(ref, address string) {
	d.place(ref, displayDef()).Address = address
	d.net(part.Ground, netlist.Ground, ref+".GND")
	d.net(part.Supply3V3, netlist.Supply, ref+".VCC")
	d.net("display SDA", netlist.Signal, ref+".SDA")
	d.net("display SCL", netlist.Signal, ref+".SCL")
}

func (d *desk) encoder(pull string) {
	d.place("E1", part.Definition{Name: "encoder", Kind: part.Encoder, Prefix: "E", Terminals: ends("A", "C", "B"),
		Needs: []part.Need{{Terminal: "A", Signal: part.DigitalIn}, {Terminal: "B", Signal: part.DigitalIn}}})
	d.net(part.Ground, netlist.Ground, "E1.C")
	d.pin("E1.A", "encoder A", "GP11", "PIO in", "in", pull)
	d.pin("E1.B", "encoder B", "GP12", "PIO in", "in", pull)
}

func (d *desk) joystick(supply string) {
	def := part.Definition{Name: "joystick", Kind: part.Joystick, Prefix: "J", Terminals: ends("GND", "+", "X"),
		Needs: []part.Need{{Terminal: "X", Signal: part.ADC}}, Facts: part.Facts{SupplyMaxVolts: 5}}
	def.Terminals[0].Net, def.Terminals[1].Net = part.Ground, supply
	d.place("J2", def)
	d.net(part.Ground, netlist.Ground, "J2.GND")
	d.net(supply, netlist.Supply, "U1."+supply, "J2.+")
	d.pin("J2.X", "joystick X", "GP26", "ADC0", "in", "")
}

func (d *desk) buzzer(ma float64) {
	d.place("B1", part.Definition{Name: "magnetic buzzer", Kind: part.Buzzer, Prefix: "B", Terminals: ends("P", "N"), Facts: part.Facts{DriveMA: ma}})
}

func (d *desk) buzzerOnPin(ma float64) {
	d.buzzer(ma)
	d.net("buzzer P", netlist.Signal, "B1.P", "U1.GP13")
	d.net(part.Ground, netlist.Ground, "B1.N")
}

func (d *desk) buzzerOnTransistor() {
	d.buzzer(50)
	d.place("Q1", part.Definition{Name: "NPN transistor", Kind: part.Transistor, Prefix: "Q", Terminals: ends("C", "B", "E")})
	d.net(part.Supply3V3, netlist.Supply, "B1.P")
	d.net("drive", netlist.Link, "B1.N", "Q1.C")
	d.net(part.Ground, netlist.Ground, "Q1.E")
	d.net("base", netlist.Link, "Q1.B")
	d.resistor("R8", "1k", "base", "sound")
	d.net("sound", netlist.Signal, "U1.GP13")
}

// keyDiode puts a diode between key S<n> and its column.
func (d *desk) keyDiode(n int, def part.Definition, toKey, toColumn string) {
	ref := fmt.Sprintf("D2%d", n)
	d.place(ref, def)
	link := fmt.Sprintf("S%d diode", n)
	d.net(link, netlist.Link, fmt.Sprintf("S%d.B1", n), fmt.Sprintf("S%d.B2", n), ref+"."+toKey)
	d.net(fmt.Sprintf("column %d", (n-1)%2), netlist.Column, ref+"."+toColumn)
}

func (d *desk) activeHigh(pulls string) {
	d.scan.Active, d.scan.Pulls = "high", pulls
	for i := range d.pins.Pins {
		if p := &d.pins.Pins[i]; p.Pull == "up" {
			p.Pull = map[string]string{"internal": "down", "external": ""}[pulls]
		}
	}
}

func (d *desk) external(ohms string, rows ...string) {
	d.scan.Pulls = "external"
	for i := range d.pins.Pins {
		d.pins.Pins[i].Pull = ""
	}
	to := part.Supply3V3
	if d.scan.Active == "high" {
		to = part.Ground
	}
	for i, row := range rows {
		d.resistor(fmt.Sprintf("R3%d", i), ohms, row, to)
	}
}

func sound(*desk) {}

var silicon, power = diodeDef("1N4148", 1.0, 10), diodeDef("1N5819", 0.6, 1000)

// leds adds n LEDs of 68 ohms, 22 mA each, on pins of their own from GP11.
func leds(n int) func(*desk) {
	return func(d *desk) {
		for i := range n {
			d.led(fmt.Sprintf("D1%d", i), fmt.Sprintf("R1%d", i), fmt.Sprintf("GP1%d", 1+i), "red", "68")
		}
	}
}

// sunk turns an LED round: 3V3, LED, resistor, pin.
func sunk(led, resistor string) func(*desk) {
	return func(d *desk) {
		d.net(led+" series", netlist.Link, led+".K")
		d.net(part.Supply3V3, netlist.Supply, led+".A")
	}
}

func both(edits ...func(*desk)) func(*desk) {
	return func(d *desk) {
		for _, e := range edits {
			e(d)
		}
	}
}

func keys(ids ...string) func(*desk) {
	return func(d *desk) { d.panel.Chords = append(d.panel.Chords, panel.Chord{Name: "all", Keys: ids}) }
}
