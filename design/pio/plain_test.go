package pio

import "math/bits"

// plain is a block written a second time, as the data sheet tells it: one cycle after the other, with
// flip-flops, counters and words that are looked at anew in each. It shares no code with Block but the
// types that describe registers.
type plain struct {
	version      Version
	memory       [32]uint16
	machines     [4]plainMachine
	now          uint64
	flags        uint32
	raise, lower uint32
	drive        Drive
	d1, d2       Drive // on their way to the pads
	s1, s2       uint32
	bypass       uint32
	debug        uint32
	pins         Pins
}

type plainMachine struct {
	c                        Config
	enabled, forced, latched bool
	stalled, raised          bool
	latch                    uint16
	x, y, isr, osr           uint32
	in, out, pc, delay       int
	tx, rx                   []uint32
	registers                [4]uint32
	count, sum               int // cycles to the next tick; running sum of the fraction
	held                     [2]pinWrite
}

func newPlain(v Version, pins Pins) *plain {
	b := &plain{version: v, pins: pins}
	for i := range b.machines {
		b.machines[i].c = DefaultConfig()
		b.machines[i].out = 32
	}
	return b
}

func (b *plain) pads() uint32 {
	levels, _ := b.pins.Levels(b.now, b.d2)
	if b.version == RP2040 {
		levels &= 0x3fffffff
	}
	if b.now == 0 {
		b.s1, b.s2 = levels, levels
	}
	return levels
}

func (b *plain) seen() uint32 { return b.pads()&b.bypass | b.s2&^b.bypass }

func (b *plain) run(cycles int) {
	for range cycles {
		seen := b.seen()
		for i := range b.machines {
			m := &b.machines[i]
			if m.enabled && m.c.Sticky {
				b.write(false, m.held[0].mask, m.held[0].bits)
				b.write(true, m.held[1].mask, m.held[1].bits)
			}
			if m.count == 0 && (m.enabled || m.forced) {
				b.tick(i, seen)
			}
		}
		b.endCycle()
	}
}

func (b *plain) endCycle() {
	b.commit()
	b.s1, b.s2 = b.pads(), b.s1
	b.d1, b.d2 = b.drive, b.d1
	for i := range b.machines {
		m := &b.machines[i]
		if m.count--; m.count < 0 {
			m.sum += m.c.Divider.Frac
			m.count = m.c.Divider.Whole - 1 + m.sum/256
			m.sum %= 256
		}
	}
	b.now++
}

func (b *plain) commit() {
	b.flags = b.flags&^b.lower | b.raise
	b.raise, b.lower = 0, 0
}

func (b *plain) tick(i int, seen uint32) {
	m := &b.machines[i]
	if m.delay > 0 && !m.forced {
		m.delay--
		m.background()
		return
	}
	b.execute(i, seen)
}

func (m *plainMachine) background() {
	if m.c.AutoPull && m.out >= m.c.PullAt && len(m.tx) > 0 {
		m.osr, m.tx, m.out = m.tx[0], m.tx[1:], 0
	}
}

// execute does one cycle of the next instruction.
func (b *plain) execute(i int, seen uint32) {
	m := &b.machines[i]
	word, latched := b.memory[m.pc], m.latched
	if latched {
		word = m.latch
	}
	first := !m.stalled
	p := plainStep{b: b, m: m, number: i, word: word, seen: seen, next: m.pc}
	if !latched {
		p.next = (m.pc + 1) % 32
		if m.pc == m.c.Wrap {
			p.next = m.c.WrapTarget
		}
	}
	p.instruction()
	delay := b.side(m, word, first)
	if word>>13 != 3 {
		m.background()
	}
	if p.stall {
		m.stalled = true
		return
	}
	m.stalled, m.raised, m.latched = false, false, p.exec
	m.forced = m.forced && p.exec
	m.pc, m.delay = p.next, delay
	if p.exec {
		m.delay = 0
	}
}

func (b *plain) side(m *plainMachine, word uint16, first bool) (delay int) {
	field, count := int(word>>8&31), m.c.Side.Pins
	width := 5 - count
	on := count > 0
	if m.c.Side.Optional {
		on = on && field&16 != 0
		field &= 15
		width = 4 - count
	}
	if on && first {
		var mask, level uint32
		for k := range count {
			pin := uint32(1) << ((m.c.SideBase + k) % 32)
			mask |= pin
			if field>>width>>k&1 != 0 {
				level |= pin
			}
		}
		b.write(m.c.Side.Directions, mask, level)
	}
	return field & (1<<width - 1)
}

func (b *plain) write(directions bool, mask, level uint32) {
	to := &b.drive.Levels
	if directions {
		to = &b.drive.Directions
	}
	*to = *to&^mask | level&mask
}

// plainStep is one cycle of one instruction.
type plainStep struct {
	b           *plain
	m           *plainMachine
	number      int
	word        uint16
	seen        uint32
	next        int
	stall, exec bool
}

func (p *plainStep) output(directions bool, base, count int, v uint32) {
	var mask, level uint32
	for k := range count {
		pin := (base + k) % 32
		mask |= 1 << pin
		level |= v >> k & 1 << pin
	}
	if p.m.c.Sticky {
		p.m.held[bit(directions)] = pinWrite{mask, level}
	}
	p.b.write(directions, mask, level)
}

// inputs are the pins as in, mov and wait pin read them.
func (p *plainStep) inputs() uint32 {
	v := bits.RotateLeft32(p.seen, -p.m.c.InBase)
	if n := p.m.c.InCount; n < 32 {
		v &= 1<<n - 1
	}
	return v
}

func (p *plainStep) source(code int) uint32 {
	m := p.m
	return [8]uint32{p.inputs(), m.x, m.y, 0, 0, 0, m.isr, m.osr}[code]
}

func (p *plainStep) execLatch(v uint32) { p.m.latch, p.exec = uint16(v), true }

func (p *plainStep) pushing() (full bool) {
	m := p.m
	_, depth := m.c.Join.depths()
	if len(m.rx) >= int(depth) {
		p.b.debug |= RXStall << p.number
		return true
	}
	m.rx = append(m.rx, m.isr)
	m.isr, m.in = 0, 0
	return false
}

func (p *plainStep) pulling() (empty bool) {
	m := p.m
	if len(m.tx) == 0 {
		return true
	}
	m.osr, m.tx, m.out = m.tx[0], m.tx[1:], 0
	return false
}
