package web

import (
	"net/http"
	"strings"
)

// The header values that every answer carries. Under contentPolicy a page runs only our own script
// files and cannot be framed; text that slips into a page as markup stays dead.
const (
	contentPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; " +
		"connect-src 'self'; font-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; object-src 'none'; " +
		"frame-ancestors 'none'; require-trusted-types-for 'script'; trusted-types 'none'"
	// downloadPolicy makes a drawing that is opened in the browser inert.
	downloadPolicy = "sandbox; default-src 'none'; style-src 'unsafe-inline'"
)

// hostSet folds the allowed values of Host.
func hostSet(hosts []string) map[string]bool {
	set := map[string]bool{}
	for _, h := range hosts {
		set[strings.ToLower(h)] = true
	}
	return set
}

// onlyKnownHosts turns away requests for any other name, whatever the method and path. A page of a
// stranger whose name was made to resolve to this machine is of the same origin as the server to a
// browser; only the Host value gives it away.
func onlyKnownHosts(known map[string]bool) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if !known[strings.ToLower(r.Host)] {
				w.Header().Set("Cache-Control", "no-store")
				http.Error(w, "This server does not answer for that name.", http.StatusMisdirectedRequest)
				return
			}
			next.ServeHTTP(w, r)
		})
	}
}

// guardHeaders sets the headers of every answer. Handlers that serve what may be kept, or what is
// not a page, overwrite Cache-Control and Content-Security-Policy.
func guardHeaders(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", contentPolicy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(w, r)
	})
}

// onlySameOrigin refuses changes that a page of another origin asks for.
func onlySameOrigin(s *Server) func(http.Handler) http.Handler {
	guard := http.NewCrossOriginProtection()
	guard.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.fail(w, r, errForeignPage)
	}))
	return guard.Handler
}

// notEmbedded refuses reads of data that another site's page makes, such as an image or script tag
// that points here. Links that a person follows from our pages are of the same origin.
func notEmbedded(s *Server) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			switch r.Header.Get("Sec-Fetch-Site") {
			case "", "none", "same-origin":
				next.ServeHTTP(w, r)
			default:
				s.fail(w, r, errForeignPage)
			}
		})
	}
}
