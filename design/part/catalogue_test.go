package part

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestCatalogueReads loads every file; Decode validates each.
func TestCatalogueReads(t *testing.T) {
	c, err := read(files)
	if err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob("catalogue/*.json")
	if err != nil || len(c) != len(names) {
		t.Fatalf("%d definitions from %d files, %v", len(c), len(names), err)
	}
	if len(c) < 45 {
		t.Errorf("the catalogue holds %d definitions, at least 45 are wanted", len(c))
	}
	for id := range c {
		if !ValidID(id) {
			t.Errorf("%q cannot name a definition", id)
		}
	}
	kinds := map[Kind]bool{}
	for _, id := range c.IDs() {
		kinds[c[id].Kind] = true
	}
	for _, k := range Kinds {
		if !kinds[k] {
			t.Errorf("no definition is a %s", k)
		}
	}
}

// TestIDsOrder: by kind in the order of the shelf, then by id, each once.
func TestIDsOrder(t *testing.T) {
	c := BuiltIn()
	ids := c.IDs()
	if len(ids) != len(c) {
		t.Fatalf("%d ids for %d definitions", len(ids), len(c))
	}
	for i := 1; i < len(ids); i++ {
		a, b := slices.Index(Kinds, c[ids[i-1]].Kind), slices.Index(Kinds, c[ids[i]].Kind)
		if a > b || a == b && ids[i-1] >= ids[i] {
			t.Errorf("%s comes before %s", ids[i-1], ids[i])
		}
	}
}

// TestKeptIDs lists the ids that panels in the world already carry, so that none is renamed.
func TestKeptIDs(t *testing.T) {
	c := BuiltIn()
	for _, id := range strings.Fields(`tact6 tact12 module40-rp2040 module40-rp2350 module40-rp2040-sockets
		module40-rp2350-sockets module23-rp2040 oled096-i2c oled096-i2c-vcc-first oled13-i2c
		oled13-i2c-vcc-first oled091-i2c oled096-spi7 tft13-spi7 tft18-spi8 lcd1602-i2c led3 led5
		resistor-quarter resistor-small diode-1n4148 diode-bat85 diode-1n5819 cap-ceramic-2
		cap-electrolytic piezo12 buzzer-magnetic12 transistor-npn joystick-carrier joystick-thumb
		encoder-push nav5 slide-power slide-spdt latching-push header-male-1x4 battery-ph2
		charger-module expander-i2c16 keyswitch-full tact6-2leg tact6-side`) {
		if _, ok := c[id]; !ok {
			t.Errorf("%s is gone from the catalogue", id)
		}
	}
}

// brands are makers' and sellers' names that must not show on screen; a source may cite them.
var brands = regexp.MustCompile(`(?i)\b(raspberry|pico|waveshare|adafruit|seeed|pimoroni|alps|omron|bourns|cherry|kailh|gateron|jst|vishay|murata|tdk|microchip|nxp|solomon|sitronix|sino|arduino)\b`)

// TestNoBrands: parts go by what they are, chips by part number.
func TestNoBrands(t *testing.T) {
	for id, d := range BuiltIn() {
		shown := append([]string{id, d.Name, d.BOM.Text, d.BOM.Note}, d.BOM.Extras...)
		for _, n := range d.Needs {
			shown = append(shown, n.Says)
		}
		for _, b := range d.Bodies {
			shown = append(shown, b.Label)
		}
		if hit := brands.FindString(strings.Join(shown, "\n")); hit != "" {
			t.Errorf("%s shows the brand %q", id, hit)
		}
	}
}

// TestWhatEveryDefinitionHas: names of their own, a shop text, a source, and a body.
func TestWhatEveryDefinitionHas(t *testing.T) {
	named := map[string]string{}
	for id, d := range BuiltIn() {
		if other, taken := named[d.Name]; taken {
			t.Errorf("%s and %s are both called %q", id, other, d.Name)
		}
		named[d.Name] = id
		if d.BOM.Text == "" || len(d.Sources) == 0 || len(d.Bodies) == 0 {
			t.Errorf("%s lacks a shop text, a source or a body", id)
		}
		for _, s := range d.Sources {
			if s.Figure == "" || s.Source == "" || strings.Contains(strings.ToLower(s.Source), "handbook") {
				t.Errorf("%s: source %+v names no document", id, s)
			}
		}
	}
}

// TestNeeds: each kind that the controller serves asks for what it is.
func TestNeeds(t *testing.T) {
	c := BuiltIn()
	tests := []struct {
		id   string
		want string
	}{
		{"module40-rp2040", ""},
		{"oled096-i2c", "SCL I2C SCL, SDA I2C SDA"},
		{"oled096-spi7", "D0 SPI SCK, D1 SPI TX, RES digital out, DC digital out, CS digital out"},
		{"tft13-spi7", "SCL SPI SCK, SDA SPI TX, RES digital out, DC digital out, BLK digital out (optional)"},
		{"led3", "A digital out"},
		{"piezo12", "1 PWM"},
		{"joystick-carrier", "X ADC, Y ADC"},
		{"encoder-push", "A digital in (pull up), B digital in (pull up)"},
		{"expander-i2c16", "SCL I2C SCL, SDA I2C SDA, INTA digital in (pull up) (optional)"},
		{"resistor-quarter", ""},
	}
	for _, tt := range tests {
		var got []string
		for _, n := range c[tt.id].Needs {
			s := n.Terminal + " " + string(n.Signal)
			if n.Pull != "" {
				s += " (pull " + n.Pull + ")"
			}
			if n.Optional {
				s += " (optional)"
			}
			got = append(got, s)
		}
		if text := strings.Join(got, ", "); text != tt.want {
			t.Errorf("%s needs %q, want %q", tt.id, text, tt.want)
		}
	}
}

// TestContacts: who offers keys, and that a shared terminal comes first.
func TestContacts(t *testing.T) {
	c := BuiltIn()
	for id, want := range map[string]int{"tact6": 1, "tact12": 1, "tact6-2leg": 1, "tact6-side": 1, "keyswitch-full": 1,
		"nav5": 5, "encoder-push": 1, "joystick-carrier": 1, "joystick-thumb": 1, "slide-spdt": 0, "latching-push": 0} {
		if d := c[id]; len(d.Contacts) != want {
			t.Errorf("%s has %d contacts, want %d", id, len(d.Contacts), want)
		}
	}
	for _, k := range c["nav5"].Contacts { // SKQU data sheet: five contacts and one common
		if k.Between[0] != "COM" {
			t.Errorf("nav5 %s lies between %v; the common terminal comes first", k.Name, k.Between)
		}
	}
	if k := c["joystick-carrier"].Contacts[0]; k.Between != [2]string{"SW", "GND"} {
		t.Errorf("joystick push lies between %v, want SW and ground", k.Between)
	}
}

// TestCatalogueFilesEndClean keeps the files free of stray bytes that a diff would show.
func TestCatalogueFilesEndClean(t *testing.T) {
	for id := range BuiltIn() {
		text, err := os.ReadFile("catalogue/" + id + ".json")
		if err != nil {
			t.Fatal(err)
		}
		if s := string(text); !strings.HasSuffix(s, "}\n") || strings.ContainsAny(s, "\t\r") {
			t.Errorf("%s.json must end with one line feed and hold no tabs", id)
		}
	}
}
