package pio

import "math/bits"

// An action is what an operation does in one cycle, all but side-set, delay and the address after it.
// As much as possible is decided when a word is decoded.
type action func(*machine, *operation) outcome

// An operation is a word of memory as one machine with its registers understands it.
type operation struct {
	do        action
	isOut     bool
	spins     bool  // jumps to itself, and does nothing beside
	count     uint8 // bits to shift
	from, to  uint8 // codes of source and destination
	transform uint8 // of mov
	next      uint8 // address after this one
	target    uint8 // of a jump; place of a register
	only      bool  // iffull, ifempty, or a register chosen by y
	block     bool
	indexed   bool
	clears    bool // wait irq lowers the flag
	sideKind  sideKind
	mask      uint32 // GPIOs, or a flag
	want      uint32 // of those masked; data of set
	sideMask  uint32
	side      uint32
	cost      uint64 // time to the next operation, in parts of a cycle
}

type sideKind uint8

const (
	sideNone sideKind = iota
	sideLevels
	sideDirections
)

// decode works out a word that stands at address, for the machine's registers.
func (m *machine) decode(word uint16, address int) operation {
	c := &m.config
	value, drives, delay := c.Side.sideOf(word)
	o := operation{do: (*machine).nothing, next: uint8(address+1) & 31, cost: m.period * uint64(1+delay)}
	if address == c.Wrap {
		o.next = uint8(c.WrapTarget)
	}
	if drives {
		o.sideKind = sideLevels
		if c.Side.Directions {
			o.sideKind = sideDirections
		}
		o.sideMask, o.side = run(c.SideBase, c.Side.Pins), place(uint32(value), c.SideBase)
	}
	low := int(word & 31)
	middle := uint8(word>>5) & 7
	o.count = uint8(low)
	if low == 0 {
		o.count = 32
	}
	switch word >> 13 {
	case opJump:
		o.do, o.target, o.mask = jumps[middle], uint8(low), 1<<c.JumpPin
		o.spins = low == address && !drives
	case opWait:
		m.decodeWait(&o, middle&3, low, uint32(middle>>2))
	case opIn:
		o.do, o.from = (*machine).in, middle
		if middle == codePins {
			o.do = (*machine).inPins
		}
	case opOut:
		o.do, o.to, o.isOut = (*machine).out, middle, true
	case opPushPull:
		m.decodeQueue(&o, word)
	case opMove:
		o.do, o.to, o.from, o.transform = (*machine).move, middle, uint8(low)&7, uint8(low)>>3
	case opIRQ:
		m.decodeFlag(&o, word)
	case opSet:
		m.decodeSet(&o, middle, uint32(low))
	}
	return o
}

// run returns count GPIOs from base on, which wraps after 31 (3.5.6).
func run(base, count int) uint32 { return place(ones(count), base) }

// place moves bit 0 to GPIO base.
func place(value uint32, base int) uint32 { return bits.RotateLeft32(value, base) }

// ones returns the lowest count bits set.
func ones(count int) uint32 { return uint32(1<<count - 1) }

func (m *machine) decodeWait(o *operation, source uint8, index int, polarity uint32) {
	o.do = (*machine).waitPins
	switch source {
	case waitGPIO:
		o.mask = 1 << index
	case waitPin:
		o.mask = place(1<<index&ones(m.config.InCount), m.config.InBase)
	case waitJumpPin:
		o.mask = place(1, m.config.JumpPin+index&3)
		if m.block.version == RP2040 {
			o.do = (*machine).nothing
		}
	case waitIRQ:
		o.do, o.mask = (*machine).waitFlag, m.flagMask(index)
		o.clears = polarity == 1
	}
	o.want = -polarity & o.mask
	if polarity == 1 && o.mask == 0 {
		o.want = 1 // of no bit: never
	}
}

// flagMask returns the flag that an index means, or none for one of a neighbouring block: this
// emulator has but one, and takes its neighbours' flags for low.
func (m *machine) flagMask(index int) uint32 {
	switch mode := index >> 3; {
	case m.block.version == RP2040 && index&16 == 0, mode == hereFlags:
		return 1 << (index & 7)
	case m.block.version == RP2040 || mode == relativeFlags:
		return 1 << (index&4 | (index+m.number)&3)
	}
	return 0
}

func (m *machine) decodeQueue(o *operation, word uint16) {
	o.only, o.block = word&ifBit != 0, word&blockBit != 0
	pull := word&0x80 != 0
	j := m.config.Join
	switch {
	case word&31 == 0 && pull:
		o.do = (*machine).pull
	case word&31 == 0:
		o.do = (*machine).push
	case m.block.version == RP2040 || word&queueMove == 0:
	case pull && (j == JoinGet || j == JoinPutGet):
		o.do = (*machine).getRegister
	case !pull && (j == JoinPut || j == JoinPutGet):
		o.do = (*machine).putRegister
	}
	o.indexed, o.target = word&indexBit != 0, uint8(word&3)
}

func (m *machine) decodeFlag(o *operation, word uint16) {
	o.mask = m.flagMask(int(word & 31))
	switch {
	case word&0x80 != 0:
	case word&clearBit != 0:
		o.do = (*machine).flagClear
	case word&waitBit != 0:
		o.do = (*machine).flagWait
	default:
		o.do = (*machine).flagRaise
	}
}

func (m *machine) decodeSet(o *operation, destination uint8, data uint32) {
	o.want = data
	switch destination {
	case codeX:
		o.do = (*machine).setX
	case codeY:
		o.do = (*machine).setY
	case codePins, codeDirections:
		o.do = (*machine).setLevels
		if destination == codeDirections {
			o.do = (*machine).setDirections
		}
		o.mask = run(m.config.SetBase, m.config.SetCount)
		o.want = place(data, m.config.SetBase) & o.mask
	}
}
