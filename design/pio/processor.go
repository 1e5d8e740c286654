package pio

// Put gives a word to a machine. When its queue is full the word is lost, TXOver is set and Put returns
// false.
func (b *Block) Put(number int, word uint32) bool {
	m := &b.machines[number]
	if m.tx.full() {
		b.debug |= TXOver << number
		return false
	}
	m.tx.put(word)
	return true
}

// Get takes the oldest word of a machine. When there is none, RXUnder is set and Get returns false.
func (b *Block) Get(number int) (uint32, bool) {
	m := &b.machines[number]
	if m.rx.empty() {
		b.debug |= RXUnder << number
		return 0, false
	}
	return m.rx.take(), true
}

// Waiting returns how many words wait for a machine and how many from it.
func (b *Block) Waiting(number int) (tx, rx int) {
	m := &b.machines[number]
	return int(m.tx.level), int(m.rx.level)
}

// Register returns place 0 to 3 of a machine's queue in the put and get modes (11.4.8).
func (b *Block) Register(number, place int) uint32 { return b.machines[number].rx.words[place&3] }

// SetRegister is the opposite of Register.
func (b *Block) SetRegister(number, place int, word uint32) {
	b.machines[number].rx.words[place&3] = word
}

// Debug returns what has happened to the queues since it was last cleared: RXStall and its like.
func (b *Block) Debug() uint32 { return b.debug }

// ClearDebug clears the bits of mask; a machine that still stalls sets its own again.
func (b *Block) ClearDebug(mask uint32) { b.debug &^= mask }

// Flags returns the eight interrupt flags.
func (b *Block) Flags() uint32 { return b.flags }

// RaiseFlags sets the flags of mask.
func (b *Block) RaiseFlags(mask uint32) { b.flags |= mask & 0xff }

// ClearFlags clears the flags of mask.
func (b *Block) ClearFlags(mask uint32) { b.flags &^= mask }

// Execute has a machine execute a word at once, enabled or not, whatever its divider and delay say;
// the address stays unless the word jumps (3.5.7). It returns false if the word stalls: then it is
// tried again at each tick of the machine, enabled or not, and the program goes on after it.
//
// Open: which cycle that is; here it lies between two. Open: delays; here those of the word count only
// if it stalls, and then those of the instruction before it are forgotten. Open: an autopush or irq
// wait that a stalled word interrupts while it is itself stalled; here that begins anew.
func (b *Block) Execute(number int, word uint16) bool {
	m := &b.machines[number]
	left, slept := m.pause(b.now), m.next == never
	tick := m.due
	if m.forced { // a stalled one gives way
		left, slept, m.paused = 0, !m.enabled, 0
		m.stalled, m.raised, m.latched = false, false, false
	}
	wasStalled, wasRaised, wasLatched, latch := m.stalled, m.raised, m.latched, m.word
	m.fill(word)
	m.latch.next = m.pc
	m.latched, m.forced, m.stalled, m.raised = true, false, false, false
	m.due = tick - m.period
	m.step()
	b.commit()
	m.forced = m.latched
	switch {
	case m.stalled:
		m.due = tick
		m.next = tick >> partBits
		return false
	case m.latched:
		return true
	case wasLatched:
		m.fill(latch)
		m.latch.next, m.latched = m.pc, true
	}
	m.stalled, m.raised = wasStalled, wasRaised
	m.due, m.next = tick, never
	if !slept {
		m.resume(left)
	}
	return true
}

// A State is what can be read of a machine between two cycles.
type State struct {
	PC                int // address of the next instruction
	At                int // address of the instruction that is stalled, in its delay or just done
	X, Y, ISR, OSR    uint32
	InCount, OutCount int // bits shifted in and out
	Stalled           bool
	Latched           bool // an instruction from mov exec, out exec or Execute is next
}

// State returns the registers of a machine.
func (b *Block) State(number int) State {
	m := &b.machines[number]
	return State{
		PC: int(m.pc), At: int(m.last), X: m.x, Y: m.y, ISR: m.isr, OSR: m.osr,
		InCount: int(m.inCount), OutCount: int(m.outCount), Stalled: m.stalled, Latched: m.latched,
	}
}
