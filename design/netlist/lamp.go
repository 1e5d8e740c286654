package netlist

import (
	"fmt"

	"fascia/design/panel"
	"fascia/design/part"
)

// Limits on what a resistor may serve as. A lamp's resistor is at most 2.2 kilohms, above which it
// hardly glows; a pull is at least 3.3 kilohms, below which a pressed key wastes current.
const (
	MostLampOhms  = 2200
	leastPullOhms = 3300
)

// A lamp is one end of an LED that wants a resistor.
type lamp struct {
	of   string // as a pair names it: D1, or D1.R for an LED of several colours
	name string // of the link between resistor and LED
	end  int
	feed int // node beyond the resistor, or -1 when that is the pin which serves the end
}

// lamps lists the LED ends that a pin drives or that light with a select line, and that the maker
// did not join.
func (b *builder) lamps() []lamp {
	var found []lamp
	for _, pl := range b.p.OfKind(part.LED) {
		if b.lightsWithLine(pl.Ref) {
			continue
		}
		d := b.p.Definition(pl)
		for _, need := range d.Needs {
			n, ok := b.end(pl.Ref, need.Terminal)
			if !ok || b.isAsked(n) || !b.driven(n) {
				continue
			}
			l := lamp{pl.Ref, pl.Ref + " series", n, -1}
			if len(d.Needs) > 1 {
				l = lamp{pl.Ref + "." + need.Terminal, pl.Ref + " " + need.Terminal + " series", n, -1}
			}
			found = append(found, l)
		}
	}
	return append(found, b.lineLamps()...)
}

// driven reports whether a pin serves end n. When there is no pin plan at all the pairing is worth
// making all the same.
func (b *builder) driven(n int) bool {
	if len(b.pins.Pins) == 0 {
		return true
	}
	for _, pin := range b.pins.Pins {
		for _, t := range pin.Serves {
			if t == b.ends[n].TerminalRef {
				return true
			}
		}
	}
	return false
}

// addLamps puts the nearest free resistor between each LED and what feeds it, and the other ends of
// those that a pin drives on ground. It returns what stands in for each LED end towards the pin.
func (b *builder) addLamps() map[panel.TerminalRef]int {
	lamps := b.lamps()
	resistors := b.resistors(func(ohms float64) bool { return ohms <= MostLampOhms })
	cost := make([][]int, len(lamps))
	for i, l := range lamps {
		cost[i] = make([]int, len(resistors))
		for j, r := range resistors {
			cost[i][j] = min(b.steps(l.end, r[0]), b.steps(l.end, r[1]))
		}
	}
	stands := map[panel.TerminalRef]int{}
	for i, j := range assign(cost, len(resistors)) {
		l := lamps[i]
		if j < 0 {
			b.pair(l.of, "", fmt.Sprintf("No resistor of 2.2 kilohms or less is free, so the LED is wired straight to %s.", b.feedName(l)))
			if l.feed >= 0 {
				b.attach(l.end, l.feed)
			}
			continue
		}
		near, far := resistors[j][0], resistors[j][1]
		if b.steps(l.end, far) < b.steps(l.end, near) {
			near, far = far, near
		}
		link := b.net(l.name, Link, orderLink)
		b.attach(l.end, link)
		b.attach(near, link)
		if l.feed >= 0 {
			b.attach(far, l.feed)
		} else {
			stands[b.ends[l.end].TerminalRef] = far
		}
		ref := b.ends[near].Ref
		b.pair(l.of, ref, fmt.Sprintf("%s is a free resistor %d holes from %s.", ref, cost[i][j], l.of))
	}
	b.groundLamps()
	return stands
}

// feedName says what feeds a lamp.
func (b *builder) feedName(l lamp) string {
	if l.feed < 0 {
		return "its pin"
	}
	return b.nameAt(l.feed)
}

// groundLamps puts the ends of LEDs that nothing else claims on ground.
func (b *builder) groundLamps() {
	for _, pl := range b.p.OfKind(part.LED) {
		if b.lightsWithLine(pl.Ref) {
			continue
		}
		d := b.p.Definition(pl)
		needs := map[string]bool{}
		for _, need := range d.Needs {
			needs[need.Terminal] = true
		}
		for _, t := range d.Terminals {
			n, _ := b.end(pl.Ref, t.Name)
			if !needs[t.Name] && !t.Open && t.Net == "" && !b.isAsked(n) && len(needs) > 0 {
				b.attach(n, b.supply(part.Ground))
			}
		}
	}
}

// resistors lists the free resistors whose value, if they have one, fits.
func (b *builder) resistors(fits func(ohms float64) bool) [][2]int {
	var found [][2]int
	for _, pl := range b.p.OfKind(part.Resistor) {
		d := b.p.Definition(pl)
		if len(d.Terminals) != 2 || !b.idle(pl.Ref) || !fits(Ohms(pl, &d)) {
			continue
		}
		m, _ := b.end(pl.Ref, d.Terminals[0].Name)
		n, _ := b.end(pl.Ref, d.Terminals[1].Name)
		found = append(found, [2]int{m, n})
	}
	return found
}

// Ohms is a placed resistor's value, 0 when it has none.
func Ohms(pl *panel.Placed, d *part.Definition) float64 {
	text := pl.Value
	if text == "" && d.Facts.Ohms > 0 {
		return d.Facts.Ohms
	}
	if text == "" && len(d.Facts.Values) > 0 {
		text = d.Facts.Values[0]
	}
	if v, err := part.ParseValue(text); err == nil {
		return v
	}
	return 0
}
