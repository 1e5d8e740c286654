package check

import (
	"fmt"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

var trials = []trial{
	{"module-missing", "keys and no module", func(d *desk) { d.panel.Placed = d.panel.Placed[1:] }, []string{"Place a module"}},
	{"module-missing", "an empty panel", func(d *desk) { d.panel.Placed = nil; d.nets = nil }, nil},
	{"module-twice", "two modules", func(d *desk) { d.place("U5", moduleDef()) }, []string{"U1 and U5 are modules"}},
	{"module-twice", "one module", sound, nil},
	{"module-ground", "its ground is open", func(d *desk) { d.open("U1.GND") }, []string{"No terminal of module U1 is on ground"}},
	{"module-ground", "its ground is wired", sound, nil},
	{"module-ground", "nothing else is on ground", func(d *desk) { d.panel.Placed = d.panel.Placed[:1]; d.nets = nil }, nil},
	{"module-serial", "a row on GP0", func(d *desk) { d.pin("row 2", "row 2", "GP0", "PIO in", "in", "up") }, []string{"Row 2 has GP0"}},
	{"module-serial", "both left free", sound, nil},

	{"supply-high", "a 3.3 V part on 5V", both(feed(part.Supply5V), func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMaxVolts = 3.6 })
	}), []string{"Display U2 bears 3.3 to 3.6 V and its VCC is on 5V, which reaches 5 V"}},
	{"supply-high", "a 3.3 to 5 V part on 5V", feed(part.Supply5V), nil},
	{"supply-low", "a 5 V part on 3V3", func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMinVolts, p.Facts.SupplyMaxVolts = 4.7, 5.3 })
	}, []string{"Display U2 needs 4.7 to 5.3 V and its VCC is on 3V3, which may be only 3.3 V"}},
	{"supply-low", "a 5 V part on 5V", both(feed(part.Supply5V), func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMinVolts, p.Facts.SupplyMaxVolts = 4.7, 5.3 })
	}), nil},
	{"supply-low", "a 4.5 V part on a cell", both((*desk).battery, func(d *desk) {
		d.net(part.VSYS, netlist.Supply, "U2.VCC")
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMinVolts = 4.5 })
	}), []string{"may be only 3 V"}},
	{"supply-missing", "the display's supply is open", func(d *desk) { d.open("U2.VCC") }, []string{"Display U2 VCC wants 3V3"}},
	{"supply-missing", "a supply that nothing feeds", func(d *desk) { d.net(part.Supply5V, netlist.Supply, "U2.VCC") }, []string{"wants 5V"}},
	{"supply-missing", "fed", sound, nil},
	{"ground-missing", "the display's ground is open", func(d *desk) { d.open("U2.GND") }, []string{"Display U2 GND is a ground"}},
	{"ground-missing", "the display's ground is elsewhere", func(d *desk) { d.net("quiet ground", netlist.Link, "U2.GND") }, []string{"not on the ground of module U1"}},
	{"ground-missing", "on ground", sound, nil},
	{"supply-short", "a join ties 3V3 to ground", func(d *desk) { d.net(part.Ground, netlist.Ground, "U2.VCC") }, []string{"Net ground ties U1.GND (ground) to U2.VCC (3V3)"}},
	{"supply-short", "address pins on 3V3", func(d *desk) { d.expander("U6", "0x27") }, nil},
	{"ground-missing", "address pins on 3V3", func(d *desk) { d.expander("U6", "0x27") }, nil},
	{"supply-short", "an address pin on 3V3 that should be on ground", func(d *desk) {
		d.expander("U6", "0x20")
		d.net(part.Supply3V3, netlist.Supply, "U6.A1")
	}, []string{"Net 3V3 ties U1.3V3 (3V3) to U6.A1 (ground)"}},
	{"supply-short", "a cell on VSYS", (*desk).battery, nil},
	{"logic-high", "a 5 V display answers on a pin", both(feed(part.Supply5V), func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Needs[0].Signal = part.SPIRX })
	}), []string{"Display U2 puts 5 V on GP4 through its SDA; the pin bears 3.63 V"}},
	{"logic-high", "at 3.3 V", func(d *desk) { d.def("U2", func(p *part.Definition) { p.Needs[0].Signal = part.SPIRX }) }, nil},
	{"joystick-supply", "on 5V", func(d *desk) { d.joystick(part.Supply5V) }, []string{"Joystick J2 hangs on 5 V"}},
	{"joystick-supply", "on 3V3", func(d *desk) { d.joystick(part.Supply3V3) }, nil},

	{"current-source", "three LEDs of 22 mA", leds(3), []string{"the pins give 68.18 mA to D1, D10, D11 and D12; an RP2040 gives 50 mA"}},
	{"current-source", "one", leds(1), nil},
	{"current-source", "three on an RP2350", both(leds(3), func(d *desk) { d.stepping("A4") }), nil},
	{"current-sink", "three LEDs turned round", both(leds(3), sunk("D10", "R10"), sunk("D11", "R11"), sunk("D12", "R12"),
		func(d *desk) {
			d.open("D10.A", "D11.A", "D12.A")
			d.net(part.Supply3V3, netlist.Supply, "D10.A", "D11.A", "D12.A")
		}),
		[]string{"the pins take 66.18 mA from D10, D11 and D12"}},
	{"current-sink", "a buzzer of 60 mA from 3V3 to a pin", func(d *desk) {
		d.place("B1", part.Definition{Name: "magnetic buzzer", Kind: part.Buzzer, Prefix: "B", Terminals: ends("P", "N"),
			Needs: []part.Need{{Terminal: "N", Signal: part.PWM}}, Facts: part.Facts{DriveMA: 60}})
		d.net(part.Supply3V3, netlist.Supply, "B1.P")
		d.pin("B1.N", "buzzer N", "GP11", "PWM5 B", "out", "")
	}, []string{"the pins take 60 mA from B1"}},
	{"current-sink", "three LEDs that are given current", leds(3), nil},
	{"current-sink", "LEDs on select lines, all of which are selected while a press is awaited", func(d *desk) { d.lineLED("D31", "R31", 0, "47"); d.lineLED("D32", "R32", 1, "47") },
		[]string{"the pins take 63.83 mA from D31 and D32"}},
	{"current-sink", "LEDs on select lines of 2 mA", func(d *desk) { d.lineLED("D31", "R31", 0, "750"); d.lineLED("D32", "R32", 1, "750") }, nil},
	{"current-pin", "one on a select line", func(d *desk) { d.lineLED("D31", "R31", 1, "100") }, []string{"GP9 drives D31 with 15 mA"}},
	{"current-pin", "one LED of 22 mA", leds(1), []string{"GP11 drives D10 with 22.06 mA"}},
	{"current-pin", "an LED of 2 mA", sound, nil},
	{"current-pin", "a buzzer, which has a rule of its own", func(d *desk) { d.buzzerOnPin(50) }, nil},
	{"current-drive", "an LED of 5 mA", func(d *desk) { d.panel.Find("R1").Value = "270" }, []string{"GP10 drives D1 with 5.56 mA, more than the 4 mA"}},
	{"current-drive", "one of 9 mA wants the highest setting", func(d *desk) { d.panel.Find("R1").Value = "160" }, []string{"Set its drive strength to 12 mA"}},
	{"current-drive", "an LED of 2 mA", sound, nil},
	{"current-3v3", "a display of 320 mA", func(d *desk) { d.def("U2", func(p *part.Definition) { p.Facts.CurrentMA = 320 }) }, []string{"U2 draw 320 mA from 3V3; module U1 gives 300 mA"}},
	{"current-3v3", "299 mA and an LED hung from 3V3 on a select line", func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.CurrentMA = 299 })
		d.lineLED("D31", "R31", 0, "750")
	}, []string{"U2 and D31 draw 301 mA from 3V3"}},
	{"current-3v3", "just 300 mA", func(d *desk) { d.def("U2", func(p *part.Definition) { p.Facts.CurrentMA = 300 }) }, nil},
	{"current-power-switch", "a switch for 40 mA", both((*desk).battery, func(d *desk) { d.powerSwitch(40) }), []string{"bears 40 mA, and the panel draws 47 mA"}},
	{"current-power-switch", "a switch for 100 mA", both((*desk).battery, func(d *desk) { d.powerSwitch(100) }), nil},
	{"current-contact", "a pull of 47 ohms", func(d *desk) { d.external("47", "row 0") }, []string{
		"Key Up (S1) switches 70.21 mA through its pull of 47 ohms", "Key Down (S2)"}},
	{"current-contact", "internal pulls", sound, nil},
	{"current-contact", "a pull of 10 kilohms", func(d *desk) { d.external("10k", "row 0") }, nil},

	{"wire-drop", "2 m of AWG 30 at 100 mA", both(draws(100), feedWires("AWG 30", 2000)), []string{
		"Display U2 needs 3.3 to 5 V and may get only 3.16 V: the wires of 3V3 and ground lose 135.42 mV on the way, with everything on. Take thicker wire for both, or give U2 shorter wires of its own to module U1."}},
	{"wire-drop", "the same of AWG 22 loses 21 mV", both(draws(100), feedWires("AWG 22", 2000)), nil},
	{"wire-drop", "a part that bears 3 V", both(draws(100), feedWires("AWG 30", 2000), func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMinVolts = 3 })
	}), nil},
	{"wire-drop", "too little without any wire, which has a rule of its own", both(draws(100), feedWires("AWG 30", 2000), func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMinVolts = 4.7 })
	}), nil},
	{"wire-loss", "0.1 m of AWG 24 at 20 mA", feedWires("AWG 24", 100), []string{
		"With everything on, the wires of 3V3 and ground lose at most 0.34 mV: between module U1 and display U2, over 16.84 milliohms there and back. Nothing need be done: the part can spare 50 mV."}},
	{"wire-loss", "more than the part can spare", both(draws(100), feedWires("AWG 30", 2000)), []string{"Take thicker wire, or shorter."}},
	{"wire-loss", "a part that says nothing of its least volts", both(feedWires("AWG 24", 100), func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.SupplyMinVolts = 0 })
	}), []string{"Nothing need be done, unless the part can spare less."}},
	{"wire-loss", "no wires", sound, nil},

	{"led-no-resistor", "straight on the pin", func(d *desk) { d.net("LED D1", netlist.Signal, "D1.A"); d.open("R1.1", "R1.2") }, []string{"LED D1 has no resistor"}},
	{"led-no-resistor", "straight on 3V3", func(d *desk) { d.net(part.Supply3V3, netlist.Supply, "D1.A") }, []string{"750 ohms gives about 2 mA"}},
	{"led-no-resistor", "with one", sound, nil},
	{"led-no-resistor", "a resistor at the cathode", func(d *desk) {
		d.net("LED D1", netlist.Signal, "D1.A")
		d.net("foot", netlist.Link, "D1.K", "R1.1")
		d.net(part.Ground, netlist.Ground, "R1.2")
	}, nil},
	{"led-bright", "120 ohms", func(d *desk) { d.panel.Find("R1").Value = "120" }, []string{"LED D1 takes 12.5 mA through 120 ohms"}},
	{"led-bright", "just 10 mA", func(d *desk) { d.panel.Find("R1").Value = "150" }, nil},
	{"led-dim", "10 kilohms", func(d *desk) { d.panel.Find("R1").Value = "10k" }, []string{"LED D1 takes only 0.15 mA"}},
	{"led-dim", "4.7 kilohms", func(d *desk) { d.panel.Find("R1").Value = "4k7" }, nil},
	{"led-dim", "0.5 mA on one of two select lines", func(d *desk) { d.lineLED("D31", "R31", 0, "3k") },
		[]string{"LED D31 takes 0.5 mA through 3 kilohms for one turn in 2, 0.25 mA on average, and will hardly glow. Take a smaller resistor; 390 ohms gives about 1.92 mA on average."}},
	{"led-dim", "2 mA on one of two select lines", func(d *desk) { d.lineLED("D31", "R31", 0, "750") }, nil},
	{"led-no-resistor", "on a select line, straight from 3V3", func(d *desk) {
		d.lineLED("D31", "R31", 0, "750")
		d.net(part.Supply3V3, netlist.Supply, "D31.A")
	}, []string{"LED D31 has no resistor"}},
	{"led-headroom", "white on 3.3 V", func(d *desk) { d.panel.Find("D1").Value = "white" }, []string{"drops about 2.9 V of 3.3 V, which leaves 0.4 V"}},
	{"led-headroom", "blue on 3.3 V leaves just 0.5 V", func(d *desk) { d.panel.Find("D1").Value = "blue" }, nil},
	{"led-colour", "mauve", func(d *desk) { d.panel.Find("D1").Value = "mauve" }, []string{`LED D1 is "mauve"`}},
	{"led-colour", "none", func(d *desk) { d.panel.Find("D1").Value = "" }, []string{"LED D1 has no colour"}},
	{"led-colour", "red", sound, nil},
	{"led-colour", "none, but the definition knows its voltage", func(d *desk) {
		d.panel.Find("D1").Value = ""
		d.def("D1", func(p *part.Definition) { p.Facts.ForwardVolts = 1.9 })
	}, nil},

	{"value-missing", "no value", func(d *desk) { d.panel.Find("R1").Value = "" }, []string{"Resistor R1 has no value"}},
	{"value-missing", "a value of the definition", func(d *desk) {
		d.panel.Find("R1").Value = ""
		d.def("R1", func(p *part.Definition) { p.Facts.Values = []string{"220"} })
	}, nil},
	{"value-unreadable", "words", func(d *desk) { d.panel.Find("R1").Value = "big" }, []string{`The value "big" of resistor R1 is no number`}},
	{"value-unreadable", "4k7", func(d *desk) { d.panel.Find("R1").Value = "4k7" }, nil},
	{"value-series", "700 ohms", func(d *desk) { d.panel.Find("R1").Value = "700" }, []string{"Take 750 ohms"}},
	{"value-series", "750 ohms", sound, nil},

	{"i2c-address-clash", "two displays at 0x3C", func(d *desk) { d.second("U3", "") }, []string{"U2 and U3 answer to one address, 0x3C, on one bus. Set U2 to another of its addresses: 0x3D."}},
	{"i2c-address-clash", "three displays of two addresses", func(d *desk) { d.second("U3", ""); d.second("U4", "0x3D") }, []string{"Lock one of them to pins of the other I2C peripheral."}},
	{"i2c-address-clash", "one of them at 0x3D", func(d *desk) { d.second("U3", "0x3D") }, nil},
	{"i2c-address-clash", "on two buses", func(d *desk) { d.second("U3", ""); d.net("other SDA", netlist.Signal, "U3.SDA") }, nil},
	{"i2c-address-clash", "two expanders left at 0x20", func(d *desk) { d.expander("U6", ""); d.expander("U7", "") }, []string{"U6 and U7 answer to one address, 0x20, on one bus. Set U6 to another"}},
	{"i2c-address-clash", "expanders at 0x20 and 0x25", func(d *desk) { d.expander("U6", ""); d.expander("U7", "0x25") }, nil},
	{"i2c-address-unknown", "an address it does not have", func(d *desk) { d.panel.Find("U2").Address = "0x20" }, []string{"Display U2 cannot be set to address 0x20. Choose one of 0x3C, 0x3D."}},
	{"i2c-address-unknown", "the 8-bit form", func(d *desk) { d.panel.Find("U2").Address = "0x78" }, []string{"0x08 to 0x77"}},
	{"i2c-address-unknown", "written small", func(d *desk) { d.panel.Find("U2").Address = "0x3d" }, nil},
	{"i2c-pull-ups", "a display without", func(d *desk) { d.def("U2", func(p *part.Definition) { p.Facts.PullUpOhms = 0 }) }, []string{"Nothing pulls display SDA and display SCL up"}},
	{"i2c-pull-ups", "on the display", sound, nil},
	{"i2c-pull-ups", "placed", func(d *desk) {
		d.def("U2", func(p *part.Definition) { p.Facts.PullUpOhms = 0 })
		d.resistor("R5", "4.7k", "display SDA", part.Supply3V3)
		d.resistor("R6", "4.7k", "display SCL", part.Supply3V3)
	}, nil},
	{"i2c-pull-ups-strong", "1 kilohm beside 4.7", func(d *desk) { d.resistor("R5", "1k", "display SDA", part.Supply3V3) }, []string{"The pull-ups of U2 and R5 on display SDA come to 824.56 ohms"}},
	{"i2c-pull-ups-strong", "1.3 kilohms beside 4.7", func(d *desk) { d.resistor("R5", "1.3k", "display SDA", part.Supply3V3) }, nil},
	{"i2c-pull-ups-high", "a backpack on 5V", feed(part.Supply5V), []string{"U2 pulls display SDA to 5 V; the pin bears 3.63 V"}},
	{"i2c-pull-ups-high", "a resistor to 5V", func(d *desk) {
		d.net(part.Supply5V, netlist.Supply, "U1.5V")
		d.resistor("R5", "4.7k", "display SCL", part.Supply5V)
	}, []string{"R5 pulls display SCL to 5 V"}},
	{"i2c-pull-ups-high", "at 3.3 V", sound, nil},
	{"spi-select", "a panel without select beside another", func(d *desk) {
		for _, ref := range []string{"U3", "U4"} {
			d.place(ref, part.Definition{Name: "colour display", Kind: part.Display, Terminals: ends("SCK"),
				Needs: []part.Need{{Terminal: "SCK", Signal: part.SPISCK}}, Facts: part.Facts{NoChipSelect: ref == "U3"}})
			d.net("SPI SCK", netlist.Signal, ref+".SCK")
		}
	}, []string{"Display U3 is always selected and shares its SPI bus with display U4"}},
	{"spi-select", "alone", func(d *desk) {
		d.place("U3", part.Definition{Name: "colour display", Kind: part.Display, Terminals: ends("SCK"),
			Needs: []part.Need{{Terminal: "SCK", Signal: part.SPISCK}}, Facts: part.Facts{NoChipSelect: true}})
		d.net("SPI SCK", netlist.Signal, "U3.SCK")
	}, nil},
	{"pin-order", "sold both ways", func(d *desk) { d.def("U2", func(p *part.Definition) { p.Facts.PinOrderVaries = true }) }, []string{"Read the print on your own part"}},
	{"pin-order", "sold one way", sound, nil},

	{"stepping-pull-down", "A2 read active high", func(d *desk) { d.stepping("A2"); d.activeHigh("internal") }, []string{"The internal pull-downs of RP2350 stepping A2 cannot hold the key lines low"}},
	{"stepping-pull-down", "one pin pulled down", func(d *desk) { d.stepping("A2"); d.encoder("down") }, []string{"cannot hold E1.A low"}},
	{"stepping-pull-down", "A2 read active low", func(d *desk) { d.stepping("A2") }, nil},
	{"stepping-pull-down", "A4 read active high", func(d *desk) { d.stepping("A4"); d.activeHigh("internal") }, nil},
	{"stepping-pull-down", "RP2040 read active high", func(d *desk) { d.activeHigh("internal") }, nil},
	{"stepping-unknown", "not written, read active high", func(d *desk) { d.stepping(""); d.activeHigh("internal") }, []string{"The stepping of module U1 is not known; on A2 the internal pull-downs"}},
	{"stepping-unknown", "not written, read active low", func(d *desk) { d.stepping("") }, nil},
	{"stepping-unknown", "A2 is known", func(d *desk) { d.stepping("A2"); d.activeHigh("internal") }, nil},
	{"stepping-pull-down-weak", "10 kilohms on A2", func(d *desk) { d.stepping("A2"); d.activeHigh("external"); d.external("10k", "row 0", "row 1") },
		[]string{"Resistor R30 pulls row 0 down with 10 kilohms", "row 1"}},
	{"stepping-pull-down-weak", "8.2 kilohms on A2", func(d *desk) { d.stepping("A2"); d.activeHigh("external"); d.external("8.2k", "row 0", "row 1") }, nil},
	{"stepping-pull-down-weak", "10 kilohms on A4", func(d *desk) { d.stepping("A4"); d.activeHigh("external"); d.external("10k", "row 0", "row 1") }, nil},

	{"pull-missing", "one row without", func(d *desk) { d.external("10k", "row 0") }, []string{"Nothing pulls row 1 to 3V3"}},
	{"pull-missing", "a direct key without", func(d *desk) {
		d.external("10k", "row 0", "row 1")
		d.place("S5", keyDef()).Key = &panel.Key{Legend: "Start"}
		d.scan.Direct = []scan.Direct{{Key: "S5", Legend: "Start", Code: 4}}
		d.net("key S5", netlist.Signal, "U1.GP14", "S5.A1", "S5.A2")
		d.net(part.Ground, netlist.Ground, "S5.B1", "S5.B2")
	}, []string{"Nothing pulls key S5 to 3V3"}},
	{"pull-missing", "both rows with", func(d *desk) { d.external("10k", "row 0", "row 1") }, nil},
	{"pull-missing", "internal", sound, nil},
	{"pull-missing", "lines that ask for resistors", func(d *desk) { d.lines(); d.external("10k", "line 0", "line 1") }, []string{"Nothing pulls line 2 to 3V3"}},
	{"pull-missing", "an expander has its own", func(d *desk) { d.onExpander(); d.scan.Pulls = "external" }, nil},
	{"stepping-pull-down", "an expander pulls its own lines", func(d *desk) { d.stepping("A2"); d.onExpander(); d.scan.Active = "high" }, nil},
	{"input-floating", "keys on an expander", func(d *desk) { d.onExpander() }, nil},
	{"pull-missing", "no module, so no rail", func(d *desk) { d.external("10k"); d.panel.Placed = d.panel.Placed[1:] }, nil},
	{"encoder-pulls", "none", func(d *desk) { d.encoder("") }, []string{"Nothing pulls A and B of encoder E1 up"}},
	{"encoder-pulls", "the controller's", func(d *desk) { d.encoder("up") }, nil},
	{"encoder-pulls", "placed", func(d *desk) {
		d.encoder("none")
		d.resistor("R5", "10k", "encoder A", part.Supply3V3)
		d.resistor("R6", "10k", "encoder B", part.Supply3V3)
	}, nil},
	{"input-floating", "a switch read without a pull", func(d *desk) {
		d.place("J2", part.Definition{Name: "joystick", Kind: part.Joystick, Terminals: ends("SW", "GND"), Needs: []part.Need{{Terminal: "SW", Signal: part.DigitalIn}}})
		d.net(part.Ground, netlist.Ground, "J2.GND")
		d.pin("J2.SW", "joystick SW", "GP11", "digital in", "in", "none")
	}, []string{"GP11 reads joystick SW, and nothing holds that line"}},
	{"input-floating", "rows with the controller's pulls", sound, nil},
	{"input-floating", "an analogue input", func(d *desk) { d.joystick(part.Supply3V3) }, nil},
	{"input-floating", "a part that drives the line", func(d *desk) {
		d.place("U6", part.Definition{Name: "expander", Kind: part.Expander, Terminals: ends("INT"), Needs: []part.Need{{Terminal: "INT", Signal: part.DigitalIn}}})
		d.pin("U6.INT", "expander INT", "GP11", "digital in", "in", "")
	}, nil},

	{"diode-reversed", "cathode at the key, columns driven low", func(d *desk) { d.keyDiode(1, silicon, "K", "A") }, []string{"Diode D21 on column 0 blocks the current of its key"}},
	{"diode-reversed", "anode at the key", func(d *desk) { d.keyDiode(1, silicon, "A", "K") }, nil},
	{"diode-reversed", "cathode at the key, columns driven high", func(d *desk) { d.activeHigh("internal"); d.keyDiode(1, silicon, "K", "A") }, nil},
	{"diode-mixed", "one each way", func(d *desk) { d.keyDiode(1, silicon, "A", "K"); d.keyDiode(2, silicon, "K", "A") }, []string{"D22 point one way and D21 the other. Turn D22 round."}},
	{"diode-mixed", "both one way", func(d *desk) { d.keyDiode(1, silicon, "A", "K"); d.keyDiode(2, silicon, "A", "K") }, nil},
	{"diode-reversed", "one of four on lines", func(d *desk) { d.lines("S2") }, []string{"Diode D22 points the other way: key Down (S2) answers on line 0 while line 1 is selected, not on line 1 while line 0 is"}},
	{"diode-reversed", "two keys of one pair of lines", func(d *desk) { d.lines() }, nil},
	{"diode-reversed", "a diode between a line and no key", func(d *desk) {
		d.place("D8", silicon)
		d.net("row 0", netlist.Row, "D8.K")
		d.net(part.Ground, netlist.Ground, "D8.A")
	}, nil},
	{"diode-mixed", "both directions of one pair of lines", func(d *desk) { d.lines() }, nil},
	{"diode-mixed", "one of four on lines turned round", func(d *desk) { d.lines("S3") }, []string{"D23 point one way and D21, D22 and D24 the other"}},
	{"diode-direction", "two in a matrix", func(d *desk) { d.keyDiode(1, silicon, "A", "K"); d.keyDiode(2, silicon, "A", "K") },
		[]string{"All 2 key diodes point one way: the band (cathode) towards its column."}},
	{"diode-direction", "one", func(d *desk) { d.keyDiode(1, silicon, "A", "K") }, []string{"The key diode D21 has its band (cathode) towards its column."}},
	{"diode-direction", "columns driven high", func(d *desk) { d.activeHigh("internal"); d.keyDiode(1, silicon, "K", "A") }, []string{"towards its key."}},
	{"diode-direction", "lines", func(d *desk) { d.lines() }, []string{"towards the line that selects it."}},
	{"diode-direction", "mixed", func(d *desk) { d.keyDiode(1, silicon, "A", "K"); d.keyDiode(2, silicon, "K", "A") }, nil},
	{"diode-direction", "no key diodes", sound, nil},
	{"level-press", "an LED in place of a diode", func(d *desk) { d.keyDiode(1, diodeDef("red LED", 1.8, 5), "A", "K") }, []string{"Held by itself, S1 may not be seen"}},
	{"level-press", "1N4148", func(d *desk) { d.keyDiode(1, silicon, "A", "K") }, nil},
	{"level-idle", "a pull of a hundred megohms", func(d *desk) { d.external("100M", "row 0", "row 1") }, []string{"With no key held the line of S1"}},
	{"level-idle", "pulls of ten kilohms", func(d *desk) { d.external("10k", "row 0", "row 1") }, nil},
	{"level-idle", "a pull-down that the chip's fault defeats", func(d *desk) { d.stepping("A2"); d.activeHigh("external"); d.external("12k", "row 0", "row 1") }, []string{"With no key held the line of S1"}},
	{"level-chord", "diodes at the two keys that need none", func(d *desk) {
		d.keyDiode(1, silicon, "A", "K")
		d.keyDiode(4, silicon, "A", "K")
		d.panel.Chords = []panel.Chord{{Name: "go", Keys: []string{"S1", "S3", "S4"}}}
	}, []string{"S2 reads either way"}},
	{"level-chord", "a diode at the key that needs it", func(d *desk) {
		d.keyDiode(3, silicon, "A", "K")
		d.panel.Chords = []panel.Chord{{Name: "go", Keys: []string{"S1", "S3", "S4"}}}
	}, nil},
	{"level-chord", "a ghost for sure is the scan's to tell", func(d *desk) {
		d.panel.Chords = []panel.Chord{{Name: "go", Keys: []string{"S1", "S3", "S4"}}}
	}, nil},
	{"level-lamp", "ten milliamperes into a pin", func(d *desk) { d.lineLED("D31", "R31", 0, "47") }, []string{"The LEDs on the select lines move the reading of S1 with S1 held"}},
	{"level-lamp", "two milliamperes", func(d *desk) { d.lineLED("D31", "R31", 0, "680") }, nil},
	{"level-margin", "a diode and a strong pull", func(d *desk) {
		d.external("3.3k", "row 0", "row 1")
		d.keyDiode(1, diodeDef("silicon", 0.62, 2.5), "A", "K")
	}, []string{"from the limit"}},
	{"level-margin", "the chip's own pulls", func(d *desk) { d.keyDiode(1, silicon, "A", "K") }, nil},
	{"diode-power", "1N5819", func(d *desk) { d.keyDiode(1, power, "A", "K") }, []string{"Diode D21 (1N5819) is a power part"}},
	{"diode-power", "1N4148", func(d *desk) { d.keyDiode(1, silicon, "A", "K") }, nil},

	{"buzzer-direct", "50 mA on a pin", func(d *desk) { d.buzzerOnPin(50) }, []string{"Buzzer B1 hangs on GP13 and draws 50 mA"}},
	{"buzzer-direct", "an unknown draw", func(d *desk) { d.buzzerOnPin(0) }, []string{"draws more than a pin gives"}},
	{"buzzer-direct", "10 mA on a pin", func(d *desk) { d.buzzerOnPin(10) }, nil},
	{"buzzer-direct", "on a transistor", (*desk).buzzerOnTransistor, nil},
	{"buzzer-flyback", "no diode", (*desk).buzzerOnTransistor, []string{"Buzzer B1 has no diode across its coil"}},
	{"buzzer-flyback", "with one", func(d *desk) {
		d.buzzerOnTransistor()
		d.place("D9", silicon)
		d.net(part.Supply3V3, netlist.Supply, "D9.K")
		d.net("drive", netlist.Link, "D9.A")
	}, nil},

	{"battery-polarity", "a connector", (*desk).battery, []string{"Measure your cell's plug"}},
	{"battery-polarity", "none", sound, nil},
	{"battery-care", "a connector", (*desk).battery, []string{"Never solder on a cell"}},
	{"battery-care", "none", sound, nil},
	{"battery-usb", "straight on VSYS", (*desk).battery, []string{"through J1 towards the cell. Unplug the cell before"}},
	{"battery-usb", "behind a switch", both((*desk).battery, func(d *desk) { d.powerSwitch(300) }), []string{"Switch S9 off before you plug USB in"}},
	{"battery-usb", "a module without USB supply", both((*desk).battery, func(d *desk) {
		d.def("U1", func(p *part.Definition) { p.Terminals[2].Net = "" })
	}), nil},
	{"battery-usb", "no cell", sound, nil},
	{"battery-switch", "a cell and no switch", (*desk).battery, []string{"always on"}},
	{"battery-switch", "a cell and a switch", both((*desk).battery, func(d *desk) { d.powerSwitch(300) }), nil},
	{"charger-current", "a charger", both((*desk).battery, (*desk).charger), []string{"come set to 1 A"}},
	{"charger-current", "none", (*desk).battery, nil},

	{"terminal-adrift", "a terminal that was forgotten", func(d *desk) { d.open("U2.SDA"); d.adrift["U2.SDA"] = true }, []string{"SDA of display U2 is on no net"}},
	{"terminal-adrift", "left open on purpose", func(d *desk) { d.open("U2.SDA") }, nil},
	{"terminal-adrift", "no net list yet", func(d *desk) { d.noNets = true }, nil},
	{"terminal-twice", "on two nets", func(d *desk) {
		n := d.net("other", netlist.Link)
		n.Terminals = append(n.Terminals, netlist.Terminal{TerminalRef: panel.TerminalRef{Ref: "U2", Terminal: "SDA"}})
	}, []string{"U2.SDA is on net display SDA and on net other"}},
	{"terminal-twice", "on one", sound, nil},
	{"metal-apart", "two legs of one metal on two nets", func(d *desk) { d.net("row 1", netlist.Row, "S1.A2") }, []string{"A1 and A2 of switch S1 are one metal, but are wired to row 0 and row 1"}},
	{"metal-apart", "one leg left free", func(d *desk) { d.open("S1.A2") }, nil},
	{"part-unused", "a resistor nobody wired", func(d *desk) { d.place("R7", resistorDef()).Value = "1k" }, []string{"Resistor R7 is placed and joined to nothing"}},
	{"part-unused", "all wired", sound, nil},
	{"part-half-used", "an LED with one end", func(d *desk) { d.open("D1.K") }, []string{"K of LED D1 is joined to nothing"}},
	{"part-half-used", "both ends", sound, nil},

	{"switch-closed", "both sides on one row", func(d *desk) { d.net("row 0", netlist.Row, "S1.B1", "S1.B2") }, []string{"S1 is always closed: both its sides are on row 0"}},
	{"switch-closed", "row and column", sound, nil},
	{"switch-on-strip", "strips along the columns", func(d *desk) {
		d.panel.Boards[0].Copper, d.panel.Boards[0].Along = panel.Strips, "columns"
		d.panel.Placed = d.panel.Placed[2:3]
	}, []string{"S1 is always closed: the board's copper joins its sides at A9 and A11"}},
	{"switch-on-strip", "turned a quarter", func(d *desk) {
		d.panel.Boards[0].Copper, d.panel.Boards[0].Along = panel.Strips, "columns"
		d.panel.Placed = d.panel.Placed[2:3]
		d.panel.Placed[0].At, d.panel.Placed[0].Turn = grid.MustHole("H9"), 1
	}, nil},
	{"switch-on-strip", "cut between the legs", func(d *desk) {
		d.panel.Boards[0].Copper, d.panel.Boards[0].Along = panel.Strips, "columns"
		d.panel.Placed = d.panel.Placed[2:3]
		d.panel.Boards[0].Cuts = []grid.Hole{grid.MustHole("A10"), grid.MustHole("D10")}
	}, nil},
	{"switch-on-strip", "in one hole group", func(d *desk) {
		d.panel.Boards[0].Copper, d.panel.Boards[0].Groups = panel.Groups, [][]grid.Hole{{grid.MustHole("D9"), grid.MustHole("D10"), grid.MustHole("D11")}}
	}, []string{"D9 and D11"}},
	{"switch-unread", "no legend", func(d *desk) { d.place("S7", keyDef()) }, []string{"Switch S7 has no meaning"}},
	{"switch-unread", "wired by the maker", func(d *desk) { d.place("S7", keyDef()); d.net("bell", netlist.Link, "S7.A1", "U1.GP11") }, nil},
	{"switch-unread", "all keys", sound, nil},

	{"key-none", "no legends at all", func(d *desk) {
		for i := range d.panel.Placed {
			d.panel.Placed[i].Key = nil
		}
	}, []string{"This panel has no keys. Type a legend on a switch."}},
	{"key-none", "four keys", sound, nil},
	{"key-legend-missing", "one without", func(d *desk) { d.panel.Find("S3").Key.Legend = "" }, []string{"Key S3 has no legend"}},
	{"key-legend-missing", "all with", sound, nil},
	{"key-legend-twice", "two called Up", func(d *desk) { d.panel.Find("S3").Key.Legend = "Up" }, []string{`Keys S1 and S3 have one legend, "Up"`}},
	{"key-legend-twice", "two without", func(d *desk) { d.panel.Find("S3").Key.Legend = ""; d.panel.Find("S4").Key.Legend = "" }, nil},
	{"key-usage-twice", "one usage, written two ways", func(d *desk) { d.panel.Find("S1").Key.Usage = "07:004f"; d.panel.Find("S3").Key.Usage = "07:4F" }, []string{"Keys S1 and S3 have one meaning, usage 07:4F"}},
	{"key-usage-twice", "each its own", sound, nil},
	{"usage-form", "a word", func(d *desk) { d.panel.Find("S1").Key.Usage = "Enter" }, []string{`The usage "Enter" of key Up (S1) cannot be read`}},
	{"usage-form", "none", func(d *desk) { d.panel.Find("S1").Key.Usage = "" }, nil},
	{"usage-unknown", "a status code", func(d *desk) { d.panel.Find("S1").Key.Usage = "07:01" }, []string{"The usage 07:01 of key Up (S1) is not in the tables"}},
	{"usage-unknown", "a page of vendors", func(d *desk) { d.panel.Find("S1").Key.Usage = "F0:01" }, []string{"F0:01"}},
	{"usage-unknown", "a media key", func(d *desk) { d.panel.Find("S1").Key.Usage = "0C:0192" }, nil},

	{"chord-ghost", "three corners of a rectangle", both(keys("S1", "S2", "S3"), func(d *desk) {
		d.scan.Ghosts = []scan.Ghost{{Chord: "all", Pressed: []string{"S1", "S2", "S3"}, Phantom: "S4", Row: 1, Column: 1}}
	}), []string{`Chord "all": with S1, S2 and S3 held, key Right (S4) reads as pressed too`}},
	{"chord-ghost", "the fourth is part of the chord", both(keys("S1", "S2", "S3", "S4"), func(d *desk) {
		d.scan.Ghosts = []scan.Ghost{{Chord: "all", Pressed: []string{"S1", "S2", "S3"}, Phantom: "S4", Row: 1, Column: 1}}
	}), nil},
	{"chord-ghost", "two keys", keys("S1", "S2"), nil},
	{"chord-key-missing", "a key that is gone", keys("S1", "S8"), []string{`Chord "all" names S8, which is no key`}},
	{"chord-ghost", "a choice that is not pressed", func(d *desk) {
		d.panel.Chords = []panel.Chord{{Name: "all", Keys: []string{"S1"}, Any: []panel.AnyOf{{Count: 2, Of: []string{"S2", "S3", "S4"}}}}}
		d.scan.Ghosts = []scan.Ghost{{Chord: "all", Pressed: []string{"S1", "S2", "S3"}, Phantom: "S4", Row: 1, Column: 1}}
	}, []string{`with S1, S2 and S3 held, key Right (S4) reads`}},
	{"chord-ghost", "at an empty cell of lines", func(d *desk) {
		d.lines()
		keys("S1", "S2", "S3")(d)
		d.scan.Ghosts = []scan.Ghost{{Chord: "all", Pressed: []string{"S1", "S2", "S3"}, Phantom: "", Row: 1, Column: 2}}
	}, []string{"the cell of line 1 and line 2 reads"}},
	{"chord-key-missing", "a choice that is gone", func(d *desk) {
		d.panel.Chords = []panel.Chord{{Name: "all", Keys: []string{"S1"}, Any: []panel.AnyOf{{Count: 1, Of: []string{"S2", "S8"}}}}}
	}, []string{`Chord "all" names S8, which is no key`}},
	{"chord-key-missing", "keys that are there", keys("S1", "S2"), nil},
	{"chord-single", "one key, named twice", keys("S1", "S1"), []string{`Chord "all" has fewer than two keys`}},
	{"chord-single", "two", keys("S1", "S2"), nil},
	{"chord-single", "any one of three", func(d *desk) {
		d.panel.Chords = []panel.Chord{{Name: "all", Any: []panel.AnyOf{{Count: 1, Of: []string{"S1", "S2", "S3"}}}}}
	}, []string{`Chord "all" has fewer than two keys`}},
	{"chord-single", "any of two with any of two", func(d *desk) {
		d.panel.Chords = []panel.Chord{{Name: "all", Any: []panel.AnyOf{{Count: 1, Of: []string{"S1", "S2"}}, {Count: 1, Of: []string{"S3", "S4"}}}}}
	}, nil},
	{"chord-six", "seven keys", func(d *desk) {
		ids := []string{"S1", "S2", "S3", "S4"}
		for i := range 3 {
			ref := fmt.Sprintf("S1%d", i)
			d.place(ref, keyDef()).Key = &panel.Key{Legend: ref}
			ids = append(ids, ref)
		}
		keys(ids...)(d)
	}, []string{`Chord "all" has 7 keys; a plain keyboard report holds 6`}},
	{"chord-six", "four", keys("S1", "S2", "S3", "S4"), nil},
	{"chord-six", "any two of eight", func(d *desk) {
		var of []string
		for i := range 8 {
			ref := fmt.Sprintf("S1%d", i)
			d.place(ref, keyDef()).Key = &panel.Key{Legend: ref}
			of = append(of, ref)
		}
		d.panel.Chords = []panel.Chord{{Name: "all", Any: []panel.AnyOf{{Count: 2, Of: of}}}}
	}, nil},

	{"lock-signal", "a part that is gone", func(d *desk) { d.panel.Pins.Locked["U7.SDA"] = "GP4" }, []string{"GP4 is locked to U7.SDA, which is no signal"}},
	{"lock-signal", "terminals, keys and lines", func(d *desk) {
		d.panel.Pins.Locked = map[string]string{"U2.SDA": "GP4", "S1": "GP5", "row 1": "GP7", "column 0": "GP8"}
	}, nil},
	{"lock-signal", "a line", func(d *desk) { d.lines(); d.panel.Pins.Locked["line 2"] = "GP8" }, nil},
	{"lock-signal", "a row where there are lines", func(d *desk) { d.lines(); d.panel.Pins.Locked["row 0"] = "GP8" }, []string{"GP8 is locked to row 0"}},
	{"lock-pin", "a pin that is not brought out", func(d *desk) { d.panel.Pins.Locked["row 0"] = "GP25" }, []string{"Row 0 is locked to GP25, which the module does not bring out"}},
	{"lock-pin", "one that is", func(d *desk) { d.panel.Pins.Locked["row 0"] = "GP6" }, nil},
	{"keep-free-unknown", "a pin that is not brought out", func(d *desk) { d.panel.Pins.KeepFree = []string{"GP29"} }, []string{"GP29 shall be kept free"}},
	{"keep-free-unknown", "one that is", func(d *desk) { d.panel.Pins.KeepFree = []string{"GP0"} }, nil},
	{"keep-out-off-board", "far away", func(d *desk) { d.panel.Wires.KeepOut = []grid.Hole{grid.MustHole("ZZ9")} }, []string{"ZZ9 shall be kept free and is on no board"}},
	{"keep-out-off-board", "on the board", func(d *desk) { d.panel.Wires.KeepOut = []grid.Hole{grid.MustHole("A1")} }, nil},
	{"wire-end-off-board", "one end far away", func(d *desk) {
		d.panel.Wires.Locked = []panel.LockedWire{{From: grid.MustHole("A1"), To: grid.MustHole("ZZ9"), Kind: "bare"}}
	}, []string{"from A1 to ZZ9 ends at ZZ9, on no board"}},
	{"wire-end-off-board", "on the board", func(d *desk) {
		d.panel.Wires.Locked = []panel.LockedWire{{From: grid.MustHole("A1"), To: grid.MustHole("B9"), Kind: "bare"}}
	}, nil},
}
