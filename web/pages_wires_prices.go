package web

import (
	"fmt"
	"math"
	"net/http"
)

// tellWirePrices answers what each of the maker's wishes about wires costs, in words. Reckoning that
// takes as long as a plan for each wish, so the page asks once it is shown.
func (s *Server) tellWirePrices(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	p, rev, err := s.panels.Panel(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	list, err := s.plans.wirePrices(r.Context(), id, rev, p)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	says := map[string]string{}
	for _, one := range list {
		says[one.Wish] = wirePriceWords(one.Cost)
	}
	s.answerJSON(w, r, http.StatusOK, struct {
		Rev  int64             `json:"rev"`
		Says map[string]string `json:"says"`
	}{rev, says})
}

func wirePriceWords(cost float64) string {
	if tenths := math.Round(cost * 10); tenths > 0 {
		return fmt.Sprintf("Without this wish the wiring would cost %s less.", holesOf(tenths/10))
	}
	return "It costs nothing."
}

// holesOf writes a cost with its unit.
func holesOf(n float64) string {
	if n == 1 {
		return "1 hole"
	}
	return fmt.Sprintf("%.4g holes", n)
}
