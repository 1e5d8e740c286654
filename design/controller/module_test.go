package controller

import (
	"strings"
	"testing"

	"fascia/design/part"
)

func TestParseGPIO(t *testing.T) {
	for name, want := range map[string]int{"GP0": 0, "GP4": 4, "GP29": 29, "GP99": 99} {
		if got, ok := ParseGPIO(name); !ok || got != want || GPIOName(got) != name {
			t.Errorf("ParseGPIO(%q) = %d, %v", name, got, ok)
		}
	}
	for _, name := range []string{"", "GP", "4", "gp4", "GP04", "GP-1", "GP+1", "GP100", "GP4 ", "GP٤", "GP0x"} {
		if got, ok := ParseGPIO(name); ok {
			t.Errorf("ParseGPIO(%q) = %d, want a refusal", name, got)
		}
	}
}

func FuzzParseGPIO(f *testing.F) {
	f.Add("GP4")
	f.Add("GP04")
	f.Fuzz(func(t *testing.T, name string) {
		if gpio, ok := ParseGPIO(name); ok && GPIOName(gpio) != name {
			t.Fatalf("ParseGPIO(%q) = %d, which is called %s", name, gpio, GPIOName(gpio))
		}
	})
}

// definition makes a module whose terminals bring out the named GPIOs in that order.
func definition(chip string, gpios ...string) *part.Definition {
	d := &part.Definition{Name: "module", Kind: part.Module, Facts: part.Facts{Chip: chip}}
	for i, g := range gpios {
		d.Terminals = append(d.Terminals, part.Terminal{Name: "T" + g + strings.Repeat("x", i), GPIO: g, Pin: "p" + g})
	}
	return d
}

func TestFromDefinition(t *testing.T) {
	m, err := FromDefinition(definition("RP2350", "GP9", "", "GP4"))
	if err != nil {
		t.Fatal(err)
	}
	if m.Chip.Name != "RP2350" || len(m.Pins) != 2 || m.Pins[0].Name != "GP4" || m.Pins[1].Name != "GP9" {
		t.Fatalf("module = %+v, want RP2350 with GP4, GP9", m)
	}
	if p, ok := m.Pin("GP4"); !ok || p != (Pin{GPIO: 4, Name: "GP4", Terminal: "TGP4xx", Number: "pGP4"}) {
		t.Errorf("Pin(GP4) = %+v, %v", p, ok)
	}
	if p, ok := m.Pin("GP5"); ok {
		t.Errorf("Pin(GP5) = %+v, though it is not brought out", p)
	}
	if f, ok := m.Can("GP9", part.I2CSCL); !ok || f.Name != "I2C0 SCL" {
		t.Errorf("Can(GP9, I2C SCL) = %+v, %v", f, ok)
	}
	if f, ok := m.Can("GP26", part.ADC); ok {
		t.Errorf("Can(GP26, ADC) = %+v, though it is not brought out", f)
	}
}

func TestFromDefinitionRefuses(t *testing.T) {
	tests := []struct {
		name  string
		d     *part.Definition
		wants string
	}{
		{"no chip", definition("", "GP4"), "RP2040 and RP2350"},
		{"unknown chip", definition("RP2041", "GP4"), `"RP2041"`},
		{"GPIO beyond the chip", definition("RP2040", "GP30"), `"GP30"`},
		{"two terminals for one GPIO", definition("RP2040", "GP4", "GP5", "GP4"), "both bring out GP4"},
	}
	for _, tt := range tests {
		if _, err := FromDefinition(tt.d); err == nil || !strings.Contains(err.Error(), tt.wants) {
			t.Errorf("%s: error %v, want it to name %s", tt.name, err, tt.wants)
		}
	}
}
