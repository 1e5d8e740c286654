package sheet

import (
	"math"
	"slices"

	"fascia/design/grid"
	"fascia/design/part"
)

// leadAxis runs from the first lead to the second; false for a part with fewer.
func (k *sketch) leadAxis() (axis, bool) {
	if len(k.def.Terminals) < 2 {
		return axis{}, false
	}
	return axisOf(k.lead(k.def.Terminals[0]), k.lead(k.def.Terminals[1])), true
}

// leadWires draws the wires of an axial part from its holes into its body.
func (k *sketch) leadWires() {
	t := new(trace)
	for _, term := range k.def.Terminals {
		t.move(k.lead(term)).line(k.main.Centre())
	}
	k.path(t, "leg-edge")
	k.path(t, "leg-metal")
}

// bodyAlong is where the body begins and ends along the axis, and half its breadth.
func (k *sketch) bodyAlong(x axis) (from, to, half grid.Millimetre) {
	along := func(p grid.Point) grid.Millimetre {
		d := p.Minus(x.from)
		return d.X*x.along.X + d.Y*x.along.Y
	}
	a, b := along(k.main.Min), along(k.main.Max)
	return min(a, b), max(a, b), min(k.main.Width(), k.main.Height()) / 2
}

// drawResistor draws the body with its bands, which are read from the first lead.
func (k *sketch) drawResistor() {
	x, ok := k.leadAxis()
	if !ok {
		k.drawGeneric()
		return
	}
	k.leadWires()
	k.rect(k.main, min(k.main.Width(), k.main.Height())*0.4, "clay")
	from, to, half := k.bodyAlong(x)
	for i, band := range k.bands() {
		at := from + (to-from)*bandPlaces[min(i, len(bandPlaces)-1)]
		width := (to - from) * 0.075
		k.rect(x.bar(at-width/2, at+width/2, half*0.94), 0, bandClass(band))
	}
	k.dots("lead", 0.42)
	k.refBelow(k.value())
}

// bandPlaces are where bands lie along a resistor's body, from its first lead.
var bandPlaces = []grid.Millimetre{0.16, 0.32, 0.47, 0.62, 0.84}

// bands are the colours for the resistance, or none when it is unknown. A value of two figures has
// four bands with gold, 5 %, as the last; one that needs three has five with brown, 1 %.
func (k *sketch) bands() []int {
	ohms := k.def.Facts.Ohms
	if text := k.value(); text != "" {
		ohms, _ = part.ParseValue(text) // 0, and so no bands, for what is not a value
	}
	bands := Bands(ohms)
	if len(bands) == 4 {
		bands = slices.Insert(bands, 3, -1)
	}
	return slices.DeleteFunc(bands, func(b int) bool { return b < 0 })
}

// value is what the maker chose, else the first that the part is sold with.
func (k *sketch) value() string {
	switch {
	case k.pl.Value != "":
		return k.pl.Value
	case len(k.def.Facts.Values) > 0:
		return k.def.Facts.Values[0]
	}
	return ""
}

// The bands that are not a digit.
const (
	gold   = 10
	silver = 11
)

// Bands gives the colour bands of a resistance: digits, multiplier and tolerance, as the numbers 0
// to 9 for the ten colours from black to white, 10 for gold and 11 for silver. A value of two
// significant figures has four bands, one of three has five; more figures are rounded, and so is the
// third below one ohm, for which there is no multiplier. What is not positive, or beyond the multipliers, has none.
//
// IEC 60062:2016, clauses 3 and 4; from memory.
func Bands(ohms float64) []int {
	if !(ohms > 0) || math.IsInf(ohms, 0) {
		return nil
	}
	power := int(math.Floor(math.Log10(ohms))) - 2
	three := int(math.Round(ohms / math.Pow(10, float64(power))))
	if three >= 1000 {
		three, power = three/10, power+1
	}
	digits := []int{three / 100, three / 10 % 10, three % 10}
	tolerance := 1
	if three%10 == 0 || power < -2 {
		digits, power, tolerance = digits[:2], power+1, gold
	}
	multiplier := power
	switch {
	case power == -1:
		multiplier = gold
	case power == -2:
		multiplier = silver
	case power < 0 || power > 9:
		return nil
	}
	return append(digits, multiplier, tolerance)
}

// drawDiode draws the body with its band at the cathode.
func (k *sketch) drawDiode() {
	x, ok := k.leadAxis()
	if !ok {
		k.drawGeneric()
		return
	}
	k.leadWires()
	k.rect(k.main, min(k.main.Width(), k.main.Height())*0.22, "chip")
	from, to, half := k.bodyAlong(x)
	at := from + (to-from)*0.2
	if k.minus() == 1 {
		at = from + (to-from)*0.8
	}
	k.rect(x.bar(at-(to-from)*0.06, at+(to-from)*0.06, half*0.94), 0, "band-silver")
	k.dots("lead", 0.42)
	k.polarities()
	k.refBelow(k.value())
}

// minus is the index of the terminal that is the cathode or negative, or -1.
func (k *sketch) minus() int {
	return slices.IndexFunc(k.def.Terminals, func(t part.Terminal) bool {
		return slices.Contains([]string{"K", "k", "-", "C", "cathode", "minus", "GND"}, t.Name)
	})
}

func (k *sketch) plus() int {
	return slices.IndexFunc(k.def.Terminals, func(t part.Terminal) bool {
		return slices.Contains([]string{"+", "A", "a", "anode", "plus", "VCC", "VDD"}, t.Name)
	})
}

// polarities writes terminal names such as A and K beside the leads, away from the body.
func (k *sketch) polarities() {
	for _, t := range k.def.Terminals {
		at, c := k.lead(t), k.main.Centre()
		reach := at.Distance(c)
		if k.main.Contains(at) {
			reach = min(k.main.Width(), k.main.Height()) / 2
		}
		k.text(axisOf(c, at).at(reach+0.9, 0), 1.05, t.Name, "polarity", "detail-near")
	}
}
