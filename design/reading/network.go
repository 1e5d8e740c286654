package reading

import "fascia/design/circuit"

// A Drive is what a pin does: one of HiZ, DriveLow and DriveHigh, with one of PullUp and PullDown and
// with Deaf where wanted, joined by a bar.
type Drive uint8

// The drives. A pin that drives may have a pull beside it. Deaf switches the input buffer off, which
// stops the leak of RP2350-E9.
const (
	HiZ    Drive = 0
	PullUp Drive = 1 << iota
	PullDown
	DriveLow
	DriveHigh
	Deaf
)

// A Network is the keys' wires at one corner of the figures, to be driven pin by pin. Pins and keys go
// by number, see Pin and Key. It remembers its voltages, since a leaking pin may stay where it was.
type Network struct {
	hookup  *hookup
	corner  Corner
	drive   []Drive // by pin
	closed  []bool  // by contact
	fresh   bool    // solved, and nothing changed since
	state   Solved
	from    []float64 // voltages to begin from, by node
	circuit circuit.Circuit
	solver  circuit.Solver
	driver  []circuit.Branch // by pin, or noBranch
	lit     []circuit.Branch // by lamp
	amps    []float64        // by branch
}

const noBranch circuit.Branch = -1

// Solved is a steady state of a network. Its lists belong to the network and change with its next
// Solve.
type Solved struct {
	Verdict circuit.Verdict
	Volts   []float64       // by pin
	Levels  []circuit.Level // by pin: undefined between the limits, where nothing holds it, and when not settled
	Held    []bool          // by pin: an input's leakage could not move it far
}

func newNetwork(h *hookup, c Corner) *Network {
	return &Network{
		hookup: h, corner: c, drive: make([]Drive, len(h.pins)), closed: make([]bool, len(h.contacts)),
		from: make([]float64, firstPin+len(h.pins)), driver: make([]circuit.Branch, len(h.pins)),
		lit: make([]circuit.Branch, len(h.lamps)),
		state: Solved{Volts: make([]float64, len(h.pins)), Levels: make([]circuit.Level, len(h.pins)),
			Held: make([]bool, len(h.pins))},
	}
}

// Pins names the nets by number of pin.
func (n *Network) Pins() []string {
	names := make([]string, len(n.hookup.pins))
	for i, p := range n.hookup.pins {
		names[i] = p.net
	}
	return names
}

// Pin returns the number of the pin on a net, such as row 0; false when there is none.
func (n *Network) Pin(net string) (int, bool) {
	i, ok := n.hookup.pinOf[net]
	return i, ok
}

// Key returns the number of a key; false when there is none.
func (n *Network) Key(id string) (int, bool) {
	i, ok := n.hookup.contactOf[id]
	return i, ok
}

// Set makes a pin do something else.
func (n *Network) Set(pin int, d Drive) {
	if n.drive[pin] != d {
		n.drive[pin], n.fresh = d, false
	}
}

// Press closes or opens a key.
func (n *Network) Press(key int, down bool) {
	if n.closed[key] != down {
		n.closed[key], n.fresh = down, false
	}
}

// Rest sets every pin to what it does while no line is selected: lines that are read are pulled, the
// others let go.
func (n *Network) Rest() {
	for i, p := range n.hookup.pins {
		n.Set(i, p.rest)
	}
}

// Select drives one pin to the level that selects; nothing when there is no such pin.
func (n *Network) Select(pin int) {
	if pin < 0 || pin >= len(n.drive) {
		return
	}
	d := DriveLow
	if n.hookup.active == circuit.High {
		d = DriveHigh
	}
	n.Set(pin, d)
}

// ComeFrom forgets the voltages and lets every pin come from volts.
func (n *Network) ComeFrom(volts float64) {
	for i := range n.hookup.pins {
		n.from[firstPin+i] = volts
	}
	n.fresh = false
}

// The nodes of a network: ground, the supply, then the pins.
const (
	supplyNode = circuit.Node(1)
	firstPin   = 2
)

func nodeOf(end int) circuit.Node {
	switch end {
	case ground:
		return circuit.Ground
	case supply:
		return supplyNode
	}
	return circuit.Node(firstPin + end)
}

// Solve finds the voltages. Without a change since the last time it does nothing.
func (n *Network) Solve() Solved {
	if n.fresh {
		return n.state
	}
	n.build()
	s := n.solver.Solve(&n.circuit, n.from)
	copy(n.from, s.Volts)
	copy(n.state.Volts, s.Volts[firstPin:])
	copy(n.state.Held, s.Held[firstPin:])
	n.amps = s.Amps
	n.state.Verdict = s.Verdict
	for i, p := range n.hookup.pins {
		n.state.Levels[i] = circuit.Undefined
		if s.Verdict == circuit.Settled && n.state.Held[i] {
			n.state.Levels[i] = p.figures.Limits.Level(n.state.Volts[i])
		}
	}
	n.fresh = true
	return n.state
}

// build makes the circuit of the pins as driven and the keys as held.
func (n *Network) build() {
	c := &n.circuit
	c.Reset()
	c.Rail(n.hookup.figures.Volts)
	for range n.hookup.pins {
		c.Node()
	}
	for i := range n.hookup.pins {
		n.buildPin(i)
	}
	for i, closed := range n.closed {
		if closed {
			n.buildContact(&n.hookup.contacts[i])
		}
	}
	for i, l := range n.hookup.lamps {
		n.lit[i] = c.Diode(nodeOf(l.from), nodeOf(l.to), l.model)
	}
}

func (n *Network) buildPin(i int) {
	c, p, at, d := &n.circuit, &n.hookup.pins[i], nodeOf(i), n.drive[i]
	f := p.figures
	c.Resistor(at, circuit.Ground, f.PinOhms)
	if p.outside[0] > 0 {
		end := circuit.Ground
		if p.up {
			end = supplyNode
		}
		c.Resistor(at, end, n.corner.pull(p.outside))
	}
	if d&PullUp != 0 {
		c.Resistor(at, supplyNode, n.corner.pull(f.PullUpOhms))
	}
	if d&PullDown != 0 && f.PullDownOhms[0] > 0 {
		c.Resistor(at, circuit.Ground, n.corner.pull(f.PullDownOhms))
	}
	n.driver[i] = noBranch
	switch {
	case d&DriveLow != 0:
		n.driver[i] = c.Resistor(at, circuit.Ground, n.corner.series(f.LowOhms))
	case d&DriveHigh != 0:
		n.driver[i] = c.Resistor(at, supplyNode, n.corner.series(f.HighOhms))
	case f.Leaky && d&Deaf == 0:
		c.Leak(at, n.hookup.leak)
	}
}

func (n *Network) buildContact(k *contact) {
	ohms := n.corner.series(k.ohms)
	if k.diode.SaturationAmps == 0 {
		n.circuit.Resistor(nodeOf(k.from), nodeOf(k.to), ohms)
		return
	}
	n.circuit.Diode(nodeOf(k.from), nodeOf(k.to), k.diode.InSeries(ohms))
}

// Sinks is the current in milliamperes that a driven pin takes in, negative when it gives; 0 for a pin
// that does not drive. It solves first where need be.
func (n *Network) Sinks(pin int) float64 {
	n.Solve()
	if n.driver[pin] == noBranch {
		return 0
	}
	return n.amps[n.driver[pin]] * 1000
}

// lampMA is the current of a lamp in milliamperes.
func (n *Network) lampMA(i int) float64 {
	n.Solve()
	return n.amps[n.lit[i]] * 1000
}
