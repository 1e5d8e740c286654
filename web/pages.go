package web

import (
	"bytes"
	"fmt"
	"net/http"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"fascia/web/view"
)

// pageRoutes are the pages that a person looks at, and the pictures on them.
func (s *Server) pageRoutes(r chi.Router) {
	r.Get("/", s.showStart)
	r.Get("/panels/{id}", s.showFirstRoom)
	for _, room := range rooms {
		r.Get("/panels/{id}/"+room.name, s.showRoom(room))
	}
	r.Get("/panels/{id}/picture.svg", s.showPicture)
	r.Get("/panels/{id}/steps/{number}.svg", s.showStepPicture)
	r.Post("/parts/{part}/keep", s.keepStock)
	r.Post("/parts/{part}/drop", s.dropPart)
}

// head fills in what every page loads.
func (s *Server) head(title, script string) view.Head {
	return view.Head{
		Title: title, Drawing: s.asset("css/drawing.css"), Style: s.asset("css/fascia.css"), Theme: s.asset("js/theme.js"),
		Script: s.asset("js/" + script), Icon: s.asset("icons/fascia.svg"),
	}
}

// render answers with a page. The page is whole before its first byte goes out, so that a failure
// still gets its own status.
func (s *Server) render(w http.ResponseWriter, r *http.Request, status int, page templ.Component) {
	var out bytes.Buffer
	if err := page.Render(r.Context(), &out); err != nil {
		s.fail(w, r, fmt.Errorf("render page: %w", err))
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Length", fmt.Sprint(out.Len()))
	w.WriteHeader(status)
	if _, err := w.Write(out.Bytes()); err != nil {
		s.log.DebugContext(r.Context(), "page not read", "route", routeOf(r), "error", err)
	}
}

// showProblem shows a refused or failed request as a page.
func (s *Server) showProblem(w http.ResponseWriter, r *http.Request, p problem) {
	var out bytes.Buffer
	page := view.ProblemPage(s.head("That did not work", "start.js"), p.Text, p.Fix, p.Request)
	if err := page.Render(r.Context(), &out); err != nil {
		s.log.ErrorContext(r.Context(), "render problem", "error", err)
		http.Error(w, p.Text, p.Status)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(p.Status)
	if _, err := w.Write(out.Bytes()); err != nil {
		s.log.DebugContext(r.Context(), "page not read", "route", routeOf(r), "error", err)
	}
}
