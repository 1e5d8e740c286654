package scan

import (
	"math"
	"slices"
)

// barred marks the diagonal: no key lies between a line and itself.
const barred = -2

// A lineup gives every key its pair of lines, keeps the energy of that, and can exchange pairs and
// take the exchange back.
type lineup struct {
	*lineTask
	lines  int
	pair   []int // by key: reading line * lines + selected line
	holder []int // by pair: key, noKey or barred
	ring   *ring
	wire   []int64 // by line
	doubt  []int   // by chord: possible ghosts
	doubts int     // of all chords
	total  int64   // holes of wire
	energy int64
	// What the open exchange changed.
	swaps   [][2]int
	touched uint64 // lines
	was     []int64
	stirred []int // chords
	isIn    []bool
	were    []int
	before  [2]int64 // total and energy
	doubted int
	touches []int // scratch
	scratch []int32
}

func (t *lineTask) lineUp(lines int, pair []int) *lineup {
	u := &lineup{lineTask: t, lines: lines, pair: slices.Clone(pair), holder: make([]int, lines*lines), ring: newRing(lines),
		wire: make([]int64, lines), doubt: make([]int, len(t.chords)), was: make([]int64, lines), isIn: make([]bool, len(t.chords)),
		touches: make([]int, 0, 2*lines), scratch: make([]int32, 2*lines)}
	for i := range u.holder {
		u.holder[i] = noKey
		if i/lines == i%lines {
			u.holder[i] = barred
		}
	}
	for k, p := range u.pair {
		u.holder[p] = k
		u.ring.occupied[p/lines] |= 1 << (p % lines)
	}
	for l := range lines {
		u.wire[l] = u.weigh(l)
		u.total += u.wire[l]
	}
	for c := range t.chords {
		u.doubt[c] = u.ring.doubts(&t.chords[c], u.pair)
		u.doubts += u.doubt[c]
	}
	u.energy = u.total*hole + int64(u.doubts)*elbowCost
	return u
}

// weigh is the wire of one line; a line without keys wastes a pin.
func (u *lineup) weigh(l int) int64 {
	u.touches = u.touches[:0]
	for other := range u.lines {
		if k := u.holder[l*u.lines+other]; k >= 0 {
			u.touches = append(u.touches, 2*k)
		}
		if k := u.holder[other*u.lines+l]; k >= 0 {
			u.touches = append(u.touches, 2*k+1)
		}
	}
	if len(u.touches) == 0 {
		return emptyLine / hole
	}
	return u.ends.wire(rowSide, u.touches, u.scratch)
}

// begin opens an exchange; swap, any number of times, and settle follow.
func (u *lineup) begin() {
	u.swaps, u.touched = u.swaps[:0], 0
	for _, c := range u.stirred {
		u.isIn[c] = false
	}
	u.stirred, u.were = u.stirred[:0], u.were[:0]
	u.before, u.doubted = [2]int64{u.total, u.energy}, u.doubts
}

// swap exchanges what two pairs hold.
func (u *lineup) swap(p, q int) {
	kp, kq := u.holder[p], u.holder[q]
	if kp < 0 && kq < 0 {
		return
	}
	u.swaps = append(u.swaps, [2]int{p, q})
	u.exchange(p, q)
	n := u.lines
	if p/n != q/n {
		u.touch(p / n)
		u.touch(q / n)
	}
	if p%n != q%n {
		u.touch(p % n)
		u.touch(q % n)
	}
	switch {
	case kp < 0 || kq < 0: // a pair fell empty and another was filled: any chord may gain or lose a ghost
		for c := range u.chords {
			u.stir(c)
		}
	default:
		for _, c := range u.inChords[kp] {
			u.stir(c)
		}
		for _, c := range u.inChords[kq] {
			u.stir(c)
		}
	}
}

func (u *lineup) exchange(p, q int) {
	kp, kq := u.holder[p], u.holder[q]
	u.holder[p], u.holder[q] = kq, kp
	n := u.lines
	u.ring.occupied[p/n] &^= 1 << (p % n)
	u.ring.occupied[q/n] &^= 1 << (q % n)
	if kp >= 0 {
		u.pair[kp] = q
		u.ring.occupied[q/n] |= 1 << (q % n)
	}
	if kq >= 0 {
		u.pair[kq] = p
		u.ring.occupied[p/n] |= 1 << (p % n)
	}
}

func (u *lineup) touch(l int) {
	if u.touched>>l&1 == 0 {
		u.touched |= 1 << l
		u.was[l] = u.wire[l]
	}
}

func (u *lineup) stir(c int) {
	if !u.isIn[c] {
		u.isIn[c] = true
		u.stirred = append(u.stirred, c)
	}
}

// settle works out the energy after the swaps and returns the change. It counts ghosts only when the
// wire stays within limit or there are some to lose.
func (u *lineup) settle(limit int64) int64 {
	for l := range u.lines {
		if u.touched>>l&1 == 1 {
			u.wire[l] = u.weigh(l)
			u.total += u.wire[l] - u.was[l]
		}
	}
	u.energy += (u.total - u.before[0]) * hole
	if u.doubts == 0 && u.energy-u.before[1] > limit {
		return u.energy - u.before[1]
	}
	for _, c := range u.stirred {
		u.were = append(u.were, u.doubt[c])
		u.doubt[c] = u.ring.doubts(&u.chords[c], u.pair)
		u.doubts += u.doubt[c] - u.were[len(u.were)-1]
	}
	u.energy += int64(u.doubts-u.doubted) * elbowCost
	return u.energy - u.before[1]
}

// revert takes the exchange back.
func (u *lineup) revert() {
	for i := len(u.swaps) - 1; i >= 0; i-- {
		u.exchange(u.swaps[i][0], u.swaps[i][1])
	}
	for l := range u.lines {
		if u.touched>>l&1 == 1 {
			u.wire[l] = u.was[l]
		}
	}
	for i, was := range u.were {
		u.doubt[u.stirred[i]] = was
	}
	u.total, u.energy, u.doubts = u.before[0], u.before[1], u.doubted
}

// trade opens the exchange of two pairs. A key that shares its reading line by force stays with its
// mates: the two reading lines then trade all their keys, those between the two lines turning round.
func (u *lineup) trade(p, q int) bool {
	n := u.lines
	if p == q || u.holder[p] == barred || u.holder[q] == barred || u.holder[p] == noKey && u.holder[q] == noKey {
		return false
	}
	u.begin()
	if p/n == q/n || !u.grouped(p) && !u.grouped(q) {
		u.swap(p, q)
		return true
	}
	a, b := p/n, q/n
	for c := range n {
		if c != a && c != b {
			u.swap(a*n+c, b*n+c)
		}
	}
	u.swap(a*n+b, b*n+a)
	return true
}

func (u *lineup) grouped(p int) bool { return u.holder[p] >= 0 && u.group[u.holder[p]] >= 0 }

// anneal exchanges pairs the given number of times, cooling from start as arrangement.anneal does, and
// leaves u at the best it came through.
func (u *lineup) anneal(moves int, start float64, seed uint64) {
	if len(u.keys) < 2 {
		return
	}
	r := dice(seed*2 + 1)
	best, least := slices.Clone(u.pair), u.energy
	const steps = 64
	for step := range steps {
		heat := hole * start * math.Pow(cold/start, float64(step)/(steps-1))
		for range moves / steps {
			k := r.below(len(u.keys))
			q := r.below(len(u.holder))
			if r.below(2) == 0 {
				q = u.pair[u.near[k][r.below(len(u.near[k]))]]
			}
			if !u.trade(u.pair[k], q) {
				continue
			}
			if limit := int64(-heat * math.Log(r.unit())); u.settle(limit) > limit {
				u.revert()
			} else if u.energy < least {
				least = u.energy
				copy(best, u.pair)
			}
		}
	}
	*u = *u.lineUp(u.lines, best)
}

// polish takes exchanges that gain until there is none.
func (u *lineup) polish() {
	for gained := true; gained; {
		gained = false
		for p := range u.holder {
			for q := range p {
				if !u.trade(p, q) {
					continue
				}
				if u.settle(0) < 0 {
					gained = true
				} else {
					u.revert()
				}
			}
		}
	}
}
