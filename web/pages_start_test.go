package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"

	"fascia/design/part"
)

// The start page does its work with forms alone, as a browser without scripts sends them.
func TestTheStartPageWithoutScripts(t *testing.T) {
	b := newDesk(t)
	if got := words(tagged(b.page("/"), "main")[0]); !strings.Contains(got, "Nothing on the bench yet") {
		t.Errorf("the empty page says %q", got)
	}
	resp := b.postForm("/panels", url.Values{"name": {"Weather post"}, "size": {"18x24"}})
	at := resp.Header.Get("Location")
	if resp.StatusCode != http.StatusSeeOther || !strings.HasPrefix(at, "/panels/") {
		t.Fatalf("new panel: %d %s", resp.StatusCode, at)
	}
	if got := attr(b.byID(b.page(at+"/place"), "board"), "aria-label"); !strings.Contains(got, "18 × 24 holes, 50 × 70 mm") {
		t.Errorf("the new panel has %q", got)
	}
	if got := words(tagged(b.page("/"), "main")[0]); !strings.Contains(got, "Weather post") || !strings.Contains(got, "just now") {
		t.Errorf("the list says %q", got)
	}
	resp = b.postForm(at+"/delete", nil)
	bar := b.page(resp.Header.Get("Location"))
	if got := words(tagged(bar, "body")[0]); !strings.Contains(got, "Weather post deleted. Undo") {
		t.Errorf("after deleting, the page says %q", got)
	}
	b.postForm(at+"/restore", nil)
	if got := words(tagged(b.page("/"), "main")[0]); !strings.Contains(got, "Weather post") {
		t.Errorf("after undoing, the list says %q", got)
	}
}

// The maker's own parts can be counted and dropped by forms; what is no number is refused.
func TestOwnPartsByForms(t *testing.T) {
	b := newDesk(t)
	d := part.BuiltIn()["tact6"]
	d.Name = "Rocker from the radio"
	if err := b.store.SavePart(t.Context(), "rocker", d); err != nil {
		t.Fatal(err)
	}
	if resp := b.postForm("/parts/rocker/keep", url.Values{"count": {"7"}}); resp.StatusCode != http.StatusSeeOther {
		t.Errorf("keeping 7: %d %s", resp.StatusCode, text(t, resp))
	}
	for _, bad := range []string{"", "-1", "x", "1e9", "99999999999"} {
		if resp := b.postForm("/parts/rocker/keep", url.Values{"count": {bad}}); resp.StatusCode != http.StatusUnprocessableEntity {
			t.Errorf("keeping %q: %d", bad, resp.StatusCode)
		}
	}
	count := all(b.page("/"), func(n *html.Node) bool { return attr(n, "name") == "count" })
	if len(count) != 1 || attr(count[0], "value") != "7" {
		t.Errorf("%d fields, %v", len(count), count)
	}
	shelf := words(b.byID(b.page("/panels/"+string(b.counter())+"/place"), "part-rocker"))
	if !strings.Contains(shelf, "Rocker from the radio yours 7 in stock") {
		t.Errorf("the shelf says %q", shelf)
	}
	b.postForm("/parts/rocker/drop", nil)
	if strings.Contains(words(b.page("/")), "Rocker") {
		t.Error("the dropped part is still listed")
	}
}

func TestWhen(t *testing.T) {
	now := time.Date(2026, 3, 2, 9, 30, 0, 0, time.Local)
	for _, tt := range []struct {
		ago  time.Duration
		want string
	}{
		{20 * time.Second, "just now"}, {2 * time.Hour, "today 07:30"}, {12 * time.Hour, "yesterday 21:30"},
		{72 * time.Hour, "27 February 2026"},
	} {
		if got := when(now.Add(-tt.ago), now); got != tt.want {
			t.Errorf("%v ago is %q, want %q", tt.ago, got, tt.want)
		}
	}
}
