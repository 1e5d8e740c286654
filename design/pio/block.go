package pio

import "fmt"

// A Block is one block of four machines that share a memory, eight flags and the pins. It starts with
// cycle 0. Its methods are what a processor does between two cycles; they take no time of their own.
// All panic on a machine, address or register value that does not exist.
//
// Left out: direct memory access, the lines to the interrupt controller (see RunUntil and Flags), the
// shift of the 32 GPIOs by GPIOBASE, and neighbouring blocks, whose flags are taken for low.
type Block struct {
	version  Version
	memory   [Memory]uint16
	machines [Machines]machine
	now      uint64 // the cycle that comes next, or while running the one that is
	flags    uint32
	raise    uint32 // in this cycle
	lower    uint32
	drive    Drive
	debug    uint32
	wires    wires
	spinTo   uint64 // cycle before which a machine may count rounds without leave of the others
	stopRX   uint32
	stopFlag uint32
	stopped  bool
	watch    watch
	skipped  uint64 // cycles that were the same as earlier ones
}

// Bits of Debug, for machine 0; those of machine n are n places higher. Names and places are FDEBUG's
// of the SDK's pio.h.
const (
	RXStall uint32 = 1 << 0
	RXUnder uint32 = 1 << 8
	TXOver  uint32 = 1 << 16
	TXStall uint32 = 1 << 24
)

// New returns a block as after reset, with memory full of jumps to address 0, and all machines stopped
// at address 0 with DefaultConfig.
func New(v Version, pins Pins) *Block {
	b := &Block{version: v, wires: newWires(pins, v)}
	for i := range b.machines {
		m := &b.machines[i]
		m.block, m.number = b, i
		m.next = never
		m.configure(DefaultConfig())
		m.restart()
	}
	return b
}

// Load writes words into memory from an address on. Open: a change of the word that a machine is
// stalled on; here the machine tries the new word.
func (b *Block) Load(words []uint16, address int) {
	if address < 0 || address+len(words) > Memory {
		panic(fmt.Sprintf("pio: %d words do not fit at address %d", len(words), address))
	}
	for i, w := range words {
		b.memory[address+i] = w
		for n := range b.machines {
			m := &b.machines[n]
			m.ops[address+i] = m.decode(w, address+i)
		}
	}
}

// Configure sets all registers of a machine, which goes on where it is. A join that differs empties
// both queues (3.5.4). Open: when a new divider takes effect; here it is after the period that runs.
func (b *Block) Configure(number int, c Config) {
	c.check(b.version)
	m := &b.machines[number]
	left := m.paused
	if m.next != never {
		left = m.pause(b.now)
	} else {
		m.first(b.now)
	}
	m.configure(c)
	if m.next != never {
		m.resume(left)
	}
}

// Enable sets which machines run: machine n if bit n of mask is set. A machine that stops keeps its
// place within an instruction and its delay; its divider runs on.
func (b *Block) Enable(mask uint32) {
	for n := range b.machines {
		m := &b.machines[n]
		on := mask>>n&1 != 0
		switch {
		case on == m.enabled || m.forced:
		case on:
			m.first(b.now)
			m.resume(m.paused)
		default:
			m.paused = m.pause(b.now)
			m.next = never
		}
		m.enabled = on
	}
}

// Enabled returns which machines run.
func (b *Block) Enabled() (mask uint32) {
	for n := range b.machines {
		mask |= bit(b.machines[n].enabled) << n
	}
	return mask
}

// Restart clears what SM_RESTART clears in the machines of mask: ISR, both shift counters, delay, the
// wait of an irq, a latched instruction and a sticky output. Address, OSR, X and Y stay.
func (b *Block) Restart(mask uint32) {
	for n := range b.machines {
		m := &b.machines[n]
		if mask>>n&1 == 0 {
			continue
		}
		m.pause(b.now)
		m.restart()
		m.paused, m.next = 0, never
		if m.enabled {
			m.resume(0)
		}
	}
}

// RestartClocks has the dividers of the machines of mask begin a period in the coming cycle, which is
// a tick of all of them.
func (b *Block) RestartClocks(mask uint32) {
	for n := range b.machines {
		m := &b.machines[n]
		if mask>>n&1 == 0 {
			continue
		}
		left := m.pause(b.now)
		m.pace(b.now << partBits)
		if m.next != never {
			m.resume(left)
		}
	}
}

// Now returns the number of the cycle that comes next.
func (b *Block) Now() uint64 { return b.now }

// PinsChanged says that Pins.Levels may now answer otherwise than it foretold.
func (b *Block) PinsChanged() { b.wires.changed(b.now) }

// BypassSynchronisers sets which GPIOs are read without the two cycles of their synchronisers.
func (b *Block) BypassSynchronisers(mask uint32) { b.wires.bypass = mask }

// Drive returns what the block has last written; it is at the pads from two cycles later on.
func (b *Block) Drive() Drive { return b.drive }

// write sets the GPIOs of mask. Machines write in the order of their numbers, so that the highest one
// has its way (3.5.6).
func (b *Block) write(directions bool, mask, bits uint32) {
	if directions {
		b.drive.Directions = b.drive.Directions&^mask | bits
	} else {
		b.drive.Levels = b.drive.Levels&^mask | bits
	}
}
