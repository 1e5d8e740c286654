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
		Style:  pick(m, []string{"auto", "auto", "direct", "matrix", "matrix"}),
		Active: pick(m, []string{"auto", "low", "high"}),
		Pulls:  pick(m, []string{"auto", "internal", "external"}),
		Diodes: pick(m, []string{"none", "where needed", "every key"}),
		Reader: pick(m, []string{"pio", "polled"}),
	}
	m.chords()
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

func (m *maker) chords() {
	keys := m.p.Keys()
	for c := range m.between(0, 3) {
		size := m.between(2, 4)
		if len(keys) < size {
			return
		}
		chord := panel.Chord{Name: fmt.Sprintf("chord %d", c+1)}
		for _, i := range m.Perm(len(keys))[:size] {
			chord.Keys = append(chord.Keys, keys[i].ID)
		}
		m.p.Chords = append(m.p.Chords, chord)
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
