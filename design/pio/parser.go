package pio

import (
	"fmt"
	"strings"
)

// A parser reads one source line. After the first fault it reads nothing more: every question is
// answered with no, and every value with 0.
type parser struct {
	draft  *draft
	tokens []token
	at     int
	line   int
	end    int    // column just after the last token
	here   int    // address of the instruction
	fault  *Fault // the first one
}

// peek returns the next token, of kind tokenEnd at the end of the line or after a fault.
func (p *parser) peek() token {
	if p.fault != nil || p.at >= len(p.tokens) {
		return token{column: p.end}
	}
	return p.tokens[p.at]
}

func (p *parser) next() token {
	t := p.peek()
	if t.kind != tokenEnd {
		p.at++
	}
	return t
}

// fail notes a fault at a token; only the first counts.
func (p *parser) fail(at token, fix, text string, args ...any) {
	if p.fault == nil {
		p.fault = &Fault{Line: p.line, Column: at.column, Text: fmt.Sprintf(text, args...), Fix: fix}
	}
}

// failHere is fail at the next token, which it names.
func (p *parser) failHere(fix, wanted string) {
	t := p.peek()
	switch t.kind {
	case tokenEnd:
		p.fail(t, fix, "The line ends where %s should stand.", wanted)
	case tokenOdd:
		p.fail(t, fix, "%q means nothing here; %s should stand there.", t.text, wanted)
	default:
		p.fail(t, fix, "%q stands where %s should.", t.text, wanted)
	}
}

// accept passes over a word or mark if it is next.
func (p *parser) accept(word string) bool {
	t := p.peek()
	if t.kind == tokenEnd || t.kind == tokenOdd || t.kind == tokenNumber || t.word != word {
		return false
	}
	p.at++
	return true
}

// oneOf is accept for the first of several.
func (p *parser) oneOf(words ...string) (string, bool) {
	for _, w := range words {
		if p.accept(w) {
			return w, true
		}
	}
	return "", false
}

func (p *parser) expect(word, fix string) {
	if p.fault == nil && !p.accept(word) {
		p.failHere(fix, fmt.Sprintf("%q", word))
	}
}

// comma passes over one; the published grammar asks for none.
func (p *parser) comma() { p.accept(",") }

// code reads a name out of table and returns its place there.
func (p *parser) code(table *[8]string, what string) int {
	t := p.peek()
	if t.kind == tokenName {
		if c, ok := codeOf(table, t.word); ok {
			p.at++
			return c
		}
	}
	p.failHere("Write one of "+listed(table[:])+".", what)
	return 0
}

// listed is the names that are not empty, for a sentence.
func listed(names []string) string {
	var kept []string
	for _, n := range names {
		if n != "" {
			kept = append(kept, n)
		}
	}
	if len(kept) < 2 {
		return strings.Join(kept, "")
	}
	return strings.Join(kept[:len(kept)-1], ", ") + " or " + kept[len(kept)-1]
}

// number reads a value that must lie between low and high.
func (p *parser) number(low, high int, what string) int {
	first := p.peek()
	return p.within(first, p.value(), low, high, what)
}

// within returns value, after a fault at first when it does not lie between low and high.
func (p *parser) within(first token, value, low, high int, what string) int {
	if p.fault == nil && (value < low || value > high) {
		p.fail(first, fmt.Sprintf("Write %d to %d.", low, high), "%s is %d, which does not fit.", what, value)
	}
	if p.fault != nil {
		return low
	}
	return value
}

// finish complains about what is left of the line.
func (p *parser) finish() {
	if t := p.peek(); t.kind != tokenEnd {
		p.fail(t, "Take it away, or begin a new line.", "%q is more than the line needs.", t.text)
	}
}

// needs asks for a version, for the words that t begins.
func (p *parser) needs(v Version, t token, what string) {
	if p.fault == nil && p.draft.version < v {
		p.fail(t, "Write .pio_version 1 in the program, or do without it.", "%s needs an RP2350.", what)
	}
}
