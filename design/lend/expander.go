package lend

import (
	"fmt"
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// usualExpander is what is proposed where the panel has no expander yet.
const usualExpander = "expander-i2c16"

// Expander proposes as many expanders as the keys need beyond those that are placed, near the keys
// and each with an address that nothing else on the panel has, and the wish to read the keys by them,
// as one edit. Keys on 3V3 by nature do not count: an expander pulls its lines up. It returns nil and no sentence when
// nothing lacks, and nil and a sentence that says why when it cannot be.
func Expander(p *panel.Panel, f *fit.Result) (*panel.Together, string) {
	id, d := kindOf(p, part.Expander, usualExpander)
	lines := len(d.KeyLines())
	if lines == 0 {
		return nil, fmt.Sprintf("%s has no lines that can read keys. Choose another expander.", d.Name)
	}
	lacking := keysFor(p) - linesOf(p)
	more := (max(0, lacking) + lines - 1) / lines
	if more == 0 && p.Scan.Style == "expander" {
		return nil, ""
	}
	r := newRoom(p, f)
	addresses := freeAddresses(p, &d)
	if more > len(addresses) {
		return nil, fmt.Sprintf("The keys need %s more, and only %s left on one I2C bus. Let some keys have pins of their own.",
			count(more, "expander", "expanders"), count(len(addresses), "address is", "addresses are"))
	}
	middle := middleOf(p)
	for i := range more {
		pose, ok := r.nearest(&d, r.everywhere(), []grid.Face{grid.Front, grid.Back}, func(pose grid.Pose) int { return between(pose, &d, middle) })
		if !ok {
			return nil, fmt.Sprintf("There is no room for %s, which takes %s. Enlarge a board, or move parts together.", nth(i, more), span(&d))
		}
		r.place(panel.Placed{Part: id, Address: addresses[i]}, pose, &d)
	}
	what := "Place " + count(more, "expander", "expanders")
	if more == 0 {
		what = "Read the keys by the expander"
	}
	if p.Scan.Style == "expander" {
		return r.together(what), ""
	}
	wish := p.Scan
	wish.Style = "expander"
	return r.together(what, &panel.SetScan{Scan: wish}), ""
}

// keysFor counts the keys that an expander is to read.
func keysFor(p *panel.Panel) int {
	n := 0
	for _, k := range p.Keys() {
		d := p.Definition(p.Find(k.Ref))
		tied := slices.ContainsFunc(k.Contact.Between[:], func(end string) bool {
			return slices.ContainsFunc(d.Metal(end), func(name string) bool {
				t, ok := d.Terminal(name)
				return ok && t.Net == part.Supply3V3
			})
		})
		if !tied {
			n++
		}
	}
	return n
}

// linesOf counts the lines of the placed expanders that no join of the maker's uses.
func linesOf(p *panel.Panel) int {
	joined := map[string]bool{}
	for _, j := range p.Joins {
		for _, t := range j.Terminals {
			joined[t] = true
		}
	}
	n := 0
	for _, pl := range p.OfKind(part.Expander) {
		d := p.Definition(pl)
		for _, line := range d.KeyLines() {
			if !joined[pl.Ref+"."+line] {
				n++
			}
		}
	}
	return n
}

// freeAddresses lists the addresses that a part offers and no placed part has.
func freeAddresses(p *panel.Panel, d *part.Definition) []string {
	taken := map[int]bool{}
	for i := range p.Placed {
		pl := &p.Placed[i]
		text := pl.Address
		if offered := p.Definition(pl).Facts.I2CAddresses; text == "" && len(offered) > 0 {
			text = offered[0]
		}
		if a, err := part.ParseAddress(text); err == nil {
			taken[a] = true
		}
	}
	var free []string
	for _, text := range d.Facts.I2CAddresses {
		if a, err := part.ParseAddress(text); err == nil && !taken[a] {
			free = append(free, text)
		}
	}
	return free
}

// middleOf is the hole in the middle of all keys.
func middleOf(p *panel.Panel) grid.Hole {
	var sum grid.Hole
	n := 0
	for _, k := range p.Keys() {
		if h, ok := p.HoleOf(panel.TerminalRef{Ref: k.Ref, Terminal: k.Contact.Between[0]}); ok {
			sum.Col, sum.Row, n = sum.Col+h.Col, sum.Row+h.Row, n+1
		}
	}
	if n == 0 {
		return grid.Hole{}
	}
	return grid.Hole{Col: sum.Col / n, Row: sum.Row / n}
}

// between is how far the middle of a part's leads lies from a hole, in holes times its leads.
func between(pose grid.Pose, d *part.Definition, h grid.Hole) int {
	n := 0
	for _, t := range d.Terminals {
		n += pose.Hole(t.Offset()).Steps(h)
	}
	return n
}

// span says how many holes a part takes each way.
func span(d *part.Definition) string {
	var least, most [2]int
	for _, t := range d.Terminals {
		for i, at := range t.At {
			least[i], most[i] = min(least[i], at), max(most[i], at)
		}
	}
	return fmt.Sprintf("%d by %d holes", most[1]-least[1]+1, most[0]-least[0]+1)
}

// nth names one of several expanders.
func nth(i, of int) string {
	if of == 1 {
		return "an expander"
	}
	return fmt.Sprintf("expander %d of %d", i+1, of)
}
