package circuit

import "math"

// advance moves the nodes of a section to where the step leads, but no leak past the end of its
// stretch. It reports whether the step was whole and short.
func (s *Solver) advance(at *section) bool {
	part := 1.0
	for _, i := range at.leak {
		part = min(part, s.room(i))
	}
	short := part == 1
	for _, i := range at.leak {
		if part < 1 && s.room(i) == part {
			s.cross(i)
		}
	}
	for place, n := range at.nodes {
		move := s.step.into[place] - s.volts[n]
		s.volts[n] += part * move
		short = short && math.Abs(move) < stopVolts
	}
	return short
}

// room is the part of the step that leaves leak i on its stretch.
func (s *Solver) room(i int) float64 {
	l := &s.circuit.leak[i]
	low, high := l.law.span(s.stretch[i])
	from, to := s.volts[l.at], s.step.into[s.placeOf(l.at)]
	switch {
	case to > high:
		return max(0, (high-from)/(to-from))
	case to < low:
		return max(0, (low-from)/(to-from))
	}
	return 1
}

// cross puts leak i on the next stretch in the direction of the step.
func (s *Solver) cross(i int) {
	l := &s.circuit.leak[i]
	if s.step.into[s.placeOf(l.at)] > s.volts[l.at] {
		s.stretch[i]++
	} else {
		s.stretch[i]--
	}
}

// advanceDiode moves a junction to where the nodes now put it on its straight line, within limits.
// It reports whether it hardly moved.
func (s *Solver) advanceDiode(i int) bool {
	d := &s.circuit.diode[i]
	old := s.across[i]
	volts := s.volts[d.anode] - s.volts[d.cathode]
	wanted := d.model.moved(volts, old, s.current[i])
	s.across[i] = d.model.limited(wanted, old, volts)
	return s.across[i] == wanted && math.Abs(wanted-old) < stopVolts
}
