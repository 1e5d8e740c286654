package fit

import (
	"fmt"
	"math"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/part"
)

// Distances between key centres. The smallest at which two 6 mm switches go in is three steps;
// fingers want 10 to 13 mm (common practice, no source).
const (
	tightKeys  grid.Millimetre = 3 * grid.Pitch
	fingerRoom grid.Millimetre = 10
)

// closeKeys finds keys too near to each other to press one alone.
func (s *scene) closeKeys() {
	var keys []Body
	for i := range s.spots {
		if sp := &s.spots[i]; sp.def.Kind == part.Switch && len(sp.def.Contacts) == 1 && len(sp.bodies) > 0 {
			keys = append(keys, sp.bodies[0])
		}
	}
	nearest := make([]grid.Millimetre, len(keys))
	for i := range nearest {
		nearest[i] = grid.Millimetre(math.Inf(1))
	}
	for i := range keys {
		for j := range i {
			if keys[i].Face != keys[j].Face || s.refused[pairOf(keys[i].Ref, keys[j].Ref)] {
				continue
			}
			d := keys[i].Rect.Centre().Distance(keys[j].Rect.Centre())
			nearest[i], nearest[j] = min(nearest[i], d), min(nearest[j], d)
		}
	}
	s.sayClose(keys, nearest, 0, tightKeys-0.05, finding.Mind)
	s.sayClose(keys, nearest, tightKeys-0.05, fingerRoom, finding.Note)
}

// sayClose says one finding for all keys whose nearest neighbour is from least to most away.
func (s *scene) sayClose(keys []Body, nearest []grid.Millimetre, least, most grid.Millimetre, severity finding.Severity) {
	var refs []string
	closest := most
	for i := range keys {
		if nearest[i] >= least && nearest[i] < most {
			refs, closest = append(refs, keys[i].Ref), min(closest, nearest[i])
		}
	}
	if len(refs) == 0 {
		return
	}
	s.say(severity, "fit-keys-close", finding.Where{Refs: refs},
		fmt.Sprintf("Keys %s have neighbours only %.1f mm away, centre to centre.", finding.Names(refs), closest),
		"Leave 10 to 13 mm between keys that fingers shall tell apart.")
}
