package netlist

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

// row and column return the node of a line of the matrix. Where a line both reads and selects they
// are one.
func (b *builder) row(n int) int { return b.net(b.scan.RowNet(n), Row, orderRow) }

func (b *builder) column(n int) int {
	if name := b.scan.ColumnNet(n); name != b.scan.RowNet(n) {
		return b.net(name, Column, orderColumn)
	}
	return b.row(n)
}

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

// BandTowards says where the band of every key diode points, the cathode: the one direction that all
// of a board's key diodes share, measured along the current of the diode's own key.
func BandTowards(s *scan.Result) string {
	switch {
	case s.Active == "high":
		return "its key"
	case s.Style == "lines":
		return "the line that selects it"
	}
	return "its column"
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
	var without []scan.Cell
	for i, j := range assign(cost, len(diodes)) {
		key := cells[i].Key
		if j < 0 {
			without = append(without, cells[i])
			continue
		}
		chosen[key] = diodes[j]
		b.pair(key, diodes[j], fmt.Sprintf("%s is a free diode %d holes from key %s.", diodes[j], cost[i][j], key))
	}
	b.noDiodes(without)
	return chosen
}

// noDiodes says which keys go without the diode that they want.
func (b *builder) noDiodes(cells []scan.Cell) {
	if len(cells) == 0 {
		return
	}
	var where finding.Where
	for _, c := range cells {
		where.Keys = append(where.Keys, c.Key)
		if ref := b.keys[c.Key].Ref; !slices.Contains(where.Refs, ref) {
			where.Refs = append(where.Refs, ref)
		}
	}
	slices.SortFunc(where.Keys, panel.CompareRefs)
	slices.SortFunc(where.Refs, panel.CompareRefs)
	text, near, other := "Key %s wants a diode and none is free. It is wired without.", "near "+where.Refs[0], "change the chords or the wish for diodes"
	if len(cells) > 1 {
		text, near = "Keys %s want a diode each and none is free. They are wired without.", "near each"
	} else {
		where.Net = b.scan.ColumnNet(cells[0].Column)
	}
	if b.scan.Style == "lines" {
		other = "read the keys in another way: lines that both read and select want one at every key"
	}
	b.note(finding.Finding{Severity: finding.Stop, Code: "net-diode-missing", Where: where,
		Text: fmt.Sprintf(text, finding.Names(where.Keys)), Fix: fmt.Sprintf("Place a diode %s, or %s.", near, other)})
}

// addDirect joins the keys that have lines of their own: one side to the pin, or to the line of an
// expander, the other to the level that a press gives. A side that is a supply by nature stays so.
func (b *builder) addDirect() {
	for _, d := range b.scan.Direct {
		line, known := b.named(d.Pin)
		level, both := b.named(d.Return)
		if !known || !both {
			continue
		}
		b.attach(line, b.keyNet(d.Key))
		if !b.isSupply(level) {
			b.attach(level, b.supply(b.pressLevel()))
		}
		if via, ok := b.named(d.Via); ok {
			b.attach(via, b.keyNet(d.Key))
		}
	}
}

// named returns the node of a terminal written as ref.terminal; false when there is none.
func (b *builder) named(text string) (int, bool) {
	t, _ := panel.ParseTerminal(text)
	n, ok := b.byRef[t]
	return n, ok
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
