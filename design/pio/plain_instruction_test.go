package pio

import "math/bits"

func (p *plainStep) instruction() {
	low, middle := int(p.word&31), int(p.word>>5&7)
	switch p.word >> 13 {
	case 0:
		p.jump(middle, low)
	case 1:
		p.wait(middle>>2 == 1, middle&3, low)
	case 2:
		p.in(p.source(middle), low)
	case 3:
		p.out(middle, low)
	case 4:
		p.queue(low)
	case 5:
		p.move(middle, low>>3, low&7)
	case 6:
		p.irq(low)
	case 7:
		p.set(middle, uint32(low))
	}
}

func (p *plainStep) jump(condition, target int) {
	m := p.m
	taken := [8]bool{true, m.x == 0, m.x != 0, m.y == 0, m.y != 0, m.x != m.y, p.seen>>m.c.JumpPin&1 == 1, m.out < m.c.PullAt}[condition]
	if condition == 2 {
		m.x--
	}
	if condition == 4 {
		m.y--
	}
	if taken {
		p.next = target
	}
}

func (p *plainStep) wait(polarity bool, source, index int) {
	var high bool
	switch source {
	case 0:
		high = p.seen>>index&1 == 1
	case 1:
		high = p.inputs()>>index&1 == 1
	case 2:
		flag := p.flag(index)
		high = p.b.flags&flag != 0
		if polarity && high {
			p.b.lower |= flag
		}
	case 3:
		if p.b.version == RP2040 {
			return
		}
		high = p.seen>>((p.m.c.JumpPin+index%4)%32)&1 == 1
	}
	p.stall = high != polarity
}

// flag is none for those of other blocks.
func (p *plainStep) flag(index int) uint32 {
	mode := index >> 3
	if p.b.version == RP2040 {
		mode &= 2
	}
	switch mode {
	case 0:
		return 1 << (index & 7)
	case 2:
		return 1 << (index&4 + (index+p.number)%4)
	}
	return 0
}

func (p *plainStep) in(v uint32, n int) {
	m := p.m
	if n == 0 {
		n = 32
	}
	if !m.stalled {
		for k := range n {
			if m.c.InShift == Right {
				m.isr = m.isr>>1 | v>>k<<31
			} else {
				m.isr = m.isr<<1 | v>>(n-1-k)&1
			}
		}
		m.in = min(32, m.in+n)
	}
	if m.c.AutoPush && m.in >= m.c.PushAt {
		p.stall = p.pushing()
	}
}

func (p *plainStep) out(destination, n int) {
	m := p.m
	if m.c.AutoPull && m.out >= m.c.PullAt {
		if p.pulling() {
			p.b.debug |= TXStall << p.number
		}
		p.stall = true
		return
	}
	if n == 0 {
		n = 32
	}
	var v uint32
	for k := range n {
		if m.c.OutShift == Right {
			v |= m.osr & 1 << k
			m.osr >>= 1
		} else {
			v = v<<1 | m.osr>>31
			m.osr <<= 1
		}
	}
	if m.out = min(32, m.out+n); m.c.AutoPull && m.out >= m.c.PullAt {
		p.pulling()
	}
	switch destination {
	case 0, 4:
		count := m.c.OutCount
		if m.c.OutEnable && v>>m.c.OutEnableBit&1 == 0 {
			count = 0
		}
		p.output(destination == 4, m.c.OutBase, count, v)
	case 1:
		m.x = v
	case 2:
		m.y = v
	case 5:
		p.next = int(v % 32)
	case 6:
		m.isr, m.in = v, n
	case 7:
		p.execLatch(v)
	}
}

func (p *plainStep) queue(low int) {
	m := p.m
	only, block, pull := p.word&0x40 != 0, p.word&0x20 != 0, p.word&0x80 != 0
	switch {
	case low != 0:
		p.register(low, pull)
	case pull && (only || m.c.AutoPull) && m.out < m.c.PullAt:
	case !pull && only && m.in < m.c.PushAt:
	case pull && p.pulling():
		if p.stall = block; block {
			p.b.debug |= TXStall << p.number
		} else {
			m.osr, m.out = m.x, 0
		}
	case !pull && p.pushing():
		if p.stall = block; !block {
			m.isr, m.in = 0, 0
		}
	}
}

func (p *plainStep) register(low int, pull bool) {
	m := p.m
	if p.b.version == RP2040 || low < 16 {
		return
	}
	place := low & 3
	if low&8 == 0 {
		place = int(m.y % 4)
	}
	switch j := m.c.Join; {
	case pull && (j == JoinGet || j == JoinPutGet):
		m.osr, m.out = m.registers[place], 0
	case !pull && (j == JoinPut || j == JoinPutGet):
		m.registers[place] = m.isr
	}
}

func (p *plainStep) move(to, operation, from int) {
	m := p.m
	v := p.source(from)
	if from == 5 {
		v = p.status()
	}
	if operation == 1 {
		v = 0xffffffff - v
	} else if operation == 2 {
		v = bits.Reverse32(v)
	}
	switch to {
	case 0:
		p.output(false, m.c.OutBase, m.c.OutCount, v)
	case 1:
		m.x = v
	case 2:
		m.y = v
	case 3:
		if p.b.version == RP2350 {
			p.output(true, m.c.OutBase, m.c.OutCount, v)
		}
	case 4:
		p.execLatch(v)
	case 5:
		p.next = int(v % 32)
	case 6:
		m.isr, m.in = v, 0
	case 7:
		m.osr, m.out = v, 0
	}
}

func (p *plainStep) status() uint32 {
	m := p.m
	level := m.c.StatusLevel
	yes := false
	switch m.c.Status {
	case StatusTX:
		yes = len(m.tx) < level
	case StatusRX:
		yes = len(m.rx) < level
	case StatusFlag:
		yes = level < 8 && p.b.flags>>level&1 == 1
	}
	if yes {
		return 0xffffffff
	}
	return 0
}

func (p *plainStep) irq(low int) {
	flag := p.flag(low)
	switch {
	case p.word&0x80 != 0:
	case p.word&0x40 != 0:
		p.b.lower |= flag
	case p.word&0x20 == 0:
		p.b.raise |= flag
	case !p.m.raised:
		p.b.raise |= flag
		p.m.raised, p.stall = true, true
	default:
		p.stall = p.b.flags&flag != 0
	}
}

func (p *plainStep) set(to int, v uint32) {
	m := p.m
	switch to {
	case 0, 4:
		p.output(to == 4, m.c.SetBase, m.c.SetCount, v)
	case 1:
		m.x = v
	case 2:
		m.y = v
	}
}
