package panel

import (
	"slices"

	"fascia/design/grid"
)

// LockWire asks for a wire just so, or changes the one between its holes on its face. Whether it may
// be is for the plan to say: nets come and go with the parts.
type LockWire struct {
	Wire LockedWire `json:"wire"`
}

// Do is the edit's name.
func (e *LockWire) Do() string { return "wire" }

// Label names the holes.
func (e *LockWire) Label() string {
	return "Wire " + e.Wire.From.String() + " to " + e.Wire.To.String()
}

func (e *LockWire) apply(p *Panel) error {
	w := e.Wire
	w.Path = slices.Clone(w.Path)
	for i := range p.Wires.Locked {
		if p.Wires.Locked[i].joins(w.From, w.To, w.Face) {
			p.Wires.Locked[i] = w
			return nil
		}
	}
	p.Wires.Locked = append(p.Wires.Locked, w)
	return nil
}

// UnlockWire leaves a wire to Fascia again.
type UnlockWire struct {
	From grid.Hole `json:"from"`
	To   grid.Hole `json:"to"`
	Face grid.Face `json:"face"`
}

// Do is the edit's name.
func (e *UnlockWire) Do() string { return "unlock-wire" }

// Label names the holes.
func (e *UnlockWire) Label() string {
	return "Leave the wire " + e.From.String() + " to " + e.To.String() + " to Fascia"
}

func (e *UnlockWire) apply(p *Panel) error {
	i := slices.IndexFunc(p.Wires.Locked, func(w LockedWire) bool { return w.joins(e.From, e.To, e.Face) })
	if i < 0 {
		return refuse("no wire of yours joins %s and %s on the %s", e.From, e.To, e.Face)
	}
	p.Wires.Locked = slices.Delete(p.Wires.Locked, i, i+1)
	return nil
}

// SetWiring changes what holds for all wires.
type SetWiring struct {
	NoRuns []grid.Face `json:"no_runs"`
	Ends   int         `json:"ends"`
	Costs  *WireCosts  `json:"costs"`
}

// Do is the edit's name.
func (e *SetWiring) Do() string { return "wiring" }

// Label says so.
func (e *SetWiring) Label() string { return "Change how wires are laid" }

func (e *SetWiring) apply(p *Panel) error {
	p.Wires.NoRuns, p.Wires.Ends, p.Wires.Costs = slices.Clone(e.NoRuns), e.Ends, copyOf(e.Costs)
	return nil
}

// SetNet changes what is wanted of one net's wires; a wish for nothing takes it back.
type SetNet struct {
	NetWish
}

// Do is the edit's name.
func (e *SetNet) Do() string { return "net" }

// Label names the net.
func (e *SetNet) Label() string { return "Wires of " + e.Net }

func (e *SetNet) apply(p *Panel) error {
	p.Wires.Nets = slices.DeleteFunc(p.Wires.Nets, func(w NetWish) bool { return w.Net == e.Net })
	if e.NetWish != (NetWish{Net: e.Net}) {
		p.Wires.Nets = append(p.Wires.Nets, e.NetWish)
	}
	return nil
}
