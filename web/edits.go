package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"fascia/design/panel"
	"fascia/design/record"
)

// createPanel makes an empty panel out of a form with its name and, if wanted, one of the common board
// sizes; then it shows it.
func (s *Server) createPanel(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, maxFormBytes)
	if err := r.ParseForm(); err != nil {
		s.fail(w, r, badBody(err))
		return
	}
	p, err := emptyPanel(r.PostForm.Get("name"), r.PostForm.Get("size"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	id, err := s.panels.Import(r.Context(), p)
	s.showPanelOr(w, r, id, err)
}

// emptyPanel is a new panel, or a problem in the words of the form.
func emptyPanel(name, size string) (panel.Panel, error) {
	p := panel.New(strings.TrimSpace(name))
	if z, ok := sizeNamed(size); ok {
		margins := z.Margins()
		p.Boards[0].Columns, p.Boards[0].Rows, p.Boards[0].Margins = z.Columns, z.Rows, &margins
	} else if size != "" {
		return p, problem{Status: http.StatusUnprocessableEntity, Text: fmt.Sprintf("%q is not a common size of board.", size),
			Fix: "Choose one of the list; any other size can be given to the board afterwards."}
	}
	if err := p.Validate(); err != nil {
		return p, problem{Status: http.StatusUnprocessableEntity, Text: "The panel cannot be called that: its name " + explainName(err) + ".",
			Fix: "Choose another name."}
	}
	return p, nil
}

// explainName says what is wrong with a name, without its place in a project file.
func explainName(err error) string {
	if fault := (*panel.FileError)(nil); errors.As(err, &fault) {
		return fault.Text
	}
	return err.Error()
}

func (s *Server) duplicatePanel(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err == nil {
		id, err = s.panels.Duplicate(r.Context(), id)
	}
	s.showPanelOr(w, r, id, err)
}

// deletePanel puts a panel into the trash, from which restorePanel takes it back.
func (s *Server) deletePanel(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err == nil {
		err = s.panels.Delete(r.Context(), id)
	}
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.events.send(id, event{Name: "gone", Data: "{}"})
	http.Redirect(w, r, "/?deleted="+string(id), http.StatusSeeOther)
}

func (s *Server) restorePanel(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err == nil {
		err = s.panels.Restore(r.Context(), id)
	}
	s.showPanelOr(w, r, id, err)
}

// showPanelOr sends the browser to a panel's page, or fails.
func (s *Server) showPanelOr(w http.ResponseWriter, r *http.Request, id record.ID, err error) {
	if err != nil {
		s.fail(w, r, err)
		return
	}
	http.Redirect(w, r, "/panels/"+string(id), http.StatusSeeOther)
}

// postEdit applies one edit to the panel as it is now. The answer comes after the edit is durable;
// sending the same command again gives the same answer and does nothing.
func (s *Server) postEdit(w http.ResponseWriter, r *http.Request) {
	var ask struct {
		ID   string          `json:"id"`   // the client's name for this command
		Base int64           `json:"base"` // the revision that the client looked at
		Edit json.RawMessage `json:"edit"`
	}
	if err := readJSON(w, r, &ask); err != nil {
		s.fail(w, r, err)
		return
	}
	edit, err := panel.DecodeEdit(ask.Edit)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.command(w, r, ask.ID, func(ctx context.Context, id record.ID) (record.Change, error) {
		if err := s.admit(ctx, id, edit); err != nil {
			return record.Change{}, err
		}
		return s.panels.Apply(ctx, id, ask.ID, ask.Base, edit)
	})
}

func (s *Server) postUndo(w http.ResponseWriter, r *http.Request) { s.step(w, r, s.panels.Undo) }

func (s *Server) postRedo(w http.ResponseWriter, r *http.Request) { s.step(w, r, s.panels.Redo) }

func (s *Server) step(w http.ResponseWriter, r *http.Request,
	take func(context.Context, record.ID, string) (record.Change, error)) {
	var ask struct {
		ID string `json:"id"`
	}
	if err := readJSON(w, r, &ask); err != nil {
		s.fail(w, r, err)
		return
	}
	s.command(w, r, ask.ID, func(ctx context.Context, id record.ID) (record.Change, error) {
		return take(ctx, id, ask.ID)
	})
}

// command runs one change of a panel, tells the other open pages, and has the outputs follow.
func (s *Server) command(w http.ResponseWriter, r *http.Request, name string,
	run func(context.Context, record.ID) (record.Change, error)) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if !record.ValidCommand(name) {
		s.fail(w, r, problem{Status: http.StatusBadRequest, Text: "The command has no usable id.",
			Fix: "Send 1 to 64 letters, digits, dashes or underscores as id."})
		return
	}
	change, err := run(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.events.send(id, revised(change, name))
	s.outputs.follow(id)
	s.answerJSON(w, r, http.StatusOK, change)
}
