package scan

import (
	"fmt"
	"strings"
)

// verdict says in words what speaks for a row and against it, beside the chosen one.
func (pl *planner) verdict(r, chosen *row) string {
	var says []string
	add := func(text string) {
		if text != "" {
			says = append(says, text)
		}
	}
	if r.Chosen {
		add("chosen")
	}
	add(r.barred)
	if short := r.Pins - pl.free; short > 0 && r.barred == "" {
		add(fmt.Sprintf("takes %s more than are free", count(short, "pin")))
	}
	switch r.Method {
	case methodDirect:
		add("no two keys can disturb each other")
	case methodMatrix:
		add(pl.diodeWords(r))
	case methodDiodes:
		add(fmt.Sprintf("%s, and no keys held together ghost", count(r.Diodes, "diode")))
	case methodLines:
		add(pl.lineWords(r))
	case methodExpander:
		add(pl.expanderWords(r))
	}
	if r.follows {
		add("follows the layout")
	}
	if !r.Chosen {
		says = append(says, compare(r.Pins-chosen.Pins, "pin", "pins")...)
		says = append(says, moreWire(r, chosen)...)
	}
	if len(says) == 0 {
		return "no better"
	}
	return strings.Join(says, "; ")
}

// diodeWords tells what the declared chords ask of a matrix.
func (pl *planner) diodeWords(r *row) string {
	if r.Diodes == 0 {
		return ""
	}
	diodes := count(r.Diodes, "diode")
	if r.atMost {
		diodes = "at most " + diodes
	}
	if pl.noDiodes() {
		unsafe, verb := r.Chords-r.SafeChords, "ghost"
		if unsafe == 1 {
			verb = "ghosts"
		}
		return fmt.Sprintf("%d of %s %s; %s would stop it", unsafe, count(r.Chords, "chord"), verb, diodes)
	}
	return diodes
}

func (pl *planner) lineWords(r *row) string {
	if r.Rows == 0 {
		return ""
	}
	text := fmt.Sprintf("%s; the scan never rests", count(r.Diodes, "diode"))
	if unsafe := r.Chords - r.SafeChords; unsafe > 0 {
		return text + fmt.Sprintf("; possible ghost in %d of %s", unsafe, count(r.Chords, "chord"))
	}
	if len(pl.lines.pool) > 2 {
		text += "; keys held together that are no chord may ghost"
	}
	return text
}

func (pl *planner) expanderWords(r *row) string {
	x := &pl.expanding
	chips := x.chips(len(pl.keys))
	text := count(chips, "expander")
	switch more := chips - len(x.refs); {
	case more <= 0:
		text += ", placed already"
	case more < chips:
		text += fmt.Sprintf(", %d of them yet to be placed", more)
	}
	if x.bus && len(x.refs) == 0 {
		text += " on the bus that is there; a reading waits while that carries something else"
	}
	if r.WakeMicros == r.PeriodMicros {
		text += "; no pin for an interrupt, so the bus never rests"
	}
	return text
}

// moreWire compares like with like: two drafts, or two final lengths.
func moreWire(r, chosen *row) []string {
	a, b := r.option, chosen.option
	if a == nil || b == nil || !a.drafted || !b.drafted || a.hasty || r.Method != chosen.Method && len(a.diodes)+len(b.diodes) > 0 {
		return nil
	}
	more := a.draft - b.draft
	if a.final && b.final {
		more = a.length - b.length
	}
	return compare(more, "hole of wire", "holes of wire")
}

// compare says how many more or fewer; nothing when it is none.
func compare(more int, one, many string) []string {
	how, noun := "more", many
	if more < 0 {
		more, how = -more, "fewer"
	}
	if more == 1 {
		noun = one
	}
	if more == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%d %s %s", more, noun, how)}
}
