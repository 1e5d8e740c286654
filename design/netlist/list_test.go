package netlist

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/scan"
)

// shelf holds small parts of our own, enough to show each rule.
var shelf = map[string]part.Definition{
	"key": {Kind: part.Switch, Terminals: ends("A1 0,0", "A2 3,0", "B1 0,2", "B2 3,2"),
		Joined:   [][]string{{"A1", "A2"}, {"B1", "B2"}},
		Contacts: []part.Contact{{Name: "press", Between: [2]string{"A1", "B1"}}}},
	"stick": {Kind: part.Switch, Terminals: ends("C 0,0", "U 1,0", "D 2,0"),
		Contacts: []part.Contact{{Name: "up", Between: [2]string{"C", "U"}}, {Name: "down", Between: [2]string{"C", "D"}}}},
	"push": {Kind: part.Joystick, Terminals: ends("GND 0,0 ground", "SW 1,0"),
		Contacts: []part.Contact{{Name: "push", Between: [2]string{"SW", "GND"}}}},
	"module": {Kind: part.Module, Terminals: ends("GP0 0,0 gpio", "GP1 1,0 gpio", "GP2 2,0 gpio", "GP3 3,0 gpio",
		"GND 4,0 ground", "GND2 5,0 ground", "3V3 6,0 3V3", "5V 7,0 5V", "VSYS 8,0 VSYS", "RUN 9,0 open")},
	"display": {Kind: part.Display, Terminals: ends("GND 0,0 ground", "VCC 1,0 3V3", "SCL 2,0", "SDA 3,0", "BL 4,0"),
		Needs: []part.Need{{Terminal: "SCL", Signal: part.I2CSCL}, {Terminal: "SDA", Signal: part.I2CSDA},
			{Terminal: "BL", Signal: part.PWM, Optional: true}}},
	"led": {Kind: part.LED, Terminals: ends("A 0,0", "K 1,0"), Needs: []part.Need{{Terminal: "A", Signal: part.DigitalOut}}},
	"two-tone": {Kind: part.LED, Terminals: ends("R 0,0", "K 1,0", "G 2,0"),
		Needs: []part.Need{{Terminal: "R", Signal: part.PWM}, {Terminal: "G", Signal: part.PWM}}},
	"resistor": {Kind: part.Resistor, Terminals: ends("1 0,0", "2 4,0"), Facts: part.Facts{Values: []string{"330"}}},
	"10k":      {Kind: part.Resistor, Terminals: ends("1 0,0", "2 4,0"), Facts: part.Facts{Ohms: 10e3}},
	"diode":    {Kind: part.Diode, Terminals: ends("A 0,0", "K 3,0")},
	"cap":      {Kind: part.Capacitor, Terminals: ends("1 0,0", "2 1,0")},
	"battery":  {Kind: part.Battery, Terminals: ends("+ 0,0 battery_+", "- 1,0 battery_-")},
	"charger":  {Kind: part.Charger, Terminals: ends("B+ 0,0 battery_+", "B- 1,0 battery_-", "OUT+ 2,0 charged_+", "OUT- 3,0 ground")},
	"switch":   {Kind: part.PowerSwitch, Terminals: ends("IN 0,0 charged_+", "OUT 1,0 VSYS")},
	"crossed":  {Kind: part.Other, Terminals: ends("G 0,0 ground", "V 1,0 3V3"), Joined: [][]string{{"G", "V"}}},
	"expander": {Kind: part.Expander, Terminals: ends("GPA0 0,0 open", "GPA1 0,1 open", "VDD 0,2 3V3", "VSS 0,3 ground", "SCL 0,4", "SDA 0,5",
		"A0 3,5 ground", "A1 3,4 ground", "A2 3,3 ground"),
		Needs: []part.Need{{Terminal: "SCL", Signal: part.I2CSCL}, {Terminal: "SDA", Signal: part.I2CSDA}},
		Facts: part.Facts{I2CAddresses: []string{"0x20", "0x21", "0x22", "0x23", "0x24", "0x25", "0x26", "0x27"}, KeyLines: []string{"GPA0", "GPA1"}}},
	"header": {Kind: part.Header, Terminals: ends("1 0,0", "2 1,0")},
}

// ends reads terminals written as "name col,row nature".
func ends(texts ...string) []part.Terminal {
	var list []part.Terminal
	for _, text := range texts {
		var t part.Terminal
		var nature string
		fmt.Sscanf(text, "%s %d,%d %s", &t.Name, &t.At[0], &t.At[1], &nature)
		switch nature = strings.ReplaceAll(nature, "_", " "); nature {
		case "gpio":
			t.GPIO = t.Name
		case "open":
			t.Open = true
		default:
			t.Net = nature
		}
		list = append(list, t)
	}
	return list
}

// place makes a panel of parts written as "S1 key C5".
func place(texts ...string) *panel.Panel {
	p := panel.New("test")
	p.Boards[0].Columns, p.Boards[0].Rows = 40, 40
	p.Parts = shelf
	for _, text := range texts {
		f := strings.Fields(text)
		pl := panel.Placed{Ref: f[0], Part: f[1], At: grid.MustHole(f[2])}
		if d := shelf[f[1]]; len(d.Contacts) == 1 && len(f) == 3 {
			pl.Key = &panel.Key{Legend: f[0]}
		} else if len(f) == 3 {
			pl.Keys = map[string]panel.Key{}
			for _, c := range d.Contacts {
				pl.Keys[c.Name] = panel.Key{Legend: c.Name}
			}
		}
		p.Placed = append(p.Placed, pl)
	}
	p.Tidy()
	return &p
}

// cell reads "S1 0,1 diode".
func cells(texts ...string) []scan.Cell {
	var list []scan.Cell
	for _, text := range texts {
		var c scan.Cell
		var diode string
		fmt.Sscanf(text, "%s %d,%d %s", &c.Key, &c.Row, &c.Column, &diode)
		c.Diode = diode != ""
		list = append(list, c)
	}
	return list
}

// pins reads "GP0 row 0" or "GP1 LED A: D1.A"; what stands before the colon is signal and net.
func pins(texts ...string) *pinning.Result {
	r := &pinning.Result{Module: "U1"}
	for _, text := range texts {
		gpio, rest, _ := strings.Cut(text, " ")
		name, serves, _ := strings.Cut(rest, ": ")
		pin := pinning.Pin{Signal: name, Net: name, GPIO: gpio, Terminal: gpio}
		for _, s := range strings.Fields(serves) {
			t, _ := panel.ParseTerminal(s)
			pin.Serves = append(pin.Serves, t)
		}
		r.Pins = append(r.Pins, pin)
	}
	return r
}

func spell(r Result) string {
	var b strings.Builder
	for _, n := range r.Nets {
		fmt.Fprintf(&b, "%s (%s):", n.Name, n.Class)
		for _, t := range n.Terminals {
			fmt.Fprintf(&b, " %s", t.TerminalRef)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func codes(r Result) []string {
	var list []string
	for _, f := range r.Findings {
		list = append(list, f.Code+" "+f.Where.String())
	}
	return list
}

func matrix(rows, columns int, texts ...string) *scan.Result {
	return &scan.Result{Style: "matrix", Rows: rows, Columns: columns, Active: "low", Pulls: "internal", Cells: cells(texts...)}
}

// direct reads "S1 A1 B1": a key, its terminal for the pin and the one that returns, and after those
// the line of an expander.
func direct(texts ...string) *scan.Result {
	s := &scan.Result{Style: "direct", Active: "low", Pulls: "internal"}
	for _, text := range texts {
		f := strings.Fields(text)
		ref, _, _ := strings.Cut(f[0], ".")
		d := scan.Direct{Key: f[0], Pin: ref + "." + f[1], Return: ref + "." + f[2]}
		if len(f) > 3 {
			s.Style, d.Via = "expander", f[3]
		}
		s.Direct = append(s.Direct, d)
	}
	return s
}

func high(s *scan.Result) *scan.Result     { s.Active = "high"; return s }
func external(s *scan.Result) *scan.Result { s.Pulls = "external"; return s }

// lines reads keys on lines that select and read in turn.
func lines(n int, texts ...string) *scan.Result {
	s := matrix(n, n, texts...)
	s.Style = "lines"
	return s
}

// lit gives the select lines their LEDs, the first line the first.
func lit(s *scan.Result, leds ...string) *scan.Result {
	for i, led := range leds {
		s.Lamps = append(s.Lamps, scan.Lamp{Line: i, LED: led})
	}
	return s
}

// at sets the I2C address of a placed part.
func at(p *panel.Panel, ref, address string) *panel.Panel {
	p.Find(ref).Address = address
	return p
}

// named says in the wishes which LEDs are to light with select lines.
func named(p *panel.Panel, leds ...string) *panel.Panel {
	p.Scan.Lamps = leds
	return p
}

func join(p *panel.Panel, name string, terminals ...string) *panel.Panel {
	p.Joins = append(p.Joins, panel.Join{Name: name, Terminals: terminals})
	return p
}

// The expected nets follow from the rules of this package's comment and of design.md section 4;
// the direction of key diodes is common practice, no source.
func TestListNets(t *testing.T) {
	none := &scan.Result{Style: "none", Active: "low", Pulls: "internal"}
	tests := []struct {
		name  string
		panel *panel.Panel
		scan  *scan.Result
		pins  *pinning.Result
		want  string
	}{
		{"matrix with both legs of a pair on the line", place("U1 module A1", "S1 key C5", "S2 key H5"),
			matrix(1, 2, "S1 0,0", "S2 0,1"), pins("GP0 row 0", "GP1 column 0", "GP2 column 1"), `
row 0 (row): S1.A1 S1.A2 S2.A1 S2.A2 U1.GP0
column 0 (column): S1.B1 S1.B2 U1.GP1
column 1 (column): S2.B1 S2.B2 U1.GP2
`},
		{"key diode, active low: row, key, anode, cathode, column", place("U1 module A1", "S1 key C5", "S2 key H5", "D1 diode M9", "D2 diode C9"),
			matrix(1, 2, "S1 0,0 diode", "S2 0,1"), pins("GP0 row 0", "GP1 column 0", "GP2 column 1"), `
row 0 (row): S1.A1 S1.A2 S2.A1 S2.A2 U1.GP0
column 0 (column): D2.K U1.GP1
column 1 (column): S2.B1 S2.B2 U1.GP2
S1 diode (link): D2.A S1.B1 S1.B2
`},
		{"key diode, active high: column, anode, cathode, key, row", place("U1 module A1", "S1 key C5", "D1 diode C9"),
			high(matrix(1, 1, "S1 0,0 diode")), pins("GP0 row 0", "GP1 column 0"), `
row 0 (row): S1.A1 S1.A2 U1.GP0
column 0 (column): D1.A U1.GP1
S1 diode (link): D1.K S1.B1 S1.B2
`},
		{"direct key to ground", place("U1 module A1", "S1 key C5"), direct("S1 A1 B1"), pins("GP0 S1"), `
ground (ground): S1.B1 S1.B2 U1.GND U1.GND2
key S1 (signal): S1.A1 S1.A2 U1.GP0
`},
		{"direct key to 3V3 when active high", place("U1 module A1", "S1 key C5"), high(direct("S1 A1 B1")), pins("GP0 S1"), `
ground (ground): U1.GND U1.GND2
3V3 (supply): S1.B1 S1.B2 U1.3V3
key S1 (signal): S1.A1 S1.A2 U1.GP0
`},
		{"push to ground by nature stays on ground when active high", place("U1 module A1", "J1 push C5"), high(direct("J1 SW GND")), pins("GP0 J1"), `
ground (ground): J1.GND U1.GND U1.GND2
key J1 (signal): J1.SW U1.GP0
`},
		{"direct keys that share a terminal share the level", place("U1 module A1", "S1 stick C5"), direct("S1.up U C", "S1.down D C"),
			pins("GP0 S1.up", "GP1 S1.down"), `
ground (ground): S1.C U1.GND U1.GND2
key S1.down (signal): S1.D U1.GP1
key S1.up (signal): S1.U U1.GP0
`},
		{"display", place("U1 module A1", "U2 display C5"), none, pins("GP0 display SCL: U2.SCL", "GP1 display SDA: U2.SDA"), `
ground (ground): U1.GND U1.GND2 U2.GND
3V3 (supply): U1.3V3 U2.VCC
display SCL (signal): U1.GP0 U2.SCL
display SDA (signal): U1.GP1 U2.SDA
`},
		{"LED with the nearest free resistor", place("U1 module A1", "D1 led C5", "R1 resistor A30", "R2 resistor E5"), none,
			pins("GP0 LED A: D1.A"), `
ground (ground): D1.K U1.GND U1.GND2
LED A (signal): R2.2 U1.GP0
D1 series (link): D1.A R2.1
`},
		{"resistors go to LEDs for the least sum", place("U1 module A1", "D1 led C5", "D2 led C8", "R1 resistor C6", "R2 resistor C20"), none,
			pins("GP0 D1 A: D1.A", "GP1 D2 A: D2.A"), `
ground (ground): D1.K D2.K U1.GND U1.GND2
D1 A (signal): R1.2 U1.GP0
D2 A (signal): R2.2 U1.GP1
D1 series (link): D1.A R1.1
D2 series (link): D2.A R2.1
`},
		{"LED without a resistor goes straight to its pin", place("U1 module A1", "D1 led C5", "R1 10k E5"), none, pins("GP0 LED A: D1.A"), `
ground (ground): D1.K U1.GND U1.GND2
LED A (signal): D1.A U1.GP0
`},
		{"LED of two colours", place("U1 module A1", "D1 two-tone C5", "R1 resistor A6", "R2 resistor E6"), none,
			pins("GP0 LED R: D1.R", "GP1 LED G: D1.G"), `
ground (ground): D1.K U1.GND U1.GND2
LED G (signal): R2.2 U1.GP1
LED R (signal): R1.2 U1.GP0
D1 G series (link): D1.G R2.1
D1 R series (link): D1.R R1.1
`},
		{"the maker's own LED circuit takes the default away", join(join(place("U1 module A1", "D1 led C5", "R1 resistor E5"),
			"lamp", "U1.GP3", "D1.K"), "feed", "R1.1", "D1.A"), none, pins("GP0 x"), `
ground (ground): U1.GND U1.GND2
lamp (signal): D1.K U1.GP3
feed (link): D1.A R1.1
`},
		{"a join that holds a supply is that supply", join(place("U1 module A1", "C1 cap C5"), "smooth", "U1.3V3", "C1.1"), none, pins("GP0 x"), `
ground (ground): U1.GND U1.GND2
3V3 (supply): C1.1 U1.3V3
`},
		{"joins that meet are one net by the first name", join(join(place("C1 cap C5", "C2 cap C6"), "one", "C1.1", "C2.1"), "two", "C2.1", "C2.2"), none, pins(), `
one (link): C1.1 C2.1 C2.2
`},
		{"external pull-ups", place("U1 module A1", "S1 key C5", "S2 key C9", "R1 10k H9", "R2 10k H5"), external(matrix(2, 1, "S1 0,0", "S2 1,0")),
			pins("GP0 row 0", "GP1 row 1", "GP2 column 0"), `
ground (ground): U1.GND U1.GND2
3V3 (supply): R1.2 R2.2 U1.3V3
row 0 (row): R2.1 S1.A1 S1.A2 U1.GP0
row 1 (row): R1.1 S2.A1 S2.A2 U1.GP1
column 0 (column): S1.B1 S1.B2 S2.B1 S2.B2 U1.GP2
`},
		{"external pull-downs when active high", place("U1 module A1", "S1 key C5", "R1 10k H5"), external(high(direct("S1 A1 B1"))), pins("GP0 S1"), `
ground (ground): R1.2 U1.GND U1.GND2
3V3 (supply): S1.B1 S1.B2 U1.3V3
key S1 (signal): R1.1 S1.A1 S1.A2 U1.GP0
`},
		{"battery straight to VSYS", place("U1 module A1", "BT1 battery C5"), none, pins("GP0 x"), `
ground (ground): BT1.- U1.GND U1.GND2
VSYS (supply): BT1.+ U1.VSYS
`},
		{"battery, charger and power switch", place("U1 module A1", "BT1 battery C5", "U2 charger C7", "SW1 switch C9"), none, pins("GP0 x"), `
ground (ground): U1.GND U1.GND2 U2.OUT-
VSYS (supply): SW1.OUT U1.VSYS
charged + (supply): SW1.IN U2.OUT+
battery + (supply): BT1.+ U2.B+
battery - (supply): BT1.- U2.B-
`},
		{"battery and charger without a switch", place("U1 module A1", "BT1 battery C5", "U2 charger C7"), none, pins("GP0 x"), `
ground (ground): U1.GND U1.GND2 U2.OUT-
VSYS (supply): U1.VSYS U2.OUT+
battery + (supply): BT1.+ U2.B+
battery - (supply): BT1.- U2.B-
`},
		{"battery and switch without a charger", place("U1 module A1", "BT1 battery C5", "SW1 switch C9"), none, pins("GP0 x"), `
ground (ground): BT1.- U1.GND U1.GND2
VSYS (supply): SW1.OUT U1.VSYS
charged + (supply): BT1.+ SW1.IN
`},
		{"no pin plan: supplies, lines between keys and links all the same", place("U1 module A1", "S1 key C5", "S2 key H5", "D1 led C9", "R1 resistor E9"),
			matrix(1, 2, "S1 0,0", "S2 0,1"), pins(), `
ground (ground): D1.K U1.GND U1.GND2
row 0 (row): S1.A1 S1.A2 S2.A1 S2.A2
D1 series (link): D1.A R1.1
`},
		{"two keys on one pair of lines, one diode each way", place("U1 module A1", "S1 key C5", "S2 key C12", "D1 diode C9", "D2 diode C16"),
			lines(2, "S1 0,1 diode", "S2 1,0 diode"), pins("GP0 line 0", "GP1 line 1"), `
line 0 (row): D2.K S1.A1 S1.A2 U1.GP0
line 1 (row): D1.K S2.A1 S2.A2 U1.GP1
S1 diode (link): D1.A S1.B1 S1.B2
S2 diode (link): D2.A S2.B1 S2.B2
`},
		{"the same active high", place("U1 module A1", "S1 key C5", "S2 key C12", "D1 diode C9", "D2 diode C16"),
			high(lines(2, "S1 0,1 diode", "S2 1,0 diode")), pins("GP0 line 0", "GP1 line 1"), `
line 0 (row): D2.A S1.A1 S1.A2 U1.GP0
line 1 (row): D1.A S2.A1 S2.A2 U1.GP1
S1 diode (link): D1.K S1.B1 S1.B2
S2 diode (link): D2.K S2.B1 S2.B2
`},
		{"lines with resistors of their own", place("U1 module A1", "S1 key C5", "D1 diode C9", "R1 10k H5", "R2 10k H9"),
			external(lines(2, "S1 0,1 diode")), pins("GP0 line 0", "GP1 line 1"), `
ground (ground): U1.GND U1.GND2
3V3 (supply): R1.2 R2.2 U1.3V3
line 0 (row): R1.1 S1.A1 S1.A2 U1.GP0
line 1 (row): D1.K R2.1 U1.GP1
S1 diode (link): D1.A S1.B1 S1.B2
`},
		{"a key on an expander needs no pin and no pull", place("U1 module A1", "U2 expander C5", "S1 key H5", "S2 key H9", "R1 10k C20"),
			external(direct("S1 A1 B1 U2.GPA0", "S2 A1 B1 U2.GPA1")), pins("GP0 expander SCL: U2.SCL", "GP1 expander SDA: U2.SDA"), `
ground (ground): S1.B1 S1.B2 S2.B1 S2.B2 U1.GND U1.GND2 U2.A0 U2.A1 U2.A2 U2.VSS
3V3 (supply): U1.3V3 U2.VDD
key S1 (signal): S1.A1 S1.A2 U2.GPA0
key S2 (signal): S2.A1 S2.A2 U2.GPA1
expander SCL (signal): U1.GP0 U2.SCL
expander SDA (signal): U1.GP1 U2.SDA
`},
		{"address pins follow the address", at(at(place("U1 module A1", "U2 expander C5", "U3 expander H5"), "U2", "0x25"), "U3", "0x20"),
			none, pins("GP0 I2C SCL: U2.SCL U3.SCL", "GP1 I2C SDA: U2.SDA U3.SDA"), `
ground (ground): U1.GND U1.GND2 U2.A1 U2.VSS U3.A0 U3.A1 U3.A2 U3.VSS
3V3 (supply): U1.3V3 U2.A0 U2.A2 U2.VDD U3.VDD
I2C SCL (signal): U1.GP0 U2.SCL U3.SCL
I2C SDA (signal): U1.GP1 U2.SDA U3.SDA
`},
		{"an LED on a column that is selected low", named(place("U1 module A1", "S1 key C5", "D1 led C9", "R1 resistor E9"), "D1"),
			lit(matrix(1, 1, "S1 0,0"), "D1"), pins("GP0 row 0", "GP1 column 0"), `
ground (ground): U1.GND U1.GND2
3V3 (supply): R1.2 U1.3V3
row 0 (row): S1.A1 S1.A2 U1.GP0
column 0 (column): D1.K S1.B1 S1.B2 U1.GP1
D1 series (link): D1.A R1.1
`},
		{"an LED on a column that is selected high", named(place("U1 module A1", "S1 key C5", "D1 led C9", "R1 resistor E9"), "D1"),
			high(lit(matrix(1, 1, "S1 0,0"), "D1")), pins("GP0 row 0", "GP1 column 0"), `
ground (ground): D1.K U1.GND U1.GND2
row 0 (row): S1.A1 S1.A2 U1.GP0
column 0 (column): R1.2 S1.B1 S1.B2 U1.GP1
D1 series (link): D1.A R1.1
`},
		{"LEDs of lines and one of a pin share out the resistors", named(place("U1 module A1", "S1 key C5", "D1 led C20", "D2 led H9", "D3 led C9", "D4 diode H20",
			"R1 resistor E9", "R2 resistor J9", "R3 resistor E20"), "D3", "D2"),
			lit(lines(2, "S1 0,1 diode"), "D3", "D2"), pins("GP0 line 0", "GP1 line 1", "GP2 D1 A: D1.A"), `
ground (ground): D1.K U1.GND U1.GND2
3V3 (supply): R1.2 R2.2 U1.3V3
line 0 (row): D3.K S1.A1 S1.A2 U1.GP0
line 1 (row): D2.K D4.K U1.GP1
D1 A (signal): R3.2 U1.GP2
D1 series (link): D1.A R3.1
D2 series (link): D2.A R2.1
D3 series (link): D3.A R1.1
S1 diode (link): D4.A S1.B1 S1.B2
`},
		{"an LED of a line that finds no resistor", named(place("U1 module A1", "S1 key C5", "D1 led C9"), "D1"),
			lit(matrix(1, 1, "S1 0,0"), "D1"), pins("GP0 row 0", "GP1 column 0"), `
3V3 (supply): D1.A U1.3V3
row 0 (row): S1.A1 S1.A2 U1.GP0
column 0 (column): D1.K S1.B1 S1.B2 U1.GP1
`},
		{"an LED named for a line that is not there stays open", named(place("U1 module A1", "S1 key C5", "D1 led C9", "R1 resistor E9"), "D1"),
			direct("S1 A1 B1"), pins("GP0 S1"), `
ground (ground): S1.B1 S1.B2 U1.GND U1.GND2
key S1 (signal): S1.A1 S1.A2 U1.GP0
`},
		{"ten lines in natural order", place("U1 module A1", "S1 key C5", "S2 key C10", "S3 key H5"),
			matrix(11, 1, "S1 2,0", "S2 10,0", "S3 2,0"), pins("GP0 row 2", "GP1 row 10", "GP2 column 0"), `
ground (ground): U1.GND U1.GND2
row 2 (row): S1.A1 S1.A2 S3.A1 S3.A2 U1.GP0
row 10 (row): S2.A1 S2.A2 U1.GP1
column 0 (column): S1.B1 S1.B2 S2.B1 S2.B2 S3.B1 S3.B2 U1.GP2
`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := List(tt.panel, tt.scan, tt.pins)
			want := strings.TrimPrefix(tt.want, "\n")
			if s := spell(got); dropIdleGround(s) != dropIdleGround(want) {
				t.Errorf("got\n%s\nwant\n%s", s, want)
			}
			eachOnce(t, tt.panel, got)
		})
	}
}

// dropIdleGround leaves out the two grounds of the module when nothing else is on them.
func dropIdleGround(s string) string {
	return strings.Replace(s, "ground (ground): U1.GND U1.GND2\n", "", 1)
}

// eachOnce fails unless every terminal of the panel is in exactly one net, or open with a reason.
func eachOnce(t *testing.T, p *panel.Panel, r Result) {
	t.Helper()
	seen := map[panel.TerminalRef]int{}
	for _, n := range r.Nets {
		for _, term := range n.Terminals {
			seen[term.TerminalRef]++
		}
	}
	for _, o := range r.Open {
		seen[o.TerminalRef]++
		if o.Why == "" {
			t.Errorf("%s is open without a reason", o.TerminalRef)
		}
	}
	for i := range p.Placed {
		d := p.Definition(&p.Placed[i])
		for _, term := range d.Terminals {
			ref := panel.TerminalRef{Ref: p.Placed[i].Ref, Terminal: term.Name}
			if seen[ref] != 1 {
				t.Errorf("%s is listed %d times", ref, seen[ref])
			}
			delete(seen, ref)
		}
	}
	if len(seen) != 0 {
		t.Errorf("listed but not placed: %v", seen)
	}
}

func TestListFindings(t *testing.T) {
	none := &scan.Result{Style: "none", Active: "low", Pulls: "internal"}
	tests := []struct {
		name  string
		panel *panel.Panel
		scan  *scan.Result
		pins  *pinning.Result
		want  []string
		says  string // part of the first finding's text
	}{
		{"all well", place("U1 module A1", "S1 key C5"), direct("S1 A1 B1"), pins("GP0 S1"), nil, ""},
		{"diode missing", place("U1 module A1", "S1 key C5", "S2 key H5", "D1 diode H9"), matrix(1, 2, "S1 0,0 diode", "S2 0,1 diode"),
			pins("GP0 row 0", "GP1 column 0", "GP2 column 1"), []string{"net-diode-missing S1"}, "Key S1 wants a diode"},
		{"pull missing", place("U1 module A1", "S1 key C5", "R1 resistor H9"), external(direct("S1 A1 B1")), pins("GP0 S1"),
			[]string{"net-pull-missing key S1", "net-lonely R1"}, "a resistor to 3V3"},
		{"row and column on one metal", place("U1 module A1", "S1 key C5", "S2 stick H5"), matrix(1, 2, "S1 0,0", "S2.up 0,1", "S2.down 1,1"),
			pins("GP0 row 0", "GP1 column 0", "GP2 column 1", "GP3 row 1"), []string{"net-short S2"}, "S2.C would be both row 0 and row 1"},
		{"supplies on one metal", place("U1 module A1", "X1 crossed C5"), none, pins("GP0 x"), []string{"net-short X1"},
			"X1 G and V are one metal inside the part and would be both ground and 3V3"},
		{"supplies through a join", join(place("U1 module A1", "C1 cap C5"), "oops", "U1.GND", "C1.1", "U1.3V3"), none, pins("GP0 x"),
			[]string{"net-short U1", "net-lonely C1"}, "U1.3V3 would be both 3V3 and ground through your join \"oops\""},
		{"signals through a join", join(place("U1 module A1", "U2 display C5"), "oops", "U1.GP0", "U1.GP1"), none,
			pins("GP0 display SCL: U2.SCL", "GP1 display SDA: U2.SDA"), []string{"net-short U1", "net-lonely U2"}, "U1.GP1 would be both display SCL and display SDA through"},
		{"no source", place("U2 display C5", "U3 display C9"), none, pins(), []string{"net-no-source U2+U3", "net-no-source U2+U3"},
			"U2 and U3 want 3V3"},
		{"header may bring a supply", join(place("U2 display C5", "J1 header C9"), "feed", "J1.1", "U2.VCC"), none, pins(),
			[]string{"net-no-source U2"}, "ground"},
		{"lonely parts", place("C1 cap C5", "J1 header C9", "R1 resistor C12"), none, pins(),
			[]string{"net-lonely C1", "net-lonely J1", "net-lonely R1"}, "C1: nothing is joined to 1 and 2."},
		{"signal without a pin", place("U1 module A1", "U2 display C5"), none, pins("GP0 display SCL: U2.SCL"), []string{"net-lonely U2"}, "SDA"},
		{"lines without diodes", place("U1 module A1", "S1 key C5"), lines(2, "S1 0,1 diode"), pins("GP0 line 0", "GP1 line 1"),
			[]string{"net-diode-missing S1"}, "Key S1 wants a diode"},
		{"LED of a line in a join", join(named(place("U1 module A1", "S1 key C5", "D1 led C9", "R1 resistor E9"), "D1"), "mine", "D1.K", "R1.1"),
			lit(matrix(1, 1, "S1 0,0"), "D1"), pins("GP0 row 0", "GP1 column 0"), []string{"net-lamp-unwired D1", "net-lonely D1", "net-lonely R1"}, "a join of yours"},
		{"LED of two colours for a line", named(place("U1 module A1", "S1 key C5", "D1 two-tone C9"), "D1"),
			lit(matrix(1, 1, "S1 0,0"), "D1"), pins("GP0 row 0", "GP1 column 0"), []string{"net-lamp-unwired D1", "net-lonely D1"}, "no terminals A and K"},
		{"an expander's line that the maker joined", join(place("U1 module A1", "U2 expander C5", "S1 key H5"), "oops", "U2.GPA0", "U2.VDD"),
			direct("S1 A1 B1 U2.GPA0"), pins("GP0 expander SCL: U2.SCL", "GP1 expander SDA: U2.SDA"), []string{"net-short U2"}, "U2.GPA0 would be both 3V3 and key S1"},
		{"join of nothing", join(place("U1 module A1"), "gone", "U1.GP0", "R9.1"), none, pins("GP1 x"), []string{"net-join-unknown panel"}, "R9.1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := List(tt.panel, tt.scan, tt.pins)
			if c := codes(got); !slices.Equal(c, tt.want) {
				t.Errorf("findings %q, want %q\n%v", c, tt.want, got.Findings)
			}
			if len(got.Findings) > 0 && !strings.Contains(got.Findings[0].Text, tt.says) {
				t.Errorf("text %q does not say %q", got.Findings[0].Text, tt.says)
			}
			for _, f := range got.Findings {
				if f.Fix == "" || f.Text == "" {
					t.Errorf("finding %+v lacks text or fix", f)
				}
			}
			eachOnce(t, tt.panel, got)
		})
	}
}

func TestListRecordsPairs(t *testing.T) {
	p := place("U1 module A1", "D1 led C5", "D2 led C20", "R1 resistor E5", "S1 key H8", "D3 diode H12")
	got := List(p, matrix(1, 1, "S1 0,0 diode"), pins("GP0 row 0", "GP1 column 0", "GP2 D1 A: D1.A", "GP3 D2 A: D2.A"))
	var pairs []string
	for _, pair := range got.Pairs {
		pairs = append(pairs, pair.Of+"="+pair.With)
		if pair.Why == "" {
			t.Errorf("pair %+v says no why", pair)
		}
	}
	if want := []string{"S1=D3", "D1=R1", "D2="}; !slices.Equal(pairs, want) {
		t.Errorf("pairs %q, want %q", pairs, want)
	}
	if finding.Count(got.Findings, finding.Stop) != 0 {
		t.Errorf("a missing LED resistor is left to the checks, got %v", got.Findings)
	}
}

func TestListSaysWhyALampIsOpen(t *testing.T) {
	p := named(place("U1 module A1", "S1 key C5", "D1 led C9"), "D1")
	got := List(p, direct("S1 A1 B1"), pins("GP0 S1"))
	for _, end := range []string{"A", "K"} {
		i := slices.IndexFunc(got.Open, func(o Open) bool { return o.TerminalRef == panel.TerminalRef{Ref: "D1", Terminal: end} })
		if i < 0 || !strings.Contains(got.Open[i].Why, "no line is wired to it") {
			t.Errorf("D1.%s is not open for want of a line: %v", end, got.Open)
		}
	}
}

func TestListFaces(t *testing.T) {
	p := place("S1 key C5", "S2 key H5")
	p.Placed[1].Face = grid.Back
	p.Boards[0].Plated = false
	got := List(p, matrix(1, 2, "S1 0,0", "S2 0,1"), pins())
	row, ok := got.Net("row 0")
	if !ok {
		t.Fatalf("no row 0 in %s", spell(got))
	}
	for _, term := range row.Terminals {
		want := grid.Back
		if term.Ref == "S2" {
			want = grid.Front
		}
		if term.Face != want || term.OneNode {
			t.Errorf("%s on %s, one node %v; want %s, false", term.TerminalRef, term.Face, term.OneNode, want)
		}
	}
	// A part on the back runs the other way: A2 lies three columns left of A1.
	if a2 := row.Terminals[3]; a2.TerminalRef.String() != "S2.A2" || a2.Hole != grid.MustHole("E5") {
		t.Errorf("%s in %s, want S2.A2 in E5", a2.TerminalRef, a2.Hole)
	}
	if name := got.NetOf(panel.TerminalRef{Ref: "S2", Terminal: "B1"}); name != "" {
		t.Errorf("S2.B1 is on %q, want it open: its column has no pin", name)
	}
}
