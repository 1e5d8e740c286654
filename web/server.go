// Package web serves Fascia's pages and takes the maker's edits. It knows HTTP, the events that keep
// open pages current, and which plan belongs to which revision; it decides no rule of the trade and
// knows no SQL. Every request passes the border of security.go first.
package web

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"net/http"
	"sync"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/plan"
	"fascia/design/record"
)

// A panelStore keeps panels and their history.
type panelStore interface {
	Panels(ctx context.Context) ([]record.Entry, error)
	Panel(ctx context.Context, id record.ID) (panel.Panel, int64, error)
	Steps(ctx context.Context, id record.ID) (record.Change, error)
	Import(ctx context.Context, p panel.Panel) (record.ID, error)
	Duplicate(ctx context.Context, id record.ID) (record.ID, error)
	Delete(ctx context.Context, id record.ID) error
	Restore(ctx context.Context, id record.ID) error
	Apply(ctx context.Context, id record.ID, command string, base int64, e panel.Edit) (record.Change, error)
	Undo(ctx context.Context, id record.ID, command string) (record.Change, error)
	Redo(ctx context.Context, id record.ID, command string) (record.Change, error)
}

// An outputStore keeps the outputs of plans under the revision they belong to.
type outputStore interface {
	SaveOutputs(ctx context.Context, id record.ID, rev int64, files []record.File) error
}

// A partStore keeps the maker's own parts, and how many of each part the maker has.
type partStore interface {
	SavedParts(ctx context.Context) ([]record.SavedPart, error)
	SavePart(ctx context.Context, id string, d part.Definition) error
	DeletePart(ctx context.Context, id string) error
	Stock(ctx context.Context) (map[string]int, error)
	SetStock(ctx context.Context, id string, have int) error
}

// A tickStore keeps which build steps are done.
type tickStore interface {
	Ticks(ctx context.Context, id record.ID) (map[string]bool, error)
	Tick(ctx context.Context, id record.ID, step string, done bool) error
}

// Config is what a Server needs. Every field but Log must be set.
type Config struct {
	Panels  panelStore
	Outputs outputStore
	Parts   partStore
	Ticks   tickStore
	Plan    func(*panel.Panel) *plan.Plan // works a plan out; it must not change the panel
	Static  fs.FS                         // scripts, styles and icons
	Hosts   []string                      // the only values of Host that are answered, such as 127.0.0.1:7340
	Log     *slog.Logger                  // nil for the default
}

// A Server answers requests. Make one with New; Close it after the last request.
type Server struct {
	panels  panelStore
	parts   partStore
	ticks   tickStore
	plans   *planCache
	outputs *outputSaver
	events  *hub
	assets  *assets
	hosts   map[string]bool
	log     *slog.Logger
	router  chi.Router
	closing sync.Once
}

// New makes a Server. It fails when the configuration lacks something.
func New(cfg Config) (*Server, error) {
	if cfg.Panels == nil || cfg.Outputs == nil || cfg.Parts == nil || cfg.Ticks == nil || cfg.Plan == nil {
		return nil, errors.New("web: a store or the planner is missing")
	}
	if len(cfg.Hosts) == 0 {
		return nil, errors.New("web: no host is allowed, so nothing could be answered")
	}
	assets, err := newAssets(cfg.Static)
	if err != nil {
		return nil, err
	}
	s := &Server{
		panels: cfg.Panels, parts: cfg.Parts, ticks: cfg.Ticks,
		plans: newPlanCache(cfg.Plan), events: newHub(), assets: assets,
		hosts: hostSet(cfg.Hosts), log: cfg.Log,
	}
	if s.log == nil {
		s.log = slog.Default()
	}
	s.outputs = newOutputSaver(cfg.Outputs, s.filesOf, s.log)
	s.router = s.routes()
	return s, nil
}

// Handler answers all requests.
func (s *Server) Handler() http.Handler { return s.router }

// Close ends open event streams and saves the outputs that are still waiting. It may be called
// twice.
func (s *Server) Close(ctx context.Context) {
	s.closing.Do(func() {
		s.events.close()
		s.outputs.flush(ctx)
	})
}

// routes puts the border round every route: an unknown host is turned away before anything else.
func (s *Server) routes() chi.Router {
	r := chi.NewRouter()
	r.Use(onlyKnownHosts(s.hosts), middleware.RequestID, s.recoverPanic, guardHeaders,
		onlySameOrigin(s), middleware.GetHead)
	r.NotFound(func(w http.ResponseWriter, r *http.Request) { s.fail(w, r, record.ErrNotFound) })
	r.MethodNotAllowed(s.methodNotAllowed)
	r.Get("/static/{hash}/*", s.assets.serve)
	s.pageRoutes(r)
	s.panelRoutes(r)
	s.partRoutes(r)
	return r
}

// panelRoutes are the routes that change panels and the ones that carry them out of the house.
func (s *Server) panelRoutes(r chi.Router) {
	r.Post("/panels", s.createPanel)
	r.Post("/import", s.importPanel)
	r.Post("/panels/{id}/duplicate", s.duplicatePanel)
	r.Post("/panels/{id}/delete", s.deletePanel)
	r.Post("/panels/{id}/restore", s.restorePanel)
	r.Post("/panels/{id}/edits", s.postEdit)
	r.Post("/panels/{id}/undo", s.postUndo)
	r.Post("/panels/{id}/redo", s.postRedo)
	r.Post("/panels/{id}/ticks", s.postTick)
	r.Post("/panels/{id}/lend", s.postLend)
	r.Group(func(r chi.Router) {
		r.Use(notEmbedded(s))
		r.Get("/panels/{id}/events", s.streamEvents)
		r.Get("/panels/{id}/export", s.exportPanel)
		r.Get("/panels/{id}/plan.json", s.planJSON)
		r.Get("/panels/{id}/ghosts", s.tellGhosts)
		r.Get("/panels/{id}/wire-trial", s.tryWire)
		r.Get("/panels/{id}/wire-prices", s.tellWirePrices)
		r.Get("/panels/{id}/files.zip", s.downloadAll)
		r.Get("/panels/{id}/files/*", s.downloadOne)
	})
}

// panelID reads the panel id of the address.
func panelID(r *http.Request) (record.ID, error) {
	id, ok := record.ParseID(chi.URLParam(r, "id"))
	if !ok {
		return "", record.ErrNotFound
	}
	return id, nil
}

// planOf returns a panel, its revision and its plan. The plan is worked out once per revision and
// shared, so callers must not change it.
func (s *Server) planOf(ctx context.Context, id record.ID) (panel.Panel, int64, *plan.Plan, error) {
	p, rev, err := s.panels.Panel(ctx, id)
	if err != nil {
		return panel.Panel{}, 0, nil, err
	}
	made, err := s.plans.plan(ctx, id, rev, p)
	if err != nil {
		return panel.Panel{}, 0, nil, err
	}
	return p, rev, made, nil
}

// filesOf returns the outputs of a panel's newest plan and their revision.
func (s *Server) filesOf(ctx context.Context, id record.ID) (int64, []record.File, error) {
	p, rev, err := s.panels.Panel(ctx, id)
	if err != nil {
		return 0, nil, err
	}
	files, err := s.plans.files(ctx, id, rev, p)
	return rev, files, err
}

// asset returns the address of a file of Config.Static, such as css/paper.css. It holds a digest of
// all of them, so a browser may keep it for good. A file that does not exist panics: the name comes
// from our own pages.
func (s *Server) asset(path string) string { return s.assets.address(path) }
