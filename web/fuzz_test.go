package web

import (
	"context"
	"log/slog"
	"net/http"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/record"
)

// FuzzCommand sends any body as an edit. It is carried out or refused in words; it never makes the
// server fail, and a refusal changes nothing.
func FuzzCommand(f *testing.F) {
	for _, seed := range []string{
		`{"id":"c1","base":0,"edit":{"do":"rename","name":"Two"}}`,
		`{"id":"c1","base":0,"edit":{"do":"place","placed":{"ref":"S2","part":"tact6","at":"H5","turn":1,"face":"back"}}}`,
		`{"id":"c1","base":0,"edit":{"do":"together","label":"x","edits":[{"do":"remove","refs":["S1"]}]}}`,
		`{"id":"c1","base":1e9,"edit":null}`, `[[[[`, "\x00", `{"id":"c1","edit":{"do":"restore","label":"","placed":{"S1":null}}}`,
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, body string) {
		b, kept := memoryDesk(t)
		kept.panel = panel.New("Counter")
		resp := b.postJSON("/panels/0123456789abcdef/edits", body)
		switch resp.StatusCode {
		case http.StatusOK:
			if kept.rev != 1 {
				t.Errorf("%q was carried out and led to revision %d", body, kept.rev)
			}
		case http.StatusBadRequest, http.StatusConflict, http.StatusRequestEntityTooLarge, http.StatusUnprocessableEntity:
			if kept.rev != 0 {
				t.Errorf("%q was refused and led to revision %d", body, kept.rev)
			}
		default:
			t.Errorf("%q: %d %s", body, resp.StatusCode, text(t, resp))
		}
	})
}

// FuzzImport uploads any bytes. What is taken exports as a project file that imports as itself.
func FuzzImport(f *testing.F) {
	whole, err := panel.Encode(panel.New("Counter"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(whole))
	f.Add(strings.Replace(string(whole), "Counter", `<script>\u202E`, 1))
	f.Add(`{"fascia":1}`)
	f.Add("PK\x03\x04")
	f.Fuzz(func(t *testing.T, file string) {
		b, kept := memoryDesk(t)
		resp := b.upload("file", []byte(file))
		if resp.StatusCode != http.StatusSeeOther {
			if resp.StatusCode != http.StatusUnprocessableEntity || kept.imports != 0 {
				t.Errorf("%q: %d, stored %d", file, resp.StatusCode, kept.imports)
			}
			return
		}
		once := text(t, b.get("/panels/0123456789abcdef/export"))
		if resp := b.upload("file", []byte(once)); resp.StatusCode != http.StatusSeeOther {
			t.Errorf("%q exports as %q, which is refused", file, once)
		}
		if again := text(t, b.get("/panels/0123456789abcdef/export")); once != again {
			t.Errorf("%q exports as %q and then as %q", file, once, again)
		}
	})
}

// memory keeps one panel, without the history and the disk that would slow fuzzing down.
type memory struct {
	panelStore
	panel   panel.Panel
	rev     int64
	imports int
}

func (m *memory) Panel(context.Context, record.ID) (panel.Panel, int64, error) {
	return m.panel, m.rev, nil
}

func (m *memory) Import(_ context.Context, p panel.Panel) (record.ID, error) {
	m.imports++
	m.panel = p
	return "0123456789abcdef", nil
}

func (m *memory) Apply(_ context.Context, _ record.ID, _ string, base int64, e panel.Edit) (record.Change, error) {
	if base != m.rev {
		return record.Change{}, record.ErrConflict
	}
	after, _, err := panel.Apply(m.panel, e)
	if err == nil {
		m.panel = after
		m.rev++
	}
	return record.Change{Rev: m.rev}, err
}

// memoryDesk is a desk over a memory. Its outputs are never worked out.
func memoryDesk(t *testing.T) (*desk, *memory) {
	kept := &memory{}
	none := struct {
		outputStore
		partStore
		tickStore
	}{}
	s, err := New(Config{Panels: kept, Outputs: none, Parts: none, Ticks: none, Plan: plan.Make, Hosts: []string{testHost},
		Log: slog.New(slog.DiscardHandler)})
	if err != nil {
		t.Fatal(err)
	}
	s.outputs.closed = true
	return &desk{Server: s, t: t}, kept
}
