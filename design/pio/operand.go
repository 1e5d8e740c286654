package pio

// wait reads "wait (polarity) source" (3.4.3; 11.4.3). Without a polarity it waits for 1.
func (p *parser) wait() int {
	polarity := 1
	switch p.peek().word {
	case "gpio", "pin", "irq", "jmppin":
	default:
		polarity = p.number(0, 1, "The level to wait for")
	}
	word := baseWait | polarity<<7
	t := p.peek()
	source, ok := p.oneOf("gpio", "pin", "irq", "jmppin")
	switch source {
	case "gpio":
		p.comma()
		return word | waitGPIO<<5 | p.number(0, 31, "The GPIO")
	case "pin":
		p.comma()
		return word | waitPin<<5 | p.number(0, 31, "The pin")
	case "irq":
		return word | waitIRQ<<5 | p.waitFlag()
	case "jmppin":
		p.needs(RP2350, t, "wait jmppin")
		word |= waitJumpPin << 5
		if p.accept("+") {
			word |= p.number(0, 3, "The offset from the jump pin")
		}
		return word
	}
	if !ok {
		p.failHere("Write gpio, pin or irq, and a number.", "what to wait for")
	}
	return word
}

// waitFlag reads "(prev | next) number (rel)".
func (p *parser) waitFlag() int {
	mode := p.neighbour()
	p.comma()
	return p.flag(mode)
}

// irq reads "irq (prev | next) (set | nowait | wait | clear) number (rel)" (3.4.9; 11.4.11).
func (p *parser) irq() int {
	mode := p.neighbour()
	word := baseIRQ
	switch how, _ := p.oneOf("set", "nowait", "wait", "clear"); how {
	case "wait":
		word |= waitBit
	case "clear":
		word |= clearBit
	}
	return word | p.flag(mode)
}

func (p *parser) neighbour() int {
	t := p.peek()
	word, ok := p.oneOf("prev", "next")
	if !ok {
		return hereFlags
	}
	p.needs(RP2350, t, "A flag of a neighbouring block")
	if word == "prev" {
		return previousFlags
	}
	return nextFlags
}

func (p *parser) flag(mode int) int {
	number := p.number(0, 7, "The flag")
	if t := p.peek(); p.accept("rel") {
		if mode != hereFlags {
			p.fail(t, "Take rel away.", "A flag of a neighbouring block cannot be relative.")
		}
		mode = relativeFlags
	}
	return mode<<3 | number
}

// move reads "mov destination, (operation) source" (3.4.8; 11.4.8 to 11.4.10).
func (p *parser) move() int {
	t := p.peek()
	if p.accept("rxfifo") {
		p.needs(RP2350, t, "mov rxfifo[]")
		index := p.queueIndex()
		p.comma()
		p.expect("isr", "Only isr can be put into rxfifo[].")
		return basePush | queueMove | index
	}
	if t.word == "pindirs" {
		p.needs(RP2350, t, "mov pindirs")
	}
	destination := p.code(moveDestinations(p.draft.version), "a destination")
	p.comma()
	if source := p.peek(); p.accept("rxfifo") {
		p.needs(RP2350, source, "mov from rxfifo[]")
		if destination != codeOSR {
			p.fail(t, "Write osr.", "rxfifo[] can only be moved to osr.")
		}
		return basePull | queueMove | p.queueIndex()
	}
	operation := 0
	switch mark, _ := p.oneOf("!", "~", "::"); mark {
	case "!", "~":
		operation = 1
	case "::":
		operation = 2
	}
	return baseMove | destination<<5 | operation<<3 | p.code(&moveSources, "a source")
}

// queueIndex reads "[y]" or "[number]".
func (p *parser) queueIndex() int {
	p.expect("[", "Write rxfifo[y] or rxfifo[0].")
	index := 0
	if !p.accept("y") {
		index = indexBit | p.number(0, 3, "The place in the queue")
	}
	p.expect("]", "Close the bracket.")
	return index
}
