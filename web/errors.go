package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"runtime/debug"
	"strings"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"

	"fascia/design/panel"
	"fascia/design/record"
)

// A problem is what a refused or failed request says to the maker. It is an error, so that a handler
// can hand it to fail.
type problem struct {
	Status  int    `json:"-"`
	Text    string `json:"error"`             // what, and where
	Fix     string `json:"fix"`               // the way out
	Request string `json:"request,omitempty"` // names the log lines of a failure of the program
}

func (p problem) Error() string { return p.Text }

var errForeignPage = problem{Status: http.StatusForbidden,
	Text: "That request came from another site's page, so nothing was done.",
	Fix:  "Open the page from Fascia's own address and try again."}

// fail turns an error into an answer: a problem is shown as it is, a refusal of the panel or the
// store in plain words, and anything else as a failure whose detail goes to the log only.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, err error) {
	if errors.Is(err, context.Canceled) && r.Context().Err() != nil {
		return // nobody is there to read an answer
	}
	p := explain(err)
	if p.Status == http.StatusInternalServerError {
		p.Request = middleware.GetReqID(r.Context())
		s.log.ErrorContext(r.Context(), "request failed", "request", p.Request, "method", r.Method, "route", routeOf(r), "error", err)
	}
	s.answerProblem(w, r, p)
}

// answerProblem shows p as a page to a person and as JSON to a script.
func (s *Server) answerProblem(w http.ResponseWriter, r *http.Request, p problem) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Security-Policy", contentPolicy)
	w.Header().Del("Content-Disposition")
	if strings.Contains(r.Header.Get("Accept"), "text/html") {
		s.showProblem(w, r, p)
		return
	}
	s.answerJSON(w, r, p.Status, p)
}

// explain finds the words for an error.
func explain(err error) problem {
	var (
		known   problem
		large   *http.MaxBytesError
		refused *panel.FileError
	)
	switch {
	case errors.As(err, &known):
		return known
	case errors.As(err, &large):
		return problem{Status: http.StatusRequestEntityTooLarge,
			Text: fmt.Sprintf("That is larger than the %s that are accepted here.", size(large.Limit)), Fix: "Send less."}
	case errors.As(err, &refused):
		return problem{Status: http.StatusUnprocessableEntity,
			Text: "This is not a project file that Fascia can read: " + place(refused.Pointer) + refused.Text + ".",
			Fix:  "Nothing was stored. Mend the file at that place, or export it again where it was made."}
	case errors.Is(err, panel.ErrRefused):
		return problem{Status: http.StatusUnprocessableEntity, Text: sentence(panel.Reason(err)),
			Fix: "The panel stays as it was."}
	case errors.Is(err, record.ErrNotFound):
		return problem{Status: http.StatusNotFound, Text: "There is nothing at this address.",
			Fix: "It may have been deleted. The start page lists every panel."}
	case errors.Is(err, record.ErrNothing):
		return problem{Status: http.StatusConflict, Text: "There is nothing left to take back or do again.",
			Fix: "Carry on from here."}
	case errors.Is(err, record.ErrConflict):
		return problem{Status: http.StatusConflict, Text: "The panel has changed elsewhere in the meantime.",
			Fix: "Load it again and repeat the change."}
	case errors.Is(err, record.ErrTooLarge):
		return problem{Status: http.StatusRequestEntityTooLarge, Text: "The panel would become larger than a project file may be.",
			Fix: "Take something away first."}
	case errors.Is(err, record.ErrFull):
		return problem{Status: http.StatusInsufficientStorage, Text: "The disk is full, so the change was not kept.",
			Fix: "Free some room and try again; what was kept before is safe, and export still works."}
	case errors.Is(err, context.DeadlineExceeded):
		return problem{Status: http.StatusServiceUnavailable, Text: "That took too long and was given up.", Fix: "Try again."}
	}
	return problem{Status: http.StatusInternalServerError,
		Text: "Something went wrong inside Fascia.", Fix: "Try again. The log tells more under the number of this request."}
}

// place says where in a file, in front of what is wrong there.
func place(pointer string) string {
	if pointer == "" {
		return ""
	}
	return "at " + pointer + " "
}

// sentence makes a reason one that stands alone.
func sentence(text string) string {
	if text == "" {
		return "That cannot be done."
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

func size(bytes int64) string {
	switch {
	case bytes >= 1<<20 && bytes%(1<<20) < 1<<17:
		return fmt.Sprintf("%d MiB", bytes>>20)
	case bytes >= 1<<10:
		return fmt.Sprintf("%d KiB", bytes>>10)
	}
	return fmt.Sprintf("%d bytes", bytes)
}

// answerJSON writes v. The headers are out before a broken connection shows, so such an error can
// only be logged.
func (s *Server) answerJSON(w http.ResponseWriter, r *http.Request, status int, v any) {
	body, err := json.Marshal(v)
	if err != nil {
		s.log.ErrorContext(r.Context(), "encode answer", "route", routeOf(r), "error", err)
		http.Error(w, "Something went wrong inside Fascia.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	if _, err := w.Write(append(body, '\n')); err != nil {
		s.log.DebugContext(r.Context(), "answer not read", "route", routeOf(r), "error", err)
	}
}

// recoverPanic is the last resort: a mistake in the program becomes one failed request.
func (s *Server) recoverPanic(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			fault := recover()
			if fault == nil {
				return
			}
			if fault == http.ErrAbortHandler {
				panic(fault) // the way to end a connection on purpose
			}
			s.failAfterPanic(w, r, fault)
		}()
		next.ServeHTTP(w, r)
	})
}

// failAfterPanic answers for a panic, and does without the page of problems when that one panics too.
func (s *Server) failAfterPanic(w http.ResponseWriter, r *http.Request, fault any) {
	defer func() {
		if again := recover(); again != nil {
			s.log.ErrorContext(r.Context(), "the page of problems failed", "error", again)
			http.Error(w, "Something went wrong inside Fascia.", http.StatusInternalServerError)
		}
	}()
	s.fail(w, r, fmt.Errorf("panic: %v\n%s", fault, debug.Stack()))
}

// methodNotAllowed answers requests for an address that has only other methods; chi has set Allow.
func (s *Server) methodNotAllowed(w http.ResponseWriter, r *http.Request) {
	s.answerProblem(w, r, problem{Status: http.StatusMethodNotAllowed,
		Text: "This address does not take " + known(r.Method) + " requests.", Fix: "Go back to the page and use its buttons."})
}

// known keeps a made-up method name out of our sentences.
func known(method string) string {
	switch method {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch, http.MethodDelete, http.MethodOptions:
		return method
	}
	return "such"
}

// routeOf names the route for the log; the address itself comes from outside and stays out of it.
func routeOf(r *http.Request) string {
	if c := chi.RouteContext(r.Context()); c != nil {
		return c.RoutePattern()
	}
	return ""
}
