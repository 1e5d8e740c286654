package scan

import (
	"math/bits"
	"slices"
)

// Where two lines are joined through held keys and two or more diodes one after the other, the line
// that is read lies neither low nor high: at 0.91 V behind two silicon diodes and a pull of 65 k, by
// a circuit simulator, between V_IL of 0.8 V and V_IH of 2.0 V. A key between the two lines that is
// not held may read as pressed: a possible ghost.

// A lineChord is a chord as lines look at it.
type lineChord struct {
	*family
	pairs [choiceSets]uint16 // by kind of one key: the kinds, a bit each, of another that may be held with it
	wide  bool               // any four keys may be held, or all at once: long chains count as if all could be
}

func newLineChord(f *family) lineChord {
	c := lineChord{family: f}
	for a := range choiceSets {
		for b := range choiceSets {
			var l load
			if f.take(&l, uint8(a)) && f.take(&l, uint8(b)) {
				c.pairs[a] |= 1 << b
			}
		}
	}
	c.wide = f.plain || slices.Max(f.kind) < 2 && f.room[1] >= 4
	return c
}

// A ring is which lines the keys of a chord lead to, and where there are keys. Lines are at most 64:
// 256 keys take 17.
type ring struct {
	lines    int
	occupied []uint64             // by line that reads: the lines it has keys to
	leads    [choiceSets][]uint64 // by kind of key, then by line that reads: the same for the chord
	kinds    []uint8              // that the chord has
}

func newRing(lines int) *ring {
	r := &ring{lines: lines, occupied: make([]uint64, lines)}
	for kind := range r.leads {
		r.leads[kind] = make([]uint64, lines)
	}
	return r
}

// doubts counts the keys that a chord may make read as pressed, for the search. pair gives each key's
// reading line * lines + selected line. Of a chord that leaves a choice it counts what chains of two
// and three keys do, or, when it is wide, chains of any length.
func (r *ring) doubts(c *lineChord, pair []int) int {
	for _, kind := range r.kinds {
		clear(r.leads[kind])
	}
	r.kinds = r.kinds[:0]
	for i, k := range c.keys {
		kind := c.kind[i]
		if c.wide {
			kind = 0
		}
		if !slices.Contains(r.kinds, kind) {
			r.kinds = append(r.kinds, kind)
		}
		r.leads[kind][pair[k]/r.lines] |= 1 << (pair[k] % r.lines)
	}
	n := 0
	for from := range r.lines {
		if r.occupied[from] == 0 {
			continue
		}
		far := uint64(0)
		if c.wide {
			far = r.beyond(from)
		} else {
			far = r.nearby(c, from)
		}
		n += bits.OnesCount64(far & r.occupied[from])
	}
	return n
}

// beyond is the set of lines that two or more keys in a row lead to from a line, no line passed
// twice, when all keys may be held at once.
func (r *ring) beyond(from int) uint64 {
	far, leads := uint64(0), r.leads[0]
	for first := leads[from]; first != 0; first &= first - 1 {
		next := bits.TrailingZeros64(first)
		barred := uint64(1)<<from | 1<<next
		reached := leads[next] &^ barred
		for open := reached; open != 0; {
			at := bits.TrailingZeros64(open)
			open &^= 1 << at
			fresh := leads[at] &^ (barred | reached)
			reached |= fresh
			open |= fresh
		}
		far |= reached
	}
	return far
}

// nearby is the set of lines that two or three keys which may be held together lead to from a line, no
// line passed twice.
func (r *ring) nearby(c *lineChord, from int) uint64 {
	far := uint64(0)
	for _, a := range r.kinds {
		for first := r.leads[a][from]; first != 0; first &= first - 1 {
			one := bits.TrailingZeros64(first)
			barred := uint64(1)<<from | 1<<one
			for _, b := range r.kinds {
				if c.pairs[a]>>b&1 == 0 {
					continue
				}
				second := r.leads[b][one] &^ barred
				far |= second
				for third := c.with[a][b]; third != 0; third &= third - 1 {
					leads := r.leads[bits.TrailingZeros16(third)]
					for next := second; next != 0; next &= next - 1 {
						far |= leads[bits.TrailingZeros64(next)] &^ barred
					}
				}
			}
		}
	}
	return far
}

// A doubt is one possible ghost: keys held in a row from the line that reads phantom to the line
// that is selected for it.
type doubt struct {
	path    []int
	phantom int
}

// chainBudget bounds the steps of the searches for chains of keys, over all chords.
const chainBudget = 200000

// A chaining lists the doubts of one chord, each with a shortest chain.
type chaining struct {
	*lineChord
	pair, holder []int
	lines        int
	out          [][]int // by line that reads: places in the chord of the keys that it reads
	found        []doubt
	known        []bool // by pair of lines: there is no key, or one in doubt
	open         int    // pairs that are not
	load         load
	path         []int
	from, most   int
	left         int
}

// explainDoubts lists one doubt for each key that a chord may make read as pressed, shortest chains
// first. all is false when the budget ran out: there may be more.
func explainDoubts(c *lineChord, pair, holder []int, lines, budget int) (list []doubt, all bool) {
	h := &chaining{lineChord: c, pair: pair, holder: holder, lines: lines, out: make([][]int, lines), known: make([]bool, len(holder)), left: budget}
	for i, k := range c.keys {
		h.out[pair[k]/lines] = append(h.out[pair[k]/lines], i)
	}
	if c.plain {
		h.plainly()
		return h.found, true
	}
	for cell, k := range holder {
		h.known[cell] = k < 0
		if k >= 0 {
			h.open++
		}
	}
	for h.most = 2; h.most <= min(c.most(), lines-1); h.most++ {
		for h.from = range lines {
			h.follow(h.from, 1<<h.from)
		}
	}
	return h.found, h.open == 0 || h.left > 0
}

// plainly finds all doubts of a chord whose keys may all be held at once, breadth first.
func (h *chaining) plainly() {
	for cell, phantom := range h.holder {
		if phantom < 0 {
			continue
		}
		if path := h.shortest(cell/h.lines, cell%h.lines); path != nil {
			h.found = append(h.found, doubt{path, phantom})
		}
	}
	slices.SortStableFunc(h.found, func(a, b doubt) int { return len(a.path) - len(b.path) })
}

// shortest is the shortest chain of two or more keys from one line to another, no line passed twice,
// or nil.
func (h *chaining) shortest(from, to int) []int {
	by := make([]int, h.lines) // the key over which each line was reached
	for i := range by {
		by[i] = noKey
	}
	queue := []int{from}
	for len(queue) > 0 && by[to] == noKey {
		at := queue[0]
		queue = queue[1:]
		for _, i := range h.out[at] {
			k := h.keys[i]
			if next := h.pair[k] % h.lines; next != from && by[next] == noKey && (at != from || next != to) {
				by[next] = k
				queue = append(queue, next)
			}
		}
	}
	if by[to] == noKey {
		return nil
	}
	var path []int
	for at := to; at != from; at = h.pair[by[at]] / h.lines {
		path = append(path, by[at])
	}
	slices.Reverse(path)
	return path
}

// follow goes on from a line with a chain of exactly most keys. passed holds the lines of the chain.
func (h *chaining) follow(at int, passed uint64) {
	for _, i := range h.out[at] {
		k := h.keys[i]
		next := h.pair[k] % h.lines
		if h.left--; h.left < 0 || h.open == 0 {
			return
		}
		if passed>>next&1 == 1 || !h.take(&h.load, h.kind[i]) {
			continue
		}
		h.path = append(h.path, k)
		if len(h.path) < h.most {
			h.follow(next, passed|1<<next)
		} else if cell := h.from*h.lines + next; !h.known[cell] {
			h.known[cell] = true
			h.open--
			h.found = append(h.found, doubt{slices.Clone(h.path), h.holder[cell]})
		}
		h.path = h.path[:len(h.path)-1]
		h.drop(&h.load, h.kind[i])
	}
}
