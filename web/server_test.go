package web

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/go-chi/chi/v5"

	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/record"
	"fascia/static"
	"fascia/store"
)

const testHost = "127.0.0.1:7340"

// A desk is a server over a store of its own, with the calls that a browser would make.
type desk struct {
	*Server
	t     *testing.T
	store *store.Store
	log   *bytes.Buffer
}

// newDesk makes a desk; change may alter the configuration first.
func newDesk(t *testing.T, change ...func(*Config)) *desk {
	t.Helper()
	kept, err := store.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	b := &desk{t: t, store: kept, log: &bytes.Buffer{}}
	cfg := Config{Panels: kept, Outputs: kept, Parts: kept, Ticks: kept, Plan: plan.Make, Static: static.Files,
		Hosts: []string{testHost, "localhost:7340"}, Log: slog.New(slog.NewTextHandler(b.log, nil))}
	for _, c := range change {
		c(&cfg)
	}
	if b.Server, err = New(cfg); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		b.Close(context.Background())
		if err := kept.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

// send carries out one request. headers come in pairs.
func (b *desk) send(method, target, body string, headers ...string) *http.Response {
	b.t.Helper()
	r := httptest.NewRequest(method, "http://"+testHost+target, strings.NewReader(body))
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
			continue
		}
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	b.Handler().ServeHTTP(w, r)
	return w.Result()
}

func (b *desk) get(target string) *http.Response {
	b.t.Helper()
	return b.send(http.MethodGet, target, "")
}

func (b *desk) postJSON(target, body string) *http.Response {
	b.t.Helper()
	return b.send(http.MethodPost, target, body, "Content-Type", "application/json")
}

func (b *desk) postForm(target string, form url.Values) *http.Response {
	b.t.Helper()
	return b.send(http.MethodPost, target, form.Encode(), "Content-Type", "application/x-www-form-urlencoded")
}

// text reads an answer's body.
func text(t *testing.T, resp *http.Response) string {
	t.Helper()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}

// decoded reads an answer's JSON.
func decoded[T any](t *testing.T, resp *http.Response) T {
	t.Helper()
	var v T
	if err := json.NewDecoder(resp.Body).Decode(&v); err != nil {
		t.Fatal(err)
	}
	return v
}

// a counter is a panel with one switch.
func (b *desk) counter() record.ID {
	b.t.Helper()
	id, err := b.store.Import(b.t.Context(), panel.New("Counter"))
	if err == nil {
		_, err = b.store.Apply(b.t.Context(), id, "first", 0, &panel.Place{Placed: panel.Placed{Ref: "S1", Part: "tact6"}})
	}
	if err != nil {
		b.t.Fatal(err)
	}
	return id
}

// everyRoute calls f with each route of the server, its parameters filled in.
func (b *desk) everyRoute(id record.ID, f func(method, route, target string)) {
	b.t.Helper()
	fill := strings.NewReplacer("{id}", string(id), "{hash}", b.assets.digest, "{part}", "tact6", "{number}", "1")
	err := chi.Walk(b.router, func(method, route string, _ http.Handler, _ ...func(http.Handler) http.Handler) error {
		target := fill.Replace(route)
		switch {
		case strings.HasPrefix(route, "/static/"):
			target = strings.Replace(target, "*", "css/fascia.css", 1)
		case strings.HasSuffix(route, "*"):
			target = strings.Replace(target, "*", "wiring.csv", 1)
		}
		if strings.ContainsAny(target, "{}*") {
			b.t.Errorf("route %s has a parameter that this test does not know", route)
		}
		f(method, route, target)
		return nil
	})
	if err != nil {
		b.t.Fatal(err)
	}
}

func TestNewRefusesAConfigurationThatCannotWork(t *testing.T) {
	whole := newDesk(t)
	cfg := Config{Panels: whole.store, Outputs: whole.store, Parts: whole.store, Ticks: whole.store, Plan: plan.Make,
		Static: static.Files, Hosts: []string{testHost}}
	for name, change := range map[string]func(*Config){
		"no panels":  func(c *Config) { c.Panels = nil },
		"no planner": func(c *Config) { c.Plan = nil },
		"no hosts":   func(c *Config) { c.Hosts = nil },
		"static files that cannot be read": func(c *Config) {
			c.Static = brokenFS{}
		},
	} {
		broken := cfg
		change(&broken)
		if s, err := New(broken); err == nil {
			t.Errorf("%s: got %v", name, s)
		}
	}
}

type brokenFS struct{}

func (brokenFS) Open(string) (fs.File, error) { return nil, fs.ErrPermission }
