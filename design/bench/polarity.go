package bench

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

// keyDiodes states once for the board which way its key diodes point.
func keyDiodes(s *scan.Result) []Step {
	n := 0
	for _, c := range s.Cells {
		if c.Diode {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	text := fmt.Sprintf("All %d key diodes point one way: the band (cathode) towards %s.", n, netlist.BandTowards(s))
	if n == 1 {
		text = fmt.Sprintf("The key diode points with its band (cathode) towards %s.", netlist.BandTowards(s))
	}
	return []Step{{ID: "key diodes", Stage: Low, Title: "Which way the key diodes point", Text: text + " Each step names the hole of the band.", Face: grid.Front}}
}

// polarity says which way round a part goes, or "".
func polarity(pl *panel.Placed, d part.Definition) string {
	switch d.Kind {
	case part.Diode:
		return "The band marks the cathode, K" + goesInto(pl, &d, "K") + "."
	case part.LED:
		return "The long lead is the anode, A" + goesInto(pl, &d, "A") + "; the flat marks the cathode, K."
	case part.Expander:
		return "The notch lies at the end of pin 1." + address(pl, &d)
	case part.Module, part.Display:
		return "Check the printed names against the plan before soldering."
	case part.Battery:
		return "Check which side is plus on your own cell: sellers differ."
	}
	return ""
}

func goesInto(pl *panel.Placed, d *part.Definition, terminal string) string {
	t, ok := d.Terminal(terminal)
	if !ok {
		return ""
	}
	return ", in " + pl.Pose().Hole(t.Offset()).String()
}

// address says how the address pins give the address that a part is set to.
func address(pl *panel.Placed, d *part.Definition) string {
	by := map[string][]string{}
	for _, name := range d.AddressPins() {
		t, _ := d.Terminal(name)
		net := d.NetAt(t, pl.Address)
		by[net] = append(by[net], name)
	}
	set := pl.Address
	if set == "" && len(d.Facts.I2CAddresses) > 0 {
		set = d.Facts.I2CAddresses[0]
	}
	var words []string
	for _, net := range []string{part.Supply3V3, part.Ground} {
		if names := by[net]; len(names) > 0 {
			words = append(words, finding.Names(names)+" on "+net)
		}
	}
	if len(words) == 0 || !slices.Contains(d.Facts.I2CAddresses, set) {
		return ""
	}
	return fmt.Sprintf(" Its address %s comes from %s.", set, strings.Join(words, " and "))
}
