package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"

	"fascia/design/panel"
	"fascia/design/record"
	"fascia/design/wiring"
)

// admit turns away an edit that draws a wire which cannot be: one that joins two nets, leaves the
// boards, or lies where no iron or wire gets. The store takes every valid panel, so this is asked first.
func (s *Server) admit(ctx context.Context, id record.ID, e panel.Edit) error {
	_, alone := e.(*panel.LockWire)
	switch e.(type) {
	case *panel.LockWire, *panel.Together, *panel.Restore:
	default:
		return nil // draws no wire
	}
	p, _, made, err := s.planOf(ctx, id)
	if err != nil {
		return err
	}
	after, _, err := panel.Apply(p, e)
	if err != nil {
		return nil // the store refuses it in its own words
	}
	fresh := freshWires(&p, &after)
	if len(fresh) > 0 && !alone {
		made = s.plans.make(&after) // nets follow from what is placed
	}
	for _, l := range fresh {
		if why := wiring.CanLock(&after, &made.Fit, &made.Nets, l); why != "" {
			return problem{Status: http.StatusUnprocessableEntity, Fix: "Nothing was changed. Lead it elsewhere, or join in another way.",
				Text: fmt.Sprintf("%s from %s to %s on the %s cannot be: %s.", capital(wireWords[wiring.Kind(l.Kind)]), l.From, l.To, l.Face, why)}
		}
	}
	return nil
}

// freshWires are the maker's own wires of a panel that another has not got just so.
func freshWires(before, after *panel.Panel) []panel.LockedWire {
	return slices.DeleteFunc(slices.Clone(after.Wires.Locked), func(l panel.LockedWire) bool {
		return slices.ContainsFunc(before.Wires.Locked, func(o panel.LockedWire) bool {
			return o.From == l.From && o.To == l.To && o.Kind == l.Kind && o.Face == l.Face && slices.Equal(o.Path, l.Path)
		})
	})
}
