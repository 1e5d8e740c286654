package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/go-chi/chi/v5"

	"fascia/design/panel"
	"fascia/design/record"
)

func TestExplain(t *testing.T) {
	wrapped := func(err error) error { return fmt.Errorf("panel 0123: %w", err) }
	tests := []struct {
		name   string
		err    error
		status int
		says   string
	}{
		{"not found", wrapped(record.ErrNotFound), 404, "nothing at this address"},
		{"conflict", wrapped(record.ErrConflict), 409, "changed elsewhere"},
		{"nothing to undo", wrapped(record.ErrNothing), 409, "nothing left"},
		{"a full disk", wrapped(record.ErrFull), 507, "disk is full"},
		{"too large a panel", wrapped(record.ErrTooLarge), 413, "larger than a project file"},
		{"too large a body", wrapped(&http.MaxBytesError{Limit: 4 << 20}), 413, "4 MiB"},
		{"too large a form", &http.MaxBytesError{Limit: 16 << 10}, 413, "16 KiB"},
		{"too large a trifle", &http.MaxBytesError{Limit: 12}, 413, "12 bytes"},
		{"a place in a file", wrapped(&panel.FileError{Pointer: "/boards/0", Text: "is odd"}), 422, "at /boards/0 is odd."},
		{"a whole file", &panel.FileError{Text: "the file is odd"}, 422, "the file is odd."},
		{"a refusal", fmt.Errorf("%w: U2 is in the way", panel.ErrRefused), 422, "U2 is in the way."},
		{"a deadline", context.DeadlineExceeded, 503, "too long"},
		{"a failure", errors.New("secret detail"), 500, "went wrong inside"},
	}
	for _, tt := range tests {
		got := explain(tt.err)
		if got.Status != tt.status || !strings.Contains(got.Text, tt.says) || got.Fix == "" || strings.Contains(got.Text, "0123") || strings.Contains(got.Text, "secret") {
			t.Errorf("%s: %+v; want %d saying %q", tt.name, got, tt.status, tt.says)
		}
	}
}

func TestAPanicIsOneFailedRequest(t *testing.T) {
	b := newDesk(t)
	r := chi.NewRouter()
	r.Use(b.recoverPanic)
	r.Get("/", func(http.ResponseWriter, *http.Request) { panic("secret detail") })
	b.router = r
	resp := b.get("/")
	if body := text(t, resp); resp.StatusCode != 500 || strings.Contains(body, "secret") {
		t.Errorf("%d %s", resp.StatusCode, body)
	}
	if !strings.Contains(b.log.String(), "secret detail") {
		t.Errorf("log: %s", b.log.String())
	}
	b.router = chi.NewRouter()
	b.router.Get("/", b.recoverPanic(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic(http.ErrAbortHandler) })).ServeHTTP)
	defer func() {
		if fault := recover(); fault != http.ErrAbortHandler {
			t.Errorf("an intended abort became %v", fault)
		}
	}()
	b.get("/")
}

// fullDisk is a store whose disk is full.
type fullDisk struct{ panelStore }

func (fullDisk) Apply(context.Context, record.ID, string, int64, panel.Edit) (record.Change, error) {
	return record.Change{}, fmt.Errorf("panel: %w", record.ErrFull)
}

func TestAFullDiskReachesTheMaker(t *testing.T) {
	b := newDesk(t, func(c *Config) { c.Panels = fullDisk{c.Panels} })
	id := b.counter()
	resp := b.postJSON("/panels/"+string(id)+"/edits", `{"id":"c2","base":1,"edit":{"do":"rename","name":"x"}}`)
	if got := decoded[problem](t, resp); resp.StatusCode != 507 || !strings.Contains(got.Fix, "export still works") {
		t.Errorf("%d %+v", resp.StatusCode, got)
	}
	if resp := b.get("/panels/" + string(id) + "/export"); resp.StatusCode != 200 {
		t.Errorf("export: %d", resp.StatusCode)
	}
}

func TestDepth(t *testing.T) {
	for in, want := range map[string]int{
		``: 0, `1`: 0, `{}`: 1, `[[1],[2]]`: 2, `{"a":"[[[["}`: 1, `{"a\"[":[1]}`: 2, `["\\",["x"]]`: 2, `[[[`: 3, `]]]`: 0, `"[`: 0,
	} {
		if got := depth([]byte(in)); got != want {
			t.Errorf("depth(%s) = %d, want %d", in, got, want)
		}
	}
}
