package randompanel

import (
	"fmt"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// name gives a part's contacts meanings and a part with values one of them.
func (m *maker) name(pl *panel.Placed, d *part.Definition) {
	if len(d.Facts.Values) > 0 && m.chance(60) {
		pl.Value = pick(m, d.Facts.Values)
	}
	if d.Kind == part.Resistor && m.chance(30) {
		pl.Value = "10k"
	}
	if len(d.Facts.I2CAddresses) > 0 && m.chance(50) {
		pl.Address = pick(m, d.Facts.I2CAddresses)
	}
	named := 90
	if d.Kind != part.Switch {
		named = 50
	}
	if len(d.Contacts) == 1 && m.chance(named) {
		k := m.key()
		pl.Key = &k
	}
	if len(d.Contacts) > 1 {
		for _, c := range d.Contacts {
			if m.chance(named) {
				if pl.Keys == nil {
					pl.Keys = map[string]panel.Key{}
				}
				pl.Keys[c.Name] = m.key()
			}
		}
	}
}

// key is a letter of the keyboard page of the USB HID usage tables.
func (m *maker) key() panel.Key {
	n := m.IntN(26)
	return panel.Key{Legend: string(rune('A' + n)), Usage: fmt.Sprintf("07:%02X", 4+n), Direct: m.chance(10)}
}

// joins ties some parts that only a maker joins: capacitors across a supply, headers to it.
func (m *maker) joins() {
	supply := m.supplyTerminals()
	if len(supply) < 2 {
		return
	}
	for i := range m.p.Placed {
		pl := &m.p.Placed[i]
		d := m.p.Definition(pl)
		if d.Kind != part.Capacitor && d.Kind != part.Header && d.Kind != part.Transistor || m.chance(40) {
			continue
		}
		for _, t := range d.Terminals {
			if m.chance(60) {
				other := pick(m, supply)
				m.p.Joins = append(m.p.Joins, panel.Join{Name: fmt.Sprintf("join of %s %s", pl.Ref, t.Name),
					Terminals: []string{pl.Ref + "." + t.Name, other}})
			}
		}
	}
}

// supplyTerminals lists the terminals that are a supply by nature.
func (m *maker) supplyTerminals() []string {
	var list []string
	for i := range m.p.Placed {
		d := m.p.Definition(&m.p.Placed[i])
		for _, t := range d.Terminals {
			if t.Net != "" {
				list = append(list, m.p.Placed[i].Ref+"."+t.Name)
			}
		}
	}
	return list
}

// wishes fills in the scan, chords, pins and wires.
func (m *maker) wishes() {
	m.p.Scan = panel.Scan{
		Style:  m.style,
		Active: pick(m, []string{"auto", "low", "high"}),
		Pulls:  pick(m, []string{"auto", "internal", "external"}),
		Diodes: pick(m, []string{"none", "where needed", "every key"}),
		Reader: pick(m, []string{"pio", "polled"}),
	}
	m.chords()
	if m.chance(40) {
		m.lamps()
	}
	if m.chance(50) {
		m.p.Pins.Prefer = m.some(panel.Spared)
	}
	for range m.between(0, 2) {
		gpio := fmt.Sprintf("GP%d", m.IntN(23))
		if len(m.p.Pins.KeepFree) == 0 || m.p.Pins.KeepFree[0] != gpio {
			m.p.Pins.KeepFree = append(m.p.Pins.KeepFree, gpio)
		}
	}
	if m.chance(30) {
		m.keepOut()
	}
	if m.chance(30) && len(m.leads) > 1 {
		m.lockWires()
	}
}

// chords asks for sets of keys, and for choices between keys.
func (m *maker) chords() {
	var keys []string
	for _, k := range m.p.Keys() {
		keys = append(keys, k.ID)
	}
	for c := range m.between(0, 3) {
		chord := panel.Chord{Name: fmt.Sprintf("chord %d", c+1)}
		if size := m.between(2, 4); len(keys) >= size {
			for _, i := range m.Perm(len(keys))[:size] {
				chord.Keys = append(chord.Keys, keys[i])
			}
		}
		for len(keys) > 4 && len(chord.Any) < 2 && m.chance(25) {
			of := m.some(keys)
			if len(of) > 5 {
				of = of[:5]
			}
			if len(of) > 0 {
				chord.Any = append(chord.Any, panel.AnyOf{Count: m.between(1, min(2, len(of))), Of: of})
			}
		}
		if len(chord.Keys)+len(chord.Any) > 0 {
			m.p.Chords = append(m.p.Chords, chord)
		}
	}
}

// some returns some of a list, in an order by chance.
func (m *maker) some(list []string) []string {
	picked := []string{}
	for _, i := range m.Perm(len(list))[:m.IntN(len(list)+1)] {
		picked = append(picked, list[i])
	}
	return picked
}

// lamps names LEDs that are to light with the select lines, now and then a part that is none.
func (m *maker) lamps() {
	var leds []string
	for i := range m.p.Placed {
		if pl := &m.p.Placed[i]; m.p.Definition(pl).Kind == part.LED || m.chance(2) {
			leds = append(leds, pl.Ref)
		}
	}
	if named := m.some(leds); len(named) > 0 {
		m.p.Scan.Lamps = named[:min(len(named), panel.MaxMembers)]
	}
}

// keepOut keeps some holes clear that no lead is in.
func (m *maker) keepOut() {
	taken := map[grid.Hole]bool{}
	for _, l := range m.leads {
		taken[l.hole] = true
	}
	b := &m.p.Boards[0]
	for range m.between(1, 12) {
		h := b.At.Add(grid.Offset{Cols: m.IntN(b.Columns), Rows: m.IntN(b.Rows)})
		if !taken[h] {
			taken[h] = true
			m.p.Wires.KeepOut = append(m.p.Wires.KeepOut, h)
		}
	}
}

// lockWires asks for wires between leads without a thought; most cannot be.
func (m *maker) lockWires() {
	for range m.between(1, 6) {
		w := panel.LockedWire{From: pick(m, m.leads).hole, To: pick(m, m.leads).hole,
			Kind: pick(m, []string{"bare", "insulated"}), Face: grid.Face(m.IntN(2))}
		if w.From != w.To {
			m.p.Wires.Locked = append(m.p.Wires.Locked, w)
		}
	}
}
