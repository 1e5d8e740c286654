package reading

// A Select is what one select line carries while it is selected, in milliamperes: the most over the
// ends of the figures. Active low the pin takes it in, active high it gives it.
type Select struct {
	Net    string  `json:"net"`
	LED    string  `json:"led,omitempty"` // the lamp on the line
	LampMA float64 `json:"lamp_ma"`       // no key held
	PinMA  float64 `json:"pin_ma"`        // with every key of the line held
	MostMA float64 `json:"most_ma"`       // with every key of the panel held
}

// Selects lists the select lines in order with their currents.
func (r *Reader) Selects() []Select {
	h := r.hookup
	list := make([]Select, len(h.selects))
	for j, pin := range h.selects {
		s := &list[j]
		s.Net = h.pins[pin].net
		of := h.keysOf(j)
		for _, n := range r.networks {
			n.Rest()
			n.ComeFrom(0)
			n.Select(pin)
			n.only(nil)
			for i, l := range h.lamps {
				if l.from == pin || l.to == pin {
					s.LED, s.LampMA = l.ref, max(s.LampMA, n.lampMA(i))
				}
			}
			n.only(of)
			s.PinMA = max(s.PinMA, magnitude(n.Sinks(pin)))
			n.all()
			s.MostMA = max(s.MostMA, magnitude(n.Sinks(pin)))
		}
	}
	return list
}

// only closes the given contacts and opens the others.
func (n *Network) only(list []int) {
	for i := range n.closed {
		n.Press(i, false)
	}
	for _, i := range list {
		n.Press(i, true)
	}
}

func (n *Network) all() {
	for i := range n.closed {
		n.Press(i, true)
	}
}

func magnitude(x float64) float64 { return max(x, -x) }
