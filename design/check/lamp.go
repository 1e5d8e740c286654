package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/part"
	"fascia/design/scan"
)

// A lamp is one lit path of an LED: from a pin or supply through its resistors to ground or a pin.
type lamp struct {
	it        *item
	end       string  // the terminal that is switched or fed, such as A
	pin       string  // the GPIO that lights it, "" when it is always lit
	sinks     bool    // the pin takes the current to ground instead of giving it
	from      float64 // volts above the lower end
	forward   float64 // volts across the LED
	resistors []*item
	ohms      float64
	known     bool // every resistor in the way has a known value
	lines     int  // select lines that it takes turns with, 1 when it may be lit all the time
}

// milliamps is the current that flows while the LED is lit; 0 when it is not known.
func (l *lamp) milliamps() float64 {
	if !l.known || l.ohms == 0 {
		return 0
	}
	return seriesMilliamps(l.from, l.forward, l.ohms)
}

// average is the current as the eye takes it: of an LED on a select line, its share of one round.
func (l *lamp) average() float64 { return l.milliamps() / float64(max(1, l.lines)) }

// seriesMilliamps is the current through an LED and its resistor: I = (Vs - VF) / R.
func seriesMilliamps(supply, forward, ohms float64) float64 {
	return max(0, (supply-forward)/ohms*1000)
}

// A leg is what one end of an LED reaches, directly or through one resistor.
type leg struct {
	net      *netlist.Net
	resistor *item
}

// legOf follows the net of a terminal to a pin or a rail; false when it reaches none.
func (v *view) legOf(n *netlist.Net) (leg, bool) {
	if n == nil {
		return leg{}, false
	}
	if v.isRail(n) || v.gpio(n) != "" {
		return leg{net: n}, true
	}
	for _, r := range v.links(n, part.Resistor) {
		if r.far != nil && (v.isRail(r.far) || v.gpio(r.far) != "") {
			return leg{r.far, r.it}, true
		}
	}
	return leg{}, false
}

// findLamps lists the lit paths of every LED. An LED that is switched by a transistor, or is not
// wired, has none.
func (v *view) findLamps() []lamp {
	var lamps []lamp
	for _, it := range v.ofKind(part.LED) {
		ends := lampEnds(it.def)
		common, ok := v.legOf(v.net(it.Ref, ends.common))
		if !ok {
			continue
		}
		for _, end := range ends.driven {
			driven, ok := v.legOf(v.net(it.Ref, end))
			if !ok {
				continue
			}
			if l, ok := v.lampOf(it, driven, common); ok {
				l.end, l.forward, l.lines = end, it.forwardVolts(end), v.turns(it.Ref)
				lamps = append(lamps, l)
			}
		}
	}
	return lamps
}

// turns is how many select lines an LED that lights with one takes turns with; 1 for any other.
func (v *view) turns(ref string) int {
	if slices.ContainsFunc(v.scan.Lamps, func(l scan.Lamp) bool { return l.LED == ref }) {
		return max(1, v.scan.Columns)
	}
	return 1
}

type ledEnds struct {
	driven []string
	common string
}

// lampEnds tells the ends of an LED apart: those with a need are driven, the first other one is
// common. Without needs the anode is driven.
func lampEnds(d *part.Definition) (ends ledEnds) {
	for _, t := range d.Terminals {
		switch {
		case needs(d, t.Name) || len(d.Needs) == 0 && t.Name == "A":
			ends.driven = append(ends.driven, t.Name)
		case ends.common == "":
			ends.common = t.Name
		}
	}
	return ends
}

// lampOf works out what lights an LED between two legs; false when nothing does.
func (v *view) lampOf(it *item, driven, common leg) (lamp, bool) {
	l := lamp{it: it, known: true}
	for _, leg := range []leg{driven, common} {
		if leg.resistor != nil {
			ohms, ok := leg.resistor.ohms()
			l.resistors, l.ohms, l.known = append(l.resistors, leg.resistor), l.ohms+ohms, l.known && ok
		}
	}
	high, low := driven, common
	if isGround(driven.net) || v.gpio(driven.net) != "" && !isGround(common.net) {
		high, low = common, driven
	}
	rail, fed := v.volts(high.net)
	switch {
	case fed && isGround(low.net):
		l.from = rail.high
	case fed && v.gpio(low.net) != "":
		l.from, l.pin, l.sinks = rail.high, v.gpio(low.net), true
	case v.gpio(high.net) != "" && isGround(low.net):
		l.from, l.pin = logicVolts, v.gpio(high.net)
	default:
		return lamp{}, false
	}
	return l, true
}

// usualForward is what an LED of unknown colour is taken to drop: between red and green.
const usualForward = 2.0

// forwardVolts is what the LED drops: by its colour, by its definition, or the usual 2 V.
func (it *item) forwardVolts(end string) float64 {
	name := it.value()
	if c := map[string]string{"R": "red", "G": "bright green", "B": "blue"}[end]; c != "" && len(it.def.Needs) > 1 {
		name = c
	}
	if c, ok := part.ColourNamed(name); ok {
		return c.PlanVolts
	}
	if it.def.Facts.ForwardVolts > 0 {
		return it.def.Facts.ForwardVolts
	}
	return usualForward
}

// Currents that an LED is planned for (common practice, no source).
const (
	brightMA     = 10
	dimMA        = 0.3
	leastHeadway = 0.5 // volts across the resistor
)

const ledSource = "5 mm round LED data sheet: R = (Vs - VF) / I; limits common practice, no source"

var lampRules = []Rule{
	{Code: "led-no-resistor", Severity: finding.Stop, Says: "Every LED has a resistor in its way.", Source: ledSource, look: ledNoResistor},
	{Code: "led-bright", Severity: finding.Mind, Says: "An LED takes at most 10 mA.", Source: ledSource, look: ledBright},
	{Code: "led-dim", Severity: finding.Mind, Says: "An LED takes at least 0.3 mA.", Source: ledSource, look: ledDim},
	{Code: "led-headroom", Severity: finding.Mind, Says: "An LED's resistor has at least 0.5 V across it.",
		Source: "computed from the colour's range of forward voltage; common practice, no source", look: ledHeadroom},
	{Code: "led-colour", Severity: finding.Mind, Says: "An LED's colour is known.", Source: "common practice, no source", look: ledColour},
}

// eachLamp makes a finding of every lamp for which say returns a text.
func (v *view) eachLamp(say func(l *lamp) (text, fix string)) []finding.Finding {
	var found []finding.Finding
	for i := range v.lamps {
		l := &v.lamps[i]
		text, fix := say(l)
		if text == "" {
			continue
		}
		where := finding.Where{Refs: []string{l.it.Ref}, Pin: l.pin}
		for _, r := range l.resistors {
			where.Refs = append(where.Refs, r.Ref)
		}
		found = append(found, finding.Finding{Where: where, Text: text, Fix: fix})
	}
	return found
}

func ledNoResistor(v *view) []finding.Finding {
	return v.eachLamp(func(l *lamp) (text, fix string) {
		if len(l.resistors) > 0 {
			return "", ""
		}
		ohms := nextE24((l.from - l.forward) / 0.002)
		return fmt.Sprintf("LED %s has no resistor, so only the pin and luck limit its current.", l.it.Ref),
			fmt.Sprintf("Place a resistor beside it; %s gives about 2 mA.", resistance(ohms))
	})
}

func ledBright(v *view) []finding.Finding {
	return v.eachLamp(func(l *lamp) (text, fix string) {
		if l.milliamps() <= brightMA+1e-9 {
			return "", ""
		}
		return fmt.Sprintf("LED %s takes %s mA through %s.", l.it.Ref, figure(l.milliamps()), resistance(l.ohms)),
			fmt.Sprintf("Take a larger resistor; %s gives about 5 mA.", resistance(nextE24((l.from-l.forward)/0.005)))
	})
}

func ledDim(v *view) []finding.Finding {
	return v.eachLamp(func(l *lamp) (text, fix string) {
		room := l.from - l.forward
		if !l.known || l.ohms == 0 || l.average() >= dimMA || room <= 0 {
			return "", ""
		}
		if l.lines > 1 {
			return fmt.Sprintf("LED %s takes %s mA through %s for one turn in %d, %s mA on average, and will hardly glow.", l.it.Ref, figure(l.milliamps()), resistance(l.ohms), l.lines, figure(l.average())),
				fmt.Sprintf("Take a smaller resistor; %s gives about %s mA on average.", resistance(lineLampOhms(room, l.lines)), figure(seriesMilliamps(l.from, l.forward, lineLampOhms(room, l.lines))/float64(l.lines)))
		}
		return fmt.Sprintf("LED %s takes only %s mA through %s and will hardly glow.", l.it.Ref, figure(l.milliamps()), resistance(l.ohms)),
			fmt.Sprintf("Take a smaller resistor; %s gives about 2 mA.", resistance(nextE24(room/0.002)))
	})
}

// lineLampOhms is the resistor for an LED that takes turns with others: 2 mA on average, as far as
// the pin gives that at the drive that it has after reset.
func lineLampOhms(room float64, lines int) float64 {
	return nextE24(room / (min(2*float64(lines), resetDriveMA) / 1000))
}

func ledHeadroom(v *view) []finding.Finding {
	return v.eachLamp(func(l *lamp) (text, fix string) {
		left := l.from - l.forward
		if left >= leastHeadway-1e-9 {
			return "", ""
		}
		return fmt.Sprintf("LED %s drops about %s V of %s V, which leaves %s V for its resistor: its brightness will vary from piece to piece.",
				l.it.Ref, figure(l.forward), figure(l.from), figure(max(0, left))),
			"Choose a colour that drops less, feed it from 5V through a transistor, or accept it."
	})
}

func ledColour(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.LED) {
		name := it.value()
		if _, known := part.ColourNamed(name); known || len(it.def.Needs) > 1 || name == "" && it.def.Facts.ForwardVolts > 0 {
			continue
		}
		text := fmt.Sprintf("LED %s has no colour, so its resistor is worked out for %s V.", it.Ref, figure(it.forwardVolts("")))
		if name != "" {
			text = fmt.Sprintf("LED %s is %q, a colour whose voltage is not known; it is taken as %s V.", it.Ref, name, figure(it.forwardVolts("")))
		}
		found = append(found, finding.Finding{Where: atParts(it.Ref), Text: text, Fix: "Choose one of " + colourNames() + "."})
	}
	return found
}

func colourNames() string {
	names := make([]string, len(part.Colours))
	for i, c := range part.Colours {
		names[i] = c.Name
	}
	s := ""
	for i, n := range names[:len(names)-1] {
		if i > 0 {
			s += ", "
		}
		s += n
	}
	return s + " or " + names[len(names)-1]
}
