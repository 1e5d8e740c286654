package check

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
)

// leastBusOhms is the least that the pull-ups of one line may come to: (3.3 - 0.4 V) / 3 mA
// (UM10204 7.1, tables 10 and 11).
const leastBusOhms = (logicVolts - 0.4) / 0.003

var busRules = []Rule{
	{Code: "i2c-address-clash", Severity: finding.Stop, Says: "Parts on one I2C bus have different addresses.", Source: "UM10204 3.1.10", look: addressClash},
	{Code: "i2c-address-unknown", Severity: finding.Stop, Says: "A part has an address that it can be set to.", Source: "UM10204 3.1.12; the part's own data sheet", look: addressUnknown},
	{Code: "i2c-pull-ups", Severity: finding.Mind, Says: "An I2C bus has pull-up resistors.", Source: "UM10204 7.1", look: busPullUps},
	{Code: "i2c-pull-ups-strong", Severity: finding.Mind, Says: "The pull-ups of a bus come to at least 967 ohms.", Source: "UM10204 7.1, tables 10 and 11", look: busPullUpsStrong},
	{Code: "i2c-pull-ups-high", Severity: finding.Stop, Says: "An I2C bus is pulled to 3.3 V.", Source: "RP2040 data sheet table 634; RP2350 data sheet table 1438", look: busPullUpsHigh},
	{Code: "spi-select", Severity: finding.Stop, Says: "A part without chip select has its SPI bus to itself.", Source: "common practice, no source", look: spiSelect},
	{Code: "pin-order", Severity: finding.Mind, Says: "The order of a display's supply pins is read off the part.", Source: "0.96 inch display article, pinout section", look: pinOrder},
}

// A bus is one I2C bus: its two lines and the parts on it.
type bus struct {
	lines [2]*netlist.Net // SDA, SCL; one may be nil
	parts []*item
}

// buses lists the I2C buses by their SDA nets, in order of the parts.
func (v *view) buses() []bus {
	var found []bus
	for i := range v.items {
		it := &v.items[i]
		sda, scl := v.line(it, part.I2CSDA), v.line(it, part.I2CSCL)
		if sda == nil {
			continue
		}
		at := slices.IndexFunc(found, func(b bus) bool { return b.lines[0] == sda })
		if at < 0 {
			at = len(found)
			found = append(found, bus{lines: [2]*netlist.Net{sda, nil}})
		}
		b := &found[at]
		b.parts = append(b.parts, it)
		if b.lines[1] == nil {
			b.lines[1] = scl
		}
	}
	return found
}

// line is the net of the part's first terminal that needs s, or nil.
func (v *view) line(it *item, s part.Signal) *netlist.Net {
	for _, need := range it.def.Needs {
		if need.Signal == s {
			return v.net(it.Ref, need.Terminal)
		}
	}
	return nil
}

// refs lists the parts of the bus.
func (b *bus) refs() []string {
	refs := make([]string, len(b.parts))
	for i, it := range b.parts {
		refs[i] = it.Ref
	}
	return refs
}

// address is the one the part is set to, or the first that it offers; false when there is none.
func (it *item) address() (int, bool) {
	text := it.Address
	if text == "" && len(it.def.Facts.I2CAddresses) > 0 {
		text = it.def.Facts.I2CAddresses[0]
	}
	a, err := part.ParseAddress(text)
	return a, err == nil
}

func addressClash(v *view) []finding.Finding {
	var found []finding.Finding
	for _, b := range v.buses() {
		users := map[int][]string{}
		var order []int
		for _, it := range b.parts {
			if a, ok := it.address(); ok {
				if users[a] == nil {
					order = append(order, a)
				}
				users[a] = append(users[a], it.Ref)
			}
		}
		for _, a := range order {
			if len(users[a]) < 2 {
				continue
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: users[a], Net: b.lines[0].Name},
				Text: fmt.Sprintf("%s answer to one address, 0x%02X, on one bus.", finding.Names(users[a]), a),
				Fix:  v.otherAddress(&b, users[a])})
		}
	}
	return found
}

// otherAddress advises the first part that can be set to an address which no part on the bus has.
func (v *view) otherAddress(b *bus, refs []string) string {
	taken := map[int]bool{}
	for _, it := range b.parts {
		if a, ok := it.address(); ok {
			taken[a] = true
		}
	}
	for _, ref := range refs {
		var free []string
		for _, text := range v.byRef[ref].def.Facts.I2CAddresses {
			if a, err := part.ParseAddress(text); err == nil && !taken[a] {
				free = append(free, text)
			}
		}
		if len(free) > 0 {
			return fmt.Sprintf("Set %s to another of its addresses: %s.", ref, strings.Join(free, ", "))
		}
	}
	return "Lock one of them to pins of the other I2C peripheral."
}

func addressUnknown(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		if it.Address == "" {
			continue
		}
		offered := it.def.Facts.I2CAddresses
		a, err := part.ParseAddress(it.Address)
		if err == nil && (len(offered) == 0 || slices.ContainsFunc(offered, func(o string) bool { b, _ := part.ParseAddress(o); return a == b })) {
			continue
		}
		text, fix := fmt.Sprintf("%s cannot be set to address %s.", capital(it.name()), it.Address), "Choose one of "+strings.Join(offered, ", ")+"."
		if err != nil {
			text = fmt.Sprintf("The address of %s is wrong: %s.", it.name(), err)
		}
		if len(offered) == 0 {
			fix = "Write a 7-bit address such as 0x3C."
		}
		found = append(found, finding.Finding{Where: atParts(it.Ref), Text: text, Fix: fix})
	}
	return found
}

// A pullUp is one resistor from a bus line to a supply.
type pullUp struct {
	ref         string
	ohms, volts float64
}

// pullUps lists what pulls one line of a bus up: resistors on the parts, and placed ones.
func (v *view) pullUps(b *bus, line *netlist.Net) []pullUp {
	var found []pullUp
	for _, it := range b.parts {
		if ohms := it.def.Facts.PullUpOhms; ohms > 0 {
			found = append(found, pullUp{it.Ref, ohms, v.fedWith(it)})
		}
	}
	for _, r := range v.links(line, part.Resistor) {
		if s, ok := v.volts(r.far); ok {
			if ohms, known := r.it.ohms(); known {
				found = append(found, pullUp{r.it.Ref, ohms, s.high})
			}
		}
	}
	return found
}

func parallel(list []pullUp) float64 {
	conductance := 0.0
	for _, p := range list {
		conductance += 1 / p.ohms
	}
	return 1 / conductance
}

func busPullUps(v *view) []finding.Finding {
	var found []finding.Finding
	for _, b := range v.buses() {
		var bare []string
		for _, line := range b.lines {
			if line != nil && len(v.pullUps(&b, line)) == 0 {
				bare = append(bare, line.Name)
			}
		}
		if len(bare) > 0 {
			found = append(found, finding.Finding{Where: finding.Where{Refs: b.refs(), Net: bare[0]},
				Text: fmt.Sprintf("Nothing pulls %s up but the controller's own 50 kilohms, which is too weak for 400 kHz.", finding.Names(bare)),
				Fix:  "Place a resistor of 4.7 kilohms from each such line to 3V3."})
		}
	}
	return found
}

func busPullUpsStrong(v *view) []finding.Finding {
	var found []finding.Finding
	for _, b := range v.buses() {
		for _, line := range b.lines {
			ups := v.pullUps(&b, line)
			if line == nil || len(ups) == 0 || parallel(ups) >= leastBusOhms-1e-6 {
				continue
			}
			var refs []string
			for _, p := range ups {
				refs = append(refs, p.ref)
			}
			found = append(found, finding.Finding{Where: finding.Where{Refs: refs, Net: line.Name},
				Text: fmt.Sprintf("The pull-ups of %s on %s come to %s; parts may not pull the line low enough.", finding.Names(refs), line.Name, resistance(parallel(ups))),
				Fix:  "Take the pull-ups off one of the parts, or leave the placed resistor out; 967 ohms is the least."})
		}
	}
	return found
}

func busPullUpsHigh(v *view) []finding.Finding {
	var found []finding.Finding
	for _, b := range v.buses() {
		told := map[string]bool{}
		for _, line := range b.lines {
			if line == nil || v.gpio(line) == "" {
				continue
			}
			ups := v.pullUps(&b, line)
			for _, it := range b.parts {
				if it.def.Facts.LogicFromSupply {
					ups = append(ups, pullUp{ref: it.Ref, volts: v.fedWith(it)})
				}
			}
			for _, p := range ups {
				if p.volts <= mostLogicVolts || told[p.ref] {
					continue
				}
				told[p.ref] = true
				found = append(found, finding.Finding{Where: finding.Where{Refs: []string{p.ref}, Net: line.Name, Pin: v.gpio(line)},
					Text: fmt.Sprintf("%s pulls %s to %s V; the pin bears %s V.", p.ref, line.Name, figure(p.volts), figure(mostLogicVolts)),
					Fix:  "Pull it to 3V3: feed the part from 3V3, take its pull-ups off, or put a level shifter between."})
			}
		}
	}
	return found
}

func spiSelect(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.items {
		it := &v.items[i]
		sck := v.line(it, part.SPISCK)
		if sck == nil || !it.def.Facts.NoChipSelect {
			continue
		}
		for j := range v.items {
			if other := &v.items[j]; j != i && v.line(other, part.SPISCK) == sck && (j > i || !other.def.Facts.NoChipSelect) {
				found = append(found, finding.Finding{Where: finding.Where{Refs: []string{it.Ref, other.Ref}, Net: sck.Name},
					Text: fmt.Sprintf("%s is always selected and shares its SPI bus with %s.", capital(it.name()), other.name()),
					Fix:  fmt.Sprintf("Lock %s to pins of the other SPI peripheral.", other.Ref)})
			}
		}
	}
	return found
}

func pinOrder(v *view) []finding.Finding {
	var found []finding.Finding
	for i := range v.items {
		if it := &v.items[i]; it.def.Facts.PinOrderVaries {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("%s is sold with its supply pins either way round.", capital(it.name())),
				Fix:  "Read the print on your own part and compare it with the plan before the first power-up."})
		}
	}
	return found
}
