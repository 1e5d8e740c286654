package pio

import "math/bits"

// Signals are what a run may be stopped by.
type Signals struct {
	RX    uint32 // a word from machine n, if bit n is set
	Flags uint32 // a flag raised by a machine
}

// Run runs the block for a number of cycles.
func (b *Block) Run(cycles uint64) { b.RunUntil(cycles, Signals{}) }

// RunUntil runs the block for a number of cycles, or until just after the first cycle in which one of
// the signals is given. It returns how many cycles it ran.
//
// Cycles in which nothing can change cost no time: delays, divided clocks, stalls on inputs that stay,
// on flags and on queues, rounds of a jump that counts down to itself, and when a machine has the block
// to itself, circles of a program through the same states on the same inputs.
func (b *Block) RunUntil(cycles uint64, s Signals) uint64 {
	start := b.now
	end := start + min(cycles, Forever-1-start)
	b.stopRX, b.stopFlag, b.stopped = s.RX, s.Flags, false
	active, sticky := b.rouse(end)
	b.spinTo = end
	one := bits.OnesCount32(active) == 1
	if !one && s != (Signals{}) {
		b.spinTo = 0
	}
	switch {
	case sticky:
		b.crawl(end)
	case one:
		b.runOne(&b.machines[bits.TrailingZeros32(active)], end)
	default:
		b.runAll(end)
	}
	if b.stopped {
		end = b.now + 1
	}
	b.now = end
	if end > start {
		b.wires.settle(end - 1)
	}
	return end - start
}

// rouse lets stalled machines try again after what the processor may have done, and has OSRs that are
// due to be filled during a delay filled, if that is before end.
func (b *Block) rouse(end uint64) (active uint32, sticky bool) {
	for n := range b.machines {
		m := &b.machines[n]
		if !m.enabled && !m.forced {
			continue
		}
		active |= 1 << n
		sticky = sticky || m.config.Sticky
		if m.stalled {
			m.wake(b.now)
		}
		if m.config.AutoPull && m.outCount >= m.pullAt && !m.tx.empty() {
			tick := (m.due - m.ticks(b.now)*m.period) >> partBits
			if tick < end && tick < m.next {
				m.refill()
			}
		}
	}
	return active, sticky
}

// runOne runs a machine that has the block to itself.
func (b *Block) runOne(m *machine, end uint64) {
	b.watch = watch{}
	for m.next < end && !b.stopped {
		b.now = m.next
		m.step()
		if b.drive != b.wires.written || b.raise|b.lower != 0 {
			if _, drive := b.commit(); drive && m.stalled && m.blocked == blockedPins {
				m.wake(b.wires.nextSeen(b.now))
			}
		}
		if m.pc <= m.last && m.next < end && !m.stalled && !m.latched && !b.stopped {
			b.round(m, end)
		}
	}
}

// runAll goes from each cycle in which a machine does something to the next.
func (b *Block) runAll(end uint64) {
	for !b.stopped {
		now := uint64(never)
		for n := range b.machines {
			now = min(now, b.machines[n].next)
		}
		if now >= end {
			return
		}
		b.now = now
		for n := range b.machines {
			if m := &b.machines[n]; m.next == now {
				m.step()
			}
		}
		b.spread()
	}
}

// crawl goes cycle by cycle, for outputs that are written again in each.
func (b *Block) crawl(end uint64) {
	for ; b.now < end; b.now++ {
		for n := range b.machines {
			m := &b.machines[n]
			if m.enabled && m.config.Sticky {
				m.assert()
			}
			if m.next == b.now {
				m.step()
			}
		}
		if b.spread(); b.stopped {
			return
		}
	}
}

// commit ends a cycle: outputs go to the pins, flags to the next cycle. Open: a flag that is raised
// and lowered in one cycle; here it is raised.
func (b *Block) commit() (flags, drive bool) {
	if drive = b.drive != b.wires.written; drive {
		b.wires.put(b.now, b.drive)
	}
	if flags = b.raise|b.lower != 0; flags {
		b.flags = b.flags&^b.lower | b.raise
		if b.raise&b.stopFlag != 0 {
			b.stopped = true
		}
		b.raise, b.lower = 0, 0
	}
	return flags, drive
}

// spread is commit among several machines: those that stall on flags or inputs may go on.
func (b *Block) spread() {
	flags, drive := b.commit()
	if !flags && !drive {
		return
	}
	for n := range b.machines {
		m := &b.machines[n]
		switch {
		case !m.stalled || !m.enabled && !m.forced:
		case flags && m.blocked == blockedFlags:
			m.wake(b.now + 1)
		case drive && m.blocked == blockedPins:
			if from := b.wires.nextSeen(b.now); from < m.next {
				m.wake(from)
			}
		}
	}
}
