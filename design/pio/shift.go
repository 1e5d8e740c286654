package pio

func (m *machine) inPins(o *operation) outcome { return m.shiftIn(o, m.inputs()) }

func (m *machine) in(o *operation) outcome { return m.shiftIn(o, m.source(o.from)) }

// shiftIn shifts, counts, and pushes when the threshold is reached (3.4.4, 3.5.4). Open: what a stalled
// autopush shows of the ISR; here it has been shifted, once.
func (m *machine) shiftIn(o *operation, v uint32) outcome {
	if !m.stalled {
		n := o.count
		if m.config.InShift == Right {
			m.isr = m.isr>>n | v<<(32-n)
		} else {
			m.isr = m.isr<<n | v&uint32(1<<n-1)
		}
		m.inCount = min(m.inCount+n, 32)
	}
	if !m.config.AutoPush || m.inCount < m.pushAt {
		return goOn
	}
	if m.rx.full() {
		m.block.debug |= RXStall << m.number
		return m.unless(false, blockedQueue)
	}
	m.deliver()
	return goOn
}

// deliver puts the ISR into the queue to the processor and empties it.
func (m *machine) deliver() {
	m.rx.put(m.isr)
	m.isr, m.inCount = 0, 0
	if m.block.stopRX>>m.number&1 != 0 {
		m.block.stopped = true
	}
}

// push does push (3.4.6).
func (m *machine) push(o *operation) outcome {
	switch {
	case o.only && m.inCount < m.pushAt:
	case !m.rx.full():
		m.deliver()
	case o.block:
		m.block.debug |= RXStall << m.number
		return m.unless(false, blockedQueue)
	default:
		m.block.debug |= RXStall << m.number
		m.isr, m.inCount = 0, 0
	}
	return goOn
}

// pull does pull (3.4.7). Open: with autopull, "OSR full" is read as not yet shifted out to the
// threshold.
func (m *machine) pull(o *operation) outcome {
	switch {
	case (o.only || m.config.AutoPull) && m.outCount < m.pullAt:
	case !m.tx.empty():
		m.osr, m.outCount = m.tx.take(), 0
	case o.block:
		m.block.debug |= TXStall << m.number
		return m.unless(false, blockedQueue)
	default:
		m.osr, m.outCount = m.x, 0
	}
	return goOn
}

// out shifts the OSR out (3.4.5). With autopull, an OSR that is shifted out to the threshold is filled
// in one cycle and used in a later one; after the last bits it is filled in the same cycle (3.5.4).
func (m *machine) out(o *operation) outcome {
	if m.config.AutoPull && m.outCount >= m.pullAt {
		if m.tx.empty() {
			m.block.debug |= TXStall << m.number
			return m.unless(false, blockedQueue)
		}
		m.refill()
		return m.unless(false, blockedTick)
	}
	n := o.count
	var v uint32
	if m.config.OutShift == Right {
		v = m.osr & uint32(1<<n-1)
		m.osr >>= n
	} else {
		v = m.osr >> (32 - n)
		m.osr <<= n
	}
	m.outCount = min(m.outCount+n, 32)
	if m.config.AutoPull {
		m.refill()
	}
	return m.deal(o, v)
}

// deal sends what was shifted out to its destination.
func (m *machine) deal(o *operation, v uint32) outcome {
	switch o.to {
	case codePins, codeDirections:
		mask := m.outMask
		if m.config.OutEnable && v>>m.config.OutEnableBit&1 == 0 {
			mask = 0
		}
		m.write(o.to == codeDirections, mask, place(v, m.config.OutBase)&mask)
	case codeX:
		m.x = v
	case codeY:
		m.y = v
	case codePC:
		m.pc = uint8(v & 31)
		return jumped
	case codeISR:
		m.isr, m.inCount = v, o.count
	case codeOutExec:
		m.fill(uint16(v))
		return execute
	}
	return goOn
}

// write sets levels or directions, and holds them when they are sticky (3.5.6, 3.7).
func (m *machine) write(directions bool, mask, bits uint32) {
	if m.config.Sticky {
		m.held[bit(directions)] = pinWrite{mask, bits}
	}
	m.block.write(directions, mask, bits)
}

// assert writes again what is held.
func (m *machine) assert() {
	for kind, h := range m.held {
		m.block.write(kind == 1, h.mask, h.bits)
	}
}
