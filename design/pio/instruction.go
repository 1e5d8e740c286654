package pio

// instruction reads one of the nine instructions, or nop, without side-set and delay.
func (p *parser) instruction() uint16 {
	t := p.peek()
	if t.kind == tokenName {
		for _, one := range instructions {
			if p.accept(one.name) {
				return uint16(one.read(p))
			}
		}
	}
	var names []string
	for _, one := range instructions {
		names = append(names, one.name)
	}
	p.failHere("Write one of "+listed(names)+".", "an instruction")
	return 0
}

// instructions in the order of table 366.
var instructions = []struct {
	name string
	read func(*parser) int
}{
	{"jmp", (*parser).jump}, {"wait", (*parser).wait}, {"in", (*parser).in}, {"out", (*parser).out},
	{"push", (*parser).push}, {"pull", (*parser).pull}, {"mov", (*parser).move}, {"irq", (*parser).irq},
	{"set", (*parser).set}, {"nop", func(*parser) int { return wordNop }},
}

// jump reads "jmp (condition) target" (3.4.2).
func (p *parser) jump() int {
	condition := p.condition()
	p.comma()
	first := p.peek()
	return condition<<5 | p.within(first, p.expression(), 0, Memory-1, "The address")
}

// condition is 0, always, when none is written.
func (p *parser) condition() int {
	t := p.peek()
	text := ""
	switch {
	case p.accept("!"), p.accept("~"):
		register, ok := p.oneOf("x", "y", "osre")
		if !ok {
			p.failHere("Write !x, !y or !osre.", "x, y or osre")
		}
		text = "!" + register
	case p.accept("pin"):
		text = "pin"
	case p.accept("x"):
		text = "x" + p.decrement("x-- or x!=y")
		if text == "x!=" {
			p.expect("y", "Write x!=y.")
			text = "x!=y"
		}
	case p.accept("y"):
		text = "y" + p.decrement("y--")
	default:
		return 0
	}
	code, ok := codeOf(&jumpConditions, text)
	if !ok {
		p.fail(t, "Write one of "+listed(jumpConditions[:])+".", "%q is no condition.", text)
	}
	return code
}

func (p *parser) decrement(write string) string {
	mark, ok := p.oneOf("--", "!=")
	if !ok {
		p.failHere("Write "+write+".", "the rest of a condition")
	}
	return mark
}

// in reads "in source, count" (3.4.4).
func (p *parser) in() int {
	source := p.code(&inSources, "a source")
	p.comma()
	return baseIn | source<<5 | p.number(1, 32, "The bit count")&31
}

// out reads "out destination, count" (3.4.5).
func (p *parser) out() int {
	destination := p.code(&outDestinations, "a destination")
	p.comma()
	return baseOut | destination<<5 | p.number(1, 32, "The bit count")&31
}

// push reads "push (iffull) (block | noblock)" (3.4.6).
func (p *parser) push() int { return basePush | p.condense("iffull") }

// pull reads "pull (ifempty) (block | noblock)" (3.4.7).
func (p *parser) pull() int { return basePull | p.condense("ifempty") }

func (p *parser) condense(only string) int {
	bits := blockBit
	if p.accept(only) {
		bits |= ifBit
	}
	if how, _ := p.oneOf("block", "noblock"); how == "noblock" {
		bits &^= blockBit
	}
	return bits
}

// set reads "set destination, value" (3.4.10).
func (p *parser) set() int {
	destination := p.code(&setDestinations, "a destination")
	p.comma()
	return baseSet | destination<<5 | p.number(0, 31, "The value")
}
