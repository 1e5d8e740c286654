package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/scan"
)

var chordRules = []Rule{
	{Code: "chord-ghost", Severity: finding.Stop, Says: "No chord presses a key that nobody touches.",
		Source: "Dribin, Keyboard Matrix Help, 1999-2000", Instead: []string{"scan-ghost"}, look: chordGhost},
	{Code: "chord-key-missing", Severity: finding.Stop, Says: "A chord names keys of this panel.", Source: "common practice, no source",
		Instead: []string{"scan-chord-missing"}, look: chordKeyMissing},
	{Code: "chord-single", Severity: finding.Note, Says: "A chord has two keys or more.", Source: "common practice, no source",
		Instead: []string{"scan-chord-single"}, look: chordSingle},
	{Code: "chord-six", Severity: finding.Note, Says: "A chord of more than six keys wants a report of its own.",
		Source: "HID 1.11, appendix B.1: six usages in the boot report", look: chordSix},
}

func chordName(c panel.Chord, i int) string {
	if c.Name == "" {
		return fmt.Sprintf("Chord %d", i+1)
	}
	return fmt.Sprintf("Chord %q", c.Name)
}

// chordGhost says one finding for each chord, with the first ghost as the example.
func chordGhost(v *view) []finding.Finding {
	var found []finding.Finding
	for i, c := range v.Panel.Chords {
		var ghosts []scan.Ghost
		for _, g := range v.scan.Ghosts {
			if g.Chord == c.Name && !slices.Contains(c.Keys, g.Phantom) {
				ghosts = append(ghosts, g)
			}
		}
		if len(ghosts) == 0 {
			continue
		}
		g := ghosts[0]
		found = append(found, finding.Finding{Where: atKeys(append(slices.Clone(g.Pressed), g.Phantom)...),
			Text: fmt.Sprintf("%s: with %s held, %s reads as pressed too.", chordName(c, i), finding.Names(g.Pressed), v.keyOrCell(g)),
			Fix:  "Let diodes go where needed, move a key of the chord to another cell, or give it a pin of its own."})
	}
	return found
}

// keyOrCell names the key that reads as pressed, or its cell when that is empty.
func (v *view) keyOrCell(g scan.Ghost) string {
	for _, k := range v.keys {
		if k.ID == g.Phantom {
			return keyName(k)
		}
	}
	return fmt.Sprintf("the cell of %s and %s", v.scan.RowNet(g.Row), v.scan.ColumnNet(g.Column))
}

// pressed is how many keys a chord has down at once.
func pressed(c panel.Chord) int {
	plain := panel.Chord{Keys: c.Keys}
	n := len(plain.All())
	for _, a := range c.Any {
		n += a.Count
	}
	return n
}

// distinctKeys lists the keys of a chord that are on the panel, each once, and those that are not.
func (v *view) distinctKeys(c panel.Chord) (known, missing []string) {
	for _, id := range c.All() {
		switch {
		case slices.ContainsFunc(v.keys, func(k panel.KeyRef) bool { return k.ID == id }):
			known = append(known, id)
		default:
			missing = append(missing, id)
		}
	}
	return known, missing
}

func chordKeyMissing(v *view) []finding.Finding {
	var found []finding.Finding
	for i, c := range v.Panel.Chords {
		if _, missing := v.distinctKeys(c); len(missing) > 0 {
			found = append(found, finding.Finding{Where: atKeys(missing...),
				Text: fmt.Sprintf("%s names %s, which %s no key of this panel.", chordName(c, i), finding.Names(missing), are(len(missing))),
				Fix:  "Take it out of the chord, or give that switch a legend."})
		}
	}
	return found
}

func chordSingle(v *view) []finding.Finding {
	var found []finding.Finding
	for i, c := range v.Panel.Chords {
		if known, _ := v.distinctKeys(c); pressed(c) < 2 {
			found = append(found, finding.Finding{Where: atKeys(known...),
				Text: fmt.Sprintf("%s has fewer than two keys.", chordName(c, i)), Fix: "Add a key to it, or take it away."})
		}
	}
	return found
}

// mostReported is how many keys the boot report of a keyboard holds.
const mostReported = 6

func chordSix(v *view) []finding.Finding {
	var found []finding.Finding
	for i, c := range v.Panel.Chords {
		if known, missing := v.distinctKeys(c); pressed(c)-len(missing) > mostReported {
			found = append(found, finding.Finding{Where: atKeys(known...),
				Text: fmt.Sprintf("%s has %d keys; a plain keyboard report holds %d.", chordName(c, i), pressed(c), mostReported),
				Fix:  "Report the keys as a bitmap if the panel shall be a USB keyboard."})
		}
	}
	return found
}
