package part

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

func (d *Definition) validFacts() error {
	f := d.Facts
	figures := []float64{f.SupplyMinVolts, f.SupplyMaxVolts, f.CurrentMA, f.SupplyOutMA, f.DriveMA, f.PullUpOhms,
		f.ForwardVolts, f.ForwardMA, f.Ohms, f.Watts, f.Farads, f.BounceMS, f.ContactMA}
	if !finite(figures...) || slices.Min(figures) < 0 {
		return Fault{"/facts", "holds a figure that is not a number of 0 or more"}
	}
	if f.SupplyMinVolts > f.SupplyMaxVolts && f.SupplyMaxVolts != 0 {
		return Fault{"/facts/supply_min_volts", "is above supply_max_volts"}
	}
	for i, a := range f.I2CAddresses {
		if _, err := ParseAddress(a); err != nil {
			return Fault{fmt.Sprintf("/facts/i2c_addresses/%d", i), err.Error()}
		}
	}
	for i, name := range f.KeyLines {
		at := fmt.Sprintf("/facts/key_lines/%d", i)
		if _, ok := d.Terminal(name); !ok {
			return Fault{at, fmt.Sprintf("no terminal is called %q", name)}
		}
		if slices.Contains(f.KeyLines[:i], name) {
			return Fault{at, fmt.Sprintf("%q stands twice", name)}
		}
	}
	for i, v := range f.Values {
		if bad := CleanText(v, 24); bad != "" {
			return Fault{fmt.Sprintf("/facts/values/%d", i), bad}
		}
	}
	if bad := CleanText(f.Chip, 24); bad != "" {
		return Fault{"/facts/chip", bad}
	}
	return nil
}

// ParseAddress reads a 7-bit I2C address such as 0x3C. The reserved ranges 0x00 to 0x07 and 0x78
// to 0x7F are refused (UM10204 3.1.12).
func ParseAddress(text string) (int, error) {
	hex, ok := strings.CutPrefix(text, "0x")
	n, err := strconv.ParseUint(hex, 16, 8)
	if !ok || len(hex) != 2 || err != nil {
		return 0, fmt.Errorf("address %q: write 0x and two hexadecimal digits", text)
	}
	if n < 0x08 || n > 0x77 {
		return 0, fmt.Errorf("address %q is reserved: 7-bit addresses go from 0x08 to 0x77", text)
	}
	return int(n), nil
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
