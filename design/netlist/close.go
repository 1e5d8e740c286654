package netlist

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/part"
)

// list turns the nodes into nets and open terminals.
func (b *builder) list() Result {
	nodes := b.members()
	b.reportSources(nodes)
	order := map[string]int{}
	for n := range b.ends {
		root := b.find(n)
		if nodes[root][0] != n {
			continue
		}
		if b.owner[root] < 0 || b.isLonely(nodes[root]) {
			b.leaveOpen(nodes[root])
			continue
		}
		id := b.idents[b.owner[root]]
		net := Net{Name: id.name, Class: id.class}
		for _, m := range nodes[root] {
			net.Terminals = append(net.Terminals, b.ends[m].Terminal)
		}
		slices.SortFunc(net.Terminals, func(s, t Terminal) int { return s.TerminalRef.Compare(t.TerminalRef) })
		order[id.name] = id.order
		b.result.Nets = append(b.result.Nets, net)
	}
	slices.SortFunc(b.result.Nets, func(m, n Net) int {
		return cmp.Or(cmp.Compare(order[m.Name], order[n.Name]),
			cmp.Compare(slices.Index(supplies, m.Name), slices.Index(supplies, n.Name)), natural(m.Name, n.Name))
	})
	slices.SortFunc(b.result.Open, func(s, t Open) int { return s.TerminalRef.Compare(t.TerminalRef) })
	b.reportLonely()
	finding.Sort(b.result.Findings)
	return b.result
}

// isLonely reports whether all ends of a node are one metal, so that there is nothing to join.
func (b *builder) isLonely(ends []int) bool { return len(b.metal(ends[0])) >= len(ends) }

func (b *builder) leaveOpen(ends []int) {
	for _, n := range ends {
		b.result.Open = append(b.result.Open, Open{b.ends[n].TerminalRef, b.ends[n].Hole, b.whyOpen(n)})
	}
}

// whyOpen says why end n has no wire.
func (b *builder) whyOpen(n int) string {
	e := b.ends[n]
	if name := b.nameAt(n); name != "" {
		if len(b.pins.Pins) == 0 && !b.isSupply(n) {
			return fmt.Sprintf("There is no pin for %s.", name)
		}
		return fmt.Sprintf("Nothing else on this panel is on %s.", name)
	}
	d := b.p.Definition(e.of)
	if b.lightsWithLine(e.Ref) && !e.part.Open {
		return "It is to light with a select line, and no line is wired to it."
	}
	for _, need := range d.Needs {
		switch {
		case need.Terminal != e.part.Name:
		case need.Optional:
			return "It is optional and no pin is spent on it."
		case len(b.pins.Pins) == 0:
			return "There is no pin plan."
		default:
			return "No pin serves it."
		}
	}
	switch {
	case e.part.GPIO != "":
		return e.part.GPIO + " is free."
	case e.part.Open:
		return "It may stay open."
	case isContact(&d, e.part.Name):
		return "This contact is not a key."
	}
	return "Nothing is joined to it."
}

func isContact(d *part.Definition, terminal string) bool {
	metal := d.Metal(terminal)
	return slices.ContainsFunc(d.Contacts, func(c part.Contact) bool {
		return slices.Contains(metal, c.Between[0]) || slices.Contains(metal, c.Between[1])
	})
}

// wantsAll lists the kinds of part that do nothing unless every terminal is wired.
var wantsAll = []part.Kind{part.LED, part.Resistor, part.Diode, part.Capacitor, part.Transistor, part.Piezo, part.Buzzer}

// wantsOne lists the kinds of part that do nothing unless some terminal is wired.
var wantsOne = []part.Kind{part.Header, part.Other, part.Selector}

// reportLonely names the parts that want a partner and have none, one finding a part. Where the
// pins are impossible nothing can have its partner, and that has been said.
func (b *builder) reportLonely() {
	if b.pins != nil && len(b.pins.Pins) == 0 && len(b.pins.Conflict) > 0 {
		return
	}
	for i := range b.p.Placed {
		pl := &b.p.Placed[i]
		d := b.p.Definition(pl)
		var lonely []string
		for _, o := range b.result.Open {
			t, _ := d.Terminal(o.Terminal)
			if o.Ref == pl.Ref && !t.Open && (b.isUnserved(&d, o.Terminal) || slices.Contains(wantsAll, d.Kind) ||
				slices.Contains(wantsOne, d.Kind) && b.isUntouched(pl.Ref)) {
				lonely = append(lonely, o.Terminal)
			}
		}
		if len(lonely) == 0 {
			continue
		}
		b.note(finding.Finding{Severity: finding.Mind, Code: "net-lonely",
			Where: finding.Where{Refs: []string{pl.Ref}},
			Text:  fmt.Sprintf("%s: nothing is joined to %s.", pl.Ref, and(lonely)),
			Fix:   "Join it with something, or take the part away."})
	}
}

// isUnserved reports whether a terminal needs a pin that a plan with pins did not give.
func (b *builder) isUnserved(d *part.Definition, terminal string) bool {
	return len(b.pins.Pins) > 0 && slices.ContainsFunc(d.Needs, func(n part.Need) bool {
		return n.Terminal == terminal && !n.Optional
	})
}

// isUntouched reports whether no terminal of a part is on a net.
func (b *builder) isUntouched(ref string) bool {
	for _, n := range b.result.Nets {
		for _, t := range n.Terminals {
			if t.Ref == ref {
				return false
			}
		}
	}
	return true
}

// natural orders names with the numbers in them by size: row 2 before row 10.
func natural(a, b string) int {
	for a != "" && b != "" {
		wa, na := cutNumber(a)
		wb, nb := cutNumber(b)
		c := cmp.Or(cmp.Compare(wa, wb), cmp.Compare(len(na), len(nb)), cmp.Compare(na, nb))
		if c != 0 {
			return c
		}
		a, b = a[len(wa)+len(na):], b[len(wb)+len(nb):]
	}
	return cmp.Compare(a, b)
}

// cutNumber splits off the words before the first number, and that number.
func cutNumber(s string) (words, number string) {
	const digits = "0123456789"
	i := strings.IndexAny(s, digits)
	if i < 0 {
		return s, ""
	}
	rest := s[i:]
	j := strings.IndexFunc(rest, func(r rune) bool { return r < '0' || r > '9' })
	if j < 0 {
		return s[:i], rest
	}
	return s[:i], rest[:j]
}
