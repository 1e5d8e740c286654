package scan

import (
	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/panel"
)

// AssumedPins is how many free pins are assumed while a panel has no module: as many as a 40-pin
// module brings out.
const AssumedPins = 26

// Plan decides how the keys of p are read. freePins is how many pins are left for keys; chip is the
// controller, or nil while the panel has none: then AssumedPins counts in place of freePins. Equal
// panels get equal results. What cannot be had is said in Findings, and the result is then the
// nearest that can be drawn. Time grows about with the square of the keys, 128 of which take
// most of a second.
func Plan(p *panel.Panel, chip *controller.Chip, freePins int) Result {
	pl := planner{panel: p, wishes: p.Scan, free: max(0, freePins), known: chip != nil, keys: keysOf(p), chosen: -1}
	if pl.known {
		pl.chip = *chip
	} else {
		pl.free = AssumedPins
		pl.chip, _ = controller.ChipNamed(assumedChip)
	}
	shared := share(p, pl.keys)
	pl.forced = shared.lines
	pl.drive = driveOf(p.Scan, chip, shared.supply)
	pl.expanding = expandingOf(p)
	pl.result = Result{Findings: shared.findings,
		Choices: []Choice{}, Cells: []Cell{}, Direct: []Direct{}, Lamps: []Lamp{}, Ghosts: []Ghost{}}
	chords, said := chordsOf(p, pl.keys)
	pl.result.Findings = append(pl.result.Findings, said...)
	pl.declared = chords
	pl.run(shared.supply)
	finding.Sort(pl.result.Findings)
	return pl.result
}

// assumedChip is the controller whose figures count while a panel has no module.
const assumedChip = "RP2040"

// A planner carries one panel's way from keys to result.
type planner struct {
	panel     *panel.Panel
	wishes    panel.Scan
	free      int  // pins for keys
	known     bool // there is a controller to count pins of
	chip      controller.Chip
	keys      []key
	forced    [2]int
	declared  []chord // in keys
	drive     drive
	expanding expanding
	result    Result

	matrix  []int   // keys for the matrix
	direct  []int   // keys with pins of their own, should a matrix be used
	chords  []chord // in keys of the matrix
	m       *matrices
	list    []option // shapes that keep to the wishes
	others  []option // shapes for the table alone
	chosen  int      // index in list, or -1
	refused bool     // no shape keeps to the wishes
	lines   *lineDraft
}

func (pl *planner) run(supply map[string]bool) {
	pl.setDrive(pl.drive)
	if len(pl.keys) == 0 {
		pl.none()
		pl.light()
		return
	}
	pl.split()
	pl.prepare()
	pl.lines = pl.draftLines()
	style := pl.style()
	if style == "expander" {
		pl.turnLow()
	}
	pl.checkSupply(supply, style == "expander")
	switch style {
	case "lines":
		pl.buildLines()
	case "expander":
		pl.buildExpander()
	case "direct":
		pl.matrixless()
	default:
		pl.build()
	}
	pl.light()
	pl.result.Choices = pl.table()
}

func (pl *planner) setDrive(d drive) {
	pl.result.Active, pl.result.Pulls, pl.result.Reader = d.active, d.pulls, d.reader
}

func (pl *planner) none() {
	pl.result.Style = "none"
	pl.result.Proved, pl.result.DiodesProved = true, true
	pl.result.Why = "No contact has a legend yet, so there is nothing to read."
	pl.say(finding.Note, "scan-no-keys", nil, "The panel has no keys.", "Give a switch a legend and it becomes a key.")
}

// split parts the keys that may go into a matrix from those that get a pin in any case.
func (pl *planner) split() {
	for i, k := range pl.keys {
		if k.own == wanted || k.own == byNature {
			pl.direct = append(pl.direct, i)
		} else {
			pl.matrix = append(pl.matrix, i)
		}
	}
}

// style settles how the keys are read: as asked, where that can be had; otherwise with a pin each
// or by a matrix.
func (pl *planner) style() string {
	switch pl.wishes.Style {
	case "expander":
		if len(pl.expanding.ports) == 0 {
			pl.expanderMissing()
		} else if !pl.sharedBars("Let the style be auto or matrix.") {
			return "expander"
		}
	case "lines":
		if !pl.linesBarred() && len(pl.lines.pool) > 0 {
			return "lines"
		}
	}
	if len(pl.matrix) == 0 || pl.allDirect() {
		return "direct"
	}
	return "matrix"
}

// sharedBars says, when it is so, that contacts share both their terminals.
func (pl *planner) sharedBars(fix string) bool {
	var stuck []int
	for i, k := range pl.keys {
		if k.own == never {
			stuck = append(stuck, i)
		}
	}
	if len(stuck) > 0 {
		pl.say(finding.Stop, "scan-shared", idsOf(pl.keys, stuck), "Some contacts share both their terminals, so they can't have pins of their own.", fix)
	}
	return len(stuck) > 0
}

// allDirect reports whether every key gets a pin of its own: by wish, or because there are enough.
func (pl *planner) allDirect() bool {
	for _, k := range pl.matrix {
		if pl.keys[k].own == never {
			if pl.wishes.Style == "direct" {
				pl.sharedBars("Let the style be auto or matrix.")
			}
			return false
		}
	}
	switch pl.wishes.Style {
	case "direct":
		return true
	case "matrix":
		return false
	}
	return len(pl.keys) <= pl.free || pl.chosen < 0 || pl.pins(pl.list[pl.chosen].shape) >= len(pl.keys)
}

// pins is how many the keys take with a matrix of shape s.
func (pl *planner) pins(s shape) int { return s.pins() + len(pl.direct) }

// noDiodes and everyKey read the wish about diodes; any other value means where needed.
func (pl *planner) noDiodes() bool { return pl.wishes.Diodes == "none" }
func (pl *planner) everyKey() bool { return pl.wishes.Diodes == "every key" }

// prepare makes the drafts for every shape that the wishes leave, and for the table those of others.
func (pl *planner) prepare() {
	if len(pl.matrix) == 0 {
		return
	}
	at := make([]int, len(pl.keys))
	for i := range at {
		at[i] = noKey
	}
	keys := make([]key, len(pl.matrix))
	for i, k := range pl.matrix {
		at[k], keys[i] = i, pl.keys[k]
	}
	pl.chords = within(pl.declared, at)
	t := newTask(keys, pl.forced, familiesOf(pl.chords), !pl.everyKey())
	pl.m = &matrices{task: t, feeder: feederOf(pl.panel, keys)}
	able := func(s shape) bool { _, ok := t.place(s); return ok }
	room := pl.free - len(pl.direct)
	tight, loose := pl.wishedShapes(able)
	pl.list = pl.m.options(tight, loose, room)
	pl.chosen = pl.m.choose(pl.list, pl.noDiodes())
	if pl.wishes.Rows > 0 || pl.wishes.Columns > 0 {
		tight, _ = shapes(len(keys), 0, 0, able)
		pl.others = pl.m.beside(pl.list, tight, room)
	}
	for _, s := range leastShapes(len(keys)) {
		if able(s) {
			pl.others = append(pl.others, pl.m.hasty(s, room))
		}
	}
}
