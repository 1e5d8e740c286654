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
// a few tenths of a second.
func Plan(p *panel.Panel, chip *controller.Chip, freePins int) Result {
	if chip == nil {
		freePins = AssumedPins
	}
	pl := planner{panel: p, wishes: p.Scan, free: max(0, freePins), known: chip != nil, keys: keysOf(p)}
	shared := share(p, pl.keys)
	pl.forced = shared.lines
	pl.drive = driveOf(p.Scan, chip, shared.supply)
	pl.result = Result{Active: pl.drive.active, Pulls: pl.drive.pulls, Reader: pl.drive.reader, Findings: shared.findings,
		Choices: []Choice{}, Cells: []Cell{}, Direct: []Direct{}, Ghosts: []Ghost{}}
	chords, said := chordsOf(p, pl.keys)
	pl.result.Findings = append(pl.result.Findings, said...)
	pl.chords = chords
	pl.checkSupply(shared.supply)
	pl.run()
	finding.Sort(pl.result.Findings)
	return pl.result
}

// A planner carries one panel's way from keys to result.
type planner struct {
	panel  *panel.Panel
	wishes panel.Scan
	free   int  // pins for keys
	known  bool // there is a controller to count pins of
	keys   []key
	forced [2]int
	chords []chord
	drive  drive
	result Result

	matrix  []int // keys for the matrix
	direct  []int // keys with pins of their own, should a matrix be used
	m       *matrices
	list    []option
	chosen  int  // index in list, or -1
	refused bool // no shape keeps to the wishes
}

func (pl *planner) run() {
	if len(pl.keys) == 0 {
		pl.none()
		return
	}
	pl.split()
	if len(pl.matrix) == 0 {
		pl.matrixless()
		return
	}
	pl.prepare()
	if pl.allDirect() {
		pl.matrixless()
		return
	}
	pl.build()
}

func (pl *planner) none() {
	pl.result.Style = "none"
	pl.result.Proved = true
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

// allDirect reports whether every key gets a pin of its own: by wish, or because there are enough.
func (pl *planner) allDirect() bool {
	for _, k := range pl.matrix {
		if pl.keys[k].own == never {
			if pl.wishes.Style == "direct" {
				pl.say(finding.Stop, "scan-shared", idsOf(pl.keys, pl.matrix), "Some contacts share both their terminals, so they can't have pins of their own.",
					"Let the style be auto or matrix.")
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

// prepare makes the drafts for every shape that the wishes leave.
func (pl *planner) prepare() {
	at := make([]int, len(pl.keys))
	for i := range at {
		at[i] = noKey
	}
	keys := make([]key, len(pl.matrix))
	for i, k := range pl.matrix {
		at[k], keys[i] = i, pl.keys[k]
	}
	pl.chords = within(pl.chords, at)
	t := newTask(keys, pl.forced, distinctSets(pl.chords), !pl.everyKey())
	pl.m = &matrices{task: t, feeder: feederOf(pl.panel, keys)}
	able := func(s shape) bool { _, ok := t.place(s); return ok }
	tight, loose := pl.wishedShapes(able)
	pl.list = pl.m.options(tight, loose, pl.free-len(pl.direct))
	pl.chosen = pl.m.choose(pl.list, pl.noDiodes())
}
