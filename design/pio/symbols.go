package pio

import (
	"fmt"
	"slices"
)

// A Symbol is a label or a .define that the program marks public, for other programs to know.
type Symbol struct {
	Name  string
	Value int
	Label bool
}

type resolved uint8

const (
	unresolved resolved = iota
	resolving
	known
)

// A symbol is worked out when it is first asked for; an expression may name symbols further down.
type symbol struct {
	Symbol
	public bool
	line   int
	end    int     // column after the line
	tokens []token // of its expression, nil for a label
	state  resolved
}

// symbol returns the value of the name t, of the program or from before the first program.
func (p *parser) symbol(t token) int {
	s := p.draft.symbols[t.text]
	owner := p.draft
	if s == nil && p.draft.outer != nil {
		s, owner = p.draft.outer.symbols[t.text], p.draft.outer
	}
	switch {
	case s == nil:
		p.fail(t, p.draft.knownNames(), "Nothing here is called %q.", t.text)
		return 0
	case s.state == resolving:
		p.fail(t, fmt.Sprintf("Give %s a number in line %d.", t.text, s.line), "%q is worked out from itself.", t.text)
		return 0
	case s.state == unresolved:
		owner.resolve(s)
	}
	if s.state != known {
		p.fail(t, fmt.Sprintf("See line %d.", s.line), "%q has no value.", t.text)
	}
	return s.Value
}

// resolve works out a .define and keeps its value; a fault is noted with the program.
func (d *draft) resolve(s *symbol) {
	s.state = resolving
	p := parser{draft: d, tokens: s.tokens, line: s.line, end: s.end}
	value := p.expression()
	p.finish()
	s.state = unresolved
	if p.fault != nil {
		d.faults.add(*p.fault)
		return
	}
	s.Value, s.state = value, known
}

// knownNames is the fix for a name that is not known.
func (d *draft) knownNames() string {
	var names []string
	for _, s := range d.order {
		names = append(names, s.Name)
	}
	if d.outer != nil {
		for _, s := range d.outer.order {
			names = append(names, s.Name)
		}
	}
	if len(names) == 0 {
		return "Write it as a label, or with .define."
	}
	if len(names) > 8 {
		names = append(names[:8:8], "another name of the program")
	}
	return "Write " + listed(names) + ", or .define it."
}

// declare adds a symbol; t is its name.
func (p *parser) declare(t token, s symbol) {
	s.Name, s.line = t.text, p.line
	switch old := p.draft.symbols[t.text]; {
	case slices.Contains(keywords, t.word):
		p.fail(t, "Choose another name.", "%q is a word of the language.", t.text)
	case old != nil:
		p.fail(t, "Choose another name.", "%q is already used in line %d.", t.text, old.line)
	default:
		p.draft.symbols[t.text] = &s
		p.draft.order = append(p.draft.order, &s)
	}
}
