package scan

import (
	"cmp"
	"slices"

	"fascia/design/part"
)

// A row is a choice with what its verdict speaks of.
type row struct {
	Choice
	option  *option // of a matrix
	barred  string  // why it can't be had whatever the pins
	atMost  bool    // its diodes are those of a hasty draft
	follows bool    // rows and columns are the layout's
}

// table compares the ways to read the keys: direct, the matrices by pins, the same with a diode at
// every key, lines with diodes, an expander. Ways that can't be had are there too, and say what is
// short. Where every key asks for a pin of its own there is no matrix and there are no lines.
func (pl *planner) table() []Choice {
	rows := []row{pl.directRow()}
	shapes := pl.shapeRows()
	for _, o := range shapes {
		rows = append(rows, pl.matrixRow(o, false))
	}
	for _, o := range shapes {
		rows = append(rows, pl.matrixRow(o, true))
	}
	if len(pl.lines.pool) > 0 || len(pl.lines.stuck) > 0 {
		rows = append(rows, pl.linesRow())
	}
	rows = append(rows, pl.expanderRow())
	chosen := slices.IndexFunc(rows, func(r row) bool { return r.Chosen })
	list := make([]Choice, len(rows))
	for i := range rows {
		rows[i].Verdict = pl.verdict(&rows[i], &rows[chosen])
		list[i] = rows[i].Choice
	}
	return list
}

// shapeRows lists the matrices compared: those that were drafted with care, and in haste the other
// shapes that take fewer pins than a pin for each key does.
func (pl *planner) shapeRows() []*option {
	var rows []*option
	for i := range pl.list {
		o := &pl.list[i]
		if i == pl.chosen && pl.byMatrix() || o.holdsTight(len(pl.matrix)) || pl.wishes.Rows+pl.wishes.Columns == 0 {
			rows = append(rows, o) // one larger than need be by wish would lose its empty lines
		}
	}
	has := func(s shape) bool { return slices.ContainsFunc(rows, func(o *option) bool { return o.shape == s }) }
	for i := range pl.others {
		if !has(pl.others[i].shape) {
			rows = append(rows, &pl.others[i])
		}
	}
	slices.SortStableFunc(rows, func(a, b *option) int { return cmp.Or(cmp.Compare(a.pins(), b.pins()), cmp.Compare(a.rows, b.rows)) })
	return rows
}

// byMatrix reports whether a matrix reads the keys, or most of them.
func (pl *planner) byMatrix() bool { return pl.result.Style == "matrix" || pl.result.Style == "mixed" }

// wish is the maker's own with another style.
func (pl *planner) wish(style string) Wish { return Wish{Style: style, Diodes: pl.wishes.Diodes} }

// pull counts the resistors that hold lines which are read.
func (pl *planner) pull(lines int) int {
	if pl.drive.pulls == "external" {
		return lines
	}
	return 0
}

func (pl *planner) directRow() row {
	n := len(pl.keys)
	r := row{Choice: Choice{Method: methodDirect, Wish: pl.wish("direct"), Pins: n, Parts: pl.pull(n), PeriodMicros: pl.drive.period(0, n),
		Chosen: pl.result.Style == "direct"}}
	r.Joints = r.Parts * jointsEach
	if slices.ContainsFunc(pl.keys, func(k key) bool { return k.own == never }) {
		r.barred, r.Wish = "not possible: contacts share both their terminals", Wish{}
	}
	r.Fits = r.barred == "" && n <= pl.free
	r.Chords, r.SafeChords = pl.countChords(nil)
	pl.rest(&r.Choice)
	return r
}

// matrixRow is one shape, with the diodes that chords need or with one at every key.
func (pl *planner) matrixRow(o *option, every bool) row {
	r := row{Choice: Choice{Method: methodMatrix, Wish: pl.wish("matrix"), Rows: o.rows, Columns: o.columns, Pins: pl.pins(o.shape), Diodes: len(o.diodes),
		Length: float64(o.length), PeriodMicros: pl.drive.period(o.columns, len(pl.direct)), Fits: pl.pins(o.shape) <= pl.free}, option: o, atMost: o.hasty || pl.everyKey()}
	r.Wish.Rows, r.Wish.Columns = o.rows, o.columns
	r.Chosen = pl.chosen >= 0 && o == &pl.list[pl.chosen] && every == pl.everyKey() && pl.byMatrix()
	r.follows = o.regular && upright(pl.m.keys, o.shape)
	resistors := pl.pull(o.rows + len(pl.direct))
	r.Chords, r.SafeChords = pl.countChords(nil)
	switch {
	case every:
		r.Method, r.Wish.Diodes, r.Diodes, r.atMost = methodDiodes, "every key", len(pl.matrix), false
		r.Parts = r.Diodes + resistors
	case pl.noDiodes():
		r.Parts = resistors
		if len(o.diodes) > 0 {
			r.Chords, r.SafeChords = pl.countChords(pl.haunted(o.candidate))
		}
	default:
		r.Wish.Diodes = "where needed"
		r.Parts = r.Diodes + resistors
	}
	r.Joints = r.Parts * jointsEach
	pl.rest(&r.Choice)
	return r
}

// haunted names the chords that ghost in a matrix without diodes.
func (pl *planner) haunted(c candidate) map[string]bool {
	f, names := fieldOf(c.shape, c.cell), map[string]bool{}
	for _, chord := range pl.chords {
		if !names[chord.name] && f.haunts(&chord) {
			names[chord.name] = true
		}
	}
	return names
}

// countChords counts the declared chords of two keys or more, and those not named as unsafe.
func (pl *planner) countChords(unsafe map[string]bool) (all, safe int) {
	seen := map[string]bool{}
	for _, c := range pl.declared {
		if c.most() < 2 || seen[c.name] {
			continue
		}
		seen[c.name] = true
		all++
		if !unsafe[c.name] {
			safe++
		}
	}
	return all, safe
}

func (pl *planner) linesRow() row {
	d := pl.lines
	r := row{Choice: Choice{Method: methodLines, Wish: pl.wish("lines"), Chosen: pl.result.Style == "lines"}}
	if len(d.stuck) > 0 {
		r.barred, r.Wish = "not possible: contacts share both their terminals, and each key needs a diode", Wish{}
	}
	if len(d.pool) == 0 {
		return r
	}
	r.Rows, r.Columns, r.Pins, r.Diodes = d.lines, d.lines, d.lines+len(d.direct), len(d.pool)
	r.Parts = r.Diodes + pl.pull(d.lines+len(d.direct))
	r.Joints = r.Parts * jointsEach
	r.PeriodMicros = pl.drive.period(d.lines, len(d.direct))
	r.Length = float64(d.length)
	r.Fits = r.barred == "" && r.Pins <= pl.free
	unsafe := map[string]bool{}
	if d.doubts > 0 {
		holder := d.lineUp(d.lines, d.pair).holder
		chords := pairsUp(pl.declared, pl.onLines())
		for _, c := range chords {
			chord := newLineChord(c.family())
			list, all := explainDoubts(&chord, d.pair, holder, d.lines, chainBudget/len(chords))
			unsafe[c.name] = unsafe[c.name] || len(list) > 0 || !all
		}
	}
	r.Chords, r.SafeChords = pl.countChords(unsafe)
	pl.scanOn(&r.Choice)
	return r
}

// expanderRow counts what reading every key over the bus takes; its lines have pulls of their own.
// Its pins are those of the bus, if nothing uses that yet, and one for the interrupt of each expander,
// if there are enough; without them the bus is read without rest.
func (pl *planner) expanderRow() row {
	x, n := &pl.expanding, len(pl.keys)
	r := row{Choice: Choice{Method: methodExpander, Wish: pl.wish("expander"), Chosen: pl.result.Style == "expander"}}
	chips := x.chips(n)
	wired := x.wiredTerminals()
	if !x.bus {
		r.Pins = 2
	}
	alarmed := x.alarm() && r.Pins+chips <= pl.free
	if alarmed {
		r.Pins += chips
		wired++
	}
	r.Parts, r.Joints = chips, chips*wired+n
	if !x.pulls {
		r.Parts, r.Joints = r.Parts+2, r.Joints+2*jointsEach
	}
	r.PeriodMicros = tenth(float64(chips) * busRead)
	if r.Chosen {
		r.PeriodMicros, r.Length = pl.result.PeriodMicros, pl.result.Cost
	}
	switch {
	case slices.ContainsFunc(pl.keys, func(k key) bool { return k.own == never }):
		r.barred, r.Wish = "not possible: contacts share both their terminals", Wish{}
	case slices.ContainsFunc(pl.keys, func(k key) bool { return k.tied == part.Supply3V3 }):
		r.barred = "not possible for keys that switch to 3V3: an expander's own pulls go up"
	case chips > x.most():
		r.barred = "takes " + count(chips, "expander") + ", and one bus tells " + count(x.most(), "expander") + " apart"
	}
	r.Fits = r.barred == "" && r.Pins <= pl.free
	r.Chords, r.SafeChords = pl.countChords(nil)
	pl.askBus(&r.Choice, chips, n, alarmed)
	return r
}
