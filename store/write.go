package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"fascia/design/record"
)

// write runs change in one transaction: all of it is kept and flushed to the disk when write returns
// nil, and none of it otherwise.
func (s *Store) write(ctx context.Context, change func(*sql.Tx) error) (err error) {
	s.at("before begin")
	tx, err := s.edit.BeginTx(ctx, nil)
	if err != nil {
		return diskError(err)
	}
	s.at("after begin")
	if err := change(tx); err != nil {
		// A full disk has rolled back by itself; then there is nothing left to roll back.
		if undo := tx.Rollback(); undo != nil && !errors.Is(undo, sql.ErrTxDone) && !errors.Is(diskError(err), record.ErrFull) {
			err = errors.Join(err, undo)
		}
		return diskError(err)
	}
	s.at("before commit")
	if err := tx.Commit(); err != nil {
		return diskError(err)
	}
	s.at("after commit")
	return nil
}

// diskError makes an error of a full disk one that a caller can tell; others pass unchanged.
func diskError(err error) error {
	if e := (*sqlite.Error)(nil); errors.As(err, &e) {
		if e.Code() == sqlite3.SQLITE_FULL || e.Code() == sqlite3.SQLITE_IOERR_SHMSIZE {
			return fmt.Errorf("%w: %w", record.ErrFull, err)
		}
	}
	return err
}

// oneRow turns a write that met no row into ErrNotFound.
func oneRow(result sql.Result, err error) error {
	if err != nil {
		return err
	}
	n, err := result.RowsAffected()
	if err == nil && n == 0 {
		err = record.ErrNotFound
	}
	return err
}

// missing turns the error of a row that is not there into ErrNotFound.
func missing(err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return record.ErrNotFound
	}
	return err
}
