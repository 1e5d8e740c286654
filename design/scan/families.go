package scan

import (
	"math/bits"
	"slices"

	"fascia/design/panel"
)

// choiceSets is how many sets there are of the choices of one chord.
const choiceSets = 1 << panel.MaxAny

// A family is the sets of keys that a chord lets be held: all it asks for at once, and every part of
// that, since fingers never land together. The sets are not listed. Of some keys each may be counted
// under one of the choices that name it; they may be held together if no choices are overfull,
// whichever of them are looked at (Hall, 1935, doi:10.1112/jlms/s1-10.37.26).
type family struct {
	keys []int           // all that may be held, in order
	kind []uint8         // by place in keys: the choices that name it, a bit each; 0 for one held in any case
	room [choiceSets]int // by set of choices: how many keys may be held that are named by no other
	// with gives for the kinds of two keys the kinds, a bit each, of a third that may be held with them.
	with  [choiceSets][choiceSets]uint16
	plain bool // there are no choices: all keys may be held at once
}

func (c *chord) family() *family {
	f := &family{keys: c.all(), plain: len(c.choices) == 0}
	f.kind = make([]uint8, len(f.keys))
	for i, a := range c.choices {
		for _, k := range a.of {
			at, _ := slices.BinarySearch(f.keys, k)
			f.kind[at] |= 1 << i
		}
		for set := range f.room {
			f.room[set] += a.count * (set >> i & 1)
		}
	}
	f.pair()
	return f
}

// pair fills in which kinds go together in threes.
func (f *family) pair() {
	kinds := slices.Clone(f.kind)
	slices.Sort(kinds)
	kinds = slices.Compact(kinds)
	for _, a := range kinds {
		for _, b := range kinds {
			for _, c := range kinds {
				var l load
				if f.take(&l, a) && f.take(&l, b) && f.take(&l, c) {
					f.with[a][b] |= 1 << c
				}
			}
		}
	}
}

// kindOf is the kind of one of the family's keys.
func (f *family) kindOf(k int) uint8 {
	at, _ := slices.BinarySearch(f.keys, k)
	return f.kind[at]
}

// A load counts the held keys by set of choices: those that are named by no other.
type load [choiceSets]int

// take adds a key of a kind to those held; false when it can't be held with them, and then the load
// is as it was.
func (f *family) take(l *load, kind uint8) bool {
	if kind == 0 {
		return true
	}
	for set := range l {
		if kind&^uint8(set) == 0 && l[set] == f.room[set] {
			return false
		}
	}
	f.add(l, kind, 1)
	return true
}

// drop takes a key of a kind off.
func (f *family) drop(l *load, kind uint8) {
	if kind != 0 {
		f.add(l, kind, -1)
	}
}

func (f *family) add(l *load, kind uint8, n int) {
	for set := range l {
		if kind&^uint8(set) == 0 {
			l[set] += n
		}
	}
}

// holds reports whether the keys at some places may be held together.
func (f *family) holds(places []int) bool {
	if f.plain {
		return true
	}
	var l load
	for _, i := range places {
		if !f.take(&l, f.kind[i]) {
			return false
		}
	}
	return true
}

// most is how many keys may be held at once: König's theorem on keys and the room of their choices.
func (f *family) most() int {
	least := len(f.keys)
	for set := range choiceSets {
		n := f.room[set]
		for _, kind := range f.kind {
			if kind&^uint8(set) != 0 || kind == 0 {
				n++
			}
		}
		least = min(least, n)
	}
	return least
}

// bends reports whether a key of a kind may be held together with one of the kinds in its row and one
// of those in its column.
func (f *family) bends(kind uint8, row, column uint16) bool {
	for ; row != 0; row &= row - 1 {
		if f.with[kind][bits.TrailingZeros16(row)]&column != 0 {
			return true
		}
	}
	return false
}

// equal reports whether two families are the same sets.
func (f *family) equal(g *family) bool {
	return slices.Equal(f.keys, g.keys) && slices.Equal(f.kind, g.kind) && f.room == g.room
}

// covers reports whether every set of g is one of f, as far as that is plain to see.
func (f *family) covers(g *family) bool {
	if f.equal(g) {
		return true
	}
	return f.plain && !slices.ContainsFunc(g.keys, func(k int) bool { _, ok := slices.BinarySearch(f.keys, k); return !ok })
}

// familiesOf gives the families of chords without those that another covers.
func familiesOf(chords []chord) []*family {
	var all, kept []*family
	for i := range chords {
		all = append(all, chords[i].family())
	}
	for i, f := range all {
		covered := false
		for j, g := range all {
			covered = covered || i != j && g.covers(f) && (j < i || !f.covers(g))
		}
		if !covered {
			kept = append(kept, f)
		}
	}
	return kept
}
