package wiring

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// makeCuts puts the cuts into a copy of the panel, and says which of them cannot be made.
func (v *verifier) makeCuts(cuts []Cut) {
	if len(cuts) == 0 {
		return
	}
	q := *v.p
	q.Boards = slices.Clone(q.Boards)
	for i := range q.Boards {
		q.Boards[i].Cuts = slices.Clone(q.Boards[i].Cuts)
	}
	v.p = &q
	for _, c := range cuts {
		b := q.BoardAt(c.Hole)
		switch {
		case b == nil || b.ID != c.Board || b.Copper != panel.Strips:
			v.say("cut at " + c.Hole.String() + " is on no strip of board " + c.Board)
			continue
		case slices.Contains(b.Cuts, c.Hole):
			v.say("cut at " + c.Hole.String() + " is made twice")
		}
		b.Cuts = append(b.Cuts, c.Hole)
	}
	for i := range q.Placed {
		pl := &q.Placed[i]
		for _, t := range q.Parts[pl.Part].Terminals {
			h := pl.Pose().Hole(t.Offset())
			if slices.ContainsFunc(cuts, func(c Cut) bool { return c.Hole == h }) {
				v.say("cut at " + h.String() + " lies under the lead " + pl.Ref + "." + t.Name)
			}
		}
	}
}

// Faults is Verify as a stage: one stop finding when the wires and cuts of r do not make the nets of
// n, and nothing else. It is meant to run on every plan and never to be hidden.
func Faults(p *panel.Panel, n *netlist.Result, r *Result) []finding.Finding {
	wrong := Verify(p, n, r.Wires, r.Cuts...)
	if len(wrong) == 0 {
		return nil
	}
	worst := max(0, slices.IndexFunc(wrong, func(s string) bool { return strings.HasPrefix(s, "short") }))
	more := ""
	if len(wrong) > 1 {
		more = fmt.Sprintf(" and %d more", len(wrong)-1)
	}
	return []finding.Finding{{Severity: finding.Stop, Code: "wire-fault",
		Text: fmt.Sprintf("Built by this wire list, the panel would not be what it should be: %s%s.", wrong[worst], more),
		Fix:  "Put right what the other findings about wires name. If there are none, do not solder by this list."}}
}
