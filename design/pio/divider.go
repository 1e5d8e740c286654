package pio

// A Divider slows a machine to one tick in Whole + Frac/256 cycles. Whole is 1 to 65536; with 65536
// Frac must be 0 (3.5.5).
type Divider struct{ Whole, Frac int }

func (d Divider) parts() int { return d.Whole*256 + d.Frac }

// Times of ticks are kept in parts of 1/256 cycle: a tick falls into the cycle that holds its time.
// The parts below a cycle are then the running sum of Frac, which lengthens the next period by one
// cycle whenever it wraps, as the data sheet has it (3.5.5).
const partBits = 8

// first moves due to the machine's first tick in cycle from or later.
func (m *machine) first(from uint64) {
	if at := from << partBits; m.due < at {
		m.due += (at - m.due + m.period - 1) / m.period * m.period
	} else {
		m.due -= m.ticks(from) * m.period
	}
}

// ticks returns how many ticks come in cycle from or later and before due.
func (m *machine) ticks(from uint64) uint64 {
	at := max(from<<partBits, m.paced)
	if m.due < at {
		return 0
	}
	return (m.due - at) / m.period
}

// pace has the machine tick at due, and from then on with the divider of its registers.
func (m *machine) pace(due uint64) {
	m.due, m.paced = due, due
	m.period = uint64(m.config.Divider.parts())
}

// pause makes due the machine's first tick in cycle now or later, and returns how many ticks it still
// lets pass before it executes.
func (m *machine) pause(now uint64) (left uint64) {
	if m.next != never && !m.stalled {
		left = m.ticks(now)
	}
	m.first(now)
	return left
}

// resume is the opposite of pause.
func (m *machine) resume(left uint64) {
	m.due += left * m.period
	m.next = m.due >> partBits
}
