package store

import (
	"context"
	"database/sql"
	"fmt"

	"fascia/design/record"
)

// keptRevisions is for how many revisions of each panel outputs are kept. They follow edits at some
// distance, so these are the last few states at which the maker paused, not the last few edits.
const keptRevisions = 5

// SaveOutputs keeps the outputs of a panel's plan under the revision they belong to, in place of any
// of the same revision, and forgets those of all but the newest few revisions.
func (s *Store) SaveOutputs(ctx context.Context, id record.ID, rev int64, files []record.File) error {
	err := s.write(ctx, func(tx *sql.Tx) error {
		var newest int64
		if err := tx.QueryRowContext(ctx, `SELECT rev FROM panels WHERE id = ?`, id).Scan(&newest); err != nil {
			return missing(err)
		}
		if rev < 0 || rev > newest {
			return fmt.Errorf("revision %d of %d: %w", rev, newest, record.ErrConflict)
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM outputs WHERE panel_id = ? AND rev = ?`, id, rev); err != nil {
			return err
		}
		for _, f := range files {
			_, err := tx.ExecContext(ctx, `INSERT INTO outputs (panel_id, rev, name, media, body) VALUES (?, ?, ?, ?, ?)`,
				id, rev, f.Name, f.Media, append([]byte{}, f.Data...)) // an empty file is not a missing one
			if err != nil {
				return fmt.Errorf("%s: %w", f.Name, err)
			}
		}
		_, err := tx.ExecContext(ctx,
			`DELETE FROM outputs WHERE panel_id = ? AND rev NOT IN
			 (SELECT DISTINCT rev FROM outputs WHERE panel_id = ? ORDER BY rev DESC LIMIT ?)`, id, id, keptRevisions)
		return err
	})
	if err != nil {
		return fmt.Errorf("outputs of panel %s: %w", id, err)
	}
	return nil
}

// Outputs returns the newest outputs that are kept for a panel, by name, and their revision. None is
// ErrNotFound.
func (s *Store) Outputs(ctx context.Context, id record.ID) (int64, []record.File, error) {
	rows, err := s.read.QueryContext(ctx,
		`SELECT rev, name, media, body FROM outputs
		 WHERE panel_id = ?1 AND rev = (SELECT max(rev) FROM outputs WHERE panel_id = ?1) ORDER BY name`, id)
	if err != nil {
		return 0, nil, fmt.Errorf("outputs of panel %s: %w", id, err)
	}
	defer rows.Close()
	var rev int64
	var files []record.File
	for rows.Next() {
		var f record.File
		if err := rows.Scan(&rev, &f.Name, &f.Media, &f.Data); err != nil {
			return 0, nil, fmt.Errorf("outputs of panel %s: %w", id, err)
		}
		files = append(files, f)
	}
	if err := rows.Err(); err != nil {
		return 0, nil, fmt.Errorf("outputs of panel %s: %w", id, err)
	}
	if files == nil {
		return 0, nil, fmt.Errorf("outputs of panel %s: %w", id, record.ErrNotFound)
	}
	return rev, files, nil
}
