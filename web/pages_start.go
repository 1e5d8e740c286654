package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/record"
	"fascia/web/view"
)

// showStart lists the panels, those in the trash, and the maker's own parts.
func (s *Server) showStart(w http.ResponseWriter, r *http.Request) {
	entries, err := s.panels.Panels(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	own, err := s.ownParts(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	page := view.Start{Head: s.head("", "start.js"), Parts: own, Sizes: sizes()}
	for _, e := range entries {
		if e.Trashed() {
			continue
		}
		page.Panels = append(page.Panels, s.card(r.Context(), e))
	}
	page.Gone, page.JustDeleted = trash(entries, r.URL.Query().Get("deleted"))
	s.render(w, r, http.StatusOK, view.StartPage(page))
}

// card is one panel of the list. A panel that cannot be read is listed all the same: its maker must
// see that it is still there.
func (s *Server) card(ctx context.Context, e record.Entry) view.Card {
	now := time.Now()
	c := view.Card{
		ID: string(e.ID), Name: e.Name, Rev: e.Rev, Changed: when(e.Changed, now),
		ChangedT: e.Changed.UTC().Format(time.RFC3339),
		Picture:  fmt.Sprintf("/panels/%s/picture.svg?rev=%d", e.ID, e.Rev),
	}
	p, _, made, err := s.planOf(ctx, e.ID)
	if err != nil {
		s.log.ErrorContext(ctx, "panel of the list", "panel", e.ID, "error", err)
		c.Unreadable = "This panel could not be read. The log says more."
		return c
	}
	c.Boards, c.Keys = strings.Join(boardsSay(&p), "; "), len(p.Keys())
	c.Stops, c.Minds = finding.Count(made.Findings, finding.Stop), finding.Count(made.Findings, finding.Mind)
	return c
}

// trash lists deleted panels, the last one first, and the one that was deleted just now.
func trash(entries []record.Entry, deleted string) (gone []view.Gone, just *view.Gone) {
	entries = slices.DeleteFunc(slices.Clone(entries), func(e record.Entry) bool { return !e.Trashed() })
	slices.SortStableFunc(entries, func(a, b record.Entry) int { return b.Deleted.Compare(a.Deleted) })
	for _, e := range entries {
		g := view.Gone{ID: string(e.ID), Name: e.Name, When: when(e.Deleted, time.Now())}
		gone = append(gone, g)
		if g.ID == deleted {
			just = &g
		}
	}
	return gone, just
}

// when says a time as one would at the bench.
func when(t, now time.Time) string {
	t, now = t.Local(), now.Local()
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	switch {
	case now.Sub(t) < time.Minute:
		return "just now"
	case !t.Before(today):
		return "today " + t.Format("15:04")
	case !t.Before(today.AddDate(0, 0, -1)):
		return "yesterday " + t.Format("15:04")
	}
	return t.Format("2 January 2006")
}

// sizes are the common boards, lying and upright.
func sizes() []view.Size {
	var list []view.Size
	for _, z := range panel.CommonSizes {
		list = append(list, sizeOf(z))
	}
	for _, z := range panel.CommonSizes {
		if z.Columns != z.Rows {
			list = append(list, sizeOf(z.Upright()))
		}
	}
	return list
}

// usualSize is what the form for a new panel offers first: room for thirty keys and a display.
var usualSize = panel.Size{WidthMM: 80, HeightMM: 60, Columns: 28, Rows: 22}

func sizeOf(z panel.Size) view.Size {
	m := z.Margins()
	return view.Size{
		Value: fmt.Sprintf("%dx%d", z.Columns, z.Rows), Columns: z.Columns, Rows: z.Rows,
		Label:   fmt.Sprintf("%d × %d mm, %d × %d holes", z.WidthMM, z.HeightMM, z.Columns, z.Rows),
		Margins: fmt.Sprintf("%g %g %g %g", m[0], m[1], m[2], m[3]), Usual: z == usualSize,
	}
}

// sizeNamed is the common size that a form chose; false for none.
func sizeNamed(value string) (panel.Size, bool) {
	for _, z := range panel.CommonSizes {
		for _, one := range []panel.Size{z, z.Upright()} {
			if fmt.Sprintf("%dx%d", one.Columns, one.Rows) == value {
				return one, true
			}
		}
	}
	return panel.Size{}, false
}

// boardsSay describes each board in a few words.
func boardsSay(p *panel.Panel) []string {
	var list []string
	for i := range p.Boards {
		b := &p.Boards[i]
		list = append(list, fmt.Sprintf("%d × %d holes, %s", b.Columns, b.Rows, extent(b)))
	}
	return list
}

func extent(b *panel.Board) string {
	o := b.Outline()
	return fmt.Sprintf("%.0f × %.0f mm", float64(o.Width()), float64(o.Height()))
}

// ownParts lists the maker's definitions with what is in stock.
func (s *Server) ownParts(ctx context.Context) ([]view.Saved, error) {
	parts, err := s.parts.SavedParts(ctx)
	if err != nil {
		return nil, err
	}
	stock, err := s.parts.Stock(ctx)
	if err != nil {
		return nil, err
	}
	var list []view.Saved
	for _, p := range parts {
		list = append(list, view.Saved{ID: p.ID, Name: p.Definition.Name, Kind: string(p.Definition.Kind),
			Outline: view.OutlineOf(p.Definition), Stock: stock[p.ID]})
	}
	return list, nil
}

// keepStock is setStock for a form without scripts.
func (s *Server) keepStock(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, maxFormBytes)
	if err := r.ParseForm(); err != nil {
		s.fail(w, r, badBody(err))
		return
	}
	have, err := strconv.Atoi(r.PostForm.Get("count"))
	if err != nil || have < 0 || have > maxStock {
		s.fail(w, r, problem{Status: http.StatusUnprocessableEntity, Text: "That is not a number of parts.",
			Fix: fmt.Sprintf("Give 0 to %d.", maxStock)})
		return
	}
	id, err := partID(r)
	if err == nil {
		err = s.parts.SetStock(r.Context(), id, have)
	}
	s.backToStart(w, r, err)
}

// dropPart is deletePart for a form without scripts.
func (s *Server) dropPart(w http.ResponseWriter, r *http.Request) {
	id, err := partID(r)
	if err == nil {
		err = s.parts.DeletePart(r.Context(), id)
	}
	s.backToStart(w, r, err)
}

func (s *Server) backToStart(w http.ResponseWriter, r *http.Request, err error) {
	if err != nil {
		s.fail(w, r, err)
		return
	}
	http.Redirect(w, r, "/", http.StatusSeeOther)
}
