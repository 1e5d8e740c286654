package web

import (
	"fmt"
	"net/http"

	"github.com/go-chi/chi/v5"
)

// pageRoutes are the pages that a person looks at.
func (s *Server) pageRoutes(r chi.Router) {}

// showProblem shows a refused or failed request as a page.
func (s *Server) showProblem(w http.ResponseWriter, r *http.Request, p problem) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(p.Status)
	fmt.Fprintln(w, p.Text, p.Fix, p.Request)
}
