package pio

// A machine is one state machine: its registers, its place in the program and in time.
type machine struct {
	block   *Block
	number  int
	config  Config
	enabled bool

	pc, last          uint8 // next address; address of the last operation
	inCount, outCount uint8 // shift counters, 0 to 32
	pushAt, pullAt    uint8
	x, y, isr, osr    uint32
	inMask            uint32
	outMask           uint32
	tx, rx            queue

	latched bool      // an operation out of the order of the program is next
	forced  bool      // and it came from the processor: it does not heed enable
	latch   operation // that one
	word    uint16    // and as a word
	stalled bool      // the next operation has been tried before
	raised  bool      // and is an irq wait that raised its flag
	blocked blockage  // on what
	held    [2]pinWrite

	period uint64 // of a tick, in parts of a cycle
	paced  uint64 // time of the first tick with that period
	due    uint64 // time of the next operation, in parts of a cycle; when it sleeps, of some past tick
	next   uint64 // cycle of the next operation; never while it waits for what only others can do
	paused uint64 // ticks until the next operation, kept while not enabled

	ops [Memory]operation
}

// A pinWrite is what Sticky writes again and again: levels, then directions.
type pinWrite struct{ mask, bits uint32 }

const never = Forever

// A blockage is what a stalled operation waits for.
type blockage uint8

const (
	blockedNot   blockage = iota
	blockedTick           // one tick more
	blockedPins           // other inputs
	blockedFlags          // other flags
	blockedQueue          // the processor
)

// An outcome is how an operation ended.
type outcome uint8

const (
	goOn    outcome = iota // to the next address
	jumped                 // the address is set
	execute                // the latch is filled; own delay is left out (3.5.7)
	stall
)

func (m *machine) configure(c Config) {
	old := m.config
	m.config = c
	m.pushAt, m.pullAt = uint8(c.PushAt), uint8(c.PullAt)
	m.inMask = ones(c.InCount)
	m.outMask = run(c.OutBase, c.OutCount)
	m.pace(m.due)
	if c.Join != old.Join || m.tx.depth|m.rx.depth == 0 {
		m.tx, m.rx = queue{}, queue{}
		m.tx.depth, m.rx.depth = c.Join.depths()
	}
	for at, w := range m.block.memory {
		m.ops[at] = m.decode(w, at)
	}
	if m.latched {
		m.fill(m.word)
		m.latch.next = m.pc
	}
}

// fill puts a word into the latch.
func (m *machine) fill(word uint16) { m.word, m.latch = word, m.decode(word, nowhere) }

// nowhere is the address of a word that is not in memory.
const nowhere = -1

// restart is SM_RESTART (3.7): it keeps the address, OSR, X and Y.
func (m *machine) restart() {
	m.isr, m.inCount, m.outCount = 0, 0, 32
	m.latched, m.forced, m.stalled, m.raised = false, false, false, false
	m.held = [2]pinWrite{}
}

// step executes the operation that is due, in cycle block.now.
func (m *machine) step() {
	o := &m.ops[m.pc]
	if m.latched {
		o = &m.latch
	} else {
		m.last = m.pc
	}
	next, cost := o.next, o.cost
	kind, mask, side := o.sideKind, o.sideMask, o.side
	first := !m.stalled
	wasOut := o.isOut
	result := o.do(m, o)
	// Side-set comes last: it beats what the instruction itself writes (3.5.1). Open: whether a stalled
	// instruction goes on setting its pins; here it sets them in its first cycle.
	if kind != sideNone && first {
		m.block.write(kind == sideDirections, mask, side)
	}
	if m.config.AutoPull && !wasOut {
		m.refill()
	}
	if result == stall {
		m.wait()
		return
	}
	m.stalled, m.raised = false, false
	m.latched = result == execute
	if result != jumped {
		m.pc = next
	}
	if m.latched {
		m.latch.next = m.pc
		cost = m.period
	}
	m.due += cost
	m.next = m.due >> partBits
	if m.forced {
		m.endForced()
	}
}

// endForced gives a machine that is not enabled back to its sleep.
func (m *machine) endForced() {
	m.forced = m.latched
	if !m.forced && !m.enabled {
		m.paused = m.pause(m.block.now + 1)
		m.next = never
	}
}

// refill is the autopull of a cycle that does not output (3.5.4).
func (m *machine) refill() {
	if m.outCount >= m.pullAt && !m.tx.empty() {
		m.osr, m.outCount = m.tx.take(), 0
	}
}

// wait puts a stalled machine to sleep until its operation may end otherwise.
func (m *machine) wait() {
	m.stalled = true
	now := m.block.now
	switch m.blocked {
	case blockedTick:
		m.wake(now + 1)
	case blockedPins:
		m.wake(m.block.wires.nextSeen(now))
	default:
		m.next = never
	}
}

// wake has a stalled machine try again at its first tick in cycle from or later.
func (m *machine) wake(from uint64) {
	m.next = never
	if from < never {
		m.first(from)
		m.next = m.due >> partBits
	}
}
