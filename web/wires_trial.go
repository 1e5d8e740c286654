package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// tryWire answers how a wire that is being drawn would run, or why it cannot be had. It changes nothing.
func (s *Server) tryWire(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	l, err := wireAsked(r.URL.Query())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	p, rev, made, err := s.planOf(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	said := struct {
		Rev  int64       `json:"rev"`
		Can  bool        `json:"can"`
		Says string      `json:"says"`
		Path []grid.Hole `json:"path"`
	}{Rev: rev, Path: []grid.Hole{}}
	after, _, err := panel.Apply(p, &panel.LockWire{Wire: l})
	if err != nil {
		said.Says = sentence(panel.Reason(err))
		s.answerJSON(w, r, http.StatusOK, said)
		return
	}
	t := wiring.Try(&after, &made.Fit, &made.Nets, l)
	said.Can, said.Path = t.Why == "", append(said.Path, t.Path...)
	if said.Can {
		said.Says = trialWords(l, &t)
	} else {
		said.Says = sentence(t.Why)
	}
	s.answerJSON(w, r, http.StatusOK, said)
}

// trialWords say what a wire would be.
func trialWords(l panel.LockedWire, t *wiring.Trial) string {
	says := fmt.Sprintf("%s of %s, %s to %s", capital(wireWords[wiring.Kind(l.Kind)]), t.Net, l.From, l.To)
	switch wiring.Kind(l.Kind) {
	case wiring.Bare:
		return says + ", " + countOf(len(t.Path)-1, "hole", "holes") + " long"
	case wiring.Insulated:
		return says + ", over " + countOf(l.From.Steps(l.To), "hole", "holes")
	}
	return says
}

// wireAsked reads a wire off an address: from, to, kind, face, and path for the bends of a bare run.
func wireAsked(q url.Values) (panel.LockedWire, error) {
	l := panel.LockedWire{Kind: q.Get("kind")}
	wrong := problem{Status: http.StatusBadRequest, Text: "That is no wire to ask about.",
		Fix: "Send from=C5, to=I5, kind of solder, bare or insulated, face=front or back, and for bends path=C5,C9,I9."}
	var err error
	if l.From, err = grid.ParseHole(q.Get("from")); err != nil {
		return l, wrong
	}
	if l.To, err = grid.ParseHole(q.Get("to")); err != nil {
		return l, wrong
	}
	if err := l.Face.UnmarshalText([]byte(q.Get("face"))); err != nil {
		return l, wrong
	}
	path := listed(q.Get("path"))
	if len(path) > panel.MaxMembers || !slices.Contains([]string{"solder", "bare", "insulated"}, l.Kind) {
		return l, wrong
	}
	for _, name := range path {
		h, err := grid.ParseHole(name)
		if err != nil {
			return l, wrong
		}
		l.Path = append(l.Path, h)
	}
	return l, nil
}
