package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"

	"fascia/design/panel"
	"fascia/design/record"
)

// maxLabel bounds what the log keeps of an edit's label, in characters.
const maxLabel = 120

// A kind tells an edit of the maker from its being taken back and its being done again.
type kind string

const (
	edit kind = "edit"
	undo kind = "undo"
	redo kind = "redo"
)

// A row of the log, without its revision, which is the panel's next.
type logged struct {
	kind    kind
	of      sql.NullInt64
	under   sql.NullInt64
	base    int64
	label   string
	edit    panel.Edit
	command string
}

// A head is where a panel stands.
type head struct {
	rev        int64
	undo, redo sql.NullInt64 // tops of the two piles: revisions of edits
	panel      panel.Panel
}

// Apply applies an edit to a panel as it is now and returns the new revision once it is safe on the
// disk. base is the revision that the sender looked at: an older one is fine as long as the edit
// still can be done; one that does not exist is a conflict. A command that was applied before gives
// its old answer; the same command with another edit is a conflict. A refused edit gives the error
// of panel.Apply and changes nothing.
func (s *Store) Apply(ctx context.Context, id record.ID, command string, base int64, e panel.Edit) (record.Change, error) {
	return s.advance(ctx, id, command, edit, e, func(_ *sql.Tx, h head) (logged, error) {
		if base > h.rev || base < 0 {
			return logged{}, fmt.Errorf("revision %d of %d: %w", base, h.rev, record.ErrConflict)
		}
		return logged{kind: edit, under: h.undo, base: base, label: e.Label(), edit: e, command: command}, nil
	})
}

// Undo takes back the newest edit that is not taken back yet, as a revision of its own. Without one
// the error is ErrNothing.
func (s *Store) Undo(ctx context.Context, id record.ID, command string) (record.Change, error) {
	return s.advance(ctx, id, command, undo, nil, func(tx *sql.Tx, h head) (logged, error) {
		if !h.undo.Valid {
			return logged{}, record.ErrNothing
		}
		label, back, err := wayBack(ctx, tx, id, h.undo.Int64, `kind <> 'undo'`)
		return logged{kind: undo, of: h.undo, under: h.redo, base: h.rev, label: label, edit: back, command: command}, err
	})
}

// Redo does again what undo took back last. Any edit after an undo leaves nothing to do again.
func (s *Store) Redo(ctx context.Context, id record.ID, command string) (record.Change, error) {
	return s.advance(ctx, id, command, redo, nil, func(tx *sql.Tx, h head) (logged, error) {
		if !h.redo.Valid {
			return logged{}, record.ErrNothing
		}
		label, again, err := wayBack(ctx, tx, id, h.redo.Int64, `kind = 'undo'`)
		return logged{kind: redo, of: h.redo, base: h.rev, label: label, edit: again, command: command}, err
	})
}

// Steps returns a panel's revision and what undo and redo would do.
func (s *Store) Steps(ctx context.Context, id record.ID) (record.Change, error) {
	c, err := steps(ctx, s.read, id)
	if err != nil {
		return record.Change{}, fmt.Errorf("panel %s: %w", id, err)
	}
	return c, nil
}

// advance makes the next revision of a panel: the row that next gives is applied, logged, and the
// panel follows, all in one transaction.
func (s *Store) advance(ctx context.Context, id record.ID, command string, what kind, e panel.Edit,
	next func(*sql.Tx, head) (logged, error)) (change record.Change, err error) {
	if !record.ValidCommand(command) {
		return change, fmt.Errorf("command %q: %w", command, record.ErrConflict)
	}
	var after panel.Panel
	err = s.write(ctx, func(tx *sql.Tx) error {
		rev, err := repeated(ctx, tx, id, command, what, e)
		if err != nil {
			return err
		}
		if rev == 0 {
			h, err := s.headOf(ctx, tx, id)
			if err != nil {
				return err
			}
			row, err := next(tx, h)
			if err != nil {
				return err
			}
			if after, err = s.log(ctx, tx, id, h, row); err != nil {
				return err
			}
		}
		change, err = steps(ctx, tx, id)
		if rev != 0 {
			change.Rev = rev
		}
		return err
	})
	if err != nil {
		return record.Change{}, fmt.Errorf("panel %s: %w", id, err)
	}
	if after.Version != 0 {
		s.fresh.put(id, change.Rev, after)
	}
	return change, nil
}

// repeated returns the revision that a command made before, or 0.
func repeated(ctx context.Context, tx *sql.Tx, id record.ID, command string, what kind, e panel.Edit) (int64, error) {
	var (
		rev     int64
		oldKind kind
		oldEdit []byte
	)
	err := tx.QueryRowContext(ctx, `SELECT rev, kind, body FROM edits WHERE panel_id = ? AND command_id = ?`, id, command).
		Scan(&rev, &oldKind, &oldEdit)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, nil
	}
	if err != nil {
		return 0, err
	}
	same := oldKind == what
	if e != nil {
		body, err := panel.EncodeEdit(e)
		if err != nil {
			return 0, err
		}
		same = same && bytes.Equal(body, oldEdit)
	}
	if !same {
		return 0, fmt.Errorf("command %s was something else before: %w", command, record.ErrConflict)
	}
	return rev, nil
}

// headOf reads where a panel stands, inside the transaction that will move it on.
func (s *Store) headOf(ctx context.Context, tx *sql.Tx, id record.ID) (head, error) {
	var h head
	err := tx.QueryRowContext(ctx, `SELECT rev, undo_top, redo_top FROM panels WHERE id = ? AND deleted_ms IS NULL`, id).
		Scan(&h.rev, &h.undo, &h.redo)
	if err != nil {
		return head{}, missing(err)
	}
	if p, ok := s.fresh.get(id, h.rev); ok {
		h.panel = p
		return h, nil
	}
	var body []byte
	if err := tx.QueryRowContext(ctx, `SELECT body FROM panels WHERE id = ?`, id).Scan(&body); err != nil {
		return head{}, err
	}
	if h.panel, err = panel.Decode(body); err != nil {
		return head{}, fmt.Errorf("stored body: %w", err)
	}
	return h, nil
}

// log applies a row's edit and writes the row and the panel it leads to.
func (s *Store) log(ctx context.Context, tx *sql.Tx, id record.ID, h head, row logged) (panel.Panel, error) {
	after, inverse, err := panel.Apply(h.panel, row.edit)
	if err != nil {
		return panel.Panel{}, err
	}
	body, err := panel.Encode(after)
	if err != nil {
		return panel.Panel{}, err
	}
	if len(body) > panel.MaxFileBytes {
		return panel.Panel{}, record.ErrTooLarge
	}
	editText, err := panel.EncodeEdit(row.edit)
	if err != nil {
		return panel.Panel{}, err
	}
	inverseText, err := panel.EncodeEdit(inverse)
	if err != nil {
		return panel.Panel{}, err
	}
	rev, now := h.rev+1, s.now().UnixMilli()
	_, err = tx.ExecContext(ctx,
		`INSERT INTO edits (panel_id, rev, kind, of_rev, under, base, name, label, body, inverse, command_id, at_ms)
		 VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		id, rev, row.kind, row.of, row.under, row.base, row.edit.Do(), clip(row.label), string(editText), string(inverseText), row.command, now)
	if err != nil {
		return panel.Panel{}, fmt.Errorf("log edit: %w", err)
	}
	s.at("between statements")
	undoTop, redoTop, err := piles(ctx, tx, id, rev, row)
	if err != nil {
		return panel.Panel{}, err
	}
	err = oneRow(tx.ExecContext(ctx,
		`UPDATE panels SET name = ?, body = ?, rev = ?, undo_top = ?, redo_top = ?, changed_ms = ? WHERE id = ? AND rev = ?`,
		after.Name, string(body), rev, undoTop, redoTop, now, id, h.rev))
	if err != nil {
		return panel.Panel{}, fmt.Errorf("keep revision %d: %w", rev, err)
	}
	return after, nil
}

// piles returns the tops of both piles after a row. An edit goes onto the undo pile and clears the
// other; undo carries the top one over, and redo carries it back.
func piles(ctx context.Context, tx *sql.Tx, id record.ID, rev int64, row logged) (undoTop, redoTop sql.NullInt64, err error) {
	var under sql.NullInt64
	switch row.kind {
	case undo:
		err = tx.QueryRowContext(ctx, `SELECT under FROM edits WHERE panel_id = ? AND rev = ?`, id, row.of).Scan(&under)
		return under, row.of, err
	case redo:
		err = tx.QueryRowContext(ctx,
			`SELECT under FROM edits WHERE panel_id = ? AND of_rev = ? AND kind = 'undo' ORDER BY rev DESC LIMIT 1`, id, row.of).Scan(&under)
		return row.of, under, err
	}
	return sql.NullInt64{Int64: rev, Valid: true}, sql.NullInt64{}, nil
}

// wayBack returns the label and the inverse of what was last done with an edit: of the edit or its
// redo, or of its undo, as the condition picks.
func wayBack(ctx context.Context, tx *sql.Tx, id record.ID, rev int64, condition string) (string, panel.Edit, error) {
	var label string
	var text []byte
	err := tx.QueryRowContext(ctx, `SELECT label, inverse FROM edits WHERE panel_id = ? AND (rev = ? OR of_rev = ?) AND `+
		condition+` ORDER BY rev DESC LIMIT 1`, id, rev, rev).Scan(&label, &text)
	if err != nil {
		return "", nil, fmt.Errorf("edit %d: %w", rev, err)
	}
	back, err := panel.DecodeEdit(text)
	if err != nil {
		return "", nil, fmt.Errorf("edit %d: stored inverse: %w", rev, err)
	}
	return label, back, nil
}

// A queryer is a connection or a transaction.
type queryer interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// steps reads a panel's revision and the labels on top of its piles.
func steps(ctx context.Context, db queryer, id record.ID) (record.Change, error) {
	var c record.Change
	err := db.QueryRowContext(ctx,
		`SELECT p.rev, coalesce(u.label, ''), coalesce(r.label, '') FROM panels p
		 LEFT JOIN edits u ON u.panel_id = p.id AND u.rev = p.undo_top
		 LEFT JOIN edits r ON r.panel_id = p.id AND r.rev = p.redo_top
		 WHERE p.id = ? AND p.deleted_ms IS NULL`, id).Scan(&c.Rev, &c.Undo, &c.Redo)
	return c, missing(err)
}

// clip shortens a label.
func clip(label string) string {
	if letters := []rune(label); len(letters) > maxLabel {
		return string(letters[:maxLabel-1]) + "…"
	}
	return label
}
