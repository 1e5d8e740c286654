package circuit

import "math"

// With the rising currents of leaks held still, a section is the lowest point of a bowl: the heat that
// its elements would make, integrated over the voltages (co-content, Millar 1951, from memory), is
// strictly convex, and its gradient is what flows out of each node. Newton steps that never pass the
// lowest point along their direction come to it from anywhere. They work out every diode anew and so
// are slow; they are for the few sections where the quick steps chase their own tail.

const (
	descents = 400  // steps of one section
	steepest = 0.5  // most share of the slope at the origin by which a whole step may have gone too far
	flat     = 1e-3 // share of the slope at the origin at which a shorter step ends
	halvings = 60   // of one step
)

// descend takes such steps until they are short.
func (s *Solver) descend(at *section) (count int, ok bool) {
	n := len(at.nodes)
	s.origin, s.heading = resized(s.origin, n), resized(s.heading, n)
	for count = 1; count <= descents; count++ {
		s.gradient(at, &s.step, true)
		s.inflow = append(s.inflow[:0], s.step.into...) // the way down
		s.step.solve()
		longest, fall := 0.0, 0.0
		for i, n := range at.nodes {
			s.heading[i] = s.step.into[i]
			s.origin[i] = s.volts[n]
			longest = max(longest, math.Abs(s.heading[i]))
			fall += s.heading[i] * s.inflow[i]
		}
		s.move(at, s.stride(at, fall))
		if longest < stopVolts {
			s.gradient(at, &s.trial, false) // leaves diodes and leaks as the nodes are
			return count, true
		}
	}
	return descents, false
}

// stride is how much of the heading to go: all of it, unless that leads far up the other side, or
// until the fall along it, which is fall at the origin, has become flat.
func (s *Solver) stride(at *section, fall float64) float64 {
	low, high, share := 0.0, 1.0, 1.0
	for range halvings {
		s.move(at, share)
		there := s.fall(at)
		switch {
		case share == 1 && there >= -steepest*fall || math.Abs(there) <= flat*fall:
			return share
		case there < 0:
			high = share
		default:
			low = share
		}
		share = (low + high) / 2
	}
	return low
}

// move puts the nodes of a section at a share of the heading from the origin.
func (s *Solver) move(at *section, share float64) {
	for i, n := range at.nodes {
		s.volts[n] = s.origin[i] + share*s.heading[i]
	}
}

// fall is how steeply the bowl falls along the heading where the nodes are.
func (s *Solver) fall(at *section) float64 {
	s.gradient(at, &s.trial, false)
	sum := 0.0
	for i, in := range s.trial.into {
		sum += in * s.heading[i]
	}
	return sum
}

// gradient enters into m the current that flows into each node as the voltages are and, where steep is
// asked for, the conductances there.
func (s *Solver) gradient(at *section, m *mesh, steep bool) {
	m.reset(len(at.nodes))
	enter := func(a, b Node, amps, siemens float64) {
		if !steep {
			siemens = 0
		}
		s.stampChange(m, a, b, siemens, amps)
	}
	for _, n := range at.nodes {
		enter(n, Ground, s.volts[n]*nodeSiemens, nodeSiemens)
	}
	for _, i := range at.resistors {
		r := &s.circuit.resistor[i]
		enter(r.a, r.b, (s.volts[r.a]-s.volts[r.b])*r.siemens, r.siemens)
	}
	for _, i := range at.diodes {
		d := &s.circuit.diode[i]
		s.across[i] = d.model.junction(s.volts[d.anode] - s.volts[d.cathode])
		amps, siemens := d.model.at(s.across[i])
		enter(d.anode, d.cathode, amps, siemens/(1+siemens*d.model.SeriesOhms))
	}
	for _, i := range at.leak {
		l := &s.circuit.leak[i]
		s.stretch[i] = l.law.stretch(s.volts[l.at])
		down, slope := l.law.along(l.law.down, s.volts[l.at], s.stretch[i])
		enter(l.at, Ground, -down-s.driven[i], -slope)
	}
}
