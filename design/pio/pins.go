package pio

// A Drive is what a block puts on its GPIOs: directions have a 1 for an output.
type Drive struct{ Levels, Directions uint32 }

// Pins are what a block's GPIOs are wired to.
type Pins interface {
	// Levels returns the levels at the pads in cycle now, while the block drives d, and the cycle until
	// which they stay so unless d changes. The block asks at its first cycle, whenever d changes, at each
	// until, and after Block.PinsChanged; the cycles it names never go back. A time that is not after now
	// means the cycle after now; Forever means that only d can change them.
	Levels(now uint64, d Drive) (levels uint32, until uint64)
}

// Forever is later than any cycle.
const Forever = 1 << 55

// outputDelay and inputDelay are cycles from an instruction to its pads, and from the pads through the
// two flip-flops of the synchroniser: together the 4 of 3.5.6, of which a bypass saves 2. Open: the
// data sheet gives the sum alone.
const (
	outputDelay = 2
	inputDelay  = 2
)

// wires carry outputs to the pads and levels back. They work only when asked, so that cycles in which
// nothing changes cost nothing; what they know is right for cycles before next.
type wires struct {
	pins    Pins
	exists  uint32 // GPIOs that the chip has
	drive   Drive  // at the pads
	written Drive  // last written by an instruction
	coming  Drive  // reaches the pads at comes; never is none
	comes   uint64
	later   Drive // and this one after it
	follows uint64
	level   [3]uint32 // at the pads: now, before the last change, before the one before
	since   [2]uint64 // cycles of these changes
	until   uint64
	next    uint64 // the first cycle in which the pads may change; past cycles are settled
	steady  uint64 // from this cycle on, the synchronisers hold level[0]
	asked   uint64 // how often
	bypass  uint32
}

func newWires(pins Pins, v Version) wires {
	w := wires{pins: pins, exists: 1<<30 - 1, comes: never, follows: never}
	if v == RP2350 {
		w.exists = 1<<32 - 1
	}
	return w
}

// at returns the inputs as the machines see them in cycle now. Before its first cycle a block saw what
// it sees in that one.
func (w *wires) at(now uint64) uint32 {
	if now < w.next && now >= w.steady {
		return w.level[0]
	}
	w.settle(now)
	then := now - min(now, inputDelay)
	return w.atPads(now)&w.bypass | w.atPads(then)&^w.bypass
}

// atPads returns the levels of a cycle at most inputDelay before what is settled.
func (w *wires) atPads(cycle uint64) uint32 {
	switch {
	case cycle >= w.since[0]:
		return w.level[0]
	case cycle >= w.since[1]:
		return w.level[1]
	}
	return w.level[2]
}

// settle asks for the levels of all cycles to now.
func (w *wires) settle(now uint64) {
	for w.next <= now {
		cycle := w.next
		if w.comes == cycle {
			w.drive = w.coming
			w.coming, w.comes, w.follows = w.later, w.follows, never
		}
		levels, until := w.pins.Levels(cycle, w.drive)
		w.asked++
		w.change(cycle, levels&w.exists)
		w.until = min(max(until, cycle+1), Forever)
		w.next = min(w.until, w.comes)
	}
}

func (w *wires) change(cycle uint64, levels uint32) {
	switch {
	case cycle == 0:
		w.level = [3]uint32{levels, levels, levels}
	case cycle == w.since[0]: // asked again
		w.level[0] = levels
	case levels != w.level[0]:
		w.level = [3]uint32{levels, w.level[0], w.level[1]}
		w.since = [2]uint64{cycle, w.since[0]}
		w.steady = cycle + inputDelay
	}
}

// put sends what was written in cycle now on its way. At most two can be under way, those of this
// cycle and of the one before: older ones are settled first.
func (w *wires) put(now uint64, d Drive) {
	w.written = d
	if w.next <= now {
		w.settle(now)
	}
	at := now + outputDelay
	if w.comes >= at {
		w.coming, w.comes = d, at
		w.next = min(w.next, at)
	} else {
		w.later, w.follows = d, at
	}
}

// changed makes the wires ask again in cycle now.
func (w *wires) changed(now uint64) {
	w.until, w.next = now, now
}

// nextSeen returns the first cycle after now in which a machine may see other inputs, if nothing is
// written meanwhile. The cycle now must be settled.
func (w *wires) nextSeen(now uint64) uint64 {
	if now < w.steady {
		return now + 1
	}
	if w.bypass != 0 {
		return w.next
	}
	return w.next + inputDelay
}
