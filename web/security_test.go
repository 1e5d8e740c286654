package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
)

// TestOnlyKnownHostsAreAnswered asks every route under names that a stranger's page could have made
// to point here.
func TestOnlyKnownHostsAreAnswered(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	strangers := []string{"evil.example", "evil.example:7340", "localhost", "localhost.:7340", "127.0.0.1:80",
		"127.0.0.1.evil.example:7340", "127.1:7340", "0.0.0.0:7340", "2130706433:7340", "", "127.0.0.1:7340, evil.example"}
	routes := 0
	b.everyRoute(id, func(method, route, target string) {
		routes++
		for _, host := range strangers {
			resp := b.send(method, target, "", "Host", host, "Sec-Fetch-Site", "same-origin", "Origin", "http://"+host)
			if resp.StatusCode != http.StatusMisdirectedRequest {
				t.Errorf("%s %s under %q: %d", method, route, host, resp.StatusCode)
			}
		}
	})
	if routes < 20 {
		t.Errorf("only %d routes were found", routes)
	}
	for _, target := range []string{"/no/such/page", "/panels/" + string(id) + "/edits"} {
		if resp := b.send(http.MethodGet, target, "", "Host", "evil.example"); resp.StatusCode != http.StatusMisdirectedRequest {
			t.Errorf("GET %s: %d", target, resp.StatusCode)
		}
	}
	for _, host := range []string{testHost, "LOCALHOST:7340"} {
		if resp := b.send(http.MethodGet, "/panels/"+string(id)+"/export", "", "Host", host); resp.StatusCode != http.StatusOK {
			t.Errorf("a known host, %s: %d", host, resp.StatusCode)
		}
	}
}

// TestNoOtherSiteCanChangeAnything sends what a browser sends from another site's page.
func TestNoOtherSiteCanChangeAnything(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	before := b.snapshot()
	foreign := [][]string{
		{"Sec-Fetch-Site", "cross-site", "Origin", "https://evil.example"},
		{"Sec-Fetch-Site", "same-site", "Origin", "http://127.0.0.1:8080"}, // another server on this machine
		{"Sec-Fetch-Site", "made-up"},
		{"Origin", "https://evil.example"}, // a browser without Sec-Fetch-Site
		{"Origin", "null"},
	}
	b.everyRoute(id, func(method, route, target string) {
		if method == http.MethodGet {
			return
		}
		if !slices.Contains([]string{http.MethodPost, http.MethodDelete}, method) {
			t.Errorf("%s %s: no other method is needed", method, route)
		}
		for _, headers := range foreign {
			for _, kind := range []string{"application/json", "text/plain", "application/x-www-form-urlencoded"} {
				resp := b.send(method, target, "name=x", append(headers, "Content-Type", kind)...)
				if resp.StatusCode != http.StatusForbidden {
					t.Errorf("%s %s with %v: %d", method, route, headers, resp.StatusCode)
				}
			}
		}
	})
	if after := b.snapshot(); after != before {
		t.Errorf("something changed:\n%s\n%s", before, after)
	}
}

// snapshot is what a maker would see of the store.
func (b *desk) snapshot() string {
	var out strings.Builder
	list, err := b.store.Panels(b.t.Context())
	if err != nil {
		b.t.Fatal(err)
	}
	for _, e := range list {
		out.WriteString(string(e.ID) + " " + e.Name + " " + e.Changed.String() + " " + e.Deleted.String() + "\n")
	}
	return out.String()
}

// TestNoOtherSiteCanEmbedOurData asks for data as an image or script tag of another site would.
func TestNoOtherSiteCanEmbedOurData(t *testing.T) {
	b := newDesk(t)
	id := string(b.counter())
	for _, path := range []string{"/export", "/plan.json", "/files.zip", "/files/wiring.csv"} {
		for site, want := range map[string]int{"cross-site": 403, "same-site": 403, "same-origin": 200, "none": 200, "": 200} {
			if resp := b.send(http.MethodGet, "/panels/"+id+path, "", "Sec-Fetch-Site", site); resp.StatusCode != want {
				t.Errorf("%s from %q: %d, want %d", path, site, resp.StatusCode, want)
			}
		}
	}
	if resp := b.send(http.MethodGet, "/panels/"+id+"/events", "", "Sec-Fetch-Site", "cross-site"); resp.StatusCode != http.StatusForbidden {
		t.Errorf("events from another site: %d", resp.StatusCode)
	}
}

func TestEveryAnswerCarriesItsGuards(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	check := func(method, target string, resp *http.Response) {
		policy := resp.Header.Get("Content-Security-Policy")
		if !strings.Contains(policy, "default-src 'none'") || strings.Contains(policy, "unsafe-eval") || strings.Contains(policy, "script-src 'unsafe") {
			t.Errorf("%s %s: policy %q", method, target, policy)
		}
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
			"Cross-Origin-Resource-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin", "Access-Control-Allow-Origin": ""} {
			if got := resp.Header.Get(name); got != want {
				t.Errorf("%s %s: %s is %q, want %q", method, target, name, got, want)
			}
		}
		if kept := resp.Header.Get("Cache-Control"); kept != "no-store" && !(strings.HasPrefix(target, "/static/") && strings.Contains(kept, "immutable")) {
			t.Errorf("%s %s: Cache-Control %q", method, target, kept)
		}
		if kind := resp.Header.Get("Content-Type"); resp.StatusCode == http.StatusOK && kind == "" {
			t.Errorf("%s %s: no Content-Type", method, target)
		}
	}
	b.everyRoute(id, func(method, _, target string) {
		if strings.HasSuffix(target, "/events") {
			return // stays open; looked at where streams are tested
		}
		check(method, target, b.send(method, target, ""))
	})
	check(http.MethodGet, "/no/such/page", b.get("/no/such/page"))
	check(http.MethodPatch, "/panels", b.send(http.MethodPatch, "/panels", ""))
}

// TestHeadAnswersLikeGet holds HEAD to RFC 9110, section 9.3.2: the same headers, no content.
func TestHeadAnswersLikeGet(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	b.everyRoute(id, func(method, route, target string) {
		if method != http.MethodGet {
			return
		}
		ctx, cancel := context.WithCancel(t.Context())
		r := httptest.NewRequest(http.MethodHead, "http://"+testHost+target, nil).WithContext(ctx)
		w := httptest.NewRecorder()
		b.Handler().ServeHTTP(w, r) // a stream must not stay open for a HEAD
		cancel()
		if strings.HasSuffix(target, "/events") {
			if w.Code != http.StatusOK {
				t.Errorf("HEAD %s: %d", route, w.Code)
			}
			return
		}
		got := b.get(target)
		if w.Code != got.StatusCode || w.Header().Get("Content-Type") != got.Header.Get("Content-Type") {
			t.Errorf("HEAD %s: %d %q, GET %d %q", route, w.Code, w.Header().Get("Content-Type"), got.StatusCode, got.Header.Get("Content-Type"))
		}
	})
}

func TestJSONIsDemandedOfEveryCommand(t *testing.T) {
	b := newDesk(t)
	id := string(b.counter())
	for _, target := range []string{"/panels/" + id + "/edits", "/panels/" + id + "/undo", "/panels/" + id + "/redo", "/panels/" + id + "/ticks", "/parts", "/parts/tact6/stock"} {
		for _, kind := range []string{"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"} {
			if resp := b.send(http.MethodPost, target, "", "Content-Type", kind); resp.StatusCode != http.StatusUnsupportedMediaType {
				t.Errorf("%s with %q and no body: %d", target, kind, resp.StatusCode)
			}
		}
	}
}

func TestOnlyKnownMethods(t *testing.T) {
	b := newDesk(t)
	id := string(b.counter())
	for _, tt := range []struct{ method, target string }{
		{http.MethodPut, "/panels"}, {http.MethodGet, "/panels/" + id + "/edits"}, {http.MethodPost, "/panels/" + id + "/export"},
		{http.MethodGet, "/panels/" + id + "/delete"}, {http.MethodTrace, "/"}, {http.MethodGet, "/import"},
	} {
		if resp := b.send(tt.method, tt.target, ""); resp.StatusCode != http.StatusMethodNotAllowed {
			t.Errorf("%s %s: %d", tt.method, tt.target, resp.StatusCode)
		}
	}
	for _, target := range []string{"/debug/pprof/", "/static/", "/static/" + b.assets.digest + "/", "/static/" + b.assets.digest + "/css", "/static/" + b.assets.digest + "/../server.go", "/panels/%2e%2e/export", "/panels/a%2Fb/export"} {
		if resp := b.get(target); resp.StatusCode != http.StatusNotFound {
			t.Errorf("GET %s: %d", target, resp.StatusCode)
		}
	}
}
