package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fascia/design/record"
)

const (
	backupFolder = "backups"
	keptBackups  = 10
	backupEvery  = 24 * time.Hour
	backupStamp  = "20060102T150405.000"
)

// Backup writes a copy of the whole store into the folder's backups and returns its path. The copy
// takes its name only after it was checked and is safe on the disk. The ten newest are kept.
func (s *Store) Backup(ctx context.Context) (string, error) { return s.backUp(ctx, "asked-for") }

// backUpDaily makes a backup when the newest is older than a day and there is something to lose.
func (s *Store) backUpDaily(ctx context.Context) error {
	var panels int
	if err := s.read.QueryRowContext(ctx, `SELECT count(*) FROM panels`).Scan(&panels); err != nil {
		return fmt.Errorf("count panels: %w", err)
	}
	if panels == 0 {
		return nil
	}
	if info, err := os.Stat(s.newestBackup()); err == nil && s.now().Sub(info.ModTime()) < backupEvery {
		return nil
	}
	if _, err := s.backUp(ctx, "daily"); err != nil && !errors.Is(err, record.ErrFull) {
		return err // a full disk must not keep the maker from panels that are safe
	}
	return nil
}

func (s *Store) backUp(ctx context.Context, why string) (path string, err error) {
	dir := filepath.Join(s.dir, backupFolder)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", fmt.Errorf("back up: %w", err)
	}
	draft := filepath.Join(dir, "unfinished.db")
	if err := removeAll(draft, draft+"-journal", draft+"-wal", draft+"-shm"); err != nil {
		return "", fmt.Errorf("back up: %w", err)
	}
	if _, err := s.edit.ExecContext(ctx, `VACUUM INTO ?`, draft); err != nil {
		return "", fmt.Errorf("back up: %w", errors.Join(diskError(err), removeAll(draft)))
	}
	s.at("backup written")
	if err := checkCopy(ctx, draft); err != nil {
		return "", fmt.Errorf("back up: the copy is no good: %w", err)
	}
	if err := syncFile(draft); err != nil {
		return "", fmt.Errorf("back up: %w", err)
	}
	path = filepath.Join(dir, "fascia-"+s.now().UTC().Format(backupStamp)+"-"+why+".db")
	if err := os.Rename(draft, path); err != nil {
		return "", fmt.Errorf("back up: %w", err)
	}
	if err := syncFolder(dir); err != nil {
		return "", fmt.Errorf("back up: %w", err)
	}
	s.at("backup named")
	return path, s.pruneBackups()
}

// checkCopy opens a copy by itself and checks all of it.
func checkCopy(ctx context.Context, path string) (err error) {
	db, err := sql.Open("sqlite", readDSN(path))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return healthy(ctx, db, "integrity_check")
}

// backups lists the finished backups, oldest first: their names begin with their time.
func (s *Store) backups() []string {
	dir := filepath.Join(s.dir, backupFolder)
	entries, err := os.ReadDir(dir) // sorted by name
	if err != nil {
		return nil // there is no folder of backups yet
	}
	var paths []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), "fascia-") && strings.HasSuffix(e.Name(), ".db") {
			paths = append(paths, filepath.Join(dir, e.Name()))
		}
	}
	return paths
}

func (s *Store) newestBackup() string {
	names := s.backups()
	if len(names) == 0 {
		return ""
	}
	return names[len(names)-1]
}

func (s *Store) pruneBackups() error {
	names := s.backups()
	if len(names) <= keptBackups {
		return nil
	}
	return removeAll(names[:len(names)-keptBackups]...)
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// removeAll takes files away that may or may not be there.
func removeAll(paths ...string) error {
	for _, p := range paths {
		if err := os.Remove(p); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return nil
}
