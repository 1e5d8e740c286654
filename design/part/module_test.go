package part

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// The pinouts, read down one side and then the other with the USB end up, from the component side.
// Sources: data sheets of the 40-pin RP2040 and RP2350 modules, figures 2 and 4, confirmed by an
// open footprint; maker's drawing of the small module, second-hand.
const (
	left40 = "GP0 GP1 GND GP2 GP3 GP4 GP5 GND GP6 GP7 GP8 GP9 GND GP10 GP11 GP12 GP13 GND GP14 GP15"
	// right40 goes down from pin 40 to pin 21.
	right40  = "VBUS VSYS GND 3V3_EN 3V3 ADC_VREF GP28 AGND GP27 GP26 RUN GP22 GND GP21 GP20 GP19 GP18 GND GP17 GP16"
	right23  = "GP0 GP1 GP2 GP3 GP4 GP5 GP6 GP7 GP8"      // pins 1 to 9, down
	bottom23 = "GP9 GP10 GP11 GP12 GP13"                  // pins 10 to 14, right to left
	left23   = "GP14 GP15 GP26 GP27 GP28 GP29 3V3 GND 5V" // pins 15 to 23, up
)

// plain is a terminal's name without the pin number that tells one ground from the other.
func plain(t Terminal) string {
	if strings.HasPrefix(t.Name, "GND") {
		return strings.TrimSuffix(t.Name, t.Pin)
	}
	return t.Name
}

func namesAt(t *testing.T, d Definition, places [][2]int) string {
	t.Helper()
	var names []string
	for _, at := range places {
		i := slices.IndexFunc(d.Terminals, func(x Terminal) bool { return x.At == at })
		if i < 0 {
			t.Fatalf("%s has nothing at %v", d.Name, at)
		}
		names = append(names, plain(d.Terminals[i]))
	}
	return strings.Join(names, " ")
}

func line(from, step [2]int, n int) [][2]int {
	list := make([][2]int, n)
	for i := range list {
		list[i] = [2]int{from[0] + i*step[0], from[1] + i*step[1]}
	}
	return list
}

var modules40 = []string{"module40-rp2040", "module40-rp2040-sockets", "module40-rp2350", "module40-rp2350-sockets"}

func TestPinoutOf40PinModules(t *testing.T) {
	for _, id := range modules40 {
		d := BuiltIn()[id]
		if got := namesAt(t, d, line([2]int{0, 0}, [2]int{0, 1}, 20)); got != left40 {
			t.Errorf("%s left: %s", id, got)
		}
		if got := namesAt(t, d, line([2]int{7, 0}, [2]int{0, 1}, 20)); got != right40 {
			t.Errorf("%s right: %s", id, got)
		}
		for i, terminal := range d.Terminals { // numbered down the left and up the right
			want := [2]int{0, i}
			if i >= 20 {
				want = [2]int{7, 39 - i}
			}
			if terminal.At != want {
				t.Errorf("%s pin %d lies at %v, want %v", id, i+1, terminal.At, want)
			}
		}
	}
}

func TestPinoutOfSmallModule(t *testing.T) {
	d := BuiltIn()["module23-rp2040"]
	if got := namesAt(t, d, line([2]int{0, 0}, [2]int{0, 1}, 9)); got != right23 {
		t.Errorf("right: %s", got)
	}
	if got := namesAt(t, d, line([2]int{-1, 8}, [2]int{-1, 0}, 5)); got != bottom23 {
		t.Errorf("bottom: %s", got)
	}
	if got := namesAt(t, d, line([2]int{-6, 8}, [2]int{0, -1}, 9)); got != left23 {
		t.Errorf("left: %s", got)
	}
	if len(d.Terminals) != 23 {
		t.Errorf("%d pads", len(d.Terminals))
	}
}

// TestModuleOutlines: size, row spacing and first hole (same sources; millimetres).
func TestModuleOutlines(t *testing.T) {
	tests := []struct {
		id                                  string
		wide, long, rows, fromEnd, fromSide float64
	}{
		{"module40-rp2040", 21, 51, 17.78, 1.37, 1.61},
		{"module40-rp2040-sockets", 21, 51, 17.78, 1.37, 1.61},
		{"module40-rp2350", 21, 51, 17.78, 1.37, 1.61},
		{"module40-rp2350-sockets", 21, 51, 17.78, 1.37, 1.61},
		{"module23-rp2040", 18, 23.5, 15.24, 1.59, 1.38},
	}
	for _, tt := range tests {
		d := BuiltIn()[tt.id]
		b := d.Bodies[0].Rect
		x := []float64{}
		for _, terminal := range d.Terminals {
			x = append(x, terminal.MM[0])
		}
		got := []float64{b[2] - b[0], b[3] - b[1], slices.Max(x) - slices.Min(x), -b[1], slices.Min(x) - b[0]}
		for i, want := range []float64{tt.wide, tt.long, tt.rows, tt.fromEnd, tt.fromSide} {
			if math.Abs(got[i]-want) > 0.005 {
				t.Errorf("%s: figure %d is %.3f mm, want %.2f", tt.id, i, got[i], want)
			}
		}
		if d.Bodies[1].Label != "USB socket" || d.Bodies[1].Overhang != "top" {
			t.Errorf("%s: the USB end may reach over the edge; body %+v", tt.id, d.Bodies[1])
		}
	}
}

// TestModulePower: supplies by nature, one ground metal, nothing wanted from itself.
func TestModulePower(t *testing.T) {
	for id, d := range BuiltIn() {
		if d.Kind != Module {
			continue
		}
		if len(d.Needs) != 0 || d.Facts.Chip == "" || d.Facts.SupplyOutMA == 0 {
			t.Errorf("%s: needs %v, chip %q, gives %g mA", id, d.Needs, d.Facts.Chip, d.Facts.SupplyOutMA)
		}
		nets := map[string]string{"VBUS": Supply5V, "5V": Supply5V, "VSYS": VSYS, "3V3": Supply3V3, "GND": Ground, "AGND": Ground}
		grounds := 0
		for _, terminal := range d.Terminals {
			name := plain(terminal)
			if name == "GND" {
				grounds++
			}
			if terminal.Net != nets[name] || (terminal.GPIO != "") != strings.HasPrefix(name, "GP") || terminal.Open != (terminal.Net == "") {
				t.Errorf("%s: terminal %+v", id, terminal)
			}
		}
		if grounds > 1 && (len(d.Joined) != 1 || len(d.Joined[0]) != grounds) {
			t.Errorf("%s: %d grounds, joined %v", id, grounds, d.Joined)
		}
	}
}

// TestSteppings: RP2350 data sheet appendix C; the faulty one is assumed until the maker says which.
func TestSteppings(t *testing.T) {
	for _, id := range modules40 {
		d := BuiltIn()[id]
		var want []string
		if d.Facts.Chip == "RP2350" {
			want = []string{"A2", "A3", "A4"}
		}
		if !slices.Equal(d.Facts.Values, want) {
			t.Errorf("%s is sold as %v, want %v", id, d.Facts.Values, want)
		}
	}
}

// TestSocketStack: a socket strip of 8.5 mm (dual socket header drawing, 2016) and the 2.5 mm plastic
// of the pin header carry the module 11.0 mm above the board (computed). It comes off again.
func TestSocketStack(t *testing.T) {
	for _, id := range modules40 {
		d := BuiltIn()[id]
		onSockets := strings.HasSuffix(id, "-sockets")
		stand, strips := 2.5, 0
		if onSockets {
			stand = 11.0
		}
		for _, b := range d.Bodies {
			if strings.HasSuffix(b.Label, "socket strip") {
				strips++
				if b.Height != 8.5 || b.StandOff != 0 || b.Plugged {
					t.Errorf("%s: %+v", id, b)
				}
			}
		}
		if b := d.Bodies[0]; b.StandOff != stand || b.Plugged != onSockets {
			t.Errorf("%s stands %.1f mm off, plugged %v", id, b.StandOff, b.Plugged)
		}
		if onSockets != (strips == 2) {
			t.Errorf("%s has %d socket strips", id, strips)
		}
	}
}
