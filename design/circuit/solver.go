package circuit

import "math"

const (
	nodeSiemens = 1e-12 // from every node to Ground, so that a node that nothing holds has a voltage
	stopVolts   = 1e-6  // a step shorter than this ends the iteration
	budget      = 150   // quick iterations of one section before the slow ones
	rounds      = 2000  // settlings of a section with leaks that rise
	nearVolts   = 1e-4  // how far from its rest such a section may be left
)

// A Solver works out circuits. It keeps its memory from one to the next, so that a run of them
// allocates next to nothing; it is not for use by two goroutines at once. The zero value is ready.
type Solver struct {
	circuit  *Circuit
	joined   forest
	held     forest
	section  []int // by node
	place    []int // of a node in its section, -1 when it is fixed
	sections []section
	volts    []float64 // by node
	before   []float64 // the voltages of the last Solve, which may be the start of this one
	across   []float64 // by diode: the voltage of the junction alone
	current  []float64 // by diode: the current there
	stretch  []int     // by leak: the line of the law that it is on
	driven   []float64 // by leak: the rising part of its current, as it was before the section settled
	seen     []float64 // by leak: the voltage that it was taken at
	amps     []float64
	isHeld   []bool
	base     mesh // resistors of a section
	step     mesh

	origin, heading, inflow []float64 // of a descent, by place
	trial                   mesh
}

// Solve finds the steady voltages. It begins from the voltages in start, by node, or from 0 V when
// start is nil. That changes nothing but the time, except with a Leak whose current rises with its
// voltage: such a circuit can rest in several ways. The rising currents are then first taken as they
// are at start, the circuit settles, they are taken anew, and so on. From a start below every rest
// that leads up to the lowest, and from one above every rest down to the highest, just as the circuit
// goes by itself whatever capacitance its nodes have: each node only ever lifts the others.
func (s *Solver) Solve(c *Circuit, start []float64) Solution {
	s.circuit = c
	s.begin(start)
	s.split()
	verdict, most := Settled, 0
	for i := range s.sections {
		count, ok := s.settle(&s.sections[i])
		most = max(most, count)
		if !ok {
			verdict = Undecided
		}
	}
	s.finish()
	return Solution{verdict, s.volts, s.amps, s.isHeld, most}
}

// Solve is the work of a new Solver, from 0 V.
func Solve(c *Circuit) Solution { return new(Solver).Solve(c, nil) }

// begin sets the first voltages of nodes and junctions.
func (s *Solver) begin(start []float64) {
	c := s.circuit
	s.volts, s.before = resized(s.before, c.Nodes()), s.volts
	for n := Node(1); int(n) < c.Nodes(); n++ {
		volts, fixed := c.fixed(n)
		if !fixed && int(n) < len(start) {
			volts = start[n]
		}
		s.volts[n] = volts
	}
	s.across = resized(s.across, len(c.diode))
	s.current = resized(s.current, len(c.diode))
	for i, d := range c.diode {
		s.across[i] = d.model.junction(s.volts[d.anode] - s.volts[d.cathode])
		if !s.isBetweenFixed(d) {
			s.across[i] = min(s.across[i], d.model.bend())
		}
	}
	s.stretch = resized(s.stretch, len(c.leak))
	s.driven = resized(s.driven, len(c.leak))
	s.seen = resized(s.seen, len(c.leak))
	for i, l := range c.leak {
		s.seen[i] = s.volts[l.at]
		s.stretch[i] = l.law.stretch(s.volts[l.at])
		s.driven[i], _ = l.law.along(l.law.up, s.volts[l.at], s.stretch[i])
	}
}

// isBetweenFixed reports whether a diode is in no section, its voltage being given.
func (s *Solver) isBetweenFixed(d junction) bool {
	_, a := s.circuit.fixed(d.anode)
	_, k := s.circuit.fixed(d.cathode)
	return a && k
}

// settle finds the rest of one section: once, or until the rising currents of its leaks no longer
// change it. Rounds that shrink by an even share have share / (1 - share) of the last one to go.
func (s *Solver) settle(at *section) (count int, ok bool) {
	before := math.Inf(1)
	for range rounds {
		more, settled := s.settleOnce(at)
		count, ok = count+more, settled
		if !ok || !s.rises(at) {
			return count, ok
		}
		moved := s.redrive(at)
		if moved < stopVolts && moved*moved <= nearVolts*(before-moved) {
			return count, true
		}
		before = moved
	}
	return count, false
}

// redrive takes the rising currents anew, and returns the most by which a leak's node has moved since
// the last time.
func (s *Solver) redrive(at *section) (moved float64) {
	for _, i := range at.leak {
		l := &s.circuit.leak[i]
		volts := s.volts[l.at]
		moved = max(moved, math.Abs(volts-s.seen[i]))
		s.seen[i] = volts
		s.driven[i], _ = l.law.along(l.law.up, volts, s.stretch[i])
	}
	return moved
}

// rises reports whether any leak of a section can drive its node.
func (s *Solver) rises(at *section) bool {
	for _, i := range at.leak {
		if s.circuit.leak[i].law.rises() {
			return true
		}
	}
	return false
}

// settleOnce iterates one section to its end, the slow way if need be.
func (s *Solver) settleOnce(at *section) (count int, ok bool) {
	count, ok = s.iterate(at)
	if ok {
		return count, true
	}
	for _, n := range at.nodes {
		s.volts[n] = 0
	}
	more, ok := s.descend(at)
	return count + more, ok
}

// iterate takes Newton steps until they are short.
func (s *Solver) iterate(at *section) (count int, ok bool) {
	s.assemble(at)
	for _, i := range at.leak {
		s.stretch[i] = s.circuit.leak[i].law.stretch(s.volts[s.circuit.leak[i].at])
	}
	for count = 1; count <= budget; count++ {
		s.step.copyOf(&s.base)
		for _, i := range at.diodes {
			s.stampDiode(i)
		}
		for _, i := range at.leak {
			s.stampLeak(i)
		}
		s.step.solve()
		whole := s.advance(at)
		for _, i := range at.diodes {
			whole = s.advanceDiode(i) && whole
		}
		if whole {
			return count, true
		}
	}
	return budget, false
}
