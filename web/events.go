package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"sync"
	"time"

	"fascia/design/record"
)

const (
	heartbeat  = 15 * time.Second
	queueSize  = 16 // events that a page may lag behind before it is dropped
	maxStreams = 64 // open streams in all; a browser itself allows six
)

// An event is something that open pages of a panel should know at once.
type event struct {
	Rev  int64  // of the panel, when the event is a new revision
	Name string // rev, tick or gone
	Data string // JSON in one line
}

// revised is the event of a new revision. By names the command, so that the page that sent it can
// tell its own echo.
func revised(c record.Change, by string) event {
	data, err := json.Marshal(struct {
		record.Change
		By string `json:"by,omitempty"`
	}{c, by})
	if err != nil {
		panic(err) // numbers and strings always encode
	}
	return event{Rev: c.Rev, Name: "rev", Data: string(data)}
}

// A hub passes events to the open pages of each panel. It never waits for one: a page that does not
// keep up is dropped, connects again, and learns the current revision.
type hub struct {
	mu     sync.Mutex
	pages  map[record.ID]map[chan event]bool
	open   int
	closed bool
}

func newHub() *hub { return &hub{pages: map[record.ID]map[chan event]bool{}} }

// join opens a stream of a panel's events; leave ends it. There is none when the hub is closed or
// full. The stream is closed when the page was dropped.
func (h *hub) join(id record.ID) (stream <-chan event, leave func(), ok bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed || h.open >= maxStreams {
		return nil, nil, false
	}
	page := make(chan event, queueSize)
	if h.pages[id] == nil {
		h.pages[id] = map[chan event]bool{}
	}
	h.pages[id][page] = true
	h.open++
	return page, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		h.drop(id, page)
	}, true
}

// send passes e on to every open page of a panel.
func (h *hub) send(id record.ID, e event) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for page := range h.pages[id] {
		select {
		case page <- e:
		default:
			h.drop(id, page)
		}
	}
}

// close ends all streams; none can be opened any more.
func (h *hub) close() {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.closed = true
	for id, pages := range h.pages {
		for page := range pages {
			h.drop(id, page)
		}
	}
}

// drop ends one stream, once. The caller holds the lock.
func (h *hub) drop(id record.ID, page chan event) {
	if !h.pages[id][page] {
		return
	}
	delete(h.pages[id], page)
	if len(h.pages[id]) == 0 {
		delete(h.pages, id)
	}
	h.open--
	close(page)
}

// streamEvents keeps a page current by server-sent events (WHATWG HTML, section 9.2). The current
// revision comes first, unless the page says that it has it: a page that was away needs no log.
func (s *Server) streamEvents(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	stream, leave, ok := s.events.join(id) // first, so that no revision falls between
	if !ok {
		w.WriteHeader(http.StatusNoContent) // ends the stream for good; the page asks now and then instead
		return
	}
	defer leave()
	now, err := s.panels.Steps(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	out := http.NewResponseController(w)
	if err := out.SetWriteDeadline(time.Time{}); err != nil { // the deadline of ordinary answers must not end this one
		s.log.DebugContext(r.Context(), "stream keeps its deadline", "error", err)
	}
	w.Header().Set("Content-Type", "text/event-stream; charset=utf-8")
	fmt.Fprint(w, "retry: 1000\n\n")
	if lastSeen(r) != now.Rev {
		writeEvent(w, revised(now, ""))
	}
	if r.Method == http.MethodHead {
		return
	}
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for out.Flush() == nil {
		select {
		case <-r.Context().Done():
			return
		case <-beat.C:
			fmt.Fprint(w, ": still here\n\n")
		case e, ok := <-stream:
			if !ok {
				return
			}
			writeEvent(w, e)
		}
	}
}

// writeEvent writes into the response's buffer; a broken connection shows at the next flush.
func writeEvent(w http.ResponseWriter, e event) {
	if e.Rev != 0 {
		fmt.Fprintf(w, "id: %d\n", e.Rev)
	}
	fmt.Fprintf(w, "event: %s\ndata: %s\n\n", e.Name, e.Data)
}

// lastSeen is the revision that a page already has: from the header that browsers send when they
// connect again, else from ?after=, else -1.
func lastSeen(r *http.Request) int64 {
	text := r.Header.Get("Last-Event-ID")
	if text == "" {
		text = r.URL.Query().Get("after")
	}
	rev, err := strconv.ParseInt(text, 10, 64)
	if err != nil || rev < 0 {
		return -1
	}
	return rev
}
