package wiring

import "math"

// Tolls make the nets share the board in a bound. Each class of free copper has a rent: a net pays it
// for each class that its tree covers, and since at most one net can cover it, the nets' bounds with
// rent, less all rents, bound what they cost together. Rents rise where many nets' trees meet and fall
// where none is, in steps that grow smaller while nothing is gained.
//
// Held, Wolfe and Crowder, Validation of subgradient optimization, 1974 (from memory).
type tolls struct {
	ascent *ascent
	rent   []float64 // by class
	whole  []price   // the same in whole twentieths
	used   []int16   // by class: how many nets' trees cover it
	last   []int32   // by class: the number of the last tree that does
	net    int32     // number of a tree
	lean   []float64 // by class: which way its rent goes

	bestRent []float64
	step     float64
	dull     int
	bound    price
}

// firstStep and dullSteps say how far rents move, and when they move less far.
const (
	firstStep = 0.4
	dullSteps = 4
	shorter   = 0.7
	mostRoots = 8   // groups of a net that are tried as the root
	memory    = 0.5 // of the way that rents went before
)

// raiseBound adapts the rents once.
func (s *search) raiseBound() {
	if s.toll == nil {
		n := len(s.fd.class)
		s.toll = &tolls{ascent: newAscent(s.fd), rent: make([]float64, n), whole: make([]price, n), used: make([]int16, n), last: make([]int32, n),
			lean: make([]float64, n), bestRent: make([]float64, n), step: firstStep}
		s.chooseRoots()
	}
	t := s.toll
	sum := s.boundAtRents()
	if sum > t.bound {
		t.bound, t.dull = sum, 0
	} else if t.dull++; t.dull >= dullSteps {
		t.step, t.dull = t.step*shorter, 0
		copy(t.rent, t.bestRent)
		clear(t.lean)
		t.roundRents()
		sum = t.bound
	}
	if t.dull == 0 {
		copy(t.bestRent, t.rent)
	}
	s.countUse()
	norm := 0.0
	for c, used := range t.used {
		t.lean[c] = t.lean[c]*memory + float64(used-1)
		if t.rent[c] == 0 && t.lean[c] < 0 {
			t.lean[c] = 0
		}
		norm += t.lean[c] * t.lean[c]
	}
	if norm == 0 {
		return
	}
	length := t.step * math.Max(1, float64(s.least-sum)) / norm
	for c, lean := range t.lean {
		t.rent[c] = math.Max(0, t.rent[c]+length*lean)
	}
	t.roundRents()
}

func (t *tolls) roundRents() {
	for c, rent := range t.rent {
		t.whole[c] = price(math.Round(rent))
	}
}

// chooseRoots finds from which of its groups each net's bound is best.
func (s *search) chooseRoots() {
	for i := range s.tasks {
		t := &s.tasks[i]
		best := 0
		for t.root = 1; t.root < min(len(t.groups), mostRoots); t.root++ {
			if b := s.toll.ascent.bound(t, int16(i+1), s.fixed); b > t.bound {
				t.bound, best = b, t.root
			}
		}
		t.root = best
	}
}

// boundAtRents is what no way to join all nets costs less than, by the rents of now.
func (s *search) boundAtRents() price {
	t := s.toll
	t.ascent.rent = t.whole
	var sum price
	for i := range s.tasks {
		if len(s.tasks[i].groups) > 1 && !s.best[i].bared {
			sum += t.ascent.bound(&s.tasks[i], int16(i+1), s.fixed)
		}
	}
	for c, rent := range t.whole {
		if s.fixed[c] == nobody {
			sum -= rent
		}
	}
	return sum
}

// countUse counts the nets whose trees, each alone on the board, cover a class.
func (s *search) countUse() {
	t := s.toll
	clear(t.used)
	s.rent = t.whole
	for i := range s.tasks {
		if len(s.tasks[i].groups) < 2 {
			continue
		}
		l := s.grow(i, 0, false)
		t.net++
		for n := range l.pieces {
			t.countPath(s, &l.pieces[n])
		}
	}
	s.rent = nil
}

// countPath counts a bare run once for each class of free copper that it covers.
func (t *tolls) countPath(s *search, pc *piece) {
	if pc.kind == Insulated {
		return
	}
	for _, at := range pc.path {
		if c := s.fd.class[at]; s.fixed[c] == nobody && t.last[c] != t.net {
			t.last[c] = t.net
			t.used[c]++
		}
	}
}
