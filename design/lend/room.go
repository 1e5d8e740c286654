package lend

import (
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// beside is what a proposed body keeps from others and from joints, in millimetres.
const beside grid.Millimetre = 0.5

// A room knows what is taken, parts proposed so far included.
type room struct {
	p      *panel.Panel
	fit    *fit.Result
	taken  map[grid.Hole]bool
	bodies []fit.Body
}

func newRoom(p *panel.Panel, f *fit.Result) *room {
	r := &room{p: p, fit: f, taken: map[grid.Hole]bool{}, bodies: slices.Clone(f.Bodies)}
	for _, l := range f.Leads {
		r.taken[l.Hole] = true
	}
	for _, h := range p.Wires.KeepOut {
		r.taken[h] = true
	}
	return r
}

// fits reports whether a part may lie so: its leads in free holes of one board that can be soldered
// on the far side, its bodies on the board, beside others, and over nobody's joints.
func (r *room) fits(pose grid.Pose, d *part.Definition) bool {
	board := r.p.BoardAt(pose.At)
	if board == nil || !board.HasCopper(pose.Face.Other()) {
		return false
	}
	own := map[grid.Hole]bool{}
	for _, t := range d.Terminals {
		h := pose.Hole(t.Offset())
		own[h] = true
		_, drilled := r.fit.Drilled(h)
		if r.taken[h] || drilled || !board.Holds(h) || slices.Contains(board.Cuts, h) ||
			r.covered(h, grid.Front) || r.covered(h, grid.Back) {
			return false
		}
	}
	for _, b := range d.Bodies {
		rect := pose.Rect(b.Rectangle())
		if !rect.Inside(board.Outline()) {
			return false
		}
		for _, other := range r.bodies {
			if other.Face == pose.Side(b.Face) && rect.Grown(beside).Overlap(other.Rect) > 0 {
				return false
			}
		}
		for _, h := range rect.Grown(beside).Holes() {
			if r.taken[h] && !own[h] {
				return false
			}
		}
	}
	return true
}

// covered reports whether a body on face f lies over h without room for a joint under it. It asks
// what fit's own Covered does, of the parts proposed so far as well.
func (r *room) covered(h grid.Hole, f grid.Face) bool {
	return slices.ContainsFunc(r.bodies, func(b fit.Body) bool {
		return b.Face == f && b.StandOff < fit.JointRoom && b.Rect.Contains(h.Centre())
	})
}

// take puts a proposed part into the room.
func (r *room) take(ref string, pose grid.Pose, d *part.Definition) {
	for _, t := range d.Terminals {
		r.taken[pose.Hole(t.Offset())] = true
	}
	for _, b := range d.Bodies {
		r.bodies = append(r.bodies, fit.Body{Ref: ref, Face: pose.Side(b.Face), Rect: pose.Rect(b.Rectangle()),
			Height: grid.Millimetre(b.Height), StandOff: grid.Millimetre(b.StandOff)})
	}
}
