package circuit

// assemble enters the resistors of a section into base.
func (s *Solver) assemble(at *section) {
	s.base.reset(len(at.nodes))
	for i := range at.nodes {
		s.base.down[i] = nodeSiemens
	}
	for _, i := range at.resistors {
		r := &s.circuit.resistor[i]
		s.stamp(&s.base, r.a, r.b, r.siemens, 0)
	}
}

// stamp enters a conductance between a and b with a current of amps beside it from a to b.
func (s *Solver) stamp(m *mesh, a, b Node, siemens, amps float64) {
	s.stampChange(m, a, b, siemens, amps)
	i, j := s.placeOf(a), s.placeOf(b)
	if i >= 0 && j < 0 {
		m.into[i] += siemens * s.volts[b]
	}
	if j >= 0 && i < 0 {
		m.into[j] += siemens * s.volts[a]
	}
}

// stampChange is stamp for steps from the present voltages. What has both ends on one node carries
// nothing that matters.
func (s *Solver) stampChange(m *mesh, a, b Node, siemens, amps float64) {
	i, j := s.placeOf(a), s.placeOf(b)
	if i >= 0 {
		m.into[i] -= amps
	}
	if j >= 0 {
		m.into[j] += amps
	}
	switch {
	case i >= 0 && j >= 0 && i != j:
		m.between[max(i, j)*m.n+min(i, j)] += siemens
	case i >= 0 && j < 0:
		m.down[i] += siemens
	case j >= 0 && i < 0:
		m.down[j] += siemens
	}
}

func (s *Solver) placeOf(n Node) int {
	if n == Ground {
		return -1
	}
	return s.place[n]
}

// stampDiode enters the straight line that touches the diode's curve where it is taken to be.
func (s *Solver) stampDiode(i int) {
	d := &s.circuit.diode[i]
	amps, siemens := d.model.at(s.across[i])
	s.current[i] = amps
	outer := siemens / (1 + siemens*d.model.SeriesOhms)
	volts := s.across[i] + amps*d.model.SeriesOhms
	s.stamp(&s.step, d.anode, d.cathode, outer, amps-outer*volts)
}

// stampLeak enters the falling part of a leak as the conductance it is, and the rising part as the
// current it was.
func (s *Solver) stampLeak(i int) {
	l := &s.circuit.leak[i]
	down, slope := l.law.along(l.law.down, s.volts[l.at], s.stretch[i])
	s.stamp(&s.step, l.at, Ground, -slope, slope*s.volts[l.at]-down-s.driven[i])
}
