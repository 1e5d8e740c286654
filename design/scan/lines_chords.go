package scan

import "math/bits"

// Where two lines are joined through held keys and two or more diodes one after the other, the line
// that is read lies neither low nor high: at 0.91 V behind two silicon diodes and a pull of 65 k, by
// a circuit simulator, between V_IL of 0.8 V and V_IH of 2.0 V. A key between the two lines that is
// not held may read as pressed: a possible ghost.

// A ring is which lines held keys lead to, and where there are keys. Lines are at most 64: 256 keys
// take 17.
type ring struct {
	lines    int
	occupied []uint64 // by line that reads: the lines it has keys to
	leads    []uint64 // by line that reads: the same for held keys
}

func newRing(lines int) *ring {
	return &ring{lines, make([]uint64, lines), make([]uint64, lines)}
}

// doubts counts the keys that some of the given ones, held, may make read as pressed. pair gives each
// key's reading line * lines + selected line.
func (r *ring) doubts(held []int, pair []int) int {
	clear(r.leads)
	for _, k := range held {
		r.leads[pair[k]/r.lines] |= 1 << (pair[k] % r.lines)
	}
	n := 0
	for from := range r.lines {
		n += bits.OnesCount64(r.beyond(from) & r.occupied[from])
	}
	return n
}

// beyond is the set of lines that two or more held keys in a row lead to from a line, no line passed
// twice.
func (r *ring) beyond(from int) uint64 {
	far := uint64(0)
	for first := r.leads[from]; first != 0; first &= first - 1 {
		next := bits.TrailingZeros64(first)
		barred := uint64(1)<<from | 1<<next
		reached := r.leads[next] &^ barred
		for open := reached; open != 0; {
			at := bits.TrailingZeros64(open)
			open &^= 1 << at
			fresh := r.leads[at] &^ (barred | reached)
			reached |= fresh
			open |= fresh
		}
		far |= reached
	}
	return far
}

// A doubt is one possible ghost: keys held in a row from the line that reads phantom to the line
// that is selected for it.
type doubt struct {
	path    []int
	phantom int
}

// explainDoubts lists one doubt for each key that some of the held keys may make read as pressed, the
// fewest held keys of it, in order of the phantom's pair.
func explainDoubts(held, pair, holder []int, lines int) []doubt {
	var list []doubt
	for cell, phantom := range holder {
		if phantom < 0 {
			continue
		}
		if path := shortestChain(held, pair, lines, cell/lines, cell%lines); path != nil {
			list = append(list, doubt{path, phantom})
		}
	}
	return list
}

// shortestChain is the shortest chain of two or more held keys from one line to another, no line passed
// twice, or nil.
func shortestChain(held, pair []int, lines, from, to int) []int {
	by := make([]int, lines) // the key over which each line was reached
	for i := range by {
		by[i] = noKey
	}
	queue := []int{from}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		for _, k := range held {
			next := pair[k] % lines
			if pair[k]/lines != at || next == from || by[next] != noKey || at == from && next == to {
				continue
			}
			by[next] = k
			if next == to {
				return traced(by, pair, lines, from, to)
			}
			queue = append(queue, next)
		}
	}
	return nil
}

// traced follows by back from one line to another.
func traced(by, pair []int, lines, from, to int) []int {
	var path []int
	for at := to; at != from; at = pair[by[at]] / lines {
		path = append([]int{by[at]}, path...)
	}
	return path
}
