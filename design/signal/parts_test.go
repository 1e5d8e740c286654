package signal

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/panel"
	"fascia/design/part"
)

// definition makes a part from its kind and needs written as "terminal=signal".
func definition(kind part.Kind, needs ...string) part.Definition {
	d := part.Definition{Name: string(kind), Kind: kind, Prefix: "X"}
	for i, text := range needs {
		name, signal, _ := strings.Cut(text, "=")
		d.Terminals = append(d.Terminals, part.Terminal{Name: name, At: [2]int{i, 0}})
		if signal != "" {
			optional := strings.HasSuffix(signal, "?")
			d.Needs = append(d.Needs, part.Need{Terminal: name, Signal: part.Signal(strings.TrimSuffix(signal, "?")), Optional: optional})
		}
	}
	return d
}

func panelWith(parts map[string]part.Definition, placed ...string) *panel.Panel {
	p := panel.New("test")
	p.Parts = parts
	for _, text := range placed {
		ref, id, _ := strings.Cut(text, "=")
		p.Placed = append(p.Placed, panel.Placed{Ref: ref, Part: id})
	}
	p.Tidy()
	return &p
}

func describe(signals []Signal) string {
	var b strings.Builder
	for _, s := range signals {
		fmt.Fprintf(&b, "%s %q %s bus=%q %s %v", s.ID, s.Net, s.Wants, s.Bus, s.Direction, s.Terminals)
		if s.Optional {
			b.WriteString(" optional")
		}
		b.WriteString("\n")
	}
	return b.String()
}

var shelf = map[string]part.Definition{
	"oled":   definition(part.Display, "GND", "SDA=I2C SDA", "SCL=I2C SCL"),
	"lcd":    definition(part.Display, "SCK=SPI SCK", "SDA=SPI TX", "CS=digital out", "DC=digital out", "BL=digital out?"),
	"round":  alwaysSelected(definition(part.Display, "SCK=SPI SCK", "SDA=SPI TX", "DC=digital out")),
	"gauge":  definition(part.Other, "SCK=SPI SCK", "SDI=SPI TX", "SDO=SPI RX", "CS=digital out"),
	"port":   definition(part.Expander, "SDA=I2C SDA", "SCL=I2C SCL", "INT=digital in?"),
	"led":    definition(part.LED, "A=digital out", "K"),
	"stick":  stick(),
	"module": module(),
}

func alwaysSelected(d part.Definition) part.Definition {
	d.Facts.NoChipSelect = true
	return d
}

func stick() part.Definition {
	d := definition(part.Joystick, "X=ADC", "Y=ADC", "SW=digital in", "G")
	d.Needs[2].Pull = "up"
	d.Contacts = []part.Contact{{Name: "press", Between: [2]string{"SW", "G"}}}
	return d
}

func module() part.Definition {
	d := definition(part.Module, "GP0", "GP1", "GP2")
	for i := range d.Terminals {
		d.Terminals[i].GPIO = d.Terminals[i].Name
	}
	return d
}

func TestOfParts(t *testing.T) {
	tests := []struct {
		name, source string
		placed       []string
		want         []string
	}{
		{"one display keeps its own names", "common practice, no source", []string{"U2=oled"},
			[]string{`U2.SDA "display SDA" I2C SDA bus="I2C" both [U2.SDA]`, `U2.SCL "display SCL" I2C SCL bus="I2C" both [U2.SCL]`}},
		{"I2C parts share two lines", "UM10204 3.1: any number of targets on SDA and SCL", []string{"U2=oled", "U3=port"},
			[]string{`U2.SDA "I2C SDA" I2C SDA bus="I2C" both [U2.SDA U3.SDA]`, `U2.SCL "I2C SCL" I2C SCL bus="I2C" both [U2.SCL U3.SCL]`,
				`U3.INT "expander INT" digital in bus="" in [U3.INT] optional`}},
		{"SPI parts share clock and data, not selects", "RP2040 datasheet 4.4, common practice for selects", []string{"U2=lcd", "U10=gauge"},
			[]string{`U2.SCK "SPI SCK" SPI SCK bus="SPI" out [U2.SCK U10.SCK]`, `U2.SDA "SPI TX" SPI TX bus="SPI" out [U2.SDA U10.SDI]`,
				`U2.CS "display CS" digital out bus="" out [U2.CS]`, `U2.DC "display DC" digital out bus="" out [U2.DC]`,
				`U2.BL "display BL" digital out bus="" out [U2.BL] optional`,
				`U10.SDO "U10 SDO" SPI RX bus="SPI" in [U10.SDO]`, `U10.CS "U10 CS" digital out bus="" out [U10.CS]`}},
		{"a part that is always selected has its own bus beside others", "common practice, no source", []string{"U2=round", "U3=gauge"},
			[]string{`U2.SCK "display SCK" SPI SCK bus="SPI U2" out [U2.SCK]`, `U2.SDA "display SDA" SPI TX bus="SPI U2" out [U2.SDA]`,
				`U2.DC "display DC" digital out bus="" out [U2.DC]`,
				`U3.SCK "U3 SCK" SPI SCK bus="SPI" out [U3.SCK]`, `U3.SDI "U3 SDI" SPI TX bus="SPI" out [U3.SDI]`,
				`U3.SDO "U3 SDO" SPI RX bus="SPI" in [U3.SDO]`, `U3.CS "U3 CS" digital out bus="" out [U3.CS]`}},
		{"alone it does not", "common practice, no source", []string{"U2=round"},
			[]string{`U2.SCK "display SCK" SPI SCK bus="SPI" out [U2.SCK]`, `U2.SDA "display SDA" SPI TX bus="SPI" out [U2.SDA]`,
				`U2.DC "display DC" digital out bus="" out [U2.DC]`}},
		{"two LEDs go by their references", "common practice, no source", []string{"D2=led", "D10=led"},
			[]string{`D2.A "D2 A" digital out bus="" out [D2.A]`, `D10.A "D10 A" digital out bus="" out [D10.A]`}},
		{"a joystick", "common practice, no source", []string{"J1=stick"},
			[]string{`J1.X "joystick X" ADC bus="" in [J1.X]`, `J1.Y "joystick Y" ADC bus="" in [J1.Y]`, `J1.SW "joystick SW" digital in bus="" in [J1.SW]`}},
		{"a module wants nothing", "common practice, no source", []string{"U1=module"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := describe(OfParts(panelWith(shelf, tt.placed...)))
			want := strings.Join(tt.want, "\n")
			if want != "" {
				want += "\n"
			}
			if got != want {
				t.Errorf("got\n%swant\n%s(%s)", got, want, tt.source)
			}
		})
	}
}

func TestOfPartsLeavesOut(t *testing.T) {
	tests := []struct {
		name   string
		change func(p *panel.Panel)
		want   int // signals left of joystick X, Y, SW
	}{
		{"nothing", func(*panel.Panel) {}, 3},
		{"what the maker joined", func(p *panel.Panel) { p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"J1.X", "U1.GP2"}}} }, 2},
		{"a contact that became a key", func(p *panel.Panel) { p.Find("J1").Key = &panel.Key{Legend: "fire"} }, 2},
		{"a key named by its contact", func(p *panel.Panel) { p.Find("J1").Keys = map[string]panel.Key{"press": {Legend: "fire"}} }, 2},
		{"a terminal on a supply", func(p *panel.Panel) {
			d := stick()
			d.Terminals[1].Net = part.Supply3V3
			p.Parts = map[string]part.Definition{"stick": d, "module": module()}
		}, 2},
		{"the second end of one metal", func(p *panel.Panel) {
			d := stick()
			d.Joined = [][]string{{"X", "Y"}}
			p.Parts = map[string]part.Definition{"stick": d, "module": module()}
		}, 2},
		{"a join that names nothing", func(p *panel.Panel) { p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"J9.X", "J1", ""}}} }, 3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := panelWith(shelf, "U1=module", "J1=stick")
			tt.change(p)
			if got := OfParts(p); len(got) != tt.want {
				t.Errorf("%d signals, want %d:\n%s", len(got), tt.want, describe(got))
			}
		})
	}
}

func TestPinsNeeded(t *testing.T) {
	p := panelWith(shelf, "U1=module", "U2=lcd", "J1=stick")
	if got := PinsNeeded(p); got != 7 { // SCK SDA CS DC, X Y SW; the backlight is optional
		t.Errorf("PinsNeeded = %d, want 7", got)
	}
	for _, lamp := range []string{"D1", "D2"} {
		p.Placed = append(p.Placed, panel.Placed{Ref: lamp, Part: "led"})
	}
	p.Scan.Lamps = []string{"D1", "D2", "U2"} // what is no LED keeps its pins
	if got := PinsNeeded(p); got != 7 {
		t.Errorf("with two LEDs that light with the select lines: PinsNeeded = %d, want 7", got)
	}
	p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"J1.X", "U1.GP2"}}}
	if got := PinsNeeded(p); got != 7 { // the join takes GP2 in place of X
		t.Errorf("with a join: PinsNeeded = %d, want 7", got)
	}
	p.Pins.KeepFree = []string{"GP2"}
	if got := PinsNeeded(p); got != 6 {
		t.Errorf("with the joined pin kept free: PinsNeeded = %d, want 6", got)
	}
}

// Whatever is placed: ids, net names and (bus, line) pairs are unique, and no terminal is served twice.
func TestSignalsAreDistinct(t *testing.T) {
	ids := []string{"oled", "lcd", "round", "gauge", "port", "led", "stick"}
	rapid.Check(t, func(t *rapid.T) {
		var placed []string
		for i, id := range rapid.SliceOfN(rapid.SampledFrom(ids), 0, 12).Draw(t, "parts") {
			placed = append(placed, fmt.Sprintf("U%d=%s", i+1, id))
		}
		seen := map[string]bool{}
		once := func(what string) {
			if seen[what] {
				t.Fatalf("%s twice in %v", what, placed)
			}
			seen[what] = true
		}
		for _, s := range OfParts(panelWith(shelf, placed...)) {
			once("id " + s.ID)
			once("net " + s.Net)
			if s.Bus != "" {
				once("line " + s.Bus + " " + string(s.Wants))
			}
			for _, served := range s.Terminals {
				once("terminal " + served.String())
			}
			if s.ID != s.Terminals[0].String() {
				t.Fatalf("signal %s serves %s first", s.ID, s.Terminals[0])
			}
		}
	})
}
