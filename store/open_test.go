package store

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/migrations"
)

func TestOpenKeepsToItself(t *testing.T) {
	// Names that a connection string could misread.
	dir := filepath.Join(t.TempDir(), "a folder", "50% off?#[1]é")
	s := openFor(t, dir)
	id := created(t, s, "Counter")
	for _, path := range []string{dir, filepath.Join(dir, fileName), filepath.Join(dir, "lock")} {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s can be read by others: %v", path, info.Mode())
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if p, _, err := openFor(t, dir).Panel(t.Context(), id); err != nil || p.Name != "Counter" {
		t.Errorf("after a restart: %q, %v", p.Name, err)
	}
}

func TestASecondProgramIsToldWhereTheFirstIs(t *testing.T) {
	dir := t.TempDir()
	s := openFor(t, dir)
	if _, err := Open(t.Context(), dir); !errors.Is(err, ErrInUse) {
		t.Errorf("second opening: %v", err)
	}
	if err := s.SetAddress("http://127.0.0.1:7340"); err != nil {
		t.Fatal(err)
	}
	_, err := Open(t.Context(), dir)
	if !errors.Is(err, ErrInUse) || !strings.Contains(err.Error(), "http://127.0.0.1:7340") {
		t.Errorf("second opening: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	openFor(t, dir)
}

func TestOpenRefuses(t *testing.T) {
	tests := []struct {
		name string
		make func(path string) error
		want error
		says string
	}{
		{"a store of a newer program", newerStore, ErrNewer, "schema 99, this program knows up to 2"},
		{"another program's SQLite file", foreignStore, ErrForeign, "--data"},
		{"an SQLite file without an owner", func(path string) error { return statements(path, `CREATE TABLE t (a)`) }, ErrForeign, "--data"},
		{"what is no SQLite file", func(path string) error { return os.WriteFile(path, []byte(strings.Repeat("no ", 2000)), 0o600) }, ErrForeign, "--data"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, fileName)
			if err := tt.make(path); err != nil {
				t.Fatal(err)
			}
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			s, err := Open(t.Context(), dir)
			if !errors.Is(err, tt.want) || !strings.Contains(fmt.Sprint(err), tt.says) {
				t.Errorf("got %v, %v; want %v saying %q", s, err, tt.want, tt.says)
			}
			if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
				t.Errorf("the refused file was changed (%v)", err)
			}
		})
	}
}

func newerStore(path string) error {
	return statements(path, fmt.Sprint(`PRAGMA application_id = `, migrations.ApplicationID), `PRAGMA user_version = 99`, `CREATE TABLE t (a)`)
}

func foreignStore(path string) error {
	return statements(path, `PRAGMA application_id = 1196444487`, `CREATE TABLE t (a)`) // GPKG, of the GeoPackage standard
}

// statements runs SQL on a file as another program would.
func statements(path string, list ...string) error {
	db, err := sql.Open("sqlite", path)
	if err != nil {
		return err
	}
	for _, one := range list {
		if _, err := db.Exec(one); err != nil {
			return errors.Join(err, db.Close())
		}
	}
	return db.Close()
}

func TestOpenRefusesADamagedStore(t *testing.T) {
	dir := t.TempDir()
	s := openFor(t, dir)
	p := panel.New("Counter")
	p.Notes = strings.Repeat("notes ", 3000)
	if _, err := s.Import(t.Context(), p); err != nil {
		t.Fatal(err)
	}
	backup, err := s.Backup(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, fileName)
	bytes, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := 4096 * 2; i < len(bytes); i++ { // page 1 holds the schema; the rest are rows
		bytes[i] ^= 0x5A
	}
	if err := os.WriteFile(path, bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(t.Context(), dir); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), backup) {
		t.Errorf("got %v; want %v naming %s", err, ErrDamaged, backup)
	}
}

// TestOpenAfterAFirstStartThatWasKilled leaves what a kill between the making of the file and the
// end of the first migration leaves.
func TestOpenAfterAFirstStartThatWasKilled(t *testing.T) {
	for name, left := range map[string][]string{
		"an empty file":        {},
		"a file with settings": {`PRAGMA journal_mode = WAL`},
		"a file with an empty list of migrations": {`PRAGMA journal_mode = WAL`, `CREATE TABLE goose_db_version (id INTEGER PRIMARY KEY AUTOINCREMENT, version_id INTEGER NOT NULL, is_applied INTEGER NOT NULL, tstamp TIMESTAMP DEFAULT (datetime('now')))`,
			`INSERT INTO goose_db_version (version_id, is_applied) VALUES (0, 1)`},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, fileName)
			if err := statements(path, left...); err != nil {
				t.Fatal(err)
			}
			s := openFor(t, dir)
			created(t, s, "Counter")
		})
	}
}

func TestSettingsAreReadBack(t *testing.T) {
	s := openFor(t, t.TempDir())
	if err := confirmSettings(t.Context(), s.edit, []setting{{"synchronous", "1"}}); err == nil {
		t.Error("a setting that did not take was accepted")
	}
	if _, err := s.edit.Exec(`SELECT "misspelt"`); err == nil {
		t.Error("a name in double quotes became a text")
	}
	if _, err := s.read.Exec(`DELETE FROM panels`); err == nil {
		t.Error("the reading handle can write")
	}
}

func TestNewEnough(t *testing.T) {
	tests := []struct {
		version, source string
		want            bool
	}{
		{"3.51.2", "SQLite release history: the race was fixed in 3.51.3", false},
		{"3.51.3", "the same", true},
		{"3.7.0", "the same: since 3.7.0", false},
		{"3.54.1", "the version in the driver", true},
		{"4.0.0", "a later one", true},
		{"three", "no version", false},
	}
	for _, tt := range tests {
		if err := newEnough(tt.version); (err == nil) != tt.want {
			t.Errorf("newEnough(%q) = %v; want %v (%s)", tt.version, err, tt.want, tt.source)
		}
	}
}
