package web

import (
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// wireLock is the edit that locks a wire of the plan as it is, or leaves a locked one to Fascia again;
// "" for a wire that cannot be locked: metal of a part, and what has an end on either face.
func (v *visit) wireLock(w *wiring.Wire) (locked bool, edit string) {
	if w.Locked {
		for i := range v.panel.Wires.Locked {
			if l := &v.panel.Wires.Locked[i]; askedFor(l, w) {
				return true, edited(&panel.UnlockWire{From: l.From, To: l.To, Face: l.Face})
			}
		}
		return true, ""
	}
	l, ok := asLocked(w)
	if !ok {
		return false, ""
	}
	if v.carriesNet(w.Net, w.From) || v.carriesNet(w.Net, w.To) {
		return false, edited(&panel.LockWire{Wire: l})
	}
	return false, v.lockedWith(w, l)
}

// asLocked is the wish for a wire of the plan as it is.
func asLocked(w *wiring.Wire) (panel.LockedWire, bool) {
	l := panel.LockedWire{From: w.From, To: w.To, Kind: string(w.Kind), Face: w.Face}
	if w.Kind == wiring.Bare {
		l.Path = bendsOf(w.Path)
	}
	return l, w.Kind != wiring.Leg && !w.Through && !w.Round && w.From != w.To && len(l.Path) <= panel.MaxMembers
}

// carriesNet reports whether a lead of a net is in a hole.
func (v *visit) carriesNet(net string, h grid.Hole) bool {
	n, _ := v.plan.Nets.Net(net)
	return slices.ContainsFunc(n.Terminals, func(t netlist.Terminal) bool { return t.Hole == h })
}

// lockedWith locks a wire between free holes with one that it leans on.
func (v *visit) lockedWith(w *wiring.Wire, l panel.LockedWire) string {
	for i := range v.plan.Wiring.Wires {
		o := &v.plan.Wiring.Wires[i]
		if o.Net != w.Net || !slices.Contains(o.Path, w.From) && !slices.Contains(o.Path, w.To) {
			continue
		}
		if o.Locked {
			return edited(&panel.LockWire{Wire: l})
		}
		other, ok := asLocked(o)
		if !ok || !v.carriesNet(o.Net, o.From) && !v.carriesNet(o.Net, o.To) {
			continue
		}
		lock := &panel.LockWire{Wire: l}
		both := &panel.Together{What: lock.Label() + " and the one it leans on"}
		for _, e := range []panel.Edit{&panel.LockWire{Wire: other}, lock} {
			both.Edits = append(both.Edits, jsontext.Value(edited(e)))
		}
		return edited(both)
	}
	return ""
}

// askedFor reports whether a wire of the plan is there because of a wish, all of it or one of the
// bridges of a row.
func askedFor(l *panel.LockedWire, w *wiring.Wire) bool {
	if l.Face != w.Face || l.Kind != string(w.Kind) {
		return false
	}
	if l.From == w.From && l.To == w.To || l.From == w.To && l.To == w.From {
		return true
	}
	row := l.From.Steps(l.To)
	return w.Kind == wiring.Solder && within(l, w.From, row) && within(l, w.To, row)
}

func within(l *panel.LockedWire, h grid.Hole, row int) bool {
	return l.From.Steps(h)+h.Steps(l.To) == row
}

// bendsOf leaves out the holes that a run goes straight through.
func bendsOf(path []grid.Hole) []grid.Hole {
	var kept []grid.Hole
	for i, h := range path {
		if i == 0 || i == len(path)-1 || path[i].Minus(path[i-1]) != path[i+1].Minus(path[i]) {
			kept = append(kept, h)
		}
	}
	return kept
}
