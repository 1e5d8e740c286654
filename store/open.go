// Package store keeps panels, their edits, the maker's own parts, outputs and progress ticks in one
// SQLite file inside a data folder. What a method has acknowledged survives a kill of the program.
// All SQL is here; values go in and out as domain types. It knows nothing of plans or pages.
package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"modernc.org/sqlite" // which is also the driver of that name
	sqlite3 "modernc.org/sqlite/lib"

	"fascia/design/record"
	"fascia/migrations"
)

const (
	fileName  = "fascia.db"
	trashTime = 30 * 24 * time.Hour // how long a deleted panel can be restored
)

// The reasons for which a data folder cannot be opened. The error's text tells the maker what to do.
var (
	ErrInUse   = errors.New("in use by another Fascia")
	ErrNewer   = errors.New("written by a newer Fascia")
	ErrForeign = errors.New("not a store of Fascia")
	ErrDamaged = errors.New("damaged")
)

// A Store is an open data folder. Its methods may be called from any goroutine. Only one program has
// a folder open at a time.
type Store struct {
	dir   string
	lock  *folderLock
	edit  *sql.DB // the one connection that writes
	read  *sql.DB
	fresh *recent
	now   func() time.Time
	at    func(point string) // called at the places where a test may kill the program
}

// Open opens the data folder dir and makes it if it is missing. It migrates an older store, after a
// backup; refuses a newer, damaged or foreign one; and empties the trash of panels that were deleted
// more than 30 days ago.
func Open(ctx context.Context, dir string) (*Store, error) {
	return open(ctx, dir, time.Now, func(string) {})
}

func open(ctx context.Context, dir string, now func() time.Time, at func(string)) (*Store, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("make data folder: %w", err)
	}
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("data folder %s: %w", dir, err)
	}
	lock, err := lockFolder(dir)
	if err != nil {
		return nil, err
	}
	s := &Store{dir: dir, lock: lock, fresh: newRecent(), now: now, at: at}
	if err := s.start(ctx); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// start looks at the file before it is allowed to write to it.
func (s *Store) start(ctx context.Context) error {
	path := filepath.Join(s.dir, fileName)
	version, err := inspect(ctx, path)
	if err != nil {
		return err
	}
	if s.edit, err = sql.Open("sqlite", writeDSN(path)); err != nil {
		return fmt.Errorf("open store: %w", err)
	}
	s.edit.SetMaxOpenConns(1)
	if err := s.checkHealth(ctx); err != nil {
		return err
	}
	if err := confirmSettings(ctx, s.edit, writeSettings); err != nil {
		return err
	}
	if version < migrations.Latest {
		if err := s.migrate(ctx, version); err != nil {
			return err
		}
	}
	if s.read, err = sql.Open("sqlite", readDSN(path)); err != nil {
		return fmt.Errorf("open store for reading: %w", err)
	}
	s.read.SetMaxOpenConns(4)
	if err := confirmSettings(ctx, s.read, readSettings); err != nil {
		return err
	}
	if err := s.backUpDaily(ctx); err != nil {
		return err
	}
	return s.Purge(ctx, s.now().Add(-trashTime))
}

// Close lets go of the folder. Everything acknowledged is already safe. It may be called twice.
func (s *Store) Close() error {
	var faults []error
	for _, db := range []*sql.DB{s.read, s.edit} {
		if db != nil {
			faults = append(faults, db.Close())
		}
	}
	return errors.Join(append(faults, s.lock.release())...)
}

// SetAddress tells whoever tries to open the folder next where this program can be reached.
func (s *Store) SetAddress(url string) error { return s.lock.setAddress(url) }

// inspect returns the schema number of the store at path, 0 when there is none yet. It opens the
// file for reading only: a file that is not ours must stay as it is.
func inspect(ctx context.Context, path string) (version int, err error) {
	info, err := os.Stat(path)
	if errors.Is(err, os.ErrNotExist) {
		f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL, 0o600) // the driver would let others read it
		if err != nil {
			return 0, fmt.Errorf("make store: %w", err)
		}
		return 0, f.Close()
	}
	if err != nil {
		return 0, fmt.Errorf("look at store: %w", err)
	}
	if info.Size() == 0 {
		return 0, nil
	}
	db, err := sql.Open("sqlite", readDSN(path))
	if err != nil {
		return 0, fmt.Errorf("look at store: %w", err)
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	var id int
	if err := db.QueryRowContext(ctx, `PRAGMA application_id`).Scan(&id); err != nil {
		return 0, fmt.Errorf("%s is %w (%v); move it away or give another folder with --data", path, ErrForeign, err)
	}
	if err := db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version); err != nil {
		return 0, fmt.Errorf("look at store: %w", err)
	}
	blank := false
	if id == 0 && version == 0 {
		// A first start that was killed leaves a file with nothing of ours in it.
		if blank, err = hasNoTables(ctx, db); err != nil {
			return 0, err
		}
	}
	switch {
	case blank:
		return 0, nil
	case id != migrations.ApplicationID:
		return 0, fmt.Errorf("%s is %w; move it away or give another folder with --data", path, ErrForeign)
	case version > migrations.Latest:
		return 0, fmt.Errorf("%s is %w: it has schema %d, this program knows up to %d; use the newer program", path, ErrNewer, version, migrations.Latest)
	}
	return version, nil
}

// hasNoTables reports whether a store holds nothing but, at most, the empty list of migrations that
// a first start begins with.
func hasNoTables(ctx context.Context, db *sql.DB) (bool, error) {
	var tables int
	err := db.QueryRowContext(ctx,
		`SELECT count(*) FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' AND name <> 'goose_db_version'`).Scan(&tables)
	if err != nil {
		return false, fmt.Errorf("look at store: %w", err)
	}
	return tables == 0, nil
}

// checkHealth refuses a damaged store rather than write to it.
func (s *Store) checkHealth(ctx context.Context) error {
	err := healthy(ctx, s.edit, "quick_check")
	if err == nil {
		return nil
	}
	if e := (*sqlite.Error)(nil); errors.As(err, &e) && e.Code()&0xFF != sqlite3.SQLITE_CORRUPT {
		return fmt.Errorf("check store: %w", err) // it could not be read, for another reason
	}
	advice := "there is no backup; what still opens can be exported with an SQLite program"
	if newest := s.newestBackup(); newest != "" {
		advice = "put the newest backup in its place: " + newest
	}
	return fmt.Errorf("%s is %w (%v); %s", filepath.Join(s.dir, fileName), ErrDamaged, err, advice)
}

// healthy runs one of SQLite's own checks, then looks for rows that point at nothing.
func healthy(ctx context.Context, db *sql.DB, check string) error {
	var verdict string
	if err := db.QueryRowContext(ctx, `PRAGMA `+check+`(1)`).Scan(&verdict); err != nil {
		return err
	}
	if verdict != "ok" {
		return errors.New(strings.ReplaceAll(verdict, "\n", " "))
	}
	rows, err := db.QueryContext(ctx, `PRAGMA foreign_key_check`)
	if err != nil {
		return err
	}
	defer rows.Close()
	if rows.Next() {
		return errors.New("a row refers to one that is missing")
	}
	return rows.Err()
}

// newID makes an id that nobody can guess.
func newID() record.ID {
	var random [10]byte
	rand.Read(random[:]) // never fails; it ends the program instead
	return record.NewID(random)
}
