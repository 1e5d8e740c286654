package web

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"fascia/design/record"
)

// savings notes what is saved, and when.
type savings struct {
	mu    sync.Mutex
	saved []string
	start time.Time
	fail  error
}

func (s *savings) SaveOutputs(_ context.Context, id record.ID, rev int64, files []record.File) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.fail != nil {
		return s.fail
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	s.saved = append(s.saved, string(id)+" after "+time.Since(s.start).String()+": "+strings.Join(names, " "))
	return nil
}

func threeFiles(context.Context, record.ID) (int64, []record.File, error) {
	return 1, []record.File{{Name: "plan.json"}, {Name: "wiring.csv"}, {Name: "keymap.json"}, {Name: "front.svg"}}, nil
}

func TestOutputsAreSavedOnceAPanelRests(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		store := &savings{start: time.Now()}
		o := newOutputSaver(store, threeFiles, slog.New(slog.DiscardHandler))
		for range 10 {
			o.follow("a")
			time.Sleep(time.Second)
		}
		o.follow("b")
		time.Sleep(time.Minute)
		o.follow("c")
		o.follow("c")
		o.flush(t.Context())
		o.follow("d")
		time.Sleep(time.Minute)
		want := []string{"a after 10.5s: wiring.csv keymap.json", "b after 11.5s: wiring.csv keymap.json", "c after 1m10s: wiring.csv keymap.json"}
		if !slices.Equal(store.saved, want) {
			t.Errorf("saved %q, want %q", store.saved, want)
		}
	})
}

func TestOutputsThatCannotBeSavedAreLogged(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var log strings.Builder
		o := newOutputSaver(&savings{fail: errors.New("no room")}, threeFiles, slog.New(slog.NewTextHandler(&log, nil)))
		o.follow("a")
		time.Sleep(time.Minute)
		o.flush(t.Context())
		if !strings.Contains(log.String(), "no room") {
			t.Errorf("log: %s", log.String())
		}
	})
}

func TestOutputsFollowEdits(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	b.postJSON("/panels/"+string(id)+"/edits", `{"id":"c2","base":1,"edit":{"do":"legend","key":"S1","legend":"+1"}}`)
	b.Close(t.Context())
	rev, files, err := b.store.Outputs(t.Context(), id)
	if err != nil || rev != 2 {
		t.Fatalf("outputs of revision %d, %v", rev, err)
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	for _, name := range []string{"wiring.csv", "bom.csv", "keymap.json"} {
		if !slices.Contains(names, name) {
			t.Errorf("%s is not among %v", name, names)
		}
	}
}
