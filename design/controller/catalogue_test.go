package controller

import (
	"testing"

	"fascia/design/part"
)

// TestCatalogueModules reads every module of the catalogue. GPIO counts, module pins and the GPIOs
// that stay inside: data sheets of the 40-pin modules, section on the pinout; maker's drawing of the
// small module (second-hand).
func TestCatalogueModules(t *testing.T) {
	tests := []struct {
		id, chip string
		pins     int
		missing  []string
	}{
		{"module40-rp2040", "RP2040", 26, []string{"GP23", "GP24", "GP25", "GP29"}},
		{"module40-rp2040-sockets", "RP2040", 26, []string{"GP23", "GP24", "GP25", "GP29"}},
		{"module40-rp2350", "RP2350", 26, []string{"GP23", "GP24", "GP25", "GP29"}},
		{"module40-rp2350-sockets", "RP2350", 26, []string{"GP23", "GP24", "GP25", "GP29"}},
		{"module23-rp2040", "RP2040", 20, []string{"GP16", "GP17", "GP18", "GP19", "GP20", "GP21", "GP22", "GP23", "GP24", "GP25"}},
	}
	modules := 0
	for _, d := range part.BuiltIn() {
		if d.Kind == part.Module {
			modules++
		}
	}
	if modules != len(tests) {
		t.Errorf("the catalogue has %d modules, %d are tested", modules, len(tests))
	}
	for _, tt := range tests {
		d := part.BuiltIn()[tt.id]
		m, err := FromDefinition(&d)
		if err != nil {
			t.Errorf("%s: %v", tt.id, err)
			continue
		}
		if m.Chip.Name != tt.chip || len(m.Pins) != tt.pins {
			t.Errorf("%s: %s with %d pins, want %s with %d", tt.id, m.Chip.Name, len(m.Pins), tt.chip, tt.pins)
		}
		for i, p := range m.Pins {
			if i > 0 && m.Pins[i-1].GPIO >= p.GPIO {
				t.Errorf("%s: %s comes after %s", tt.id, p.Name, m.Pins[i-1].Name)
			}
		}
		for _, name := range tt.missing {
			if p, ok := m.Pin(name); ok {
				t.Errorf("%s brings out %s on %s", tt.id, name, p.Terminal)
			}
		}
	}
}

// TestModulePinNumbers compares the numbers printed beside the pins with the function table.
func TestModulePinNumbers(t *testing.T) {
	d := part.BuiltIn()["module40-rp2040"]
	m, err := FromDefinition(&d)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range table(t) {
		p, ok := m.Pin(row.gpio)
		if ok != (row.modulePin != "-") || ok && p.Number != row.modulePin {
			t.Errorf("%s is printed %q, %v; the table says %s", row.gpio, p.Number, ok, row.modulePin)
		}
	}
}
