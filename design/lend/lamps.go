package lend

import (
	"cmp"
	"fmt"
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

// What is proposed where the panel has no LED or no resistor yet.
const (
	usualLED      = "led3"
	usualResistor = "resistor-small"
)

// lampMilliamps is the current that an LED of a select line is planned for while its line is
// selected: what a pin gives at the drive that it has after reset (RP2040 data sheet table 625).
const lampMilliamps = 4

// logicVolts is what hangs an LED from 3V3, or what a pin gives.
const logicVolts = 3.3

// Lamps proposes an LED near each select line that has none, a resistor near each LED of a line that
// would find none, and the wish that makes them light with the lines, as one edit. It returns nil and
// no sentence when nothing lacks, and nil and a sentence that says why when it cannot be.
func Lamps(p *panel.Panel, f *fit.Result, s *scan.Result, n *netlist.Result) (*panel.Together, string) {
	switch {
	case s.Columns == 0:
		return nil, "The keys are read without select lines, so there is nothing that an LED could light with."
	case s.Style == "lines":
		return nil, "Lines that both read and select can have no LEDs: what an LED draws would hold a line between low and high. Let the style be matrix."
	}
	r := lamplighter{room: newRoom(p, f), scan: s, nets: n}
	r.led, r.ledPart = r.ledOf()
	r.resistor, r.resistorPart = kindOf(p, part.Resistor, usualResistor)
	lamps := slices.Clone(p.Scan.Lamps)
	var dark []grid.Pose // LEDs that still want a resistor
	for _, led := range lamps {
		if pl := p.Find(led); pl != nil && !r.hasResistor(led) {
			dark = append(dark, pl.Pose())
		}
	}
	for line := len(lamps); line < s.Columns; line++ {
		pose, ok := r.beside(line)
		if !ok {
			return nil, fmt.Sprintf("There is no room for an LED for %s. Enlarge a board, or move parts together.", s.ColumnNet(line))
		}
		lamps = append(lamps, r.place(panel.Placed{Part: r.led, Value: r.colour()}, pose, &r.ledPart))
		dark = append(dark, pose)
	}
	leds := len(lamps) - len(p.Scan.Lamps)
	resistors := max(0, len(dark)-r.spare())
	for _, led := range dark[len(dark)-resistors:] {
		if !r.placeResistor(led) {
			return nil, fmt.Sprintf("There is no room for a resistor beside the LED at %s. Enlarge a board, or move parts together.", led.At)
		}
	}
	if leds+resistors == 0 {
		return nil, ""
	}
	wish := p.Scan
	wish.Lamps = lamps
	for _, ohms := range r.ohms() {
		r.setOhms(ohms)
		edit := r.together(lampLabel(leds, resistors), &panel.SetScan{Scan: wish})
		if r.leavesReadings(edit) {
			return edit, ""
		}
	}
	return nil, "LEDs on the select lines would move what the keys read, whatever their resistors. Ask for a diode at every key and place them first."
}

func lampLabel(leds, resistors int) string {
	switch {
	case resistors == 0:
		return "Place " + count(leds, "LED", "LEDs")
	case leds == 0:
		return "Place " + count(resistors, "resistor", "resistors")
	}
	return "Place " + count(leds, "LED", "LEDs") + " and " + count(resistors, "resistor", "resistors")
}

// A lamplighter is a room with what LEDs of select lines need to know.
type lamplighter struct {
	*room
	scan                  *scan.Result
	nets                  *netlist.Result
	led, resistor         string
	ledPart, resistorPart part.Definition
}

// ledOf is the LED of one colour that the panel has placed already, else the usual one.
func (r *lamplighter) ledOf() (string, part.Definition) {
	for _, pl := range r.p.OfKind(part.LED) {
		d := r.p.Definition(pl)
		_, anode := d.Terminal("A")
		_, cathode := d.Terminal("K")
		if anode && cathode && len(d.Terminals) == 2 {
			return pl.Part, d
		}
	}
	if d, ok := r.p.Parts[usualLED]; ok {
		return usualLED, d
	}
	return usualLED, part.BuiltIn()[usualLED]
}

// colour is what the LEDs of the lines have already, else the first that the part is sold in.
func (r *lamplighter) colour() string {
	for _, led := range r.p.Scan.Lamps {
		if pl := r.p.Find(led); pl != nil && pl.Part == r.led {
			return pl.Value
		}
	}
	if values := r.ledPart.Facts.Values; len(values) > 0 {
		return values[0]
	}
	return ""
}

// amongKeys is what a place among the keys costs, in holes: fingers are there.
const amongKeys = 12

// beside finds a place for the LED of a line: near the line's keys, rather beyond the keys than among
// them, on the player's face if that takes parts.
func (r *lamplighter) beside(line int) (grid.Pose, bool) {
	var on, all []grid.Hole
	for _, k := range r.p.Keys() {
		h, _ := r.p.HoleOf(panel.TerminalRef{Ref: k.Ref, Terminal: k.Contact.Between[1]})
		all = append(all, h)
		if slices.ContainsFunc(r.scan.Cells, func(c scan.Cell) bool { return c.Key == k.ID && c.Column == line }) {
			on = append(on, h)
		}
	}
	end, _ := r.ledPart.Terminal("K") // that goes to the line
	if r.scan.Active == "high" {
		end, _ = r.ledPart.Terminal("A")
	}
	first, last := corners(all)
	return r.nearest(&r.ledPart, r.everywhere(), []grid.Face{grid.Front, grid.Back}, func(pose grid.Pose) int {
		h := pose.Hole(end.Offset())
		steps := stepsTo(h, on)
		if h.Col >= first.Col && h.Col <= last.Col && h.Row >= first.Row && h.Row <= last.Row {
			steps += amongKeys
		}
		return steps
	})
}

// placeResistor finds a place for a resistor beside an LED's anode.
func (r *lamplighter) placeResistor(led grid.Pose) bool {
	end, _ := r.ledPart.Terminal("A")
	anode := led.Hole(end.Offset())
	pose, ok := r.nearest(&r.resistorPart, r.everywhere(), []grid.Face{led.Face, led.Face.Other()}, func(pose grid.Pose) int {
		return pose.At.Steps(anode)
	})
	if ok {
		r.place(panel.Placed{Part: r.resistor}, pose, &r.resistorPart)
	}
	return ok
}

// ohms lists the values to try, least first: those that the resistor is sold with and that keep the
// LED to its current.
func (r *lamplighter) ohms() []string {
	forward := r.ledPart.Facts.ForwardVolts
	if c, ok := part.ColourNamed(r.colour()); ok {
		forward = c.PlanVolts
	}
	least := max(0, logicVolts-forward) / lampMilliamps * 1000
	value := func(text string) float64 {
		v, _ := part.ParseValue(text)
		return v
	}
	values := slices.DeleteFunc(slices.Clone(r.resistorPart.Facts.Values), func(text string) bool {
		return value(text) < least || value(text) > netlist.MostLampOhms
	})
	slices.SortFunc(values, func(a, b string) int { return cmp.Compare(value(a), value(b)) })
	if len(values) == 0 {
		return []string{"470", "1k", "2.2k"}
	}
	return values
}

// setOhms gives every proposed resistor a value.
func (r *lamplighter) setOhms(text string) {
	for i := range r.placed {
		if r.placed[i].Part == r.resistor {
			r.placed[i].Value = text
		}
	}
}

// hasResistor reports whether a resistor was paired with an LED.
func (r *lamplighter) hasResistor(led string) bool {
	return slices.ContainsFunc(r.nets.Pairs, func(p netlist.Pair) bool { return p.Of == led && p.With != "" })
}

// spare counts the placed resistors that would do for an LED and are joined to nothing.
func (r *lamplighter) spare() int {
	open := map[string]int{}
	for _, o := range r.nets.Open {
		open[o.Ref]++
	}
	n := 0
	for _, pl := range r.p.OfKind(part.Resistor) {
		d := r.p.Definition(pl)
		if len(d.Terminals) == 2 && open[pl.Ref] == 2 && netlist.Ohms(pl, &d) <= netlist.MostLampOhms {
			n++
		}
	}
	return n
}
