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
			pl.haunt(f, chord, c)
		}
	case len(c.diodes) > 0:
		pl.explainDiodes(f, c)
	}
	pl.noteOwnPins()
}

// haunt lists one chord's ghosts and says so once.
func (pl *planner) haunt(f *field, chord chord, c candidate) {
	fam := chord.family()
	list, all := f.detours(fam)
	if len(list) == 0 && !all {
		list, all = f.firstDetour(fam)
	}
	if len(list) == 0 {
		if !all {
			pl.say(finding.Mind, "scan-chord-large", idsOf(pl.m.keys, fam.keys),
				fmt.Sprintf("Chord %s can be held in too many ways to look through; ghosts are not ruled out.", chord.name),
				"Split it into the chords that are really played, or set diodes to where needed.")
		}
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
	switch {
	case !all:
		text += fmt.Sprintf(", and so in at least %d more ways", len(list)-1)
	case len(list) > 1:
		text += fmt.Sprintf(", and so in %d more ways", len(list)-1)
	}
	text += "."
	if c.floor > 0 {
		text += fmt.Sprintf(" In %s no arrangement of the keys does without diodes.", c.shape)
	}
	pl.say(finding.Stop, "scan-ghost", append(idsOf(pl.m.keys, first.path), pl.m.keys[first.phantom].ID), text,
		fmt.Sprintf("Set diodes to where needed: %s at %s; or give one of the held keys a pin of its own.", count(len(c.diodes), "diode"), finding.Names(idsOf(pl.m.keys, c.diodes))))
}

// firstDetour is a detour of one chord if there is one; all is false when that could not be made out.
func (f *field) firstDetour(fam *family) (list []detour, all bool) {
	o := newOpenWays(f, fam, make([]bool, len(f.cell)))
	o.left = detourBudget
	paths, all := o.find()
	for _, path := range paths[:min(1, len(paths))] {
		list = append(list, detour{path, f.corner(path[0], path[len(path)-1])})
	}
	return list, all && len(list) == 0
}

// haunts reports whether a chord ghosts without diodes, or that could not be ruled out.
func (f *field) haunts(c *chord) bool {
	fam := c.family()
	if len(f.elbows([]*family{fam})) == 0 {
		return false
	}
	list, all := f.firstDetour(fam)
	return len(list) > 0 || !all
}

func (pl *planner) explainDiodes(f *field, c candidate) {
	var names []string
	for _, chord := range pl.chords {
		if !slices.Contains(names, chord.name) && f.haunts(&chord) {
			names = append(names, chord.name)
		}
	}
	ids := idsOf(pl.m.keys, c.diodes)
	text := fmt.Sprintf("Chords %s are safe only with diodes: ", finding.Names(names))
	if len(names) == 1 {
		text = fmt.Sprintf("Chord %s is safe only with diodes: ", finding.Names(names))
	}
	if saved := len(pl.m.keys) - len(ids); saved > 0 {
		text += fmt.Sprintf("%s at %s, %d fewer than one at every key.", count(len(ids), "diode"), finding.Names(ids), saved)
	} else {
		text += "one at every key."
	}
	switch {
	case c.floor == len(ids):
		text += fmt.Sprintf(" In %s no arrangement of the keys does with fewer.", c.shape)
	case c.floor > 0:
		text += fmt.Sprintf(" In %s no arrangement of the keys does with fewer than %d.", c.shape, c.floor)
	case !c.least:
		text += " Fewer might do; the search for them was cut short."
	}
	pl.say(finding.Note, "scan-diodes", ids, text, "Place a diode beside each of these keys, or give them pins of their own.")
}

// noteOwnPins says which keys of chords are safe because they are no part of the matrix.
func (pl *planner) noteOwnPins() {
	var ids []string
	for _, c := range pl.panel.Chords {
		all := c.All()
		for _, id := range all {
			own := slices.ContainsFunc(pl.result.Direct, func(d Direct) bool { return d.Key == id })
			if own && len(all) > 2 && !slices.Contains(ids, id) {
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
