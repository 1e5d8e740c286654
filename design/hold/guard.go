package hold

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/scan"
)

// A Guard is a key's diode with what it is there for.
type Guard struct {
	Key   string `json:"key"`
	Chord string `json:"chord"` // that would ghost without it; "" when no chord needs it
	Ghost Ghost  `json:"ghost"` // the first that it prevents
}

// Guards lists every diode of the scan, in the order of cells, each with the first chord that needs it:
// one that would have a ghost if that diode alone were left out.
func Guards(r *scan.Result, chords []panel.Chord) []Guard {
	b := benchOf(r)
	list := []Guard{}
	for k, c := range b.cells {
		if c.Diode {
			b.diode[k] = false
			list = append(list, b.guard(k, chords))
			b.diode[k] = true
		}
	}
	return list
}

// guard looks for a ghost through cell k, whose diode is out.
func (b *bench) guard(k int, chords []panel.Chord) Guard {
	for i := range chords {
		h := b.held(&chords[i])
		if !slices.Contains(h.cells, k) {
			continue
		}
		for _, p := range b.search(h, nil).found {
			if slices.Contains(b.backward(p), k) {
				return Guard{b.cells[k].Key, chords[i].Name, b.ghost(p, chords[i].All())}
			}
		}
	}
	return Guard{Key: b.cells[k].Key}
}
