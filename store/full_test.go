package store

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/design/record"
)

// TestFullDisk stands a limit on the size of the file in for a disk without room.
func TestFullDisk(t *testing.T) {
	s := openFor(t, t.TempDir())
	id := created(t, s, "Counter")
	var pages int
	if err := s.edit.QueryRow(`PRAGMA page_count`).Scan(&pages); err != nil {
		t.Fatal(err)
	}
	if _, err := s.edit.Exec(fmt.Sprint(`PRAGMA max_page_count = `, pages+20)); err != nil {
		t.Fatal(err)
	}
	var kept, body string
	var full error
	for i := 1; full == nil && i < 100; i++ {
		body = bodyOf(t, s, id)
		kept = fmt.Sprint("c", i-1)
		_, full = s.Apply(t.Context(), id, fmt.Sprint("c", i), 0, &panel.SetNotes{Notes: strings.Repeat(fmt.Sprint("note ", i, ". "), 1000)})
	}
	if !errors.Is(full, record.ErrFull) {
		t.Fatalf("a full disk gave %v", full)
	}
	if _, _, err := s.Panel(t.Context(), id); err != nil || bodyOf(t, s, id) != body {
		t.Errorf("what was kept before %s cannot be read: %v", kept, err)
	}
	if _, err := s.Import(t.Context(), panel.New("One more "+strings.Repeat("n", 40))); err != nil && !errors.Is(err, record.ErrFull) {
		t.Errorf("another write gave %v", err)
	}
	if _, err := s.edit.Exec(`PRAGMA max_page_count = 1000000`); err != nil {
		t.Fatal(err)
	}
	applied(t, s, id, "room-again", switchAt("S1", "C5"))
	if got, err := replayed(t.Context(), s, id); err != nil || got != bodyOf(t, s, id) {
		t.Errorf("the log does not lead to the panel: %v", err)
	}
}
