package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

var contactRules = []Rule{
	{Code: "switch-closed", Severity: finding.Stop, Says: "No contact is bridged by its own wiring.", Source: "B3F data sheet: the legs across the 6.5 mm side are one metal (from memory)",
		Instead: []string{"scan-closed"}, look: switchClosed},
	{Code: "switch-on-strip", Severity: finding.Stop, Says: "No copper of the board bridges a contact.", Source: "common practice, no source", look: switchOnStrip},
	{Code: "switch-unread", Severity: finding.Mind, Says: "Every switch means something.", Source: "common practice, no source", look: switchUnread},
}

// eachContact calls say for every contact of every part.
func (v *view) eachContact(say func(it *item, c part.Contact)) {
	for i := range v.items {
		for _, c := range v.items[i].def.Contacts {
			say(&v.items[i], c)
		}
	}
}

// contactID is the key id of a contact: S1, or S9.up for one of several.
func contactID(it *item, c part.Contact) string {
	if len(it.def.Contacts) == 1 {
		return it.Ref
	}
	return it.Ref + "." + c.Name
}

func switchClosed(v *view) []finding.Finding {
	var found []finding.Finding
	v.eachContact(func(it *item, c part.Contact) {
		a, b := v.net(it.Ref, c.Between[0]), v.net(it.Ref, c.Between[1])
		if a != nil && a == b {
			found = append(found, finding.Finding{Where: finding.Where{Keys: []string{contactID(it, c)}, Net: a.Name},
				Text: fmt.Sprintf("%s is always closed: both its sides are on %s.", contactID(it, c), a.Name),
				Fix:  "Take one side out of the join, or turn the part a quarter."})
		}
	})
	return found
}

func switchOnStrip(v *view) []finding.Finding {
	var found []finding.Finding
	v.eachContact(func(it *item, c part.Contact) {
		a, b, ok := v.bridged(it, c)
		if !ok {
			return
		}
		found = append(found, finding.Finding{Where: finding.Where{Keys: []string{contactID(it, c)}, Holes: []grid.Hole{a, b}},
			Text: fmt.Sprintf("%s is always closed: the board's copper joins its sides at %s and %s.", contactID(it, c), a, b),
			Fix:  "Turn the part a quarter, or cut the copper between the two holes."})
	})
	return found
}

// bridged finds a hole of each side of a contact that the board's own copper joins.
func (v *view) bridged(it *item, c part.Contact) (a, b grid.Hole, ok bool) {
	for _, from := range it.def.Metal(c.Between[0]) {
		a, _ := v.Panel.HoleOf(panel.TerminalRef{Ref: it.Ref, Terminal: from})
		board := v.Panel.BoardAt(a)
		if board == nil || board.Copper != panel.Strips && board.Copper != panel.Groups {
			continue
		}
		mates := board.Mates(a)
		for _, to := range it.def.Metal(c.Between[1]) {
			b, _ := v.Panel.HoleOf(panel.TerminalRef{Ref: it.Ref, Terminal: to})
			if a != b && slices.Contains(mates, b) {
				return a, b, true
			}
		}
	}
	return grid.Hole{}, grid.Hole{}, false
}

// switchUnread finds switches without a key whose contacts are not wired otherwise.
func switchUnread(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Switch) {
		if len(it.def.Contacts) == 0 || slices.ContainsFunc(v.keys, func(k panel.KeyRef) bool { return k.Ref == it.Ref }) {
			continue
		}
		if on, _ := v.wired(it); len(on) == 0 {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("Switch %s has no meaning, so nothing reads it.", it.Ref),
				Fix:  "Give it a legend, join it yourself, or take it away."})
		}
	}
	return found
}
