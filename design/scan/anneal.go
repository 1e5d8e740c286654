package scan

import "math"

// dice is a small generator of numbers that never varies: xorshift64*, Vigna (2016),
// doi:10.1145/2845077. It must not be zero.
type dice uint64

func (d *dice) next() uint64 {
	x := uint64(*d)
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	*d = dice(x)
	return x * 0x2545F4914F6CDD1D
}

// below returns a number from 0 to n-1.
func (d *dice) below(n int) int { return int(d.next() >> 33 * uint64(n) >> 31) }

// unit returns a number above 0 and up to 1.
func (d *dice) unit() float64 { return float64(d.next()>>11+1) / (1 << 53) }

// The temperatures between which an arrangement cools, in holes, chosen by trial on scattered keys.
// It starts mild, since the first arrangement comes from the layout, which is worth keeping in the
// large; a regular layout that chords break up must get over the price of its displaced keys.
const (
	mild = 2.5
	hot  = 20.0
	cold = 0.5
)

// anneal exchanges cells the given number of times, taking every gain and, the cooler it gets the
// fewer, losses (Kirkpatrick, Gelatt, Vecchi (1983), doi:10.1126/science.220.4598.671). It leaves a
// at the best arrangement it came through. The same seed gives the same arrangement.
func (a *arrangement) anneal(moves int, seed uint64) {
	if len(a.keys) < 2 {
		return
	}
	r := dice(seed*2 + 1)
	best, least := append([]int(nil), a.cell...), a.energy
	start := mild
	if a.home != nil {
		start = hot
	}
	const steps = 64
	for step := range steps {
		heat := hole * start * math.Pow(cold/start, float64(step)/(steps-1))
		for range moves / steps {
			if !a.propose(&r) {
				continue
			}
			if limit := int64(-heat * math.Log(r.unit())); !a.settleWithin(limit) {
				a.revert()
			} else if a.energy < least {
				least = a.energy
				copy(best, a.cell)
			}
		}
	}
	a.take(best)
}

// take moves every key to the given cell.
func (a *arrangement) take(cell []int) {
	if a.same(cell) {
		return
	}
	fresh := a.arrange(a.shape, cell, a.home)
	fresh.note = a.note
	*a = *fresh
}

func (a *arrangement) same(cell []int) bool {
	for k, c := range cell {
		if a.cell[k] != c {
			return false
		}
	}
	return true
}

// propose opens a random exchange; false when the dice fell on nothing to do.
func (a *arrangement) propose(r *dice) bool {
	k := r.below(len(a.keys))
	p := a.cell[k]
	var q int
	if r.below(2) == 0 { // keys that lie close by are likelier to gain
		q = a.cell[a.near[k][r.below(len(a.near[k]))]]
	} else {
		q = r.below(len(a.holder))
	}
	if p == q {
		return false
	}
	side := rowSide
	if a.anyBound() {
		side = r.below(2)
	}
	return a.exchangeOf(p, q, side)
}

// exchangeOf opens the exchange of two cells. Where keys are bound to a line together, it opens
// instead the exchange between the two cells' lines of one side, over as many crossing lines as
// the bound keys need to stay together.
func (a *arrangement) exchangeOf(p, q, side int) bool {
	if !a.anyBound() || !a.boundAt(p) && !a.boundAt(q) {
		a.begin()
		a.swap(p, q)
		return true
	}
	from, to := a.shape.line(side, p), a.shape.line(side, q)
	if from == to {
		return false
	}
	a.begin()
	for _, cross := range a.together(side, from, to, a.shape.line(1-side, p)) {
		a.swap(a.at(side, from, cross), a.at(side, to, cross))
	}
	return true
}

func (a *arrangement) boundAt(cell int) bool {
	k := a.holder[cell]
	return k != noKey && a.isBound(k)
}

// at is the cell on a line of one side where the crossing line runs.
func (a *arrangement) at(side, line, cross int) int {
	if side == rowSide {
		return line*a.columns + cross
	}
	return cross*a.columns + line
}

// together lists the crossing lines, cross first, over which the lines from and to must be
// exchanged at once lest keys bound on that side part.
func (a *arrangement) together(side, from, to, cross int) []int {
	list := append(a.crossing[:0], cross)
	listed := a.crossed[1-side]
	listed[cross] = true
	for i := 0; i < len(list); i++ {
		for _, line := range [2]int{from, to} {
			k := a.holder[a.at(side, line, list[i])]
			if k == noKey || a.keys[k].line[side] < 0 {
				continue
			}
			for _, mate := range a.tied[side][a.keys[k].line[side]] {
				if c := a.shape.line(1-side, a.cell[mate]); !listed[c] {
					listed[c] = true
					list = append(list, c)
				}
			}
		}
	}
	for _, c := range list {
		listed[c] = false
	}
	a.crossing = list
	return list
}

// polish takes exchanges that gain until there is none.
func (a *arrangement) polish() {
	for gained := true; gained; {
		gained = false
		a.eachExchange(func(int, int, int) bool {
			won := a.settle() < 0
			gained = gained || won
			return won
		})
	}
}

// descend takes the exchange that gains most until there is none. It moves fewer keys than polish.
func (a *arrangement) descend() {
	for {
		most, best := int64(0), [3]int{}
		a.eachExchange(func(p, q, side int) bool {
			if change := a.settle(); change < most {
				most, best = change, [3]int{p, q, side}
			}
			return false
		})
		if most == 0 || !a.exchangeOf(best[0], best[1], best[2]) {
			return
		}
		a.settle()
	}
}

// eachExchange opens every exchange there is, one after the other, and takes those back for which
// keep, which has to settle them, says no.
func (a *arrangement) eachExchange(keep func(p, q, side int) bool) {
	for p := range a.holder {
		for q := range p {
			if a.holder[p] == noKey && a.holder[q] == noKey {
				continue
			}
			for side := range 2 {
				if side == columnSide && !a.anyBound() || !a.exchangeOf(p, q, side) {
					continue
				}
				if !keep(p, q, side) {
					a.revert()
				}
			}
		}
	}
}
