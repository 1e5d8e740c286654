package web

import (
	"encoding/json"
	"net/http"
	"unicode/utf8"
)

// maxStepName bounds the name of a build step.
const maxStepName = 120

// postTick marks a build step as done, or not, and tells the other open pages: the page on the bench
// is often not the one on the desk.
func (s *Server) postTick(w http.ResponseWriter, r *http.Request) {
	var ask struct {
		Step string `json:"step"`
		Done bool   `json:"done"`
	}
	id, err := panelID(r)
	if err == nil {
		err = readJSON(w, r, &ask)
	}
	if err == nil && (ask.Step == "" || len(ask.Step) > maxStepName || !utf8.ValidString(ask.Step)) {
		err = problem{Status: http.StatusBadRequest, Text: "The step has no usable name.", Fix: "Load the page again."}
	}
	if err == nil {
		err = s.ticks.Tick(r.Context(), id, ask.Step, ask.Done)
	}
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if data, err := json.Marshal(ask); err == nil {
		s.events.send(id, event{Name: "tick", Data: string(data)})
	}
	s.answerJSON(w, r, http.StatusOK, ask)
}
