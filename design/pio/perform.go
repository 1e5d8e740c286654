package pio

import "math/bits"

// The actions. Machines see flags as they were when the cycle began (11.1.1) and never each other's
// outputs.

// nothing is also what words do that the data sheet reserves. Open: what they do.
func (m *machine) nothing(*operation) outcome { return goOn }

// waitPins waits for a level at a GPIO (3.4.3).
func (m *machine) waitPins(o *operation) outcome {
	return m.unless(m.block.wires.at(m.block.now)&o.mask == o.want, blockedPins)
}

func (m *machine) flagRaise(o *operation) outcome {
	m.block.raise |= o.mask
	return goOn
}

func (m *machine) flagClear(o *operation) outcome {
	m.block.lower |= o.mask
	return goOn
}

func (m *machine) setX(o *operation) outcome {
	m.x = o.want
	return goOn
}

func (m *machine) setY(o *operation) outcome {
	m.y = o.want
	return goOn
}

func (m *machine) setLevels(o *operation) outcome {
	m.write(false, o.mask, o.want)
	return goOn
}

func (m *machine) setDirections(o *operation) outcome {
	m.write(true, o.mask, o.want)
	return goOn
}

// putRegister and getRegister are mov to and from rxfifo[] (11.4.8, 11.4.9).
func (m *machine) putRegister(o *operation) outcome {
	m.rx.words[m.register(o)] = m.isr
	return goOn
}

func (m *machine) getRegister(o *operation) outcome {
	m.osr, m.outCount = m.rx.words[m.register(o)], 0
	return goOn
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

// inputs returns the pins as in, mov and wait pin see them (3.5.6).
func (m *machine) inputs() uint32 {
	return bits.RotateLeft32(m.block.wires.at(m.block.now), -m.config.InBase) & m.inMask
}

// source returns the value of a source of in or mov. Open: reserved sources; here they are 0.
func (m *machine) source(code uint8) uint32 {
	switch code {
	case codePins:
		return m.inputs()
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
