package check

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/scan"
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
	d.scan.Cells[n-1].Diode = true
	d.pairs = append(d.pairs, netlist.Pair{Of: fmt.Sprintf("S%d", n), With: ref})
	link := fmt.Sprintf("S%d diode", n)
	d.net(link, netlist.Link, fmt.Sprintf("S%d.B1", n), fmt.Sprintf("S%d.B2", n), ref+"."+toKey)
	d.net(fmt.Sprintf("column %d", (n-1)%2), netlist.Column, ref+"."+toColumn)
}

// lines reads the four keys on three lines, a diode at each: S1 and S2 lie on the two directions of
// one pair of lines, S3 and S4 on those of another. turned are the keys whose diode is turned round.
func (d *desk) lines(turned ...string) {
	d.scan.Style, d.scan.Rows, d.scan.Columns = "lines", 3, 3
	d.nets = slices.DeleteFunc(d.nets, func(n *netlist.Net) bool {
		return isLine(n) || strings.HasPrefix(n.Name, "row") || strings.HasPrefix(n.Name, "column")
	})
	d.pins.Pins = slices.DeleteFunc(d.pins.Pins, func(p pinning.Pin) bool {
		return strings.HasPrefix(p.Signal, "row") || strings.HasPrefix(p.Signal, "column")
	})
	for i, cell := range [][2]int{{0, 1}, {1, 0}, {0, 2}, {2, 0}} {
		c := &d.scan.Cells[i]
		c.Row, c.Column, c.Code, c.Diode = cell[0], cell[1], cell[0]*3+cell[1], true
		toKey, toLine := "A", "K"
		if contains(turned, c.Key) {
			toKey, toLine = "K", "A"
		}
		d.place("D2"+c.Key[1:], silicon)
		d.net(fmt.Sprintf("line %d", c.Row), netlist.Row, c.Key+".A1", c.Key+".A2")
		d.net(c.Key+" diode", netlist.Link, c.Key+".B1", c.Key+".B2", "D2"+c.Key[1:]+"."+toKey)
		d.net(fmt.Sprintf("line %d", c.Column), netlist.Row, "D2"+c.Key[1:]+"."+toLine)
	}
	for i := range 3 {
		name := fmt.Sprintf("line %d", i)
		d.pin(name, name, fmt.Sprintf("GP%d", 6+i), "PIO out", "both", "up")
		for _, n := range d.nets {
			if n.Name == name {
				n.Class = netlist.Row
			}
		}
	}
}

// expander reads the four keys by lines of an expander at an address.
func (d *desk) expander(ref, address string) {
	def := part.Definition{Name: "expander", Kind: part.Expander, Prefix: "U", Terminals: ends("VDD", "VSS", "SDA", "SCL", "A0", "A1", "A2", "GPA0", "GPA1", "GPA2", "GPA3"),
		Needs: []part.Need{{Terminal: "SDA", Signal: part.I2CSDA}, {Terminal: "SCL", Signal: part.I2CSCL}},
		Facts: part.Facts{SupplyMinVolts: 1.8, SupplyMaxVolts: 5.5, CurrentMA: 1, I2CAddresses: []string{"0x20", "0x21", "0x22", "0x23", "0x24", "0x25", "0x26", "0x27"}}}
	def.Terminals[0].Net, def.Terminals[1].Net = part.Supply3V3, part.Ground
	for i := range 3 {
		def.Terminals[4+i].Net = part.Ground
	}
	d.place(ref, def).Address = address
	d.net(part.Supply3V3, netlist.Supply, ref+".VDD")
	d.net(part.Ground, netlist.Ground, ref+".VSS")
	d.net("display SDA", netlist.Signal, ref+".SDA")
	d.net("display SCL", netlist.Signal, ref+".SCL")
	for _, t := range def.Terminals[4:7] {
		d.net(def.NetAt(t, address), netlist.Supply, ref+"."+t.Name)
	}
}

// onExpander reads the four keys by the lines of expander U6.
func (d *desk) onExpander() {
	d.expander("U6", "0x20")
	d.scan = scan.Result{Style: "expander", Active: "low", Pulls: "internal", Reader: "polled"}
	d.nets = slices.DeleteFunc(d.nets, isLine)
	d.pins.Pins = slices.DeleteFunc(d.pins.Pins, func(p pinning.Pin) bool {
		return strings.HasPrefix(p.Signal, "row") || strings.HasPrefix(p.Signal, "column")
	})
	for i := range 4 {
		ref := fmt.Sprintf("S%d", i+1)
		via := fmt.Sprintf("U6.GPA%d", i)
		d.scan.Direct = append(d.scan.Direct, scan.Direct{Key: ref, Code: i, Pin: ref + ".A1", Return: ref + ".B1", Via: via})
		d.net("key "+ref, netlist.Signal, ref+".A1", ref+".A2", via)
		d.net(part.Ground, netlist.Ground, ref+".B1", ref+".B2")
	}
}

// lineLED hangs an LED from 3V3 on a column.
func (d *desk) lineLED(ref, resistor string, column int, ohms string) {
	d.place(ref, ledDef()).Value = "red"
	d.place(resistor, resistorDef()).Value = ohms
	d.scan.Lamps = append(d.scan.Lamps, scan.Lamp{Line: column, LED: ref})
	d.pairs = append(d.pairs, netlist.Pair{Of: ref, With: resistor})
	d.net(part.Supply3V3, netlist.Supply, resistor+".1")
	d.net(ref+" series", netlist.Link, resistor+".2", ref+".A")
	d.net(d.scan.ColumnNet(column), netlist.Column, ref+".K")
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
		d.pairs = append(d.pairs, netlist.Pair{Of: row, With: fmt.Sprintf("R3%d", i)})
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
