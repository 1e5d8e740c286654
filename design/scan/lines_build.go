package scan

import (
	"cmp"
	"fmt"
	"slices"

	"fascia/design/finding"
)

// buildLines reads the keys by lines with diodes.
func (pl *planner) buildLines() {
	r, d := &pl.result, pl.lines
	d.improve()
	d.renumber()
	r.Style, r.Rows, r.Columns = "lines", d.lines, d.lines
	r.PeriodMicros = pl.drive.period(d.lines, len(d.direct))
	for i, k := range d.keys {
		r.Cells = append(r.Cells, Cell{Key: k.ID, Legend: k.Legend, Usage: k.Usage,
			Row: d.pair[i] / d.lines, Column: d.pair[i] % d.lines, Code: d.pair[i], Diode: true})
	}
	slices.SortFunc(r.Cells, func(a, b Cell) int { return cmp.Compare(a.Code, b.Code) })
	pl.giveDirect(d.direct)
	bound := d.length
	if !d.exact {
		bound = d.bound(d.lines, d.length)
	}
	pl.rate(d.length, bound)
	r.DiodeBound, r.DiodesProved = len(d.keys), true
	pl.judgeLines()
	pl.noteOwnPins()
	if need := d.lines + len(d.direct); need > pl.free {
		pl.tooFew(need)
	}
	r.Why = pl.whyLines()
}

// rate puts down what the wire costs and what it costs at least.
func (pl *planner) rate(length, bound int) {
	r := &pl.result
	r.Cost, r.Bound = float64(length), float64(bound)
	if bound > 0 {
		r.Gap = (r.Cost - r.Bound) / r.Bound
	}
	r.Proved = length == bound
}

// linesBarred says why the keys can't be read by lines; false when they can.
func (pl *planner) linesBarred() bool {
	d := pl.lines
	if len(d.stuck) == 0 {
		return false
	}
	pl.say(finding.Stop, "scan-lines-shared", idsOf(pl.keys, d.stuck),
		fmt.Sprintf("Keys %s share both their terminals with other keys: on lines each needs a diode on a terminal of its own.", finding.Names(idsOf(pl.keys, d.stuck))),
		"Take the joins between them away, or let the style be auto or matrix.")
	return true
}

// judgeLines lists the possible ghosts of each chord.
func (pl *planner) judgeLines() {
	d := pl.lines
	if pl.wishes.Diodes == "none" {
		pl.say(finding.Mind, "scan-diodes", nil, fmt.Sprintf("Lines that both read and select want a diode at every key, %s in all; the wish for none can't be kept.", count(len(d.keys), "diode")),
			"Place a diode beside each key, or let the style be matrix.")
	}
	holder := d.lineUp(d.lines, d.pair).holder
	chords := pairsUp(pl.declared, pl.onLines())
	for _, c := range chords {
		chord := newLineChord(c.family())
		list, all := explainDoubts(&chord, d.pair, holder, d.lines, chainBudget/len(chords))
		for _, g := range list {
			if len(pl.result.Ghosts) < maxGhosts {
				pl.result.Ghosts = append(pl.result.Ghosts, Ghost{Chord: c.name, Pressed: idsOf(d.keys, g.path), Phantom: d.keys[g.phantom].ID,
					Row: d.pair[g.phantom] / d.lines, Column: d.pair[g.phantom] % d.lines})
			}
		}
		switch {
		case len(list) > 0:
			pl.sayDoubt(c.name, list)
		case !all:
			pl.say(finding.Mind, "scan-chord-large", idsOf(d.keys, chord.keys),
				fmt.Sprintf("Chord %s can be held in too many ways to look through; possible ghosts are not ruled out.", c.name),
				"Split it into the chords that are really played, or choose a matrix with a diode at every key.")
		}
	}
}

func (pl *planner) sayDoubt(chord string, list []doubt) {
	keys := pl.lines.keys
	held, phantom := idsOf(keys, list[0].path), keys[list[0].phantom].ID
	text := fmt.Sprintf("Chord %s: while %s are held, %s may read as pressed, as its line lies between low and high behind %s in a row",
		chord, finding.Names(held), phantom, count(len(held), "diode"))
	if len(list) > 1 {
		text += fmt.Sprintf(", and so in %d more ways", len(list)-1)
	}
	pl.say(finding.Stop, "scan-ghost", append(held, phantom), text+".",
		"Give one of the held keys a pin of its own, or choose a matrix with a diode at every key, where no chord can ghost.")
}

// onLines maps a key to its index among those on lines, or noKey.
func (pl *planner) onLines() []int {
	at := make([]int, len(pl.keys))
	for i := range at {
		at[i] = noKey
	}
	for i, k := range pl.lines.pool {
		at[k] = i
	}
	return at
}

func (pl *planner) whyLines() string {
	d := pl.lines
	text := fmt.Sprintf("%s take %s as lines that both read and select, a key and a diode for each ordered pair", count(len(d.keys), "key"), count(d.lines, "pin"))
	if len(d.direct) > 0 {
		text += fmt.Sprintf(", beside %s with %s", count(len(d.direct), "key"), ownPins(len(d.direct)))
	}
	text += "; lines are asked for." + pl.wireWords()
	switch {
	case d.doubts == 0 && len(d.chords) > 0:
		text += " No declared chord puts two diodes in a row before an unpressed key; other keys held together may."
	case d.doubts == 0:
		text += " Two keys held together may make a third read as pressed: declare chords, and they are kept apart."
	}
	return text + pl.assumed()
}
