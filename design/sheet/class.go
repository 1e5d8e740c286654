package sheet

import (
	"slices"
	"strings"

	"fascia/design/netlist"
	"fascia/design/part"
	"fascia/design/wiring"
)

// A class names what an element is, for the page's stylesheet and scripts.
type class string

// structural are the classes that only name things; the page may style or seek them.
var structural = []class{
	"sheet-drawing", "module-drawing", "boards", "board", "copper", "labels", "hints", "others", "wires", "parts", "marks", "overlay",
	"part", "this-face", "other-face", "key", "wire", "mark", "pin",
	"face-front", "face-back", "room-place", "room-scan", "room-wire", "room-build", "room-prove",
	"detail-near", "detail-middle", "paper-marks", "net-name", "pin-used", "pin-open", "pin-kept", "pin-power",
	"mark-note-stop", "mark-note-mind", "mark-note-note",
}

// Classes lists every class that a drawing may carry, sorted. Nothing else is ever written.
func Classes() []string {
	var all []string
	for _, c := range structural {
		all = append(all, string(c))
	}
	for _, r := range allRules {
		all = append(all, string(r.class))
	}
	for _, k := range part.Kinds {
		all = append(all, string(kindClass(k)))
	}
	for _, k := range []wiring.Kind{wiring.Leg, wiring.Solder, wiring.Bare, wiring.Insulated} {
		all = append(all, string(wireClass(k)))
	}
	for _, c := range netClasses {
		all = append(all, string(netClass(c)))
	}
	slices.Sort(all)
	return slices.Compact(all)
}

var netClasses = []netlist.Class{netlist.Ground, netlist.Supply, netlist.Row, netlist.Column, netlist.Signal, netlist.Link}

// kindClass is kind-switch and so on; a kind that the catalogue does not know is other.
func kindClass(k part.Kind) class {
	if !slices.Contains(part.Kinds, k) {
		k = part.Other
	}
	return class("kind-" + strings.ReplaceAll(string(k), " ", "-"))
}

// wireClass is wire-bare and so on; a kind that is none of the four is drawn as insulated, which
// may cross anything.
func wireClass(k wiring.Kind) class {
	switch k {
	case wiring.Leg, wiring.Solder, wiring.Bare:
		return class("wire-" + string(k))
	}
	return "wire-insulated"
}

func netClass(c netlist.Class) class {
	if !slices.Contains(netClasses, c) {
		c = netlist.Signal
	}
	return class("net-" + string(c))
}

// roomClass is room-wire and so on; without a room it is the first one.
func roomClass(room string) class {
	c := class("room-" + room)
	if !slices.Contains(structural, c) {
		return "room-place"
	}
	return c
}

// colourClass is colour-RD and so on. Wire of a colour that is not in the list is drawn grey.
func colourClass(letters string) class {
	for _, c := range wireColours {
		if c.letters == letters {
			return class("colour-" + letters)
		}
	}
	return "colour-GY"
}

// lensClass is the class of an LED's colour; a clear lens for a colour that is not in the list.
func lensClass(colour string) class {
	slug := strings.ReplaceAll(strings.ToLower(colour), " ", "-")
	for _, c := range ledColours {
		if c.name == slug {
			return class("lens-" + slug)
		}
	}
	return "lens-white"
}

// bandClass is the class of a colour band: the digits 0 to 9, then gold and silver.
func bandClass(i int) class {
	if name, ok := map[int]class{10: "band-gold", 11: "band-silver"}[i]; ok {
		return name
	}
	return class("band-" + string(rune('0'+i)))
}
