package check

import (
	"fmt"
	"maps"
	"slices"

	"fascia/design/finding"
	"fascia/design/grid"
)

var wishRules = []Rule{
	{Code: "lock-signal", Severity: finding.Mind, Says: "A lock names a signal of this panel.", Source: "common practice, no source",
		Instead: []string{"pin-lock-unknown"}, look: lockSignal},
	{Code: "lock-pin", Severity: finding.Stop, Says: "A lock names a pin that the module brings out.", Source: "the module's data sheet, in its definition",
		Instead: []string{"pin-lock-unknown"}, look: lockPin},
	{Code: "keep-free-unknown", Severity: finding.Mind, Says: "Pins to be kept free are pins of the module.", Source: "the module's data sheet, in its definition",
		Instead: []string{"pin-keep-unknown"}, look: keepFreeUnknown},
	{Code: "keep-out-off-board", Severity: finding.Note, Says: "Holes to be kept free are on a board.", Source: "common practice, no source", look: keepOutOffBoard},
	{Code: "wire-end-off-board", Severity: finding.Mind, Says: "A wire you fixed goes from hole to hole.", Source: "common practice, no source",
		Instead: []string{"wire-lock-wrong"}, look: wireOffBoard},
}

// signalIDs holds everything that a lock may name: what pins serve, terminals that want a signal,
// keys, rows and columns.
func (v *view) signalIDs() map[string]bool {
	ids := map[string]bool{}
	for _, p := range v.pins.Pins {
		ids[p.Signal] = true
		for _, t := range p.Serves {
			ids[t.String()] = true
		}
	}
	for i := range v.items {
		for _, n := range v.items[i].def.Needs {
			ids[v.items[i].Ref+"."+n.Terminal] = true
		}
	}
	for _, k := range v.keys {
		ids[k.ID] = true
	}
	for r := range max(v.scan.Rows, v.Panel.Scan.Rows) {
		ids[v.scan.RowNet(r)] = true
	}
	for c := range max(v.scan.Columns, v.Panel.Scan.Columns) {
		ids[v.scan.ColumnNet(c)] = true
	}
	return ids
}

func lockSignal(v *view) []finding.Finding {
	var found []finding.Finding
	ids := v.signalIDs()
	locked := v.Panel.Pins.Locked
	for _, id := range slices.Sorted(maps.Keys(locked)) {
		if !ids[id] {
			found = append(found, finding.Finding{Where: finding.Where{Pin: locked[id]},
				Text: fmt.Sprintf("%s is locked to %s, which is no signal of this panel.", locked[id], id),
				Fix:  "Take the lock away, or place the part it speaks of."})
		}
	}
	return found
}

func lockPin(v *view) []finding.Finding {
	if v.Module == nil {
		return nil
	}
	var found []finding.Finding
	locked := v.Panel.Pins.Locked
	for _, id := range slices.Sorted(maps.Keys(locked)) {
		if _, ok := v.Module.Pin(locked[id]); !ok {
			found = append(found, finding.Finding{Where: finding.Where{Pin: locked[id]},
				Text: fmt.Sprintf("%s is locked to %s, which the module does not bring out.", capital(id), locked[id]),
				Fix:  "Choose a pin that the module has."})
		}
	}
	return found
}

func keepFreeUnknown(v *view) []finding.Finding {
	if v.Module == nil {
		return nil
	}
	var found []finding.Finding
	for _, name := range v.Panel.Pins.KeepFree {
		if _, ok := v.Module.Pin(name); !ok {
			found = append(found, finding.Finding{Where: finding.Where{Pin: name},
				Text: fmt.Sprintf("%s shall be kept free, but the module does not bring it out.", name),
				Fix:  "Take it off the list."})
		}
	}
	return found
}

func keepOutOffBoard(v *view) []finding.Finding {
	var off []grid.Hole
	for _, h := range v.Panel.Wires.KeepOut {
		if v.Panel.BoardAt(h) == nil && h.Valid() {
			off = append(off, h)
		}
	}
	if len(off) == 0 {
		return nil
	}
	return []finding.Finding{{Where: finding.Where{Holes: off},
		Text: fmt.Sprintf("%s shall be kept free and %s on no board.", grid.JoinHoles(off), are(len(off))),
		Fix:  "Take them off the list."}}
}

func wireOffBoard(v *view) []finding.Finding {
	var found []finding.Finding
	for _, w := range v.Panel.Wires.Locked {
		for _, h := range []grid.Hole{w.From, w.To} {
			if v.Panel.BoardAt(h) == nil {
				found = append(found, finding.Finding{Where: finding.Where{Holes: []grid.Hole{h}},
					Text: fmt.Sprintf("The wire you fixed from %s to %s ends at %s, on no board.", w.From, w.To, h),
					Fix:  "Move its end onto a board, or take it away."})
			}
		}
	}
	return found
}
