package scan

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// The two sides of a contact. A row side is wired to a row, a column side to a column; for a
// direct key they are the GPIO side and the return side.
const (
	rowSide = iota
	columnSide
)

// A key is a contact that has a meaning, with what its place in a matrix depends on.
type key struct {
	panel.KeyRef
	legs [2][]grid.Hole // the holes of each side, legs that are one metal included
	x, y int            // middle of all legs, in quarter holes
	pin  int            // side wired to the GPIO, if the key gets a pin of its own
	line [2]int         // index of the forced line it shares with other keys on each side, or -1
	own  ownPin
	tied string // the supply that one side belongs to by nature, or ""
}

// ownPin says whether a key has a choice between a pin of its own and a cell of the matrix.
type ownPin int

const (
	either   ownPin = iota
	wanted          // the maker asks for a pin
	byNature        // a side is a supply by nature
	never           // both sides are shared with other keys
)

// keysOf lists the panel's keys with the holes of their legs.
func keysOf(p *panel.Panel) []key {
	refs := p.Keys()
	keys := make([]key, len(refs))
	for i, ref := range refs {
		k := key{KeyRef: ref, line: [2]int{-1, -1}}
		pl := p.Find(ref.Ref)
		d := p.Definition(pl)
		for side, name := range ref.Contact.Between {
			for _, t := range d.Metal(name) {
				if term, ok := d.Terminal(t); ok {
					k.legs[side] = append(k.legs[side], pl.Pose().Hole(term.Offset()))
				}
			}
			if k.legs[side] == nil {
				k.legs[side] = []grid.Hole{pl.At}
			}
		}
		k.x, k.y = middle(k.legs)
		if others(&d, ref.Contact, rowSide) && !others(&d, ref.Contact, columnSide) {
			k.pin = columnSide
		}
		if ref.Direct {
			k.own = wanted
		}
		keys[i] = k
	}
	return keys
}

// others reports whether a side of a contact is one metal with a side of another contact of its
// part, be that a key or not.
func others(d *part.Definition, c part.Contact, side int) bool {
	metal := d.Metal(c.Between[side])
	return slices.ContainsFunc(d.Contacts, func(o part.Contact) bool {
		return o.Name != c.Name && (slices.Contains(metal, o.Between[0]) || slices.Contains(metal, o.Between[1]))
	})
}

func middle(legs [2][]grid.Hole) (x, y int) {
	n := 0
	for _, side := range legs {
		for _, h := range side {
			x, y, n = x+h.Col, y+h.Row, n+1
		}
	}
	return x * 4 / n, y * 4 / n
}

// terminal names one end of the key's contact.
func (k *key) terminal(side int) panel.TerminalRef {
	return panel.TerminalRef{Ref: k.Ref, Terminal: k.Contact.Between[side]}
}

// distances returns, for one side, the shortest wire between any two keys: the smallest walking
// distance from a leg of one to a leg of the other, in holes. Entry a*len(keys)+b is for a and b.
func distances(keys []key, side int) []int32 {
	n := len(keys)
	d := make([]int32, n*n)
	for a := range keys {
		for b := range a {
			least := int32(1 << 20)
			for _, g := range keys[a].legs[side] {
				for _, h := range keys[b].legs[side] {
					least = min(least, int32(g.Steps(h)))
				}
			}
			d[a*n+b], d[b*n+a] = least, least
		}
	}
	return d
}
