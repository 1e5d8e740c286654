package store

import (
	"context"
	"fmt"
	"testing"
	"time"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/record"
)

// aMoment is when the stores of these tests live.
var aMoment = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func openFor(t *testing.T, dir string) *Store {
	t.Helper()
	s, err := open(t.Context(), dir, func() time.Time { return aMoment }, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Errorf("close: %v", err)
		}
	})
	return s
}

func created(t *testing.T, s *Store, name string) record.ID {
	t.Helper()
	id, err := s.Import(t.Context(), panel.New(name))
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// applied applies an edit as the command of a given name.
func applied(t *testing.T, s *Store, id record.ID, command string, e panel.Edit) record.Change {
	t.Helper()
	c, err := s.Apply(t.Context(), id, command, 0, e)
	if err != nil {
		t.Fatalf("%s: %v", e.Label(), err)
	}
	return c
}

func switchAt(ref string, hole string) panel.Edit {
	at, err := grid.ParseHole(hole)
	if err != nil {
		panic(err)
	}
	return &panel.Place{Placed: panel.Placed{Ref: ref, Part: "tact6", At: at}}
}

// bodyOf reads what is stored, and not what is remembered.
func bodyOf(t interface{ Fatal(...any) }, s *Store, id record.ID) string {
	var body string
	if err := s.edit.QueryRow(`SELECT body FROM panels WHERE id = ?`, id).Scan(&body); err != nil {
		t.Fatal(err)
	}
	return body
}

// replayed applies the log to the origin, edit by edit.
func replayed(ctx context.Context, s *Store, id record.ID) (string, error) {
	var origin []byte
	if err := s.edit.QueryRowContext(ctx, `SELECT origin FROM panels WHERE id = ?`, id).Scan(&origin); err != nil {
		return "", err
	}
	p, err := panel.Decode(origin)
	if err != nil {
		return "", err
	}
	rows, err := s.edit.QueryContext(ctx, `SELECT rev, body FROM edits WHERE panel_id = ? ORDER BY rev`, id)
	if err != nil {
		return "", err
	}
	defer rows.Close()
	for next := int64(1); rows.Next(); next++ {
		var rev int64
		var text []byte
		if err := rows.Scan(&rev, &text); err != nil {
			return "", err
		}
		if rev != next {
			return "", fmt.Errorf("revision %d follows %d", rev, next-1)
		}
		e, err := panel.DecodeEdit(text)
		if err != nil {
			return "", err
		}
		if p, _, err = panel.Apply(p, e); err != nil {
			return "", err
		}
	}
	if err := rows.Err(); err != nil {
		return "", err
	}
	body, err := panel.Encode(p)
	return string(body), err
}
