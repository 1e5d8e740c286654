package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"fascia/design/record"
)

// idOf reads the id of a panel out of an answer that sends the browser to its page.
func idOf(t *testing.T, resp *http.Response) record.ID {
	t.Helper()
	at := strings.TrimPrefix(resp.Header.Get("Location"), "/panels/")
	id, ok := record.ParseID(at)
	if resp.StatusCode != http.StatusSeeOther || !ok {
		t.Fatalf("%d to %q", resp.StatusCode, resp.Header.Get("Location"))
	}
	return id
}

func TestAPanelsLifeOverHTTP(t *testing.T) {
	b := newDesk(t)
	id := idOf(t, b.postForm("/panels", url.Values{"name": {" Two-key counter "}, "size": {"24x18"}}))
	if p, _, err := b.store.Panel(t.Context(), id); err != nil || p.Name != "Two-key counter" || p.Boards[0].Columns != 24 || p.Boards[0].Rows != 18 {
		t.Errorf("new panel: %+v, %v", p, err)
	}
	base := "/panels/" + string(id)

	change := decoded[record.Change](t, b.postJSON(base+"/edits",
		`{"id":"c1","base":0,"edit":{"do":"place","placed":{"ref":"S1","part":"tact6","at":"C5","turn":0,"face":"front"}}}`))
	if change.Rev != 1 || change.Undo != "Place S1" || change.Redo != "" {
		t.Errorf("edit: %+v", change)
	}
	change = decoded[record.Change](t, b.postJSON(base+"/undo", `{"id":"c2"}`))
	if change.Rev != 2 || change.Undo != "" || change.Redo != "Place S1" {
		t.Errorf("undo: %+v", change)
	}
	change = decoded[record.Change](t, b.postJSON(base+"/redo", `{"id":"c3"}`))
	if change.Rev != 3 || change.Undo != "Place S1" {
		t.Errorf("redo: %+v", change)
	}
	twin := idOf(t, b.postForm(base+"/duplicate", nil))
	if p, _, err := b.store.Panel(t.Context(), twin); err != nil || p.Find("S1") == nil {
		t.Errorf("duplicate: %+v, %v", p, err)
	}
	if resp := b.postForm(base+"/delete", nil); resp.StatusCode != http.StatusSeeOther || resp.Header.Get("Location") != "/?deleted="+string(id) {
		t.Errorf("delete: %d to %q", resp.StatusCode, resp.Header.Get("Location"))
	}
	if resp := b.get(base + "/export"); resp.StatusCode != http.StatusNotFound {
		t.Errorf("export of a deleted panel: %d", resp.StatusCode)
	}
	if got := idOf(t, b.postForm(base+"/restore", nil)); got != id {
		t.Errorf("restore led to %s", got)
	}
	if resp := b.postJSON(base+"/ticks", `{"step":"w1","done":true}`); resp.StatusCode != http.StatusOK {
		t.Errorf("tick: %d %s", resp.StatusCode, text(t, resp))
	}
	if done, err := b.store.Ticks(t.Context(), id); err != nil || !done["w1"] {
		t.Errorf("ticks: %v, %v", done, err)
	}
}

func TestARepeatedCommandGetsItsOldAnswer(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	edit := `{"id":"again","base":1,"edit":{"do":"rename","name":"Twice"}}`
	for range 2 {
		if got := decoded[record.Change](t, b.postJSON("/panels/"+string(id)+"/edits", edit)); got.Rev != 2 {
			t.Errorf("answer %+v", got)
		}
	}
}

func TestCommandsThatAreRefused(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	base := "/panels/" + string(id)
	deep := strings.Repeat("[", 40) + strings.Repeat("]", 40)
	tests := []struct {
		name, target, body string
		status             int
		says               string
	}{
		{"an edit that cannot be done", base + "/edits", `{"id":"x","base":1,"edit":{"do":"remove","refs":["S9"]}}`, 422, "S9"},
		{"an edit nobody knows", base + "/edits", `{"id":"x","base":1,"edit":{"do":"explode"}}`, 422, `"explode"`},
		{"an edit with an unknown member", base + "/edits", `{"id":"x","base":1,"edit":{"do":"rename","name":"a","nam":1}}`, 422, "nam"},
		{"no edit", base + "/edits", `{"id":"x","base":1}`, 422, "JSON"},
		{"a revision from the future", base + "/edits", `{"id":"x","base":9,"edit":{"do":"rename","name":"a"}}`, 409, "elsewhere"},
		{"a used command", base + "/edits", `{"id":"first","base":1,"edit":{"do":"rename","name":"a"}}`, 409, "elsewhere"},
		{"no command", base + "/edits", `{"base":1,"edit":{"do":"rename","name":"a"}}`, 400, "id"},
		{"a command with a space", base + "/undo", `{"id":"a b"}`, 400, "id"},
		{"nothing to do again", base + "/redo", `{"id":"r"}`, 409, "nothing left"},
		{"an unknown panel", "/panels/0123456789abcdef/undo", `{"id":"u"}`, 404, "nothing at this address"},
		{"what is no panel id", "/panels/..%2f/undo", `{"id":"u"}`, 404, "nothing at this address"},
		{"no JSON", base + "/undo", `id=u`, 400, "could not be read"},
		{"half a JSON", base + "/undo", `{"id":`, 400, "could not be read"},
		{"nothing", base + "/undo", ``, 400, "could not be read"},
		{"more than one JSON value", base + "/undo", `{"id":"u"} {"id":"u"}`, 400, "follows"},
		{"an unknown member", base + "/undo", `{"id":"u","force":true}`, 400, "force"},
		{"a list", base + "/undo", `["u"]`, 400, "could not be read"},
		{"deep nesting", base + "/edits", `{"id":"x","base":1,"edit":` + deep + `}`, 400, "nested"},
		{"a large body", base + "/edits", `{"id":"` + strings.Repeat("x", maxCommandBytes) + `"}`, 413, "1 MiB"},
		{"a step without a name", base + "/ticks", `{"step":"","done":true}`, 400, "name"},
		{"a step with a long name", base + "/ticks", `{"step":"` + strings.Repeat("x", 200) + `","done":true}`, 400, "name"},
	}
	for _, tt := range tests {
		resp := b.postJSON(tt.target, tt.body)
		if resp.StatusCode != tt.status || resp.Header.Get("Content-Type") != "application/json; charset=utf-8" {
			t.Errorf("%s: %d %s", tt.name, resp.StatusCode, resp.Header.Get("Content-Type"))
		}
		if got := decoded[problem](t, resp); !strings.Contains(got.Text+got.Fix, tt.says) || got.Text == "" || got.Fix == "" {
			t.Errorf("%s: %+v does not say %q", tt.name, got, tt.says)
		}
	}
	if c, err := b.store.Steps(t.Context(), id); err != nil || c.Rev != 1 {
		t.Errorf("refusals led to revision %d, %v", c.Rev, err)
	}
}

func TestCreateRefusals(t *testing.T) {
	b := newDesk(t)
	for name, tt := range map[string]struct {
		form   url.Values
		status int
	}{
		"no name":        {url.Values{}, 422},
		"a long name":    {url.Values{"name": {strings.Repeat("n", 200)}}, 422},
		"a hidden mark":  {url.Values{"name": {"right\u202Eleft"}}, 422},
		"a large form":   {url.Values{"name": {strings.Repeat("n", 2*maxFormBytes)}}, 413},
		"name elsewhere": {url.Values{"title": {"x"}}, 422},
		"no number":      {url.Values{"name": {"x"}, "size": {"28"}}, 422},
		"no board":       {url.Values{"name": {"x"}, "size": {"0x22"}}, 422},
		"a huge board":   {url.Values{"name": {"x"}, "size": {"28x1000000"}}, 422},
	} {
		if resp := b.postForm("/panels", tt.form); resp.StatusCode != tt.status {
			t.Errorf("%s: %d %s", name, resp.StatusCode, text(t, resp))
		}
	}
	if resp := b.send(http.MethodPost, "/panels?name=x", ""); resp.StatusCode != 422 {
		t.Errorf("a name in the address: %d", resp.StatusCode)
	}
	if got := b.snapshot(); got != "" {
		t.Errorf("stored: %s", got)
	}
}

func TestAPersonGetsAPageAndAScriptGetsJSON(t *testing.T) {
	b := newDesk(t)
	page := b.send(http.MethodPost, "/panels", "name=", "Content-Type", "application/x-www-form-urlencoded", "Accept", "text/html,application/xhtml+xml,*/*;q=0.8")
	if kind := page.Header.Get("Content-Type"); page.StatusCode != 422 || kind != "text/html; charset=utf-8" {
		t.Errorf("a person got %d %s", page.StatusCode, kind)
	}
	if body := text(t, page); !strings.Contains(body, "give the panel a name") {
		t.Errorf("the page does not say what is wrong: %s", body)
	}
}

func TestEditsOfManyPagesAllArrive(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	const pages, edits = 4, 10
	faults := make(chan string, pages*edits)
	done := make(chan bool)
	for page := range pages {
		go func() {
			for i := range edits {
				resp := b.postJSON("/panels/"+string(id)+"/edits", fmt.Sprintf(`{"id":"p%d-%d","base":1,"edit":{"do":"note","notes":"%d %d"}}`, page, i, page, i))
				if resp.StatusCode != http.StatusOK {
					faults <- resp.Status
				}
			}
			done <- true
		}()
	}
	for range pages {
		<-done
	}
	close(faults)
	for fault := range faults {
		t.Error(fault)
	}
	if c, err := b.store.Steps(t.Context(), id); err != nil || c.Rev != 1+pages*edits {
		t.Errorf("revision %d, %v", c.Rev, err)
	}
}
