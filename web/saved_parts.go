package web

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"

	"github.com/go-chi/chi/v5"

	"fascia/design/part"
)

// maxStock is the most of one part that anyone is taken to own.
const maxStock = 1_000_000

// partRoutes are the routes of the maker's own parts and of the stock of every part.
func (s *Server) partRoutes(r chi.Router) {
	r.Post("/parts", s.savePart)
	r.Delete("/parts/{part}", s.deletePart)
	r.Post("/parts/{part}/stock", s.setStock)
}

// savePart keeps a definition for use in any panel. A built-in part cannot be replaced: panels carry
// their own definitions, and two parts of one id would be told apart by nobody.
func (s *Server) savePart(w http.ResponseWriter, r *http.Request) {
	var ask struct {
		ID         string          `json:"id"`
		Definition json.RawMessage `json:"definition"`
	}
	if err := readJSON(w, r, &ask); err != nil {
		s.fail(w, r, err)
		return
	}
	d, err := readDefinition(ask.ID, ask.Definition)
	if err == nil {
		err = s.parts.SavePart(r.Context(), ask.ID, d)
	}
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.answerJSON(w, r, http.StatusOK, map[string]string{"id": ask.ID})
}

func readDefinition(id string, text []byte) (part.Definition, error) {
	if !part.ValidID(id) {
		return part.Definition{}, problem{Status: http.StatusUnprocessableEntity,
			Text: fmt.Sprintf("%q cannot name a part.", id), Fix: "Use up to 48 small letters, digits and dashes."}
	}
	if _, taken := part.BuiltIn()[id]; taken {
		return part.Definition{}, problem{Status: http.StatusUnprocessableEntity,
			Text: "The built-in catalogue already has a part called " + id + ".", Fix: "Choose another name."}
	}
	d, err := part.Decode(text)
	if fault := (part.Fault{}); errors.As(err, &fault) {
		return part.Definition{}, problem{Status: http.StatusUnprocessableEntity,
			Text: "The definition cannot be used: " + place(fault.Pointer) + fault.Text + ".", Fix: "Mend it at that place."}
	}
	if err != nil {
		return part.Definition{}, badBody(err)
	}
	return d, nil
}

func (s *Server) deletePart(w http.ResponseWriter, r *http.Request) {
	id, err := partID(r)
	if err == nil {
		err = s.parts.DeletePart(r.Context(), id)
	}
	if err != nil {
		s.fail(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

// setStock keeps how many of a part the maker has.
func (s *Server) setStock(w http.ResponseWriter, r *http.Request) {
	var ask struct {
		Have int `json:"have"`
	}
	id, err := partID(r)
	if err == nil {
		err = readJSON(w, r, &ask)
	}
	if err == nil && (ask.Have < 0 || ask.Have > maxStock) {
		err = problem{Status: http.StatusUnprocessableEntity,
			Text: fmt.Sprintf("%d is not a number of parts.", ask.Have), Fix: fmt.Sprintf("Give 0 to %d.", maxStock)}
	}
	if err == nil {
		err = s.parts.SetStock(r.Context(), id, ask.Have)
	}
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.answerJSON(w, r, http.StatusOK, ask)
}

func partID(r *http.Request) (string, error) {
	id := chi.URLParam(r, "part")
	if !part.ValidID(id) {
		return "", problem{Status: http.StatusNotFound, Text: "There is no such part.", Fix: "The parts drawer lists every part."}
	}
	return id, nil
}
