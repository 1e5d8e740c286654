package web

import (
	"context"
	"log/slog"
	"path"
	"sync"
	"time"

	"fascia/design/record"
)

// quiet is how long a panel must rest before its outputs are saved, so that a row of quick edits
// saves them once.
const quiet = 1500 * time.Millisecond

// An outputSaver keeps the outputs of each panel's newest plan in the store, some time after an edit
// and not in its way. What it saves can be worked out again, so a failure is logged and not shown.
type outputSaver struct {
	store outputStore
	files func(context.Context, record.ID) (int64, []record.File, error)
	log   *slog.Logger

	mu      sync.Mutex
	waiting map[record.ID]*time.Timer
	running sync.WaitGroup
	closed  bool
}

func newOutputSaver(store outputStore, files func(context.Context, record.ID) (int64, []record.File, error), log *slog.Logger) *outputSaver {
	return &outputSaver{store: store, files: files, log: log, waiting: map[record.ID]*time.Timer{}}
}

// follow has the outputs of a panel saved once it has been quiet for a while.
func (o *outputSaver) follow(id record.ID) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.closed {
		return
	}
	if t, ok := o.waiting[id]; ok && t.Stop() {
		t.Reset(quiet)
		return
	}
	o.waiting[id] = time.AfterFunc(quiet, func() {
		if o.take(id) {
			defer o.running.Done()
			o.save(context.Background(), id)
		}
	})
}

// take claims a waiting panel; false when flush was faster.
func (o *outputSaver) take(id record.ID) bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.closed {
		return false
	}
	delete(o.waiting, id)
	o.running.Add(1)
	return true
}

// save keeps the outputs of the panel's newest revision.
func (o *outputSaver) save(ctx context.Context, id record.ID) {
	rev, files, err := o.files(ctx, id)
	if err == nil {
		err = o.store.SaveOutputs(ctx, id, rev, kept(files))
	}
	if err != nil {
		o.log.WarnContext(ctx, "outputs not saved", "panel", id, "error", err)
	}
}

// kept picks what is worth keeping: the tables and the keymap, which say what was built. Drawings
// and the whole plan are large and come out of the panel again.
func kept(files []record.File) []record.File {
	var tables []record.File
	for _, f := range files {
		if path.Ext(f.Name) == ".csv" || f.Name == "keymap.json" {
			tables = append(tables, f)
		}
	}
	return tables
}

// flush saves everything that is waiting and takes no more.
func (o *outputSaver) flush(ctx context.Context) {
	o.mu.Lock()
	o.closed = true
	var late []record.ID
	for id, t := range o.waiting {
		t.Stop()
		late = append(late, id)
	}
	o.mu.Unlock()
	o.running.Wait()
	for _, id := range late {
		o.save(ctx, id)
	}
}
