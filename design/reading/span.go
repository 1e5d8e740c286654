package reading

import "fascia/design/circuit"

// A span is what one pin shows over several solutions.
type span struct {
	low, high float64
	seen      bool
	doubt     bool // in some solution nothing held the pin, or there was none
}

// note widens each pin's span by a state.
func note(of []span, s Solved) {
	for i := range of {
		at := &of[i]
		v := s.Volts[i]
		if !at.seen {
			at.low, at.high, at.seen = v, v, true
		}
		at.low, at.high = min(at.low, v), max(at.high, v)
		at.doubt = at.doubt || !s.Held[i] || s.Verdict != circuit.Settled
	}
}

// level is the one that holds at both ends; undefined when they differ.
func (s span) level(limits circuit.Thresholds) circuit.Level {
	l := limits.Level(s.low)
	if s.doubt || limits.Level(s.high) != l {
		return circuit.Undefined
	}
	return l
}

func (h *hookup) input(i int, s span) Input {
	p := h.pins[i]
	return Input{p.net, [2]float64{s.low, s.high}, s.level(p.figures.Limits)}
}
