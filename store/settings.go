package store

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"slices"
	"strings"
)

// oldestSQLite is the first release without a rare race between a checkpoint and a writer that could
// lose a commit (SQLite release history, 3.51.3).
var oldestSQLite = [3]int{3, 51, 3}

// writeDSN names the store for its one writing connection: the write-ahead log is flushed at every
// commit, and a transaction takes the lock when it begins, so that none fails half way.
func writeDSN(path string) string {
	q := url.Values{"_txlock": {"immediate"}, "_journal_mode": {"WAL"}, "_synchronous": {"FULL"},
		"_foreign_keys": {"1"}, "_busy_timeout": {"5000"}, "_dqs": {"0"}, "_defensive": {"1"}}
	q.Add("_pragma", "trusted_schema(0)")
	return fileURL(path, q)
}

// readDSN names the store for connections that cannot write.
func readDSN(path string) string {
	q := url.Values{"mode": {"ro"}, "_query_only": {"1"}, "_foreign_keys": {"1"}, "_busy_timeout": {"5000"}, "_dqs": {"0"}}
	q.Add("_pragma", "trusted_schema(0)")
	return fileURL(path, q)
}

func fileURL(path string, q url.Values) string {
	return (&url.URL{Scheme: "file", Opaque: (&url.URL{Path: path}).EscapedPath(), RawQuery: q.Encode()}).String()
}

// A setting is what a pragma must read. A misspelt one is accepted in silence, so each is read back.
type setting struct{ pragma, want string }

var (
	writeSettings = []setting{{"journal_mode", "wal"}, {"synchronous", "2"}, {"foreign_keys", "1"},
		{"busy_timeout", "5000"}, {"trusted_schema", "0"}, {"query_only", "0"}}
	readSettings = []setting{{"journal_mode", "wal"}, {"foreign_keys", "1"}, {"busy_timeout", "5000"},
		{"trusted_schema", "0"}, {"query_only", "1"}}
)

// confirmSettings reads back what was asked for, and SQLite's own version.
func confirmSettings(ctx context.Context, db *sql.DB, settings []setting) error {
	for _, s := range settings {
		var got string
		if err := db.QueryRowContext(ctx, `PRAGMA `+s.pragma).Scan(&got); err != nil {
			return fmt.Errorf("open store: read %s: %w", s.pragma, err)
		}
		if got != s.want {
			return fmt.Errorf("open store: %s is %s instead of %s; the folder may lie on a network disk", s.pragma, got, s.want)
		}
	}
	var version string
	if err := db.QueryRowContext(ctx, `SELECT sqlite_version()`).Scan(&version); err != nil {
		return fmt.Errorf("open store: read version: %w", err)
	}
	return newEnough(version)
}

// newEnough refuses an SQLite older than oldestSQLite.
func newEnough(version string) error {
	var v [3]int
	if _, err := fmt.Sscanf(strings.TrimSpace(version), "%d.%d.%d", &v[0], &v[1], &v[2]); err != nil {
		return fmt.Errorf("open store: SQLite version %q: %w", version, err)
	}
	if slices.Compare(v[:], oldestSQLite[:]) < 0 {
		return fmt.Errorf("open store: SQLite %s can lose a commit; at least %d.%d.%d is needed",
			version, oldestSQLite[0], oldestSQLite[1], oldestSQLite[2])
	}
	return nil
}
