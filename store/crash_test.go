package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"fascia/design/panel"
	"fascia/design/record"
)

// The test binary starts itself as a victim: a program that edits a panel as fast as it can, says
// what was acknowledged, and kills itself at a named point or is killed at any time.
const (
	victimFolder = "FASCIA_TEST_VICTIM_FOLDER"
	victimPoint  = "FASCIA_TEST_VICTIM_POINT"
	victimPass   = "FASCIA_TEST_VICTIM_PASS"
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(victimFolder); dir != "" {
		if err := victim(dir, os.Getenv(victimPoint), os.Getenv(victimPass), os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// killAt kills the program at the given pass of a point.
func killAt(point string, pass int) func(string) {
	return func(reached string) {
		if reached != point {
			return
		}
		if pass--; pass > 0 {
			return
		}
		self, err := os.FindProcess(os.Getpid())
		if err == nil {
			err = self.Kill()
		}
		if err != nil {
			panic(err)
		}
		select {}
	}
}

func victim(dir, point, pass string, acks io.Writer) error {
	n, err := strconv.Atoi(pass)
	if err != nil {
		return err
	}
	at := killAt(point, n)
	ctx := context.Background()
	s, err := open(ctx, dir, time.Now, at)
	if err != nil {
		return err
	}
	list, err := s.Panels(ctx)
	if err != nil {
		return err
	}
	id := record.ID("")
	if len(list) > 0 {
		id = list[0].ID
	} else if id, err = s.Import(ctx, panel.New("Victim")); err != nil {
		return err
	}
	fmt.Fprintln(acks, "ready", id)
	if _, err := s.edit.Exec(`PRAGMA wal_autocheckpoint = 20`); err != nil { // so that kills also meet checkpoints
		return err
	}
	for i := 1; ; i++ {
		command := fmt.Sprintf("%d-%d", os.Getpid(), i)
		change, err := carryOut(ctx, s, id, command)
		if errors.Is(err, record.ErrNothing) || errors.Is(err, panel.ErrRefused) {
			continue
		}
		if err != nil {
			return err
		}
		fmt.Fprintln(acks, "ack", command, change.Rev)
		at("after answer")
	}
}

// carryOut does what its command's number says, so that the judge can send the same again.
func carryOut(ctx context.Context, s *Store, id record.ID, command string) (record.Change, error) {
	_, number, _ := strings.Cut(command, "-")
	i, err := strconv.Atoi(number)
	if err != nil {
		return record.Change{}, err
	}
	switch {
	case i%7 == 5:
		return s.Undo(ctx, id, command)
	case i%7 == 6:
		return s.Redo(ctx, id, command)
	case i%2 == 0:
		return s.Apply(ctx, id, command, 0, &panel.SetNotes{Notes: strings.Repeat("note "+command+". ", 200)})
	}
	return s.Apply(ctx, id, command, 0, &panel.Rename{Name: "Victim " + command})
}

// A report is what a victim acknowledged before it died.
type report struct {
	id   record.ID
	acks map[string]int64 // revision by command
	last string
}

// run starts a victim and kills it after a while, unless it does so itself. It returns once the
// victim is dead.
func run(t *testing.T, dir, point string, pass int, after time.Duration) report {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), victimFolder+"="+dir, victimPoint+"="+point, victimPass+"="+strconv.Itoa(pass))
	var complaints strings.Builder
	cmd.Stderr = &complaints
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	r := report{acks: map[string]int64{}}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		switch {
		case len(words) == 2 && words[0] == "ready":
			r.id = record.ID(words[1])
			if after > 0 {
				time.AfterFunc(after, func() { _ = cmd.Process.Kill() }) // it may have died by itself
			}
		case len(words) == 3 && words[0] == "ack":
			rev, err := strconv.ParseInt(words[2], 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			r.acks[words[1]], r.last = rev, words[1]
		}
	}
	if err := cmd.Wait(); err == nil || complaints.Len() > 0 {
		t.Fatalf("the victim was not killed: %v %s", err, complaints.String())
	}
	return r
}

// judge opens what a victim left behind.
func judge(t *testing.T, dir string, r report) {
	t.Helper()
	s, err := open(t.Context(), dir, time.Now, func(string) {})
	if err != nil {
		t.Fatalf("cannot open what was left: %v", err)
	}
	defer func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}()
	if err := healthy(t.Context(), s.edit, "integrity_check"); err != nil {
		t.Error(err)
	}
	for _, path := range s.backups() {
		if err := checkCopy(t.Context(), path); err != nil {
			t.Errorf("backup %s: %v", path, err)
		}
	}
	if r.id == "" {
		return
	}
	stored := map[string]int64{}
	rows, err := s.read.Query(`SELECT command_id, rev FROM edits WHERE panel_id = ?`, r.id)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var command string
		var rev int64
		if err := rows.Scan(&command, &rev); err != nil {
			t.Fatal(err)
		}
		stored[command] = rev
	}
	for command, rev := range r.acks {
		if stored[command] != rev {
			t.Errorf("command %s was acknowledged as revision %d and is stored as %d", command, rev, stored[command])
		}
	}
	silent := 0
	for command := range stored {
		if _, acked := r.acks[command]; !acked && strings.HasPrefix(command, prefixOf(r.last)) {
			silent++
		}
	}
	if silent > 1 {
		t.Errorf("%d commands are stored that were never acknowledged", silent)
	}
	if body, err := replayed(t.Context(), s, r.id); err != nil || body != bodyOf(t, s, r.id) {
		t.Errorf("the log does not lead to the panel: %v", err)
	}
	if r.last != "" {
		before := bodyOf(t, s, r.id)
		if again, err := carryOut(t.Context(), s, r.id, r.last); err != nil || again.Rev != r.acks[r.last] || bodyOf(t, s, r.id) != before {
			t.Errorf("sending %s again: %+v, %v", r.last, again, err)
		}
	}
}

// prefixOf is what all commands of one victim begin with.
func prefixOf(command string) string {
	pid, _, _ := strings.Cut(command, "-")
	return pid + "-"
}

func TestNothingAcknowledgedIsLostAtAnyPoint(t *testing.T) {
	for _, point := range []string{"before begin", "after begin", "between statements", "before commit", "after commit", "after answer"} {
		t.Run(point, func(t *testing.T) {
			dir := t.TempDir()
			for _, pass := range []int{3, 9, 60} { // the first commands make the panel; all passes share one store
				r := run(t, dir, point, pass, 0)
				judge(t, dir, r)
			}
		})
	}
}

func TestNothingAcknowledgedIsLostAtAnyTime(t *testing.T) {
	const seed = 20260301
	random := rand.New(rand.NewPCG(seed, 0))
	dir := t.TempDir()
	acked := 0
	for range 25 {
		after := time.Duration(1+random.IntN(60)) * time.Millisecond
		r := run(t, dir, "", 0, after)
		judge(t, dir, r)
		acked += len(r.acks)
	}
	if acked == 0 {
		t.Error("no victim lived long enough to acknowledge anything")
	}
	t.Logf("seed %d: %d commands acknowledged before 25 kills", seed, acked)
}

// TestOpeningCanBeKilled kills first starts and migrations. The next start finds nothing or all.
func TestOpeningCanBeKilled(t *testing.T) {
	saved, err := os.ReadFile("testdata/schema-1.sql")
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, point string
		pass        int
		from        string
	}{
		{"before the first migration", "before migration", 1, ""},
		{"between the migrations", "after migration", 1, ""},
		{"after the last migration", "after migration", 2, ""},
		{"an older store, its backup not checked yet", "backup written", 1, string(saved)},
		{"an older store, its backup done", "backup named", 1, string(saved)},
		{"an older store, before its migration", "before migration", 1, string(saved)},
		{"an older store, after its migration", "after migration", 1, string(saved)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			if tt.from != "" {
				if err := statements(filepath.Join(dir, fileName), tt.from); err != nil {
					t.Fatal(err)
				}
			}
			judge(t, dir, run(t, dir, tt.point, tt.pass, 0))
			judge(t, dir, run(t, dir, "after answer", 3, 0)) // it can be used, and killed again
		})
	}
}
