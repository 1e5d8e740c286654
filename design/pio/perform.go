package pio

import "math/bits"

// perform does what an operation does in one cycle, all but side-set, delay and the address after it.
// Machines see flags as they were when the cycle began (11.1.1) and never each other's outputs.
func (m *machine) perform(o *operation) outcome {
	b := m.block
	switch o.do {
	case doInPins:
		return m.in(o, bits.RotateLeft32(b.wires.at(b.now), -m.config.InBase)&m.inMask)
	case doIn:
		return m.in(o, m.source(o.from))
	case doOut:
		return m.out(o)
	case doPush:
		return m.push(o)
	case doPull:
		return m.pull(o)
	case doMove:
		return m.move(o)
	case doWaitPins:
		return m.unless(b.wires.at(b.now)&o.mask == o.want, blockedPins)
	case doWaitFlag:
		return m.waitFlag(o)
	case doFlagWait:
		return m.flagWait(o)
	case doFlagRaise:
		b.raise |= o.mask
	case doFlagClear:
		b.lower |= o.mask
	case doSetX:
		m.x = o.want
	case doSetY:
		m.y = o.want
	case doSetLevels:
		m.write(false, o.mask, o.want)
	case doSetDirections:
		m.write(true, o.mask, o.want)
	case doPutRegister:
		m.rx.words[m.register(o)] = m.isr
	case doGetRegister:
		m.osr, m.outCount = m.rx.words[m.register(o)], 0
	case doSpinX:
		return m.spin(o, &m.x)
	case doSpinY:
		return m.spin(o, &m.y)
	default:
		return m.jump(o)
	}
	return goOn
}

// jump decides a jump that is not to itself; a counter is lowered whether or not it was 0 (3.4.2).
func (m *machine) jump(o *operation) outcome {
	var taken bool
	switch o.do {
	case doJump:
		taken = true
	case doJumpXZero:
		taken = m.x == 0
	case doJumpXDec:
		taken = m.x != 0
		m.x--
	case doJumpYZero:
		taken = m.y == 0
	case doJumpYDec:
		taken = m.y != 0
		m.y--
	case doJumpXNotY:
		taken = m.x != m.y
	case doJumpPin:
		taken = m.block.wires.at(m.block.now)&o.mask != 0
	case doJumpOSR:
		taken = m.outCount < m.pullAt
	}
	if taken {
		m.pc = o.target
		return jumped
	}
	return goOn
}

// spin does as many rounds of "here: jmp x-- here" as end before the run does: nothing else changes in
// them.
func (m *machine) spin(o *operation, counter *uint32) outcome {
	rounds := uint64(*counter)
	if rounds == 0 {
		*counter--
		return goOn
	}
	if limit := m.block.spinTo << partBits; limit > m.due+o.cost {
		rounds = min(rounds, (limit-1-m.due)/o.cost+1)
	} else {
		rounds = 1
	}
	*counter -= uint32(rounds)
	m.due += (rounds - 1) * o.cost
	m.pc = o.target
	return jumped
}

// unless stalls on what, until done.
func (m *machine) unless(done bool, what blockage) outcome {
	if done {
		return goOn
	}
	m.blocked = what
	return stall
}

// waitFlag lowers the flag that it waited for to be high (3.4.3).
func (m *machine) waitFlag(o *operation) outcome {
	if m.block.flags&o.mask != o.want {
		m.blocked = blockedFlags
		return stall
	}
	if o.clears {
		m.block.lower |= o.mask
	}
	return goOn
}

// flagWait raises the flag in its first cycle and waits from its second for it to be low (3.4.9).
func (m *machine) flagWait(o *operation) outcome {
	if !m.raised {
		m.block.raise |= o.mask
		m.raised = true
		return m.unless(false, blockedTick)
	}
	return m.unless(m.block.flags&o.mask == 0, blockedFlags)
}

// register is the place that mov to or from rxfifo[] means (11.4.8).
func (m *machine) register(o *operation) uint8 {
	if o.indexed {
		return o.target
	}
	return uint8(m.y & 3)
}

// source returns the value of a source of in or mov. Open: reserved sources; here they are 0.
func (m *machine) source(code uint8) uint32 {
	switch code {
	case codePins:
		return bits.RotateLeft32(m.block.wires.at(m.block.now), -m.config.InBase) & m.inMask
	case codeX:
		return m.x
	case codeY:
		return m.y
	case codeISR:
		return m.isr
	case codeOSR:
		return m.osr
	}
	return 0
}

// status is the source of that name of mov (3.4.8; 11.4.10).
func (m *machine) status() uint32 {
	level := m.config.StatusLevel
	var is bool
	switch m.config.Status {
	case StatusTX:
		is = int(m.tx.level) < level
	case StatusRX:
		is = int(m.rx.level) < level
	case StatusFlag:
		is = level < 8 && m.block.flags>>level&1 != 0
	}
	return -bit(is)
}

// move does mov (3.4.8). Open: operation 3; here it is none.
func (m *machine) move(o *operation) outcome {
	var v uint32
	if o.from == codeStatus {
		v = m.status()
	} else {
		v = m.source(o.from)
	}
	switch o.transform {
	case 1:
		v = ^v
	case 2:
		v = bits.Reverse32(v)
	}
	switch o.to {
	case codePins:
		m.write(false, m.outMask, place(v, m.config.OutBase)&m.outMask)
	case codeX:
		m.x = v
	case codeY:
		m.y = v
	case codeMoveDirections:
		if m.block.version == RP2350 {
			m.write(true, m.outMask, place(v, m.config.OutBase)&m.outMask)
		}
	case codeMoveExec:
		m.fill(uint16(v))
		return execute
	case codePC:
		m.pc = uint8(v & 31)
		return jumped
	case codeISR:
		m.isr, m.inCount = v, 0
	case codeOSR:
		m.osr, m.outCount = v, 0
	}
	return goOn
}
