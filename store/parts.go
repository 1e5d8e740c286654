package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"fascia/design/part"
	"fascia/design/record"
)

// SavedParts lists the maker's own parts by id.
func (s *Store) SavedParts(ctx context.Context) ([]record.SavedPart, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT id, body, changed_ms FROM saved_parts WHERE body IS NOT NULL ORDER BY id`)
	if err != nil {
		return nil, fmt.Errorf("list saved parts: %w", err)
	}
	defer rows.Close()
	var list []record.SavedPart
	for rows.Next() {
		var saved record.SavedPart
		var body []byte
		var changed int64
		if err := rows.Scan(&saved.ID, &body, &changed); err != nil {
			return nil, fmt.Errorf("list saved parts: %w", err)
		}
		if saved.Definition, err = part.Decode(body); err != nil {
			return nil, fmt.Errorf("saved part %s: %w", saved.ID, err)
		}
		saved.Changed = time.UnixMilli(changed)
		list = append(list, saved)
	}
	if err := rows.Err(); err != nil {
		return nil, fmt.Errorf("list saved parts: %w", err)
	}
	return list, nil
}

// SavePart keeps a valid definition as the maker's own, in place of an older one of that id. Its
// stock stays as it was.
func (s *Store) SavePart(ctx context.Context, id string, d part.Definition) error {
	d.Tidy()
	body, err := json.Marshal(d)
	if err != nil {
		return fmt.Errorf("save part %s: %w", id, err)
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx,
			`INSERT INTO saved_parts (id, body, changed_ms) VALUES (?, ?, ?)
			 ON CONFLICT (id) DO UPDATE SET body = excluded.body, changed_ms = excluded.changed_ms`,
			id, string(body), s.now().UnixMilli())
		return err
	})
	if err != nil {
		return fmt.Errorf("save part %s: %w", id, err)
	}
	return nil
}

// DeletePart forgets one of the maker's own parts and its stock. Panels that use it carry their own
// definition of it.
func (s *Store) DeletePart(ctx context.Context, id string) error {
	err := s.write(ctx, func(tx *sql.Tx) error {
		return oneRow(tx.ExecContext(ctx, `DELETE FROM saved_parts WHERE id = ? AND body IS NOT NULL`, id))
	})
	if err != nil {
		return fmt.Errorf("delete part %s: %w", id, err)
	}
	return nil
}

// Stock returns how many the maker has of each part, built-in ones included. A part of which there
// is none is left out.
func (s *Store) Stock(ctx context.Context) (map[string]int, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT id, stock FROM saved_parts WHERE stock > 0`)
	if err != nil {
		return nil, fmt.Errorf("read stock: %w", err)
	}
	defer rows.Close()
	stock := map[string]int{}
	for rows.Next() {
		var id string
		var have int
		if err := rows.Scan(&id, &have); err != nil {
			return nil, fmt.Errorf("read stock: %w", err)
		}
		stock[id] = have
	}
	if err := rows.Err(); err != nil {
		return nil, fmt.Errorf("read stock: %w", err)
	}
	return stock, nil
}

// SetStock keeps how many the maker has of a part: one of the built-in catalogue, or the maker's own.
func (s *Store) SetStock(ctx context.Context, id string, have int) error {
	_, builtIn := part.BuiltIn()[id]
	now := s.now().UnixMilli()
	err := s.write(ctx, func(tx *sql.Tx) error {
		if !builtIn {
			return oneRow(tx.ExecContext(ctx, `UPDATE saved_parts SET stock = ?, changed_ms = ? WHERE id = ? AND body IS NOT NULL`, have, now, id))
		}
		_, err := tx.ExecContext(ctx,
			`INSERT INTO saved_parts (id, stock, changed_ms) VALUES (?, ?, ?)
			 ON CONFLICT (id) DO UPDATE SET stock = excluded.stock, changed_ms = excluded.changed_ms`, id, have, now)
		return err
	})
	if err != nil {
		return fmt.Errorf("stock of part %s: %w", id, err)
	}
	return nil
}
