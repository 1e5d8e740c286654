package netlist

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
)

// List works out the nets of a valid panel, read as s says and with pins as in pins. When the pin
// plan is impossible (no pins) the supplies, the lines between keys and the links are listed all
// the same. Two nets that a part's metal or a join of the maker's would unite stay apart, the later
// one without the terminal in question, and a finding says so.
func List(p *panel.Panel, s *scan.Result, pins *pinning.Result) Result {
	b := newBuilder(p, s, pins)
	b.addSupplies()
	b.addJoins()
	b.addCells()
	b.addDirect()
	stands := b.addLamps()
	b.addPins(stands)
	b.addPulls()
	b.nameJoins()
	return b.list()
}

// addJoins unites what the maker joined.
func (b *builder) addJoins() {
	for i, j := range b.p.Joins {
		first := -1
		for _, text := range j.Terminals {
			t, _ := panel.ParseTerminal(text)
			n, ok := b.byRef[t]
			if !ok {
				b.note(finding.Finding{Severity: finding.Stop, Code: "net-join-unknown",
					Text: fmt.Sprintf("The join %q names %s, which is no terminal of a placed part.", j.Name, text),
					Fix:  "Take it out of the join, or place the part."})
				continue
			}
			b.asked[t] = joinName(j, i)
			if first >= 0 && !b.unite(first, n) {
				b.short(n, b.nameAt(first))
			}
			if first < 0 {
				first = n
			}
		}
	}
}

func joinName(j panel.Join, i int) string {
	if j.Name == "" {
		return fmt.Sprintf("join %d", i+1)
	}
	return j.Name
}

// addPins joins each controller pin with what it serves. stands gives the resistor's end that
// stands in for an LED's.
func (b *builder) addPins(stands map[panel.TerminalRef]int) {
	lines := b.lineNodes()
	for _, pin := range b.pins.Pins {
		line, isLine := lines[pin.Signal]
		if !isLine {
			line = b.net(b.freeName(pin.Net, pin.Signal), Signal, orderSignal)
		}
		if n, ok := b.end(b.pins.Module, pin.Terminal); ok {
			b.attach(n, line)
		}
		if isLine {
			continue // the scan, not the pin, says which keys a line reaches
		}
		for _, t := range pin.Serves {
			n, ok := stands[t]
			if !ok {
				n, ok = b.byRef[t]
			}
			if ok {
				b.attach(n, line)
			}
		}
	}
}

// lineNodes gives the node of every key line by its signal id.
func (b *builder) lineNodes() map[string]int {
	lines := map[string]int{}
	if len(b.scan.Cells) > 0 {
		for r := range b.scan.Rows {
			lines[b.scan.RowNet(r)] = b.row(r)
		}
		for c := range b.scan.Columns {
			lines[b.scan.ColumnNet(c)] = b.column(c)
		}
	}
	for _, d := range b.scan.Direct {
		if d.Via == "" {
			lines[d.Key] = b.keyNet(d.Key)
		}
	}
	return lines
}

// freeName returns name, or other when it is empty, with a number behind it when it is taken.
func (b *builder) freeName(name, other string) string {
	if name == "" {
		name = other
	}
	free := name
	for i := 2; ; i++ {
		if _, taken := b.nodeOf[free]; !taken {
			return free
		}
		free = fmt.Sprintf("%s %d", name, i)
	}
}

// nameJoins names what only the maker's joins hold together.
func (b *builder) nameJoins() {
	for i, j := range b.p.Joins {
		for _, text := range j.Terminals {
			t, _ := panel.ParseTerminal(text)
			n, ok := b.byRef[t]
			if !ok || b.nameAt(n) != "" {
				continue
			}
			class, order := Link, orderLink
			if slices.ContainsFunc(j.Terminals, b.isGPIO) {
				class, order = Signal, orderSignal
			}
			b.attach(n, b.net(b.freeName(joinName(j, i), ""), class, order))
		}
	}
}

func (b *builder) isGPIO(text string) bool {
	t, _ := panel.ParseTerminal(text)
	n, ok := b.byRef[t]
	return ok && b.ends[n].part.GPIO != ""
}

// isAsked reports whether a join of the maker's names end n or other metal of it.
func (b *builder) isAsked(n int) bool {
	return slices.ContainsFunc(b.metal(n), func(m int) bool { return b.asked[b.ends[m].TerminalRef] != "" })
}

// attach puts end n on a net, or says that it cannot be.
func (b *builder) attach(n, net int) {
	if !b.unite(n, net) {
		b.short(n, b.nameAt(net))
	}
}

// short reports that end n, which is one net already, would also be another.
func (b *builder) short(n int, other string) {
	e, has := b.ends[n], b.nameAt(n)
	where := finding.Where{Refs: []string{e.Ref}, Holes: []grid.Hole{e.Hole}, Net: has}
	text := fmt.Sprintf("%s would be both %s and %s.", e.TerminalRef, has, other)
	fix := "Take one of the two away from it."
	if metal := b.metal(n); len(metal) > 1 {
		names := make([]string, len(metal))
		for i, m := range metal {
			names[i] = b.ends[m].Terminal.Terminal
		}
		text = fmt.Sprintf("%s %s are one metal inside the part and would be both %s and %s.", e.Ref, and(names), has, other)
		fix = fmt.Sprintf("Use terminals of %s that are not joined inside it.", e.Ref)
	}
	if join := b.joinAt(n); join != "" {
		text = fmt.Sprintf("%s would be both %s and %s through your join %q.", e.TerminalRef, has, other, join)
		fix = "Change the join."
	}
	b.note(finding.Finding{Severity: finding.Stop, Code: "net-short", Where: where, Text: text, Fix: fix})
}

// joinAt returns the first of the maker's joins that holds node n, or "".
func (b *builder) joinAt(n int) string {
	for m, e := range b.ends {
		if join := b.asked[e.TerminalRef]; join != "" && b.find(m) == b.find(n) {
			return join
		}
	}
	return ""
}

func (b *builder) note(f finding.Finding) { b.result.Findings = append(b.result.Findings, f) }

func (b *builder) pair(of, with, why string) {
	b.spent[with] = with != ""
	b.result.Pairs = append(b.result.Pairs, Pair{of, with, why})
}

// and joins words as a sentence does: A, B and C.
func and(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
