package pinning

import (
	"math"

	"fascia/design/search"
)

// levels are the weights of what an assignment gives up. Each is more than all that the levels below
// it can add up to, so that a cost compares them in order: optional signals left out, what the maker
// asked to spare in the maker's order, holes of distance, length as the crow flies. Among assignments
// that take the same number of holes the one shortest as the crow flies has no two lines that cross and
// could change pins, unless they lie on one straight line: changing them would shorten it.
type levels struct {
	leftOut  int
	spare    []int // by wish to spare; 0 for what no price on a pin can say
	above    int   // the least level above the holes
	hole     int
	fine     int  // the unit of length as the crow flies is 1/2^fine of a hole
	straight bool // there is room for that length
}

// finest and coarsest bound the units of length as the crow flies.
const (
	finest   = 12
	coarsest = -4
)

func (t *task) weigh() levels {
	for fine := finest; fine >= coarsest; fine-- {
		if l, fits := t.weighAt(fine, true); fits {
			return l
		}
	}
	l, _ := t.weighAt(0, false)
	return l
}

// weighAt gives the weights with units of length of a given fineness, or without any, and reports
// whether the cost of the dearest assignment stays within what the search can take.
func (t *task) weighAt(fine int, straight bool) (levels, bool) {
	crow, holes, optional := 0, 0, 0
	for s := range t.signals {
		far, long := 0, 0
		for pin := range t.pins {
			far = max(far, t.line[s][pin].steps)
			if straight {
				long = max(long, t.crow(s, pin, fine))
			}
		}
		holes, crow = holes+far, crow+long
		if !t.required(s) {
			optional++
		}
	}
	l := levels{fine: fine, straight: straight, hole: crow + 1}
	l.above = l.hole * (holes + 1)
	total, dearest := l.above, l.above
	l.spare = make([]int, len(t.spares))
	for i := len(t.spares) - 1; i >= 0; i-- {
		if most := t.mostSpoilt(t.spares[i]); most > 0 {
			l.spare[i] = total
			dearest += total * len(t.signals)
			total *= most + 1
		}
	}
	l.leftOut = total
	return l, dearest+total*optional <= search.MaxTotal
}

// crow is the length of a line as the crow flies, in units of 1/2^fine of a hole.
func (t *task) crow(s, pin, fine int) int {
	length := math.Sqrt(float64(squared(t.hole[pin], t.line[s][pin].to))) // rounded alike on every machine
	return int(math.Ldexp(min(length, farthest), fine))
}

// mostSpoilt is how many pins that are to be spared may be used.
func (t *task) mostSpoilt(what spare) (n int) {
	for pin := range t.pins {
		if what == spareSerial && t.serial(pin) || what == spareAnalogue && t.analogue(pin) {
			n++
		}
	}
	return n
}

// over is the least weight of what matters more than wish i to spare something.
func (l *levels) over(i int) int {
	for i--; i >= 0; i-- {
		if l.spare[i] > 0 {
			return l.spare[i]
		}
	}
	return l.leftOut
}

// prices gives what each signal pays for each pin.
func (t *task) prices() [][]int {
	table := make([][]int, len(t.signals))
	for s := range t.signals {
		table[s] = make([]int, len(t.pins))
		for pin := range t.pins {
			c := t.weight.hole * t.line[s][pin].steps
			if t.weight.straight {
				c += t.crow(s, pin, t.weight.fine)
			}
			for i, what := range t.spares {
				if t.spoils(what, s, pin) {
					c += t.weight.spare[i]
				}
			}
			table[s][pin] = c
		}
	}
	return table
}

// number is what a pin's number counts for signal s: more for earlier signals.
func (t *task) number(s, pin int) int { return max(1, search.MaxSlots-s) * t.pins[pin].GPIO }
