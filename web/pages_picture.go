package web

import (
	"bytes"
	"fmt"
	"net/http"
	"strconv"

	"github.com/go-chi/chi/v5"

	"fascia/design/record"
	"fascia/design/sheet"
)

// showPicture is the small picture of a panel.
func (s *Server) showPicture(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	_, rev, made, err := s.planOf(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.picture(w, r, rev, made.Drawing(), sheet.View{Style: sheet.Picture})
}

// showStepPicture is what the hands do in one step of the checklist, counted from 1.
func (s *Server) showStepPicture(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	_, rev, made, err := s.planOf(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	n, err := strconv.Atoi(chi.URLParam(r, "number"))
	if err != nil || n < 1 || n > len(made.Steps) {
		s.fail(w, r, record.ErrNotFound)
		return
	}
	s.picture(w, r, rev, made.Drawing(), benchView(made.Steps, n-1))
}

// picture answers with a drawing. Asked for under its revision it may be kept for good.
func (s *Server) picture(w http.ResponseWriter, r *http.Request, rev int64, d sheet.Drawing, v sheet.View) {
	var out bytes.Buffer
	if err := d.Write(&out, v); err != nil {
		s.fail(w, r, fmt.Errorf("draw: %w", err))
		return
	}
	h := w.Header()
	h.Set("Content-Type", "image/svg+xml; charset=utf-8")
	h.Set("Content-Security-Policy", downloadPolicy)
	h.Set("Content-Length", fmt.Sprint(out.Len()))
	if r.URL.Query().Get("rev") == strconv.FormatInt(rev, 10) {
		h.Set("Cache-Control", "private, max-age=31536000, immutable")
	}
	if _, err := w.Write(out.Bytes()); err != nil {
		s.log.DebugContext(r.Context(), "picture not read", "route", routeOf(r), "error", err)
	}
}
