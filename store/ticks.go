package store

import (
	"context"
	"database/sql"
	"fmt"

	"fascia/design/record"
)

// Ticks returns the build steps of a panel that are done.
func (s *Store) Ticks(ctx context.Context, id record.ID) (map[string]bool, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT step FROM ticks WHERE panel_id = ?`, id)
	if err != nil {
		return nil, fmt.Errorf("ticks of panel %s: %w", id, err)
	}
	defer rows.Close()
	done := map[string]bool{}
	for rows.Next() {
		var step string
		if err := rows.Scan(&step); err != nil {
			return nil, fmt.Errorf("ticks of panel %s: %w", id, err)
		}
		done[step] = true
	}
	if err := rows.Err(); err != nil {
		return nil, fmt.Errorf("ticks of panel %s: %w", id, err)
	}
	return done, nil
}

// Tick marks a build step of a panel as done, or as not done. Steps have names of 1 to 120
// characters; the store does not know which a panel has.
func (s *Store) Tick(ctx context.Context, id record.ID, step string, done bool) error {
	err := s.write(ctx, func(tx *sql.Tx) error {
		var there bool
		err := tx.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM panels WHERE id = ? AND deleted_ms IS NULL)`, id).Scan(&there)
		switch {
		case err != nil:
			return err
		case !there:
			return record.ErrNotFound
		case !done:
			_, err = tx.ExecContext(ctx, `DELETE FROM ticks WHERE panel_id = ? AND step = ?`, id, step)
		default:
			_, err = tx.ExecContext(ctx,
				`INSERT INTO ticks (panel_id, step, done_ms) VALUES (?, ?, ?) ON CONFLICT DO NOTHING`, id, step, s.now().UnixMilli())
		}
		return err
	})
	if err != nil {
		return fmt.Errorf("tick of panel %s: %w", id, err)
	}
	return nil
}
