package scan

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
)

// maxChord is the largest chord of which every part is looked at: its parts double with each key.
// Of larger ones only the ghosts of three keys are listed.
const maxChord = 10

// A chord is one of the panel's, its keys as indices and each once.
type chord struct {
	name string
	keys []int
}

// chordsOf reads the panel's chords and says what is wrong with them.
func chordsOf(p *panel.Panel, keys []key) ([]chord, []finding.Finding) {
	index := map[string]int{}
	for i := range keys {
		index[keys[i].ID] = i
	}
	var chords []chord
	var said []finding.Finding
	for _, c := range p.Chords {
		var missing []string
		read := chord{name: c.Name}
		for _, id := range c.Keys {
			if k, ok := index[id]; !ok {
				missing = append(missing, id)
			} else if !slices.Contains(read.keys, k) {
				read.keys = append(read.keys, k)
			}
		}
		slices.Sort(read.keys)
		chords = append(chords, read)
		if len(missing) > 0 {
			said = append(said, finding.Finding{Severity: finding.Stop, Code: "scan-chord-missing", Where: finding.Where{Keys: missing},
				Text: fmt.Sprintf("Chord %s names %s, and there is no such key.", c.Name, finding.Names(missing)),
				Fix:  "Take the name out of the chord, or give the contact a legend."})
		}
		if len(read.keys) < 2 {
			said = append(said, finding.Finding{Severity: finding.Note, Code: "scan-chord-single", Where: finding.Where{Keys: idsOf(keys, read.keys)},
				Text: fmt.Sprintf("Chord %s holds fewer than two keys, so it asks for nothing.", c.Name),
				Fix:  "Add the keys that are pressed together with it, or remove the chord."})
		}
		if len(read.keys) > maxChord {
			said = append(said, finding.Finding{Severity: finding.Mind, Code: "scan-chord-large", Where: finding.Where{Keys: idsOf(keys, read.keys)},
				Text: fmt.Sprintf("Chord %s holds %d keys; of more than %d only ghosts through three keys are listed.", c.Name, len(read.keys), maxChord),
				Fix:  "Split it into the chords that are really played; a diode at every key settles it too."})
		}
	}
	return chords, said
}

// within gives the chords as keys of the matrix alone, three or more: fewer never ghost, and keys
// with pins of their own have no part in it. at maps a key to its index in the matrix or -1.
func within(chords []chord, at []int) []chord {
	var kept []chord
	for _, c := range chords {
		m := chord{name: c.name}
		for _, k := range c.keys {
			if at[k] >= 0 {
				m.keys = append(m.keys, at[k])
			}
		}
		if len(m.keys) >= 3 {
			kept = append(kept, m)
		}
	}
	return kept
}

// distinctSets drops the names and the repeats.
func distinctSets(chords []chord) [][]int {
	var sets [][]int
	for _, c := range chords {
		if !slices.ContainsFunc(sets, func(s []int) bool { return slices.Equal(s, c.keys) }) {
			sets = append(sets, c.keys)
		}
	}
	return sets
}
