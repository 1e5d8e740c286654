package store

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"fascia/design/part"
	"fascia/design/record"
)

func TestOutputs(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	if _, _, err := s.Outputs(t.Context(), id); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("outputs before there are any: %v", err)
	}
	for i := range 9 {
		applied(t, s, id, fmt.Sprint("c", i), switchAt(fmt.Sprint("S", i+1), fmt.Sprintf("%c5", 'A'+2*i)))
		files := []record.File{{Name: "bom.csv", Media: "text/csv", Data: fmt.Append(nil, "line ", i)}, {Name: "wiring.csv", Media: "text/csv", Data: nil}}
		if err := s.SaveOutputs(t.Context(), id, int64(i+1), files); err != nil {
			t.Fatal(err)
		}
		rev, got, err := s.Outputs(t.Context(), id)
		if err != nil || rev != int64(i+1) || !same(got, files) {
			t.Errorf("outputs of revision %d: %d, %v, %v", i+1, rev, got, err)
		}
	}
	var revisions int
	if err := s.read.QueryRow(`SELECT count(DISTINCT rev) FROM outputs`).Scan(&revisions); err != nil || revisions != keptRevisions {
		t.Errorf("outputs of %d revisions are kept, %v; want %d", revisions, err, keptRevisions)
	}
	// Outputs of an older revision that come late do not hide the newer ones.
	if err := s.SaveOutputs(t.Context(), id, 8, []record.File{{Name: "bom.csv", Media: "text/csv", Data: []byte("late")}}); err != nil {
		t.Fatal(err)
	}
	if rev, _, err := s.Outputs(t.Context(), id); err != nil || rev != 9 {
		t.Errorf("newest outputs are of revision %d, %v", rev, err)
	}
	if err := s.SaveOutputs(t.Context(), id, 10, nil); !errors.Is(err, record.ErrConflict) {
		t.Errorf("outputs of a revision that does not exist: %v", err)
	}
	if err := s.SaveOutputs(t.Context(), "0123456789abcdef", 0, nil); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("outputs of no panel: %v", err)
	}
}

// same compares files by content.
func same(a, b []record.File) bool {
	return slices.EqualFunc(a, b, func(x, y record.File) bool {
		return x.Name == y.Name && x.Media == y.Media && string(x.Data) == string(y.Data)
	})
}

func TestSavedPartsAndStock(t *testing.T) {
	s := openFor(t, t.TempDir())
	mine := part.BuiltIn()["tact6"]
	mine.Name = "Switch from the drawer"
	if err := s.SavePart(t.Context(), "drawer-switch", mine); err != nil {
		t.Fatal(err)
	}
	for id, have := range map[string]int{"drawer-switch": 12, "tact6": 40} {
		if err := s.SetStock(t.Context(), id, have); err != nil {
			t.Fatal(err)
		}
	}
	mine.Name = "Switch from the other drawer"
	if err := s.SavePart(t.Context(), "drawer-switch", mine); err != nil {
		t.Fatal(err)
	}
	list, err := s.SavedParts(t.Context())
	if err != nil || len(list) != 1 || list[0].ID != "drawer-switch" || !reflect.DeepEqual(list[0].Definition, mine) {
		t.Errorf("saved parts %+v, %v", list, err)
	}
	if got, err := s.Stock(t.Context()); err != nil || !maps.Equal(got, map[string]int{"drawer-switch": 12, "tact6": 40}) {
		t.Errorf("stock %v, %v", got, err)
	}
	refusals := []struct {
		name string
		err  error
		want error
	}{
		{"stock of an unknown part", s.SetStock(t.Context(), "unknown", 1), record.ErrNotFound},
		{"deleting an unknown part", s.DeletePart(t.Context(), "unknown"), record.ErrNotFound},
		{"deleting a built-in part", s.DeletePart(t.Context(), "tact6"), record.ErrNotFound},
	}
	for _, tt := range refusals {
		if !errors.Is(tt.err, tt.want) {
			t.Errorf("%s: %v", tt.name, tt.err)
		}
	}
	if err := s.DeletePart(t.Context(), "drawer-switch"); err != nil {
		t.Fatal(err)
	}
	if got, err := s.Stock(t.Context()); err != nil || !maps.Equal(got, map[string]int{"tact6": 40}) {
		t.Errorf("stock after deleting %v, %v", got, err)
	}
}

func TestTicks(t *testing.T) {
	s := openFor(t, t.TempDir())
	id, other := created(t, s, "Counter"), created(t, s, "Other")
	for _, tick := range []struct {
		step string
		done bool
	}{{"w1", true}, {"w2", true}, {"w2", true}, {"w1", false}, {"w9", false}} {
		if err := s.Tick(t.Context(), id, tick.step, tick.done); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := s.Ticks(t.Context(), id); err != nil || !maps.Equal(got, map[string]bool{"w2": true}) {
		t.Errorf("ticks %v, %v", got, err)
	}
	if got, err := s.Ticks(t.Context(), other); err != nil || len(got) != 0 {
		t.Errorf("another panel's ticks %v, %v", got, err)
	}
	if err := s.Tick(t.Context(), "0123456789abcdef", "w1", true); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("tick of no panel: %v", err)
	}
}

func TestBackup(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	// What a kill in the middle of a backup leaves must not stand in the way.
	left := filepath.Join(s.dir, backupFolder, "unfinished.db")
	if err := errors.Join(os.MkdirAll(filepath.Dir(left), 0o700), os.WriteFile(left, []byte("half"), 0o600)); err != nil {
		t.Fatal(err)
	}
	for i := range keptBackups + 3 {
		moment := aMoment.AddDate(0, 0, i)
		s.now = func() time.Time { return moment }
		if _, err := s.Backup(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	copies := s.backups()
	if len(copies) != keptBackups {
		t.Errorf("%d backups are kept", len(copies))
	}
	if _, err := os.Stat(left); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("an unfinished backup is left: %v", err)
	}
	// A backup put in the place of a store is that store.
	dir := t.TempDir()
	bytes, err := os.ReadFile(copies[len(copies)-1])
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, fileName), bytes, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	again := openFor(t, dir)
	if bodyOf(t, again, id) != bodyOf(t, s, id) {
		t.Error("the backup holds another panel")
	}
	if c, err := again.Undo(t.Context(), id, "u1"); err != nil || c.Rev != 2 {
		t.Errorf("undo in the backup: %+v, %v", c, err)
	}
}

func TestADayBringsOneBackup(t *testing.T) {
	dir := t.TempDir()
	reopen := func(now time.Time) int {
		t.Helper()
		s, err := open(t.Context(), dir, func() time.Time { return now }, func(string) {})
		if err != nil {
			t.Fatal(err)
		}
		if len(listed(t, s)) == 0 {
			created(t, s, "Counter")
		}
		n := len(s.backups())
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		return n
	}
	today := time.Now() // against which the age of files is measured
	for i, step := range []struct {
		now  time.Time
		want int
	}{{today, 0}, {today, 1}, {today.Add(time.Hour), 1}, {today.Add(25 * time.Hour), 2}} {
		if got := reopen(step.now); got != step.want {
			t.Errorf("start %d: %d backups, want %d", i+1, got, step.want)
		}
	}
}
