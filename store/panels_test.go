package store

import (
	"errors"
	"strings"
	"testing"
	"time"

	"fascia/design/panel"
	"fascia/design/record"
)

func TestImportRefusesANameThatNoPanelCanHave(t *testing.T) {
	s := openFor(t, t.TempDir())
	for _, name := range []string{"", strings.Repeat("n", panel.MaxName+1), "two\x00words", "right\u202Eleft", "\xff"} {
		var refused *panel.FileError
		if id, err := s.Import(t.Context(), panel.New(name)); !errors.As(err, &refused) || refused.Pointer != "/name" {
			t.Errorf("name %q: %q, %v", name, id, err)
		}
	}
	if list, err := s.Panels(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("refused panels were stored: %v, %v", list, err)
	}
}

func TestTrash(t *testing.T) {
	s := openFor(t, t.TempDir())
	id, other := created(t, s, "Counter"), created(t, s, "Other")
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	body := bodyOf(t, s, id)
	if err := s.Delete(t.Context(), id); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Panel(t.Context(), id); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("a trashed panel is still there: %v", err)
	}
	if err := s.Delete(t.Context(), id); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("deleting twice: %v", err)
	}
	for _, e := range listed(t, s) {
		if e.Trashed() != (e.ID == id) {
			t.Errorf("list says trashed: %v of %+v", e.Trashed(), e)
		}
	}
	if err := s.Restore(t.Context(), id); err != nil || bodyOf(t, s, id) != body {
		t.Errorf("restore: %v", err)
	}
	if c, err := s.Undo(t.Context(), id, "u1"); err != nil || c.Rev != 2 {
		t.Errorf("undo after restore: %+v, %v", c, err)
	}
	if err := s.Restore(t.Context(), other); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("restoring what is not in the trash: %v", err)
	}
}

func TestTrashIsEmptiedAfterThirtyDays(t *testing.T) {
	dir := t.TempDir()
	s := openFor(t, dir)
	id, kept := created(t, s, "Counter"), created(t, s, "Kept")
	for i, e := range []panel.Edit{switchAt("S1", "C5"), switchAt("S2", "H5")} {
		applied(t, s, id, string(rune('a'+i)), e)
	}
	for i, step := range []func() error{
		func() error { _, err := s.Undo(t.Context(), id, "u"); return err },
		func() error { return s.Tick(t.Context(), id, "w1", true) },
		func() error {
			return s.SaveOutputs(t.Context(), id, 3, []record.File{{Name: "wiring.csv", Media: "text/csv"}})
		},
		func() error { return s.Delete(t.Context(), id) },
		s.Close,
	} {
		if err := step(); err != nil {
			t.Fatal(i, err)
		}
	}
	for _, tt := range []struct {
		days, want int
	}{{30, 2}, {31, 1}} {
		later, err := open(t.Context(), dir, func() time.Time { return aMoment.AddDate(0, 0, tt.days) }, func(string) {})
		if err != nil {
			t.Fatal(err)
		}
		list, err := later.Panels(t.Context())
		if err != nil || len(list) != tt.want {
			t.Errorf("after %d days: %+v, %v", tt.days, list, err)
		}
		if err := errors.Join(healthy(t.Context(), later.edit, "integrity_check"), later.Close()); err != nil {
			t.Error(err)
		}
	}
	if _, _, err := openFor(t, dir).Panel(t.Context(), kept); err != nil {
		t.Error(err)
	}
}

func TestDuplicate(t *testing.T) {
	s := openFor(t, t.TempDir())
	long := strings.Repeat("ñ", panel.MaxName)
	id := created(t, s, long)
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	twin, err := s.Duplicate(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	p, rev, err := s.Panel(t.Context(), twin)
	if err != nil || rev != 0 || p.Find("S1") == nil || !strings.HasSuffix(p.Name, "(copy)") || p.Validate() != nil {
		t.Errorf("copy %q at revision %d: %v", p.Name, rev, err)
	}
	applied(t, s, twin, "c1", &panel.Remove{Refs: []string{"S1"}})
	if p, _, err := s.Panel(t.Context(), id); err != nil || p.Find("S1") == nil {
		t.Errorf("the copy's edit changed the original: %v", err)
	}
	if _, err := s.Duplicate(t.Context(), "0123456789abcdef"); !errors.Is(err, record.ErrNotFound) {
		t.Errorf("copy of nothing: %v", err)
	}
}

func TestPanelHandsOutItsOwnCopy(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	applied(t, s, id, "c1", switchAt("S1", "C5"))
	p, _, err := s.Panel(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	p.Placed[0].Ref = "S7"
	delete(p.Parts, "tact6")
	if again, _, err := s.Panel(t.Context(), id); err != nil || again.Find("S1") == nil || len(again.Parts) != 1 {
		t.Errorf("a caller's change reached the store: %+v, %v", again.Placed, err)
	}
}

func TestSeedDemosOnce(t *testing.T) {
	dir := t.TempDir()
	s := openFor(t, dir)
	demos := []panel.Panel{panel.New("First"), panel.New("Second"), panel.New("Third")}
	if err := s.SeedDemos(t.Context(), demos); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range listed(t, s) {
		names = append(names, e.Name)
		if err := s.Delete(t.Context(), e.ID); err != nil {
			t.Fatal(err)
		}
	}
	if got := strings.Join(names, " "); got != "First Second Third" {
		t.Errorf("listed as %s", got)
	}
	if err := s.Purge(t.Context(), aMoment.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if err := s.SeedDemos(t.Context(), demos); err != nil || len(listed(t, s)) != 0 {
		t.Errorf("demos came back: %v", err)
	}

	used := openFor(t, t.TempDir())
	created(t, used, "Mine")
	if err := used.SeedDemos(t.Context(), demos); err != nil || len(listed(t, used)) != 1 {
		t.Errorf("demos came into a store in use: %v", err)
	}
}

func listed(t *testing.T, s *Store) []record.Entry {
	t.Helper()
	list, err := s.Panels(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return list
}
