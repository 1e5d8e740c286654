package scan

import (
	"fmt"
	"slices"

	"fascia/design/finding"
)

// maxGhosts bounds the list of ghosts; a panel with more has been told enough.
const maxGhosts = 1000

// judgeChords lists the ghosts, or what the diodes do against them.
func (pl *planner) judgeChords(c candidate) {
	f := fieldOf(c.shape, c.cell)
	switch {
	case pl.everyKey():
	case pl.noDiodes():
		for _, chord := range pl.chords {
			pl.haunt(f, chord, c.diodes)
		}
	case len(c.diodes) > 0:
		pl.explainDiodes(f, c)
	}
	pl.noteOwnPins()
}

// haunt lists one chord's ghosts and says so once.
func (pl *planner) haunt(f *field, chord chord, diodes []int) {
	list := least(f.detours(chord.keys))
	if len(list) == 0 {
		return
	}
	for _, d := range list {
		if len(pl.result.Ghosts) < maxGhosts {
			phantom := pl.m.keys[d.phantom]
			pl.result.Ghosts = append(pl.result.Ghosts, Ghost{Chord: chord.name, Pressed: idsOf(pl.m.keys, d.path), Phantom: phantom.ID,
				Row: f.row(d.phantom), Column: f.column(d.phantom)})
		}
	}
	first := list[0]
	text := fmt.Sprintf("Chord %s: while %s are held, %s reads as pressed too", chord.name, finding.Names(idsOf(pl.m.keys, first.path)), pl.m.keys[first.phantom].ID)
	if len(list) > 1 {
		text += fmt.Sprintf(", and so in %d more ways", len(list)-1)
	}
	pl.say(finding.Stop, "scan-ghost", append(idsOf(pl.m.keys, first.path), pl.m.keys[first.phantom].ID), text+".",
		fmt.Sprintf("Set diodes to where needed: %s at %s; or give one of the held keys a pin of its own.", count(len(diodes), "diode"), finding.Names(idsOf(pl.m.keys, diodes))))
}

func (pl *planner) explainDiodes(f *field, c candidate) {
	var names []string
	for _, chord := range pl.chords {
		if len(f.detours(chord.keys)) > 0 && !slices.Contains(names, chord.name) {
			names = append(names, chord.name)
		}
	}
	ids := idsOf(pl.m.keys, c.diodes)
	verb := "Chords %s are safe only with diodes: "
	if len(names) == 1 {
		verb = "Chord %s is safe only with diodes: "
	}
	text := fmt.Sprintf(verb, finding.Names(names)) + "one at every key."
	if saved := len(pl.m.keys) - len(ids); saved > 0 {
		text = fmt.Sprintf(verb, finding.Names(names)) + fmt.Sprintf("%s at %s, %d fewer than one at every key.", count(len(ids), "diode"), finding.Names(ids), saved)
	}
	if !c.least {
		text += " Fewer might do; the search for them was cut short."
	}
	pl.say(finding.Note, "scan-diodes", ids, text, "Place a diode beside each of these keys, or give them pins of their own.")
}

// noteOwnPins says which keys of chords are safe because they are no part of the matrix.
func (pl *planner) noteOwnPins() {
	var ids []string
	for _, c := range pl.panel.Chords {
		for _, id := range c.Keys {
			own := slices.ContainsFunc(pl.result.Direct, func(d Direct) bool { return d.Key == id })
			if own && len(c.Keys) > 2 && !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	if len(ids) > 0 {
		verb := "have pins of their own, so no chord with them ghosts through them"
		if len(ids) == 1 {
			verb = "has a pin of its own, so no chord with it ghosts through it"
		}
		pl.say(finding.Note, "scan-chord-direct", ids, finding.Names(ids)+" "+verb+".", "Nothing to do.")
	}
}
