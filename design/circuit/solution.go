package circuit

// A Verdict says whether voltages were found.
type Verdict uint8

// The verdicts. Undecided means that the budget of iterations ran out: the voltages are the last
// ones and no answer.
const (
	Settled Verdict = iota
	Undecided
)

// String writes settled or undecided.
func (v Verdict) String() string {
	if v == Settled {
		return "settled"
	}
	return "undecided"
}

// A Solution is the steady state of a circuit. Its lists belong to the Solver that made it and hold
// until its next Solve.
type Solution struct {
	Verdict    Verdict
	Volts      []float64 // by node
	Amps       []float64 // by branch, in the branch's direction
	Held       []bool    // by node: a microampere of leakage would move it by less than half a volt
	Iterations int       // most that any part of the circuit took
}

// heldSiemens is the conductance to a fixed node from which a node counts as held: an input's
// leakage of 1 uA (RP2040 data sheet table 625, pin input leakage) moves it by 0.5 V.
const heldSiemens = 2e-6

// finish works out the currents, and which nodes are held.
func (s *Solver) finish() {
	c := s.circuit
	s.amps = resized(s.amps, len(c.kinds))
	s.held.reset(c.Nodes())
	for n := range c.nodes {
		if c.nodes[n].fixed {
			s.held.unite(int(Ground), n+1)
		}
	}
	for b, e := range c.kinds {
		var siemens float64
		var a, k Node
		switch e.kind {
		case isResistor:
			r := c.resistor[e.index]
			a, k, siemens = r.a, r.b, r.siemens
			s.amps[b] = (s.volts[a] - s.volts[k]) * siemens
		case isDiode:
			d := c.diode[e.index]
			a, k = d.anode, d.cathode
			s.amps[b], siemens = d.model.at(s.across[e.index])
			siemens /= 1 + siemens*d.model.SeriesOhms
		case isLeak:
			l := c.leak[e.index]
			down, slope := l.law.along(l.law.down, s.volts[l.at], s.stretch[e.index])
			s.amps[b] = s.driven[e.index] + down
			a, k, siemens = l.at, Ground, -slope
		}
		if siemens >= heldSiemens {
			s.held.unite(int(a), int(k))
		}
	}
	s.isHeld = resized(s.isHeld, c.Nodes())
	for n := range s.isHeld {
		s.isHeld[n] = s.held.find(n) == s.held.find(int(Ground))
	}
}

// resized returns a list of n zeros, in the memory of list where that is enough.
func resized[T float64 | int | bool](list []T, n int) []T {
	if cap(list) < n {
		return make([]T, n, n+n/2)
	}
	list = list[:n]
	clear(list)
	return list
}
