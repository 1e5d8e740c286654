package part

import (
	"fmt"
	"slices"
	"strings"
)

// KeyLines lists the terminals by which an expander can read a key, in the order in which they are
// to be used; none for any other kind of part. A definition without a list, as older panels carry,
// gives the terminals called GPA or GPB with a number below 7 that no need and no supply claims.
func (d *Definition) KeyLines() []string {
	if d.Kind != Expander {
		return nil
	}
	if len(d.Facts.KeyLines) > 0 {
		return d.Facts.KeyLines
	}
	var lines []string
	for _, port := range []string{"GPA", "GPB"} {
		for n := range 7 { // the eighth line of each port is an output: MCP23017 data sheet, revision D
			name := fmt.Sprintf("%s%d", port, n)
			t, ok := d.Terminal(name)
			if ok && t.Net == "" && !slices.ContainsFunc(d.Needs, func(n Need) bool { return n.Terminal == name }) {
				lines = append(lines, name)
			}
		}
	}
	return lines
}

// AddressPins lists the terminals that set the I2C address, lowest bit first: A0, A1 and so on, as
// far as they are ground by nature. A part that offers one address has none.
func (d *Definition) AddressPins() []string {
	var pins []string
	if len(d.Facts.I2CAddresses) < 2 {
		return nil
	}
	for {
		name := fmt.Sprintf("A%d", len(pins))
		t, ok := d.Terminal(name)
		if !ok || t.Net != Ground {
			return pins
		}
		pins = append(pins, name)
	}
}

// NetAt returns the supply net that terminal t belongs to by nature on a part that is set to an
// I2C address, "" for the usual one. That is t.Net, but 3V3 for an address pin whose bit is set. An
// address that the part does not offer sets no bit.
func (d *Definition) NetAt(t Terminal, address string) string {
	bit := slices.Index(d.AddressPins(), t.Name)
	offered := slices.ContainsFunc(d.Facts.I2CAddresses, func(a string) bool { return strings.EqualFold(a, address) })
	if bit < 0 || !offered {
		return t.Net
	}
	if a, err := ParseAddress(address); err == nil && a>>bit&1 == 1 {
		return Supply3V3
	}
	return t.Net
}
