package store

import (
	"context"
	"database/sql"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/migrations"
)

var update = flag.Bool("update", false, "write the saved store of schema 1 anew")

// TestMigrateFromASavedStore opens stores as every released schema left them. The saved file is SQL
// text, so that its rows can be reviewed.
func TestMigrateFromASavedStore(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, fileName)
	saved, err := os.ReadFile("testdata/schema-1.sql")
	if err != nil {
		t.Fatal(err)
	}
	if err := statements(path, string(saved)); err != nil {
		t.Fatal(err)
	}
	s := openFor(t, dir)

	list, err := s.Panels(t.Context())
	if err != nil || len(list) != 1 || list[0].Name != "Two-key counter" || list[0].Rev != 3 {
		t.Fatalf("panels %+v, %v", list, err)
	}
	id := list[0].ID
	now, err := panel.Decode([]byte(bodyOf(t, s, id)))
	if err != nil {
		t.Fatal(err)
	}
	want, err := panel.Encode(now) // the saved body is an older project file
	if err != nil {
		t.Fatal(err)
	}
	if body, err := replayed(t.Context(), s, id); err != nil || body != string(want) {
		t.Errorf("replay of the saved log: %v\n%s\nwant\n%s", err, body, want)
	}
	if c, err := s.Redo(t.Context(), id, "after"); err != nil || c.Rev != 4 {
		t.Errorf("redo of an edit from before: %+v, %v", c, err)
	}
	if err := s.Tick(t.Context(), id, "w1", true); err != nil {
		t.Errorf("use of a new table: %v", err)
	}

	copies := s.backups()
	if len(copies) == 0 || !strings.Contains(copies[0], "before-schema-2") {
		t.Fatalf("no backup before the migration: %v", copies)
	}
	if version, err := inspect(t.Context(), copies[0]); err != nil || version != 1 {
		t.Errorf("the backup has schema %d, %v", version, err)
	}
}

// TestEverySchemaNumbersItself holds the migrations to what the guard against older programs needs.
func TestEverySchemaNumbersItself(t *testing.T) {
	files, err := migrations.Files.ReadDir(".")
	if err != nil || len(files) != migrations.Latest {
		t.Fatalf("%d files, %v; Latest is %d", len(files), err, migrations.Latest)
	}
	for n := 1; n <= migrations.Latest; n++ {
		db := scratch(t)
		if err := migrateTo(t.Context(), db, int64(n), func(string) {}); err != nil {
			t.Fatal(err)
		}
		var version, id int
		if err := errors.Join(db.QueryRow(`PRAGMA user_version`).Scan(&version), db.QueryRow(`PRAGMA application_id`).Scan(&id)); err != nil {
			t.Fatal(err)
		}
		if version != n || id != migrations.ApplicationID {
			t.Errorf("after migration %d: user_version %d, application_id %#x", n, version, id)
		}
	}
}

// TestSchemaIsStrict holds every table of ours to STRICT, so that a column holds what it says.
func TestSchemaIsStrict(t *testing.T) {
	s := openFor(t, t.TempDir())
	rows, err := s.read.Query(`SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table' ORDER BY name`)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var tables []string
	for rows.Next() {
		var name string
		var strict bool
		if err := rows.Scan(&name, &strict); err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(name, "sqlite_") || strings.HasPrefix(name, "goose_") {
			continue
		}
		tables = append(tables, name)
		if !strict {
			t.Errorf("table %s is not strict", name)
		}
	}
	if want := []string{"edits", "once", "outputs", "panels", "saved_parts", "ticks"}; rows.Err() != nil || !slices.Equal(tables, want) {
		t.Errorf("tables %v, %v; want %v", tables, rows.Err(), want)
	}
}

// TestSchemaHoldsItsRules writes round the methods, as a mistake in them would.
func TestSchemaHoldsItsRules(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	other := created(t, s, "Other")
	tests := []struct{ name, statement string }{
		{"a word as a revision", `UPDATE panels SET rev = 'two' WHERE id = ?`},
		{"a revision below none", `UPDATE panels SET rev = -1 WHERE id = ?`},
		{"an undo of nothing there", `UPDATE panels SET undo_top = 7 WHERE id = ?`},
		{"an edit of no panel", `INSERT INTO edits SELECT 'ffffffffffffffff', rev, kind, of_rev, under, base, name, label, body, inverse, command_id, at_ms FROM edits WHERE panel_id = ?`},
		{"a command twice", `INSERT INTO edits SELECT panel_id, rev + 1, kind, of_rev, under, base, name, label, body, inverse, command_id, at_ms FROM edits WHERE panel_id = ?`},
		{"an undo without its edit", `INSERT INTO edits SELECT panel_id, rev + 1, 'undo', of_rev, under, base, name, label, body, inverse, 'c2', at_ms FROM edits WHERE panel_id = ?`},
		{"a fourth kind", `INSERT INTO edits SELECT panel_id, rev + 1, 'gone', of_rev, under, base, name, label, body, inverse, 'c2', at_ms FROM edits WHERE panel_id = ?`},
		{"a rewritten edit", `UPDATE edits SET label = 'x' WHERE panel_id = ?`},
		{"a lost edit", `DELETE FROM edits WHERE panel_id = ?`},
		{"an output of no panel", `INSERT INTO outputs VALUES ('ffffffffffffffff', 1, 'wiring.csv', 'text/csv', x'') RETURNING ?`},
		{"a text as an output", `INSERT INTO outputs VALUES (?, 1, 'wiring.csv', 'text/csv', 'text')`},
		{"a tick of no panel", `INSERT INTO ticks VALUES ('ffffffffffffffff', 'w1', 0) RETURNING ?`},
		{"a stock below none", `INSERT INTO saved_parts VALUES (?, NULL, -1, 0)`},
	}
	for _, tt := range tests {
		if _, err := s.edit.Exec(tt.statement, id); err == nil {
			t.Errorf("%s was stored", tt.name)
		}
	}
	if err := healthy(t.Context(), s.edit, "integrity_check"); err != nil {
		t.Error(err)
	}
	if body, err := replayed(t.Context(), s, id); err != nil || body != bodyOf(t, s, id) {
		t.Errorf("replay after all that: %v", err)
	}
	if _, _, err := s.Panel(t.Context(), other); err != nil {
		t.Error(err)
	}
}

// TestWriteSchema1 writes the saved store of schema 1, by -update only: a released schema does not
// change. Without the flag it checks that the file still is one of schema 1.
func TestWriteSchema1(t *testing.T) {
	if *update {
		if err := os.WriteFile("testdata/schema-1.sql", []byte(dump(t, schemaOne(t))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile("testdata/schema-1.sql")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "PRAGMA user_version = 1;") || strings.Contains(string(text), "saved_parts") {
		t.Error("the saved store is not one of schema 1")
	}
}

// schemaOne makes a store as the program with one migration would have left it.
func schemaOne(t *testing.T) *sql.DB {
	db := scratch(t)
	if err := migrateTo(t.Context(), db, 1, func(string) {}); err != nil {
		t.Fatal(err)
	}
	s := &Store{edit: db, read: db, fresh: newRecent(), now: openFor(t, t.TempDir()).now, at: func(string) {}}
	id := created(t, s, "Two-key counter")
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	applied(t, s, id, "c2", switchAt("S2", "H5"))
	if _, err := s.Undo(context.Background(), id, "c3"); err != nil {
		t.Fatal(err)
	}
	return db
}

func scratch(t *testing.T) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite", writeDSN(filepath.Join(t.TempDir(), fileName)))
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { db.Close() })
	return db
}

// dump writes a store as SQL text: tables, rows, then what hangs on them.
func dump(t *testing.T, db *sql.DB) string {
	var out strings.Builder
	out.WriteString("-- A store as the program with schema 1 left it: one panel, two edits, the second taken back.\n")
	out.WriteString("PRAGMA foreign_keys = off;\nBEGIN;\nPRAGMA application_id = 1181967201;\nPRAGMA user_version = 1;\n")
	for _, q := range []string{
		`SELECT sql || ';' FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`,
		`SELECT 'INSERT INTO goose_db_version VALUES (' || id || ', ' || version_id || ', ' || is_applied || ', ''2026-03-01 12:00:00'');' FROM goose_db_version`,
		`SELECT printf('INSERT INTO panels VALUES (%Q, %Q, %Q, %Q, %d, %Q, %Q, %d, %d, %Q);', id, name, origin, body, rev, undo_top, redo_top, created_ms, changed_ms, deleted_ms) FROM panels`,
		`SELECT printf('INSERT INTO edits VALUES (%Q, %d, %Q, %Q, %Q, %d, %Q, %Q, %Q, %Q, %Q, %d);', panel_id, rev, kind, of_rev, under, base, name, label, body, inverse, command_id, at_ms) FROM edits`,
		`SELECT sql || ';' FROM sqlite_schema WHERE type <> 'table' AND sql IS NOT NULL ORDER BY type, name`,
	} {
		rows, err := db.Query(q)
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			var line string
			if err := rows.Scan(&line); err != nil {
				t.Fatal(err)
			}
			out.WriteString(line + "\n")
		}
		if err := errors.Join(rows.Err(), rows.Close()); err != nil {
			t.Fatal(err)
		}
	}
	out.WriteString("COMMIT;\n")
	return out.String()
}
