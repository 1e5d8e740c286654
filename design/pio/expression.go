package pio

import "math/bits"

// deepest is how far brackets may be nested.
const deepest = 64

const (
	least = -1 << 31
	most  = 1<<32 - 1
)

// value reads a number, a symbol, the address of the instruction (a full stop), or an expression in
// round brackets; it stops before an operator, as the grammar wants.
func (p *parser) value() int { return p.primary(0) }

// expression reads a sum. Binding from loose to tight: :: (bits of 32 reversed), then << >>, then
// + -, then * /, then & | ^, as the published grammar of the assembler has it; a minus in front
// reaches as far as a product. Values are those of 32 bits, with or without a sign.
func (p *parser) expression() int { return p.reversal(0) }

func (p *parser) reversal(depth int) int {
	if p.tooDeep(depth) {
		return 0
	}
	if p.accept("::") {
		return int(bits.Reverse32(uint32(p.reversal(depth + 1))))
	}
	return p.binary(depth, 0)
}

// operators of one line bind alike, later lines tighter.
var operators = [][]string{{"<<", ">>"}, {"+", "-"}, {"*", "/"}, {"&", "|", "^"}}

const productLevel = 2

func (p *parser) binary(depth, level int) int {
	if level == len(operators) {
		return p.unary(depth)
	}
	left := p.binary(depth, level+1)
	for {
		sign := p.peek()
		op, ok := p.oneOf(operators[level]...)
		if !ok {
			return left
		}
		left = p.apply(sign, op, left, p.binary(depth, level+1))
	}
}

func (p *parser) unary(depth int) int {
	if p.tooDeep(depth) {
		return 0
	}
	sign := p.peek()
	switch {
	case p.accept("-"):
		return p.fits(sign, -p.binary(depth+1, productLevel))
	case p.accept("::"):
		return int(bits.Reverse32(uint32(p.reversal(depth + 1))))
	}
	return p.primary(depth)
}

func (p *parser) primary(depth int) int {
	t := p.peek()
	switch {
	case t.kind == tokenNumber:
		p.at++
		return t.value
	case t.kind == tokenMark && t.word == ".":
		p.at++
		return p.here
	case t.kind == tokenName:
		p.at++
		return p.symbol(t)
	case p.accept("("):
		v := p.reversal(depth + 1)
		p.expect(")", "Close the bracket.")
		return v
	}
	p.failHere("Write a number, a symbol, or an expression in brackets.", "a value")
	return 0
}

func (p *parser) tooDeep(depth int) bool {
	if depth > deepest {
		p.fail(p.peek(), "Name a part of it with .define.", "The expression is nested too deep.")
	}
	return p.fault != nil
}

func (p *parser) apply(sign token, op string, a, b int) int {
	if p.fault != nil {
		return 0
	}
	switch op {
	case "+":
		a += b
	case "-":
		a -= b
	case "*":
		a *= b
	case "/":
		if b == 0 {
			p.fail(sign, "Divide by something else.", "This divides by 0.")
			return 0
		}
		a /= b
	case "&":
		a &= b
	case "|":
		a |= b
	case "^":
		a ^= b
	default:
		a = p.shift(sign, op, a, b)
	}
	return p.fits(sign, a)
}

func (p *parser) shift(sign token, op string, a, places int) int {
	if places < 0 || places > 31 {
		p.fail(sign, "Shift by 0 to 31 places.", "This shifts by %d places.", places)
		return 0
	}
	if op == "<<" {
		return a << places
	}
	return a >> places
}

// fits keeps values to what 32 bits hold.
func (p *parser) fits(at token, v int) int {
	if v < least || v > most {
		p.fail(at, "Keep it within 32 bits.", "The result is too large.")
		return 0
	}
	return v
}
