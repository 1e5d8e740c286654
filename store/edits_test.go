package store

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"fascia/design/panel"
	"fascia/design/record"
)

func TestApplyKnowsACommandAgain(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Two-key counter")
	first := applied(t, s, id, "c1", switchAt("S1", "C5"))
	applied(t, s, id, "c2", switchAt("S2", "H5"))
	before := bodyOf(t, s, id)

	again := applied(t, s, id, "c1", switchAt("S1", "C5"))
	if again.Rev != first.Rev || bodyOf(t, s, id) != before {
		t.Errorf("the same command again made revision %d of %d and changed the panel: %v", again.Rev, first.Rev, bodyOf(t, s, id) != before)
	}
	if _, err := s.Apply(t.Context(), id, "c1", 0, switchAt("S3", "M5")); !errors.Is(err, record.ErrConflict) {
		t.Errorf("another edit under a used command: %v", err)
	}
	if _, err := s.Undo(t.Context(), id, "c1"); !errors.Is(err, record.ErrConflict) {
		t.Errorf("an undo under the command of an edit: %v", err)
	}
	for range 2 {
		if c, err := s.Undo(t.Context(), id, "u1"); err != nil || c.Rev != 3 {
			t.Errorf("the same undo twice: %+v, %v", c, err)
		}
	}
	other := created(t, s, "Another")
	if c := applied(t, s, other, "c1", switchAt("S1", "C5")); c.Rev != 1 {
		t.Errorf("commands of two panels got mixed up: %+v", c)
	}
}

func TestApplyRefuses(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	trashed := created(t, s, "Trashed")
	if err := s.Delete(t.Context(), trashed); err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name    string
		id      record.ID
		command string
		base    int64
		edit    panel.Edit
		want    error
	}{
		{"a reference that is taken", id, "x1", 1, switchAt("S1", "H5"), panel.ErrRefused},
		{"a part that is not there", id, "x2", 1, &panel.Remove{Refs: []string{"S9"}}, panel.ErrRefused},
		{"an empty name", id, "x3", 1, &panel.Rename{}, panel.ErrRefused},
		{"a revision that does not exist yet", id, "x4", 2, switchAt("S2", "H5"), record.ErrConflict},
		{"a revision below none", id, "x5", -1, switchAt("S2", "H5"), record.ErrConflict},
		{"no command", id, "", 1, switchAt("S2", "H5"), record.ErrConflict},
		{"an unknown panel", "0123456789abcdef", "x6", 0, switchAt("S2", "H5"), record.ErrNotFound},
		{"a trashed panel", trashed, "x7", 0, switchAt("S2", "H5"), record.ErrNotFound},
	}
	before := bodyOf(t, s, id)
	for _, tt := range tests {
		if c, err := s.Apply(t.Context(), tt.id, tt.command, tt.base, tt.edit); !errors.Is(err, tt.want) {
			t.Errorf("%s: %+v, %v; want %v", tt.name, c, err, tt.want)
		}
	}
	if got, err := s.Steps(t.Context(), id); err != nil || got.Rev != 1 || bodyOf(t, s, id) != before {
		t.Errorf("refusals left revision %d, %v", got.Rev, err)
	}
	// A refused command was never carried out, so the maker may send it again when it fits.
	applied(t, s, id, "x1", switchAt("S2", "H5"))
}

func TestUndoReachesTheEmptyPanelAfterARestart(t *testing.T) {
	dir := t.TempDir()
	s := openFor(t, dir)
	id := created(t, s, "Counter")
	empty := bodyOf(t, s, id)
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	applied(t, s, id, "c2", &panel.SetLegend{Key: "S1", Legend: "+1"})
	full := bodyOf(t, s, id)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}

	s = openFor(t, dir)
	for i, want := range []record.Steps{{Undo: (switchAt("S1", "C5")).Label()}, {}} {
		c, err := s.Undo(t.Context(), id, fmt.Sprint("u", i))
		if err != nil || c.Undo != want.Undo || c.Redo == "" {
			t.Fatalf("undo %d: %+v, %v; want next %q", i, c, err, want.Undo)
		}
	}
	if got := bodyOf(t, s, id); got != empty {
		t.Errorf("undo did not reach the empty panel:\n%s", got)
	}
	if _, err := s.Undo(t.Context(), id, "u9"); !errors.Is(err, record.ErrNothing) {
		t.Errorf("undo of nothing: %v", err)
	}
	for i := range 2 {
		if _, err := s.Redo(t.Context(), id, fmt.Sprint("r", i)); err != nil {
			t.Fatal(err)
		}
	}
	if got := bodyOf(t, s, id); got != full {
		t.Errorf("redo did not come back:\n%s", got)
	}
	if _, err := s.Redo(t.Context(), id, "r9"); !errors.Is(err, record.ErrNothing) {
		t.Errorf("redo of nothing: %v", err)
	}
}

func TestAnEditThatWouldOutgrowAProjectFileIsRefused(t *testing.T) {
	s := openFor(t, t.TempDir())
	p := panel.New("Large")
	p.Notes = strings.Repeat("n", panel.MaxNotes)
	id, err := s.Import(t.Context(), p)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Apply(t.Context(), id, "c1", 0, &panel.SetNotes{Notes: strings.Repeat("n", panel.MaxNotes+1)}); !errors.Is(err, panel.ErrRefused) {
		t.Errorf("notes over the limit: %v", err)
	}
}

// TestHistory runs random edits, undos, redos, repeats and restarts against a model that keeps every
// state. After each step the stored body is the model's; after each restart and at the end the log
// replayed from the origin gives the same bytes.
func TestHistory(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		openAgain := func() *Store {
			s, err := open(t.Context(), dir, func() time.Time { return aMoment }, func(string) {})
			if err == nil {
				_, err = s.edit.Exec(`PRAGMA synchronous = OFF`) // thousands of flushes would prove nothing here
			}
			if err != nil {
				rt.Fatal(err)
			}
			return s
		}
		s := openAgain()
		defer func() {
			if err := s.Close(); err != nil {
				rt.Error(err)
			}
		}()
		id, err := s.Import(t.Context(), panel.New("Model"))
		if err != nil {
			rt.Fatal(err)
		}
		model := history{done: []string{bodyOf(rt, s, id)}}
		last := func() {} // sends the newest command again
		command := 0
		run := func(do func(command string) (record.Change, error)) bool {
			command++
			name := fmt.Sprint("command-", command)
			change, err := do(name)
			if errors.Is(err, panel.ErrRefused) || errors.Is(err, record.ErrNothing) {
				return false
			}
			if err != nil {
				rt.Fatal(err)
			}
			model.rev++
			if change.Rev != model.rev {
				rt.Fatalf("revision %d, want %d", change.Rev, model.rev)
			}
			last = func() {
				if again, err := do(name); err != nil || again.Rev != change.Rev {
					rt.Fatalf("repeat of revision %d: %+v, %v", change.Rev, again, err)
				}
			}
			return true
		}
		replay := func() {
			if again, err := replayed(t.Context(), s, id); err != nil || again != bodyOf(rt, s, id) {
				rt.Fatalf("replay gave %v and\n%s", err, again)
			}
		}
		rt.Repeat(map[string]func(*rapid.T){
			"edit": func(rt *rapid.T) {
				e := anEdit(rt)
				if run(func(c string) (record.Change, error) { return s.Apply(t.Context(), id, c, model.rev, e) }) {
					model.edit(bodyOf(rt, s, id))
				}
			},
			"undo": func(rt *rapid.T) {
				if run(func(c string) (record.Change, error) { return s.Undo(t.Context(), id, c) }) != model.undo() {
					rt.Fatal("store and model differ on whether there is something to undo")
				}
			},
			"redo": func(rt *rapid.T) {
				if run(func(c string) (record.Change, error) { return s.Redo(t.Context(), id, c) }) != model.redo() {
					rt.Fatal("store and model differ on whether there is something to redo")
				}
			},
			"repeat": func(*rapid.T) { last() },
			"restart": func(rt *rapid.T) {
				if rapid.IntRange(0, 4).Draw(rt, "patience") > 0 {
					return // restarts are slow, and seldom in life
				}
				if err := s.Close(); err != nil {
					rt.Fatal(err)
				}
				s = openAgain()
				replay()
			},
			"": func(rt *rapid.T) {
				body := bodyOf(rt, s, id)
				if body != model.done[len(model.done)-1] {
					rt.Fatalf("stored body is not the model's:\n%s", body)
				}
				p, rev, err := s.Panel(t.Context(), id)
				if text, encodeErr := panel.Encode(p); err != nil || encodeErr != nil || rev != model.rev || string(text) != body {
					rt.Fatalf("Panel gave revision %d, %v, %v", rev, err, encodeErr)
				}
				steps, err := s.Steps(t.Context(), id)
				if err != nil || (steps.Undo != "") != (len(model.done) > 1) || (steps.Redo != "") != (len(model.undone) > 0) {
					rt.Fatalf("steps %+v, %v with %d done and %d undone", steps, err, len(model.done), len(model.undone))
				}
			},
		})
		replay()
	})
}

// A history is the plainest one there could be: every state, in two piles.
type history struct {
	rev          int64
	done, undone []string
}

func (h *history) edit(body string) { h.done, h.undone = append(h.done, body), nil }

func (h *history) undo() bool {
	if len(h.done) == 1 {
		return false
	}
	top := len(h.done) - 1
	h.undone = append(h.undone, h.done[top])
	h.done = h.done[:top]
	return true
}

func (h *history) redo() bool {
	if len(h.undone) == 0 {
		return false
	}
	top := len(h.undone) - 1
	h.done = append(h.done, h.undone[top])
	h.undone = h.undone[:top]
	return true
}

// anEdit draws an edit that may or may not be possible.
func anEdit(t *rapid.T) panel.Edit {
	ref := fmt.Sprint("S", rapid.IntRange(1, 5).Draw(t, "ref"))
	switch rapid.IntRange(0, 6).Draw(t, "edit") {
	case 0, 1:
		column := rune('A' + rapid.IntRange(0, 20).Draw(t, "column"))
		return switchAt(ref, fmt.Sprintf("%c%d", column, rapid.IntRange(1, 18).Draw(t, "row")))
	case 2:
		return &panel.Remove{Refs: []string{ref}}
	case 3:
		return &panel.Move{Refs: []string{ref}, Columns: rapid.IntRange(-3, 3).Draw(t, "columns"), Rows: 1}
	case 4:
		return &panel.SetLegend{Key: ref, Legend: rapid.StringN(0, 6, 24).Draw(t, "legend")}
	case 5:
		return &panel.Rename{Name: rapid.SampledFrom([]string{"", "Hive", "Организ", "<b>"}).Draw(t, "name")}
	}
	return &panel.TurnParts{Refs: []string{ref}, Quarters: 1}
}

// TestAReaderWhoLeavesInTheMiddleLeavesNothingHalfDone ends the request between the statements of an
// edit, as a browser that is closed does.
func TestAReaderWhoLeavesInTheMiddleLeavesNothingHalfDone(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	before := bodyOf(t, s, id)
	for _, point := range []string{"before begin", "after begin", "between statements", "before commit"} {
		ctx, leave := context.WithCancel(t.Context())
		s.at = func(reached string) {
			if reached == point {
				leave()
			}
		}
		if c, err := s.Apply(ctx, id, "left", 0, switchAt("S1", "C5")); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %+v, %v", point, c, err)
		}
		s.at = func(string) {}
		if got := bodyOf(t, s, id); got != before {
			t.Errorf("%s: the panel changed", point)
		}
		if p, rev, err := s.Panel(t.Context(), id); err != nil || rev != 0 || len(p.Placed) != 0 {
			t.Errorf("%s: revision %d with %d parts, %v", point, rev, len(p.Placed), err)
		}
	}
	if c := applied(t, s, id, "left", switchAt("S1", "C5")); c.Rev != 1 {
		t.Errorf("the same command afterwards: %+v", c)
	}
}
