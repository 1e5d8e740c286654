package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"github.com/pressly/goose/v3"

	"fascia/migrations"
)

// migrate brings the store from an older schema to the newest, one transaction a step. A store that
// holds something is backed up first.
func (s *Store) migrate(ctx context.Context, from int) error {
	if from > 0 {
		if _, err := s.backUp(ctx, fmt.Sprintf("before-schema-%d", migrations.Latest)); err != nil {
			return fmt.Errorf("nothing was changed: %w", err)
		}
	}
	return migrateTo(ctx, s.edit, migrations.Latest, s.at)
}

// migrateTo applies the missing migrations up to number last.
func migrateTo(ctx context.Context, db *sql.DB, last int64, at func(string)) error {
	steps, err := goose.NewProvider(goose.DialectSQLite3, db, migrations.Files,
		goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return fmt.Errorf("read migrations: %w", err)
	}
	for {
		now, err := steps.GetDBVersion(ctx)
		if err != nil {
			return fmt.Errorf("read schema number: %w", err)
		}
		if now >= last {
			return nil
		}
		at("before migration")
		if _, err := steps.UpByOne(ctx); err != nil && !errors.Is(err, goose.ErrNoNextVersion) {
			return fmt.Errorf("migrate from schema %d: %w", now, diskError(err))
		}
		at("after migration")
	}
}
