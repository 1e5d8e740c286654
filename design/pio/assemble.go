package pio

import (
	"cmp"
	"slices"
)

// Assemble translates a source text in the published assembly syntax (3.3; 11.3) to its programs, in
// the order of the text. Instructions before the first .program make a program without a name. v is
// the version of programs that do not say .pio_version. On error it returns Faults and no programs.
// It never panics, and its time is linear in the length of the text.
func Assemble(source string, v Version) ([]Program, error) {
	a := assembler{version: v}
	a.global = a.begin("", token{}, 0)
	a.draft = a.global
	for i, tokens := range scan(source) {
		a.collect(tokens, i+1)
	}
	var programs []Program
	for _, d := range a.drafts {
		if d.encode(); d != a.global || len(d.program.Words) > 0 {
			programs = append(programs, d.program)
		}
	}
	if len(a.faults) > 0 {
		return nil, a.faults.sorted()
	}
	return programs, nil
}

// An assembler gathers programs from a source text.
type assembler struct {
	version Version // of programs that begin from here on
	global  *draft  // what stands before the first .program
	draft   *draft  // the program being read
	drafts  []*draft
	faults  faultList
}

// A draft is a program of which the lines are known but not yet what they mean.
type draft struct {
	program    Program
	version    Version
	outer      *draft // symbols of before the first program; nil for that one
	line       int    // of .program
	name       token
	symbols    map[string]*symbol
	order      []*symbol
	statements []statement
	length     int // words
	wrapped    int // line of .wrap, 0 without
	targeted   int // line of .wrap_target, 0 without
	sided      int // line of .side_set, 0 without
	faults     *faultList
}

// A statement is a source line without its label, and the address of the next word.
type statement struct {
	tokens    []token
	line, end int
	address   int
	word      bool
}

func (a *assembler) begin(name string, t token, line int) *draft {
	d := &draft{
		program: Program{Name: name, Origin: Anywhere, asked: DefaultConfig()},
		version: a.version, outer: a.global, line: line, name: t, symbols: map[string]*symbol{}, faults: &a.faults,
	}
	a.drafts = append(a.drafts, d)
	return d
}

// faultList keeps the first fault of each line.
type faultList []Fault

func (l *faultList) add(f Fault) {
	if !slices.ContainsFunc(*l, func(old Fault) bool { return old.Line == f.Line }) {
		*l = append(*l, f)
	}
}

func (l faultList) sorted() Faults {
	slices.SortStableFunc(l, func(a, b Fault) int { return cmp.Compare(a.Line, b.Line) })
	return Faults(l)
}

// collect notes labels and definitions of a line and keeps the rest for later, when all symbols are
// known.
func (a *assembler) collect(tokens []token, line int) {
	if len(tokens) == 0 {
		return
	}
	last := tokens[len(tokens)-1]
	p := &parser{draft: a.draft, tokens: tokens, line: line, end: last.column + len([]rune(last.text)), here: a.draft.length}
	p.label()
	t := p.peek()
	switch {
	case p.fault != nil || t.kind == tokenEnd:
	case p.accept(".program"):
		a.program(p)
	case p.accept(".pio_version"):
		a.pioVersion(p)
	case p.accept(".define"):
		p.define()
	case t.kind == tokenDirective && !slices.Contains(directives, t.word):
		p.fail(t, "Write one of "+listed(directives)+".", "There is no directive %q.", t.text)
	default:
		a.draft.keep(p, t.kind != tokenDirective || t.word == ".word")
	}
	if p.fault != nil {
		a.faults.add(*p.fault)
	}
}

// directives are the words that begin with a full stop.
var directives = []string{
	".program", ".define", ".origin", ".side_set", ".wrap_target", ".wrap", ".word", ".lang_opt",
	".pio_version", ".clock_div", ".fifo", ".mov_status", ".in", ".out", ".set",
}

func (d *draft) keep(p *parser, word bool) {
	if word && d.length == Memory {
		p.fail(p.peek(), "Shorten the program.", "This is word 33, and a block holds 32.")
		return
	}
	d.statements = append(d.statements, statement{tokens: p.tokens[p.at:], line: p.line, end: p.end, address: d.length, word: word})
	if word {
		d.length++
	}
}

// label reads "name:", "public name:" or "* name:".
func (p *parser) label() {
	start := p.at
	_, public := p.oneOf("public", "*")
	t := p.peek()
	if t.kind == tokenName {
		p.at++
		if p.accept(":") {
			p.declare(t, symbol{Symbol: Symbol{Value: p.here, Label: true}, public: public, state: known})
			return
		}
	}
	if public {
		p.fail(t, "Write public name: before the instruction.", "Here a label should stand.")
	}
	p.at = start
}

// define reads ".define name expression", the name perhaps public.
func (p *parser) define() {
	_, public := p.oneOf("public", "*")
	t := p.peek()
	if t.kind != tokenName {
		p.failHere("Write .define name value.", "a name")
		return
	}
	p.at++
	if p.peek().kind == tokenEnd {
		p.failHere("Write .define name value.", "a value")
		return
	}
	p.declare(t, symbol{public: public, tokens: p.tokens[p.at:], end: p.end})
}

// program reads the name after .program.
func (a *assembler) program(p *parser) {
	t := p.peek()
	if t.kind != tokenName {
		p.failHere("Write .program name.", "a name")
		return
	}
	p.at++
	p.finish()
	for _, d := range a.drafts {
		if d.program.Name == t.text {
			p.fail(t, "Choose another name.", "Line %d already begins a program called %q.", d.line, t.text)
		}
	}
	a.draft = a.begin(t.text, t, p.line)
}

// pioVersion takes effect for the program it stands in, or when before the first, for all.
func (a *assembler) pioVersion(p *parser) {
	t := p.peek()
	var v Version
	switch word, _ := p.oneOf("rp2040", "rp2350", "zero", "one"); word {
	case "rp2350", "one":
		v = RP2350
	case "":
		v = Version(p.number(0, 1, "The version"))
	}
	p.finish()
	if a.draft.length > 0 {
		p.fail(t, "Move it up.", "The version must stand before the first instruction.")
	}
	a.draft.version = v
	if a.draft == a.global {
		a.version = v
	}
}
