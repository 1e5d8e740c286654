package pio

// encode works out every statement of the program, now that all its symbols are known.
func (d *draft) encode() {
	d.program.Version = d.version
	for _, s := range d.statements {
		p := &parser{draft: d, tokens: s.tokens, line: s.line, end: s.end, here: s.address}
		if s.word {
			d.program.Words = append(d.program.Words, p.word())
			d.program.Lines = append(d.program.Lines, s.line)
		} else {
			p.directive()
		}
		p.finish()
		if p.fault != nil {
			d.faults.add(*p.fault)
		}
	}
	for _, s := range d.order {
		if s.state == unresolved {
			d.resolve(s)
		}
		if s.public {
			d.program.Public = append(d.program.Public, s.Symbol)
		}
	}
	d.close()
}

// close sets what a program need not say.
func (d *draft) close() {
	n := len(d.program.Words)
	if n == 0 {
		if d.outer != nil {
			p := parser{line: d.line}
			p.fail(d.name, "Write one, or take .program away.", "Program %q has no instruction.", d.name.text)
			d.faults.add(*p.fault)
		}
		return
	}
	if d.wrapped == 0 {
		d.program.Wrap = n - 1
	}
	if d.program.WrapTarget == n {
		d.faults.add(Fault{d.targeted, 1, "No instruction follows .wrap_target.", "Move it before the instruction to go back to."})
	}
	if o := d.program.Origin; o >= 0 && o+n > Memory {
		p := parser{line: d.line}
		p.fail(d.name, "Choose a lower origin.", "With its origin at %d, the program ends at %d, past the last address 31.", o, o+n-1)
		p.fault.Column = max(p.fault.Column, 1)
		p.fault.Line = max(p.fault.Line, d.program.Lines[0])
		d.faults.add(*p.fault)
	}
}

// word reads an instruction, or the value after .word.
func (p *parser) word() uint16 {
	if p.accept(".word") {
		return uint16(p.number(0, 0xffff, "The word"))
	}
	word := p.instruction()
	return word | p.besides()<<8
}

// besides reads side-set and delay, in either order, as the five bits 12:8.
func (p *parser) besides() uint16 {
	side, delay := -1, -1
	var at token
	for range 2 {
		t := p.peek()
		if _, ok := p.oneOf("side", "sideset", "side_set"); ok && side < 0 {
			at = t
			side = p.sideValue(t)
		} else if !ok && delay < 0 && p.accept("[") {
			delay = p.delay()
		} else if ok {
			p.fail(t, "Keep one.", "Side-set stands here twice.")
		}
	}
	s := p.draft.program.Side
	switch {
	case side >= 0 && s.Pins == 0:
		p.fail(at, "Write .side_set before the first instruction.", "The program has no side-set pins.")
		return 0
	case side < 0 && s.Pins > 0 && !s.Optional:
		p.fail(p.peek(), "Write side and a value, or make the side-set optional with opt.", "Every instruction of this program must set its side pins.")
		return 0
	}
	field := max(delay, 0)
	if side >= 0 {
		field |= side << (5 - s.Bits())
		if s.Optional {
			field |= 16
		}
	}
	return uint16(field)
}

func (p *parser) sideValue(t token) int {
	pins := p.draft.program.Side.Pins
	if pins == 0 {
		p.fail(t, "Write .side_set before the first instruction.", "The program has no side-set pins.")
	}
	return p.number(0, 1<<pins-1, "The side-set value")
}

func (p *parser) delay() int {
	first := p.peek()
	v := p.expression()
	p.expect("]", "Close the bracket.")
	s := p.draft.program.Side
	what := "The delay"
	if s.Bits() > 0 {
		what = "The delay, beside the side-set bits,"
	}
	return p.within(first, v, 0, s.MaxDelay(), what)
}
