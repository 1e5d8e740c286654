package store

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"fascia/design/panel"
	"fascia/design/record"
)

// Panels lists every panel, the trashed ones too, the one changed last first.
func (s *Store) Panels(ctx context.Context) ([]record.Entry, error) {
	rows, err := s.read.QueryContext(ctx,
		`SELECT id, name, rev, created_ms, changed_ms, deleted_ms FROM panels ORDER BY changed_ms DESC, id`)
	if err != nil {
		return nil, fmt.Errorf("list panels: %w", err)
	}
	defer rows.Close()
	var list []record.Entry
	for rows.Next() {
		var e record.Entry
		var created, changed int64
		var deleted sql.NullInt64
		if err := rows.Scan(&e.ID, &e.Name, &e.Rev, &created, &changed, &deleted); err != nil {
			return nil, fmt.Errorf("list panels: %w", err)
		}
		e.Created, e.Changed = time.UnixMilli(created), time.UnixMilli(changed)
		if deleted.Valid {
			e.Deleted = time.UnixMilli(deleted.Int64)
		}
		list = append(list, e)
	}
	if err := rows.Err(); err != nil {
		return nil, fmt.Errorf("list panels: %w", err)
	}
	return list, nil
}

// Panel returns a panel and its revision. A trashed panel is not found.
func (s *Store) Panel(ctx context.Context, id record.ID) (panel.Panel, int64, error) {
	var rev int64
	err := s.read.QueryRowContext(ctx, `SELECT rev FROM panels WHERE id = ? AND deleted_ms IS NULL`, id).Scan(&rev)
	if err != nil {
		return panel.Panel{}, 0, fmt.Errorf("panel %s: %w", id, missing(err))
	}
	if p, ok := s.fresh.get(id, rev); ok {
		return p, rev, nil
	}
	var body []byte
	err = s.read.QueryRowContext(ctx, `SELECT rev, body FROM panels WHERE id = ? AND deleted_ms IS NULL`, id).Scan(&rev, &body)
	if err != nil {
		return panel.Panel{}, 0, fmt.Errorf("panel %s: %w", id, missing(err))
	}
	p, err := panel.Decode(body)
	if err != nil {
		return panel.Panel{}, 0, fmt.Errorf("panel %s: stored body: %w", id, err)
	}
	s.fresh.put(id, rev, p)
	return p, rev, nil
}

// Import keeps a panel as a new one whose history begins with it. A panel that is not valid is
// refused with a *panel.FileError.
func (s *Store) Import(ctx context.Context, p panel.Panel) (record.ID, error) {
	if err := p.Validate(); err != nil {
		return "", err
	}
	id := newID()
	err := s.write(ctx, func(tx *sql.Tx) error { return s.insert(ctx, tx, id, p) })
	if err != nil {
		return "", fmt.Errorf("keep panel %q: %w", p.Name, err)
	}
	return id, nil
}

func (s *Store) insert(ctx context.Context, tx *sql.Tx, id record.ID, p panel.Panel) error {
	body, err := panel.Encode(p)
	if err != nil {
		return err
	}
	if len(body) > panel.MaxFileBytes {
		return record.ErrTooLarge
	}
	now := s.now().UnixMilli()
	_, err = tx.ExecContext(ctx,
		`INSERT INTO panels (id, name, origin, body, created_ms, changed_ms) VALUES (?, ?, ?, ?, ?, ?)`,
		id, p.Name, string(body), string(body), now, now)
	return err
}

// Duplicate keeps a copy of a panel as it is now, without its history, under a name of its own.
func (s *Store) Duplicate(ctx context.Context, id record.ID) (record.ID, error) {
	p, _, err := s.Panel(ctx, id)
	if err != nil {
		return "", err
	}
	p.Name = copyName(p.Name)
	return s.Import(ctx, p)
}

// copyName marks a name as that of a copy and keeps it within the longest name.
func copyName(name string) string {
	const mark = " (copy)"
	letters := []rune(name)
	if most := panel.MaxName - len(mark); len(letters) > most {
		letters = letters[:most]
	}
	return string(letters) + mark
}

// Delete puts a panel into the trash. Deleting it twice is not found.
func (s *Store) Delete(ctx context.Context, id record.ID) error {
	return s.trash(ctx, id, `UPDATE panels SET deleted_ms = ? WHERE id = ? AND deleted_ms IS NULL`, s.now().UnixMilli(), id)
}

// Restore takes a panel back out of the trash, with all its history.
func (s *Store) Restore(ctx context.Context, id record.ID) error {
	return s.trash(ctx, id, `UPDATE panels SET deleted_ms = NULL WHERE id = ? AND deleted_ms IS NOT NULL`, id)
}

func (s *Store) trash(ctx context.Context, id record.ID, statement string, args ...any) error {
	err := s.write(ctx, func(tx *sql.Tx) error { return oneRow(tx.ExecContext(ctx, statement, args...)) })
	if err != nil {
		return fmt.Errorf("panel %s: %w", id, err)
	}
	return nil
}

// Purge removes for good what was put into the trash before a time.
func (s *Store) Purge(ctx context.Context, before time.Time) error {
	err := s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM panels WHERE deleted_ms < ?`, before.UnixMilli())
		return err
	})
	if err != nil {
		return fmt.Errorf("empty the trash: %w", err)
	}
	return nil
}

// SeedDemos puts demo panels into a store that has never held a panel, the first of the list on top.
// It does so once in the store's life, so that a maker who deletes them is not given them again.
func (s *Store) SeedDemos(ctx context.Context, demos []panel.Panel) error {
	err := s.write(ctx, func(tx *sql.Tx) error {
		var used bool
		err := tx.QueryRowContext(ctx,
			`SELECT EXISTS (SELECT 1 FROM panels) OR EXISTS (SELECT 1 FROM once WHERE what = 'demos')`).Scan(&used)
		if err != nil || used {
			return err
		}
		for i, p := range demos {
			id := newID()
			if err := s.insert(ctx, tx, id, p); err != nil {
				return fmt.Errorf("demo %q: %w", p.Name, err)
			}
			if _, err := tx.ExecContext(ctx, `UPDATE panels SET changed_ms = changed_ms - ? WHERE id = ?`, i, id); err != nil {
				return err
			}
		}
		_, err = tx.ExecContext(ctx, `INSERT INTO once (what, at_ms) VALUES ('demos', ?)`, s.now().UnixMilli())
		return err
	})
	if err != nil {
		return fmt.Errorf("put demo panels in: %w", err)
	}
	return nil
}
