package web

import (
	"bufio"
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"fascia/design/record"
)

// An openStream is a page's end of a stream of events.
type openStream struct {
	t     *testing.T
	resp  *http.Response
	lines *bufio.Scanner
}

func (b *desk) openStream(server *httptest.Server, target string, headers ...string) *openStream {
	b.t.Helper()
	r, err := http.NewRequestWithContext(b.t.Context(), http.MethodGet, server.URL+target, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	r.Host = testHost
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	resp, err := server.Client().Do(r)
	if err != nil {
		b.t.Fatal(err)
	}
	b.t.Cleanup(func() { resp.Body.Close() })
	return &openStream{b.t, resp, bufio.NewScanner(resp.Body)}
}

// next returns the lines of the next event, comments and settings left out; nil at the end.
func (o *openStream) next() []string {
	o.t.Helper()
	var lines []string
	for o.lines.Scan() {
		switch line := o.lines.Text(); {
		case line == "" && lines != nil:
			return lines
		case line == "", strings.HasPrefix(line, ":"), strings.HasPrefix(line, "retry:"):
		default:
			lines = append(lines, line)
		}
	}
	return nil
}

func (o *openStream) expect(want ...string) {
	o.t.Helper()
	if got := o.next(); strings.Join(got, "\n") != strings.Join(want, "\n") {
		o.t.Errorf("event %q, want %q", got, want)
	}
}

func TestAnOpenPageLearnsOfEdits(t *testing.T) {
	b := newDesk(t)
	server := httptest.NewServer(b.Handler())
	t.Cleanup(server.Close) // after the streams are closed, or it would wait for them
	id := b.counter()
	base := "/panels/" + string(id)
	page := b.openStream(server, base+"/events")
	if kind := page.resp.Header.Get("Content-Type"); kind != "text/event-stream; charset=utf-8" || page.resp.Header.Get("Cache-Control") != "no-store" {
		t.Errorf("stream of %s", kind)
	}
	page.expect("id: 1", "event: rev", `data: {"rev":1,"undo":"Place S1","redo":""}`)
	b.postJSON(base+"/edits", `{"id":"c2","base":1,"edit":{"do":"rename","name":"Two"}}`)
	page.expect("id: 2", "event: rev", `data: {"rev":2,"undo":"Rename the panel","redo":"","by":"c2"}`)
	b.postJSON(base+"/undo", `{"id":"u1"}`)
	page.expect("id: 3", "event: rev", `data: {"rev":3,"undo":"Place S1","redo":"Rename the panel","by":"u1"}`)
	b.postJSON(base+"/edits", `{"id":"c9","base":1,"edit":{"do":"remove","refs":["S9"]}}`) // refused: nobody is told
	b.postJSON(base+"/ticks", `{"step":"w1","done":true}`)
	page.expect("event: tick", `data: {"step":"w1","done":true}`)
	b.postForm(base+"/delete", nil)
	page.expect("event: gone", "data: {}")

	b.Close(t.Context())
	if got := page.next(); got != nil {
		t.Errorf("after the end came %q", got)
	}
	if resp := b.get(base + "/events"); resp.StatusCode != http.StatusNoContent {
		t.Errorf("a stream after the end: %d", resp.StatusCode)
	}
}

func TestAPageThatComesBackIsToldOnlyWhatItLacks(t *testing.T) {
	b := newDesk(t)
	server := httptest.NewServer(b.Handler())
	t.Cleanup(server.Close) // after the streams are closed, or it would wait for them
	base := "/panels/" + string(b.counter())
	current := `data: {"rev":1,"undo":"Place S1","redo":""}`
	b.openStream(server, base+"/events?after=0").expect("id: 1", "event: rev", current)
	b.openStream(server, base+"/events", "Last-Event-ID", "0").expect("id: 1", "event: rev", current)
	b.openStream(server, base+"/events?after=nonsense").expect("id: 1", "event: rev", current)
	uptodate := []*openStream{b.openStream(server, base+"/events?after=1"), b.openStream(server, base+"/events?after=0", "Last-Event-ID", "1")}
	b.postJSON(base+"/ticks", `{"step":"w1","done":true}`)
	for _, page := range uptodate {
		page.expect("event: tick", `data: {"step":"w1","done":true}`)
	}
	if resp := b.get("/panels/0123456789abcdef/events"); resp.StatusCode != http.StatusNotFound {
		t.Errorf("events of no panel: %d", resp.StatusCode)
	}
}

func TestHubDropsAPageThatDoesNotKeepUp(t *testing.T) {
	h := newHub()
	slow, leave, ok := h.join("slow")
	if !ok {
		t.Fatal("the hub is full from the start")
	}
	other, leaveOther, _ := h.join("other")
	for rev := range queueSize + 5 {
		h.send("slow", event{Rev: int64(rev)})
	}
	got := 0
	for range slow {
		got++
	}
	if got != queueSize {
		t.Errorf("a slow page got %d events before it was dropped", got)
	}
	leave() // harmless after that
	h.send("other", event{Rev: 1})
	if e := <-other; e.Rev != 1 {
		t.Errorf("the other page got %+v", e)
	}
	leaveOther()
	if h.open != 0 || len(h.pages) != 0 {
		t.Errorf("%d pages are left", h.open)
	}
}

func TestHubIsFullAtSomePoint(t *testing.T) {
	h := newHub()
	var leave []func()
	for range maxStreams {
		_, l, ok := h.join("id")
		if !ok {
			t.Fatal("full too early")
		}
		leave = append(leave, l)
	}
	if _, _, ok := h.join("id"); ok {
		t.Error("one stream too many")
	}
	leave[0]()
	if _, _, ok := h.join("id"); !ok {
		t.Error("no room after one left")
	}
	h.close()
	if _, _, ok := h.join("id"); ok {
		t.Error("a closed hub lets pages in")
	}
}

// onePanel is a store that knows where one panel stands.
type onePanel struct{ panelStore }

func (onePanel) Steps(context.Context, record.ID) (record.Change, error) {
	return record.Change{Rev: 4}, nil
}

// TestAQuietStreamShowsThatItIsAlive runs a minute of it in no time.
func TestAQuietStreamShowsThatItIsAlive(t *testing.T) {
	whole := newDesk(t)
	synctest.Test(t, func(t *testing.T) {
		s := &Server{panels: onePanel{}, events: newHub(), log: whole.Server.log, hosts: whole.hosts, assets: whole.assets}
		s.plans = newPlanCache(nil)
		s.outputs = newOutputSaver(nil, nil, s.log)
		s.router = s.routes()
		w := httptest.NewRecorder()
		ended := make(chan bool)
		go func() {
			s.Handler().ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://"+testHost+"/panels/0123456789abcdef/events?after=4", nil))
			close(ended)
		}()
		time.Sleep(time.Minute + time.Second)
		s.events.close()
		<-ended
		if got := strings.Count(w.Body.String(), ": still here\n\n"); got != 4 {
			t.Errorf("%d heartbeats in a minute", got)
		}
	})
}
