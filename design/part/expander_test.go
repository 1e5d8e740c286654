package part

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

func TestKeyLines(t *testing.T) {
	listed := BuiltIn()["expander-i2c16"]
	older := listed
	older.Facts.KeyLines = nil
	claimed := older
	claimed.Terminals = slices.Clone(older.Terminals)
	i := slices.IndexFunc(claimed.Terminals, func(t Terminal) bool { return t.Name == "GPA2" })
	claimed.Terminals[i].Net = Ground
	claimed.Needs = append(slices.Clone(older.Needs), Need{Terminal: "GPB0", Signal: DigitalIn})
	tests := []struct {
		name, source string
		d            Definition
		want         string
	}{
		{"as the catalogue lists them", "MCP23017 data sheet DS20001952D: GPA7 and GPB7 are outputs", listed,
			"GPA0 GPA1 GPA2 GPA3 GPA4 GPA5 GPA6 GPB0 GPB1 GPB2 GPB3 GPB4 GPB5 GPB6"},
		{"of a definition without a list", "the same", older, "GPA0 GPA1 GPA2 GPA3 GPA4 GPA5 GPA6 GPB0 GPB1 GPB2 GPB3 GPB4 GPB5 GPB6"},
		{"but those that are claimed", "by definition", claimed, "GPA0 GPA1 GPA3 GPA4 GPA5 GPA6 GPB1 GPB2 GPB3 GPB4 GPB5 GPB6"},
		{"a display has none", "by definition", BuiltIn()["oled096-i2c"], ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := strings.Join(tt.d.KeyLines(), " "); got != tt.want {
				t.Errorf("lines %q, want %q (%s)", got, tt.want, tt.source)
			}
		})
	}
}

// The address is 0100 and the levels of A2, A1 and A0: MCP23017 data sheet DS20001952, slave address.
func TestNetAt(t *testing.T) {
	d := BuiltIn()["expander-i2c16"]
	levels := func(d *Definition, address string) string {
		var text string
		for _, name := range []string{"A2", "A1", "A0"} {
			term, _ := d.Terminal(name)
			text += map[string]string{Ground: "0", Supply3V3: "1", "": "-"}[d.NetAt(term, address)]
		}
		return text
	}
	for n := range 8 {
		if got, want := levels(&d, fmt.Sprintf("0x%02X", 0x20+n)), fmt.Sprintf("%03b", n); got != want {
			t.Errorf("0x%02X gives A2 to A0 %s, want %s", 0x20+n, got, want)
		}
	}
	for _, address := range []string{"", "0x28", "0x3C", "nonsense"} {
		if got := levels(&d, address); got != "000" {
			t.Errorf("address %q gives %s, want 000: the part does not offer it", address, got)
		}
	}
	oled := BuiltIn()["oled096-i2c"]
	if pins := oled.AddressPins(); len(pins) != 0 {
		t.Errorf("a display without address pins has %q", pins)
	}
	fixed := d
	fixed.Facts.I2CAddresses = []string{"0x20"}
	if got := levels(&fixed, "0x20"); got != "000" || len(fixed.AddressPins()) != 0 {
		t.Errorf("a part with one address gives %s and pins %q", got, fixed.AddressPins())
	}
	if term, _ := d.Terminal("VDD"); d.NetAt(term, "0x27") != Supply3V3 {
		t.Error("a supply terminal is on its own net whatever the address")
	}
}
