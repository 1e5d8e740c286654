package lend

import (
	"fmt"
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// beside is what a proposed body keeps from others and from joints, in millimetres.
const beside grid.Millimetre = 0.5

// A room knows what is taken, parts proposed so far included, and gathers the proposal.
type room struct {
	p      *panel.Panel
	fit    *fit.Result
	taken  map[grid.Hole]bool
	bodies []fit.Body
	placed []panel.Placed // the proposal
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
// on the far side and whose copper is nobody's, its bodies on the board, beside others, and over
// nobody's joints.
func (r *room) fits(pose grid.Pose, d *part.Definition) bool {
	board := r.p.BoardAt(pose.At)
	if board == nil || !board.HasCopper(pose.Face.Other()) {
		return false
	}
	own := map[grid.Hole]string{} // the first terminal of the metal in each hole
	for _, t := range d.Terminals {
		h := pose.Hole(t.Offset())
		if r.taken[h] || !board.Holds(h) {
			return false
		}
		own[h] = d.Metal(t.Name)[0]
	}
	for h, metal := range own {
		_, drilled := r.fit.Drilled(h)
		if drilled || slices.Contains(board.Cuts, h) || r.covered(h, grid.Front) || r.covered(h, grid.Back) {
			return false
		}
		for _, mate := range board.Mates(h) {
			if other, ours := own[mate]; r.taken[mate] || ours && other != metal {
				return false
			}
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
			if _, ours := own[h]; r.taken[h] && !ours {
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

// place puts a part into the room and the proposal under the next free reference, and returns that.
func (r *room) place(pl panel.Placed, pose grid.Pose, d *part.Definition) string {
	pl.Ref, pl.At, pl.Turn, pl.Face = r.nextRef(d.Prefix), pose.At, pose.Turn, pose.Face
	for _, t := range d.Terminals {
		r.taken[pose.Hole(t.Offset())] = true
	}
	for _, b := range d.Bodies {
		r.bodies = append(r.bodies, fit.Body{Ref: pl.Ref, Face: pose.Side(b.Face), Rect: pose.Rect(b.Rectangle()),
			Height: grid.Millimetre(b.Height), StandOff: grid.Millimetre(b.StandOff)})
	}
	r.placed = append(r.placed, pl)
	return pl.Ref
}

// nextRef is the lowest reference that is neither on the panel nor proposed.
func (r *room) nextRef(prefix string) string {
	for n := 1; ; n++ {
		ref := fmt.Sprintf("%s%d", prefix, n)
		proposed := slices.ContainsFunc(r.placed, func(pl panel.Placed) bool { return pl.Ref == ref })
		if !proposed && r.p.Find(ref) == nil {
			return ref
		}
	}
}

// together is the proposal, and what else goes with it, as one edit.
func (r *room) together(what string, more ...panel.Edit) *panel.Together {
	t := &panel.Together{What: what}
	for _, pl := range r.placed {
		t.Edits = append(t.Edits, encoded(&panel.Place{Placed: pl}))
	}
	for _, e := range more {
		t.Edits = append(t.Edits, encoded(e))
	}
	return t
}

func encoded(e panel.Edit) jsontext.Value {
	text, err := panel.EncodeEdit(e)
	if err != nil {
		panic(fmt.Sprintf("lend: an edit cannot be written: %v", err))
	}
	return text
}
