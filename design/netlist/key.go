package netlist

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

// rowName and columnName name the lines of the matrix, counted from 0.
func rowName(row int) string       { return fmt.Sprintf("row %d", row) }
func columnName(column int) string { return fmt.Sprintf("column %d", column) }

func (b *builder) row(n int) int    { return b.net(rowName(n), Row, orderRow) }
func (b *builder) column(n int) int { return b.net(columnName(n), Column, orderColumn) }

func (b *builder) activeHigh() bool { return b.scan.Active == "high" }

// addCells joins the keys of the matrix with their rows and columns, through a diode where the
// scan asks for one.
func (b *builder) addCells() {
	diodes := b.pairDiodes()
	for _, c := range b.scan.Cells {
		k, ok := b.keys[c.Key]
		if !ok {
			continue
		}
		rowEnd, _ := b.end(k.Ref, k.Contact.Between[0])
		columnEnd, _ := b.end(k.Ref, k.Contact.Between[1])
		b.attach(rowEnd, b.row(c.Row))
		diode, ok := diodes[c.Key]
		if !ok {
			b.attach(columnEnd, b.column(c.Column))
			continue
		}
		anode, _ := b.end(diode, "A")
		cathode, _ := b.end(diode, "K")
		near, far := anode, cathode // current flows from the row through the key to the column
		if b.activeHigh() {
			near, far = cathode, anode
		}
		link := b.net(c.Key+" diode", Link, orderLink)
		b.attach(columnEnd, link)
		b.attach(near, link)
		b.attach(far, b.column(c.Column))
	}
}

// pairDiodes chooses a diode for each cell that wants one, nearest in sum, and returns the diode's
// reference by key.
func (b *builder) pairDiodes() map[string]string {
	var cells []scan.Cell
	for _, c := range b.scan.Cells {
		if _, ok := b.keys[c.Key]; ok && c.Diode {
			cells = append(cells, c)
		}
	}
	near := "A"
	if b.activeHigh() {
		near = "K"
	}
	var diodes []string
	for _, pl := range b.p.OfKind(part.Diode) {
		_, a := b.end(pl.Ref, "A")
		_, k := b.end(pl.Ref, "K")
		if a && k && b.idle(pl.Ref) {
			diodes = append(diodes, pl.Ref)
		}
	}
	cost := make([][]int, len(cells))
	for i, c := range cells {
		k := b.keys[c.Key]
		from, _ := b.end(k.Ref, k.Contact.Between[1])
		cost[i] = make([]int, len(diodes))
		for j, d := range diodes {
			to, _ := b.end(d, near)
			cost[i][j] = b.steps(from, to)
		}
	}
	chosen := map[string]string{}
	for i, j := range assign(cost, len(diodes)) {
		key := cells[i].Key
		if j < 0 {
			b.note(finding.Finding{Severity: finding.Stop, Code: "net-diode-missing",
				Where: finding.Where{Keys: []string{key}, Refs: []string{b.keys[key].Ref}, Net: columnName(cells[i].Column)},
				Text:  fmt.Sprintf("Key %s wants a diode and none is free. It is wired without.", key),
				Fix:   fmt.Sprintf("Place a diode near %s, or change the chords or the wish for diodes.", b.keys[key].Ref)})
			continue
		}
		chosen[key] = diodes[j]
		b.pair(key, diodes[j], fmt.Sprintf("%s is a free diode %d holes from key %s.", diodes[j], cost[i][j], key))
	}
	return chosen
}

// addDirect joins the keys that have pins of their own: one side to the pin, the other to the level
// that a press gives. A side that is a supply by nature stays so.
func (b *builder) addDirect() {
	for _, d := range b.scan.Direct {
		k, ok := b.keys[d.Key]
		if !ok {
			continue
		}
		line, level := b.sides(k)
		b.attach(line, b.keyNet(d.Key))
		if !b.isSupply(level) {
			b.attach(level, b.supply(b.pressLevel()))
		}
	}
}

// sides returns the end of a direct key that goes to its pin and the one that goes to a level. The
// first side goes to the pin, unless it is a supply by nature or other contacts share it.
func (b *builder) sides(k panel.KeyRef) (line, level int) {
	line, _ = b.end(k.Ref, k.Contact.Between[0])
	level, _ = b.end(k.Ref, k.Contact.Between[1])
	if !b.isSupply(level) && (b.isSupply(line) || b.isShared(k, 0) && !b.isShared(k, 1)) {
		return level, line
	}
	return line, level
}

// isShared reports whether side s of a key is one metal with a side of another contact of its part.
func (b *builder) isShared(k panel.KeyRef, s int) bool {
	d := b.p.Definition(b.p.Find(k.Ref))
	metal := d.Metal(k.Contact.Between[s])
	return slices.ContainsFunc(d.Contacts, func(c part.Contact) bool {
		return c.Name != k.Contact.Name && (slices.Contains(metal, c.Between[0]) || slices.Contains(metal, c.Between[1]))
	})
}

func (b *builder) keyNet(id string) int { return b.net("key "+id, Signal, orderKey) }

// pressLevel is the supply that a pressed key puts on its line.
func (b *builder) pressLevel() string {
	if b.activeHigh() {
		return part.Supply3V3
	}
	return part.Ground
}

func (b *builder) isSupply(n int) bool {
	o := b.owner[b.find(n)]
	return o >= 0 && b.idents[o].order == orderSupply
}
