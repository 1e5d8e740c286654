package web

import (
	"context"
	"fmt"
	"net/http"

	"fascia/design/lend"
	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/record"
)

// lenders propose, each by its name, parts that a way to read the keys asks for; nil with a sentence
// when that cannot be, nil without one when nothing lacks.
var lenders = map[string]func(*plan.Plan) (*panel.Together, string){
	"expander": func(made *plan.Plan) (*panel.Together, string) { return lend.Expander(made.Panel, &made.Fit) },
	"lamps": func(made *plan.Plan) (*panel.Together, string) {
		return lend.Lamps(made.Panel, &made.Fit, &made.Scan, &made.Nets)
	},
}

// postLend takes a proposal as an edit. It is worked out only now, since looking for room takes longer
// than all else on a page.
func (s *Server) postLend(w http.ResponseWriter, r *http.Request) {
	var ask struct {
		ID   string `json:"id"`
		Base int64  `json:"base"`
		What string `json:"what"`
	}
	if err := readJSON(w, r, &ask); err != nil {
		s.fail(w, r, err)
		return
	}
	s.command(w, r, ask.ID, func(ctx context.Context, id record.ID) (record.Change, error) {
		_, rev, made, err := s.planOf(ctx, id)
		if err != nil {
			return record.Change{}, err
		}
		edit, err := proposal(ask.What, made)
		if err != nil {
			return record.Change{}, err
		}
		return s.panels.Apply(ctx, id, ask.ID, rev, edit)
	})
}

func proposal(what string, made *plan.Plan) (panel.Edit, error) {
	lender, ok := lenders[what]
	if !ok {
		return nil, problem{Status: http.StatusBadRequest, Text: fmt.Sprintf("Nobody lends %q.", what), Fix: "Ask for expander or lamps."}
	}
	edit, why := lender(made)
	switch {
	case edit != nil:
		return edit, nil
	case why == "":
		why = "Nothing lacks: what you ask for is there already."
	}
	return nil, problem{Status: http.StatusConflict, Text: why}
}
