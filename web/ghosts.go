package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"fascia/design/panel"
	"fascia/web/view"
)

// tellGhosts answers what is read while keys are held, by the plan as it is: all of keys, and of every
// any, such as 2:S1,S4,S5, that many of its keys.
func (s *Server) tellGhosts(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	chord, err := chordAsked(r.URL.Query()["keys"], r.URL.Query()["any"])
	if err != nil {
		s.fail(w, r, err)
		return
	}
	_, rev, made, err := s.planOf(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.answerJSON(w, r, http.StatusOK, struct {
		Rev int64 `json:"rev"`
		view.Reading
	}{rev, speaker(made).reading(chord)})
}

// chordAsked reads the keys of an address.
func chordAsked(keys, any []string) (panel.Chord, error) {
	wrong := func(text string) error {
		return problem{Status: http.StatusBadRequest, Text: text,
			Fix: fmt.Sprintf("Send keys=S1,S5 and up to %d of any=2:S1,S4,S5, each with at most %d keys.", panel.MaxAny, panel.MaxMembers)}
	}
	var c panel.Chord
	c.Keys = listed(strings.Join(keys, ","))
	if len(c.Keys) > panel.MaxMembers || len(any) > panel.MaxAny {
		return c, wrong("Too many keys are asked about.")
	}
	for _, text := range any {
		count, of, _ := strings.Cut(text, ":")
		n, err := strconv.Atoi(count)
		a := panel.AnyOf{Count: n, Of: listed(of)}
		if err != nil || n < 1 || n > panel.MaxMembers || len(a.Of) > panel.MaxMembers {
			return c, wrong(fmt.Sprintf("%q is no choice of keys.", text))
		}
		if len(a.Of) > 0 {
			c.Any = append(c.Any, a)
		}
	}
	return c, nil
}

// listed splits a list at its commas.
func listed(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ',' })
}
