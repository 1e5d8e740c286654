package scan

import (
	"slices"
)

// A crowd is a set of keys that bounds the wires between its keys. Keys that lie in a rows and b
// columns have at most a * b members, and each row of n keys is a tree of n - 1 wires; so s keys have
// at most 2 s - a - b wires between them, rows and columns together, for the least a + b that holds
// them. Two keys have one, three have two, four have four, and so the wires can't all be short.
type crowd struct {
	keys  []int   // in order
	spans []int32 // the pairs of them
	most  int     // wires between them
	have  int     // in the forests at hand
	price int64   // on every wire between them
	best  int64   // the price when the bound was highest
	pull  int64   // how the price moves
	idle  int     // how often it was found without a price
}

// crowding says how many wires a set of keys may have, for one shape.
type crowding struct {
	shape
	limit []int   // by number of keys
	thin  [][]int // keys without elbows, in order
}

func (t *task) crowding(s shape, apart bool) crowding {
	c := crowding{shape: s, limit: make([]int, len(t.keys)+1)}
	for n := range c.limit {
		c.limit[n] = s.mostWires(n)
	}
	full := len(t.keys) == s.cells()
	for _, fam := range t.chords {
		if apart && (fam.plain || full && fam.allBend()) {
			c.thin = append(c.thin, fam.keys)
		}
	}
	return c
}

// mostWires is how many wires n keys may have between them.
func (s shape) mostWires(n int) int {
	least := 2 * n
	for a := 1; a <= min(s.rows, n); a++ {
		if b := (n + a - 1) / a; b <= s.columns {
			least = min(least, a+b)
		}
	}
	return 2*n - least
}

// allBend reports whether any three keys of the family may be held together.
func (f *family) allBend() bool {
	if len(f.keys) < 3 {
		return false
	}
	for _, a := range f.kind {
		for _, b := range f.kind {
			for _, c := range f.kind {
				if f.with[a][b]>>c&1 == 0 {
					return false
				}
			}
		}
	}
	return true
}

// most is how many wires the keys, in order, may have between them. Where no chord may ghost, its
// keys are a forest as rows and columns go: one wire fewer than keys, at most.
func (c *crowding) most(keys []int) int {
	n := c.limit[len(keys)]
	if len(keys) > 3 {
		for _, thin := range c.thin {
			if subset(keys, thin) {
				return min(n, len(keys)-1)
			}
		}
	}
	return n
}

// A web is how strongly pairs of keys are wired in the forests of late, in 1/weight of a wire.
type web struct {
	n      int
	bond   []int32   // by pair, both ways
	mates  [][]int16 // by key: those it is wired to
	member []bool
	gain   []int32
	set    []int
	fringe []int // keys tied to some of set
}

const weight = 1 << 12

func newWeb(n int) *web {
	return &web{n: n, bond: make([]int32, n*n), mates: make([][]int16, n), member: make([]bool, n), gain: make([]int32, n)}
}

func (w *web) clear() {
	clear(w.bond)
	for k := range w.mates {
		w.mates[k] = w.mates[k][:0]
	}
}

func (w *web) tie(a, b int, strength int32) {
	if w.bond[a*w.n+b] == 0 {
		w.mates[a], w.mates[b] = append(w.mates[a], int16(b)), append(w.mates[b], int16(a))
	}
	w.bond[a*w.n+b] += strength
	w.bond[b*w.n+a] = w.bond[a*w.n+b]
}

// overfull grows a crowd from two keys, always by the key tied strongest to it, and gives the keys, in
// order, of those on the way that are overfull by more than slack: of few, some and many keys the
// worst each.
func (w *web) overfull(a, b int, c *crowding, slack int32, found func(keys []int)) {
	clear(w.member)
	clear(w.gain)
	w.set, w.fringe = w.set[:0], w.fringe[:0]
	sum := int32(0)
	var worst [len(sizes)]int32
	var size [len(sizes)]int
	for next, band := a, 0; next >= 0; {
		sum += w.gain[next]
		w.join(next)
		n := len(w.set)
		if n > sizes[band] {
			if band++; band == len(sizes) {
				break
			}
		}
		if over := sum - int32(c.limit[n])*weight; n > 1 && over > max(slack, worst[band]) {
			worst[band], size[band] = over, n
		}
		if next = b; n > 1 {
			next = w.strongest()
		}
	}
	for _, n := range size {
		if n > 0 {
			found(inOrder(w.set[:n]))
		}
	}
}

var sizes = [...]int{6, 12, 24}

// join takes a key into the crowd.
func (w *web) join(k int) {
	w.set = append(w.set, k)
	w.member[k] = true
	for _, m := range w.mates[k] {
		if w.gain[m] == 0 && !w.member[m] {
			w.fringe = append(w.fringe, int(m))
		}
		w.gain[m] += w.bond[k*w.n+int(m)]
	}
}

// strongest is the key outside the crowd tied strongest to it, or -1.
func (w *web) strongest() int {
	best, open := -1, w.fringe[:0]
	for _, k := range w.fringe {
		if w.member[k] {
			continue
		}
		open = append(open, k)
		if best < 0 || w.gain[k] > w.gain[best] {
			best = k
		}
	}
	w.fringe = open
	return best
}

// knot is what is left of thin keys when those with less than a wire to the others are taken out, one
// after the other; nil when the rest is not overfull by more than slack.
func (w *web) knot(thin []int, slack int32) []int {
	set := slices.Clone(thin)
	for again := true; again; {
		again = false
		for i, k := range set {
			if w.tied(k, set) < weight {
				set = slices.Delete(set, i, i+1)
				again = true
				break
			}
		}
	}
	sum := int32(0)
	for _, k := range set {
		sum += w.tied(k, set)
	}
	if len(set) < 4 || sum/2-int32(len(set)-1)*weight <= slack {
		return nil
	}
	return set
}

func (w *web) tied(k int, set []int) int32 {
	sum := int32(0)
	for _, m := range set {
		sum += w.bond[k*w.n+m]
	}
	return sum
}
