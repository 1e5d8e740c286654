package check

import (
	"fmt"
	"strings"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/wiring"
)

// A desk is a panel under test with its plan written by hand: nets and pins are said, everything
// else follows. Terminals that are on no net count as left open, except those named in adrift.
type desk struct {
	panel  panel.Panel
	scan   scan.Result
	pins   pinning.Result
	nets   []*netlist.Net
	pairs  []netlist.Pair
	wires  []wiring.Wire
	adrift map[string]bool
	chip   controller.Chip
	free   grid.Hole // where the next part goes
	noNets bool
}

// ends makes the terminals of a definition in one row.
func ends(names ...string) []part.Terminal {
	var list []part.Terminal
	for i, n := range names {
		list = append(list, part.Terminal{Name: n, At: [2]int{i, 0}, MM: [2]float64{float64(i) * 2.54, 0}})
	}
	return list
}

func moduleDef() part.Definition {
	d := part.Definition{Name: "40-pin RP2040 module", Kind: part.Module, Prefix: "U",
		Facts: part.Facts{SupplyMinVolts: 1.8, SupplyMaxVolts: 5.5, SupplyOutMA: 300, CurrentMA: 25, Chip: "RP2040"}}
	d.Terminals = ends("GND", "3V3", "5V", "VSYS")
	for i, net := range []string{part.Ground, part.Supply3V3, part.Supply5V, part.VSYS} {
		d.Terminals[i].Net = net
	}
	for n := range 16 {
		name := fmt.Sprintf("GP%d", n)
		d.Terminals = append(d.Terminals, part.Terminal{Name: name, At: [2]int{4 + n, 0}, GPIO: name})
	}
	d.Terminals = append(d.Terminals, part.Terminal{Name: "GP26", At: [2]int{20, 0}, GPIO: "GP26"})
	return d
}

func displayDef() part.Definition {
	d := part.Definition{Name: "128 x 64 display", Kind: part.Display, Prefix: "U", Terminals: ends("GND", "VCC", "SCL", "SDA"),
		Needs: []part.Need{{Terminal: "SDA", Signal: part.I2CSDA}, {Terminal: "SCL", Signal: part.I2CSCL}},
		Facts: part.Facts{SupplyMinVolts: 3.3, SupplyMaxVolts: 5, CurrentMA: 20, LogicFromSupply: true,
			I2CAddresses: []string{"0x3C", "0x3D"}, PullUpOhms: 4700}}
	d.Terminals[0].Net, d.Terminals[1].Net = part.Ground, part.Supply3V3
	return d
}

func keyDef() part.Definition {
	return part.Definition{Name: "tactile switch", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{{Name: "A1"}, {Name: "A2", At: [2]int{3, 0}}, {Name: "B1", At: [2]int{0, 2}}, {Name: "B2", At: [2]int{3, 2}}},
		Joined:    [][]string{{"A1", "A2"}, {"B1", "B2"}},
		Contacts:  []part.Contact{{Name: "press", Between: [2]string{"A1", "B1"}}},
		Facts:     part.Facts{ContactMA: 50}}
}

func ledDef() part.Definition {
	return part.Definition{Name: "5 mm LED", Kind: part.LED, Prefix: "D", Terminals: ends("A", "K"),
		Needs: []part.Need{{Terminal: "A", Signal: part.DigitalOut}}}
}

func resistorDef() part.Definition {
	return part.Definition{Name: "resistor", Kind: part.Resistor, Prefix: "R", Terminals: ends("1", "2")}
}

func diodeDef(name string, volts, ma float64) part.Definition {
	return part.Definition{Name: name, Kind: part.Diode, Prefix: "D", Terminals: ends("A", "K"),
		Facts: part.Facts{ForwardVolts: volts, ForwardMA: ma}}
}

// newDesk is a sound panel: a module, an I2C display, four keys in a matrix of two by two, and a
// red LED with 750 ohms.
func newDesk() *desk {
	chip, _ := controller.ChipNamed("RP2040")
	d := &desk{panel: panel.New("desk"), chip: chip, adrift: map[string]bool{}}
	d.panel.Boards[0].Columns, d.panel.Boards[0].Rows = 60, 60
	d.pins.Module = "U1"
	d.scan = scan.Result{Style: "matrix", Rows: 2, Columns: 2, Active: "low", Pulls: "internal", Reader: "pio"}

	d.place("U1", moduleDef())
	d.place("U2", displayDef())
	d.net(part.Ground, netlist.Ground, "U1.GND", "U2.GND")
	d.net(part.Supply3V3, netlist.Supply, "U1.3V3", "U2.VCC")
	d.pin("U2.SDA", "display SDA", "GP4", "I2C0 SDA", "both", "")
	d.pin("U2.SCL", "display SCL", "GP5", "I2C0 SCL", "both", "")

	legends := []string{"Up", "Down", "Left", "Right"}
	for i, legend := range legends {
		ref := fmt.Sprintf("S%d", i+1)
		d.place(ref, keyDef()).Key = &panel.Key{Legend: legend, Usage: fmt.Sprintf("07:%02X", 0x4F+i)}
		row, column := i/2, i%2
		d.scan.Cells = append(d.scan.Cells, scan.Cell{Key: ref, Legend: legend, Row: row, Column: column, Code: i})
		d.net(fmt.Sprintf("row %d", row), netlist.Row, ref+".A1", ref+".A2")
		d.net(fmt.Sprintf("column %d", column), netlist.Column, ref+".B1", ref+".B2")
	}
	d.pin("row 0", "row 0", "GP6", "PIO in", "in", "up")
	d.pin("row 1", "row 1", "GP7", "PIO in", "in", "up")
	d.pin("column 0", "column 0", "GP8", "PIO out", "out", "")
	d.pin("column 1", "column 1", "GP9", "PIO out", "out", "")
	d.led("D1", "R1", "GP10", "red", "750")
	return d
}

// place puts a part into the next free place and returns it.
func (d *desk) place(ref string, def part.Definition) *panel.Placed {
	id := strings.ToLower(ref)
	def.Tidy()
	d.panel.Parts[id] = def
	d.panel.Placed = append(d.panel.Placed, panel.Placed{Ref: ref, Part: id, At: d.free})
	d.free.Row += 4
	if d.free.Row > 50 {
		d.free = grid.Hole{Col: d.free.Col + 24}
	}
	return &d.panel.Placed[len(d.panel.Placed)-1]
}

// def changes the definition of a placed part.
func (d *desk) def(ref string, change func(*part.Definition)) {
	def := d.panel.Parts[strings.ToLower(ref)]
	change(&def)
	d.panel.Parts[strings.ToLower(ref)] = def
}

// net adds terminals to a net, made when it is new, and takes them off any other.
func (d *desk) net(name string, class netlist.Class, terminals ...string) *netlist.Net {
	d.open(terminals...)
	var n *netlist.Net
	for _, old := range d.nets {
		if old.Name == name {
			n = old
		}
	}
	if n == nil {
		n = &netlist.Net{Name: name, Class: class}
		d.nets = append(d.nets, n)
	}
	for _, text := range terminals {
		t, ok := panel.ParseTerminal(text)
		if _, there := d.panel.HoleOf(t); !ok || !there {
			panic("no terminal " + text)
		}
		n.Terminals = append(n.Terminals, netlist.Terminal{TerminalRef: t, OneNode: true})
	}
	return n
}

// open takes terminals off every net.
func (d *desk) open(terminals ...string) {
	for _, n := range d.nets {
		kept := n.Terminals[:0]
		for _, t := range n.Terminals {
			if !contains(terminals, t.TerminalRef.String()) {
				kept = append(kept, t)
			}
		}
		n.Terminals = kept
	}
}

func contains(list []string, s string) bool {
	return strings.Contains("\n"+strings.Join(list, "\n")+"\n", "\n"+s+"\n")
}

// pin gives a signal a GPIO; a signal named after a terminal serves it.
func (d *desk) pin(signal, net, gpio, function, direction, pull string) *pinning.Pin {
	terminals := []string{"U1." + gpio}
	p := pinning.Pin{Signal: signal, Net: net, GPIO: gpio, Terminal: gpio, Function: function, Direction: direction, Pull: pull}
	if t, ok := panel.ParseTerminal(signal); ok {
		p.Serves = []panel.TerminalRef{t}
		if !strings.HasPrefix(net, "LED") {
			terminals = append(terminals, signal)
		}
	}
	d.net(net, netlist.Signal, terminals...)
	d.pins.Pins = append(d.pins.Pins, p)
	return &d.pins.Pins[len(d.pins.Pins)-1]
}

// led places an LED from a pin through a resistor to ground.
func (d *desk) led(ref, resistor, gpio, colour, ohms string) {
	d.place(ref, ledDef()).Value = colour
	d.place(resistor, resistorDef()).Value = ohms
	d.pin(ref+".A", "LED "+ref, gpio, "digital out", "out", "")
	d.net("LED "+ref, netlist.Signal, resistor+".1")
	d.net(ref+" series", netlist.Link, resistor+".2", ref+".A")
	d.net(part.Ground, netlist.Ground, ref+".K")
}

// resistor places a resistor between two nets.
func (d *desk) resistor(ref, ohms, a, b string) {
	d.place(ref, resistorDef()).Value = ohms
	d.net(a, netlist.Signal, ref+".1")
	d.net(b, netlist.Signal, ref+".2")
}

// stepping makes the module one with an RP2350 of that stepping.
func (d *desk) stepping(s string) {
	d.chip, _ = controller.ChipNamed("RP2350")
	d.panel.Find("U1").Value = s
	d.def("U1", func(p *part.Definition) { p.Facts.Chip = "RP2350" })
}

// plan turns the desk into a case.
func (d *desk) plan() *Case {
	p := d.panel
	c := &Case{Panel: &p, Scan: &d.scan, Pins: &d.pins}
	if p.Find("U1") != nil {
		c.Module = &controller.Module{Chip: d.chip}
		def := p.Parts["u1"]
		for _, t := range def.Terminals {
			if n, ok := controller.ParseGPIO(t.GPIO); ok {
				c.Module.Pins = append(c.Module.Pins, controller.Pin{GPIO: n, Name: t.GPIO, Terminal: t.Name})
			}
		}
	}
	if d.noNets {
		return c
	}
	c.Wiring = &wiring.Result{Wires: d.wires}
	c.Nets = &netlist.Result{Pairs: d.pairs}
	on := map[panel.TerminalRef]bool{}
	for _, n := range d.nets {
		if len(n.Terminals) > 0 {
			c.Nets.Nets = append(c.Nets.Nets, *n)
		}
		for _, t := range n.Terminals {
			on[t.TerminalRef] = true
		}
	}
	for i := range p.Placed {
		def := p.Parts[p.Placed[i].Part]
		for _, t := range def.Terminals {
			ref := panel.TerminalRef{Ref: p.Placed[i].Ref, Terminal: t.Name}
			if !on[ref] && !d.adrift[ref.String()] {
				c.Nets.Open = append(c.Nets.Open, netlist.Open{TerminalRef: ref, Why: "test"})
			}
		}
	}
	return c
}

// said lists text and fix of every finding with that code.
func said(found []finding.Finding, code string) []string {
	var texts []string
	for _, f := range found {
		if f.Code == code {
			texts = append(texts, f.Text+" "+f.Fix)
		}
	}
	return texts
}
