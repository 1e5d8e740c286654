package web

import (
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/record"
)

// page gets an address and parses what comes.
func (b *desk) page(target string) *html.Node {
	b.t.Helper()
	resp := b.get(target)
	if resp.StatusCode != http.StatusOK {
		b.t.Fatalf("GET %s: %d %s", target, resp.StatusCode, text(b.t, resp))
	}
	doc, err := html.Parse(resp.Body)
	if err != nil {
		b.t.Fatalf("GET %s: %v", target, err)
	}
	return doc
}

func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

// all lists the elements for which is holds, in document order.
func all(n *html.Node, is func(*html.Node) bool) []*html.Node {
	var found []*html.Node
	for d := range n.Descendants() {
		if d.Type == html.ElementNode && is(d) {
			found = append(found, d)
		}
	}
	return found
}

func tagged(n *html.Node, tag string) []*html.Node {
	return all(n, func(d *html.Node) bool { return d.Data == tag })
}

// byID returns the element with an id and fails without it.
func (b *desk) byID(doc *html.Node, id string) *html.Node {
	b.t.Helper()
	found := all(doc, func(d *html.Node) bool { return attr(d, "id") == id })
	if len(found) != 1 {
		b.t.Fatalf("%d elements have the id %s", len(found), id)
	}
	return found[0]
}

// words is the text of n with its white space folded.
func words(n *html.Node) string {
	var text strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			text.WriteString(d.Data + " ")
		}
	}
	return strings.Join(strings.Fields(text.String()), " ")
}

func (b *desk) demos() []record.ID {
	b.t.Helper()
	var ids []record.ID
	for _, d := range demo.All() {
		id, err := b.store.Import(b.t.Context(), d.Panel)
		if err != nil {
			b.t.Fatal(err)
		}
		ids = append(ids, id)
	}
	return ids
}

// Every room of every demo panel and of an empty one is a sound page: what CSP and WCAG 2.2 (1.3.1, 2.4.2,
// 3.1.1, 4.1.2) ask of its markup holds.
func TestEveryRoomIsASoundPage(t *testing.T) {
	b := newDesk(t)
	empty, err := b.store.Import(t.Context(), panel.New("Empty"))
	if err != nil {
		t.Fatal(err)
	}
	targets := []string{"/"}
	for _, id := range append(b.demos(), empty, b.counter()) {
		for _, room := range rooms {
			for _, query := range []string{"", "?face=back", "?select=S1", "?select=U1,S1,nothing", "?step=none"} {
				targets = append(targets, "/panels/"+string(id)+"/"+room.name+query)
			}
		}
	}
	for _, target := range targets {
		b.soundPage(target)
	}
}

func (b *desk) soundPage(target string) {
	b.t.Helper()
	doc := b.page(target)
	ids := map[string]int{}
	labels := map[string]bool{}
	for _, n := range all(doc, func(*html.Node) bool { return true }) {
		if id := attr(n, "id"); id != "" {
			ids[id]++
		}
		if n.Data == "label" {
			labels[attr(n, "for")] = true
		}
		for _, a := range n.Attr {
			if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
				b.t.Errorf("%s: <%s> has %s=%q, which the content policy drops", target, n.Data, a.Key, a.Val)
			}
			if slices.Contains([]string{"href", "src", "action"}, a.Key) && !strings.HasPrefix(a.Val, "/") && !strings.HasPrefix(a.Val, "#") && !strings.HasPrefix(a.Val, "?") {
				b.t.Errorf("%s: <%s> leads outside: %s=%q", target, n.Data, a.Key, a.Val)
			}
		}
		if n.Data == "style" || n.Data == "script" && attr(n, "src") == "" {
			b.t.Errorf("%s: <%s> stands in the page itself", target, n.Data)
		}
		if n.Data == "img" && !slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "alt" }) {
			b.t.Errorf("%s: an image without alt", target)
		}
	}
	for id, n := range ids {
		if n > 1 {
			b.t.Errorf("%s: id %s is given %d times", target, id, n)
		}
	}
	for _, n := range all(doc, func(n *html.Node) bool { return n.Data == "input" || n.Data == "select" || n.Data == "textarea" }) {
		if attr(n, "type") == "hidden" || labels[attr(n, "id")] && attr(n, "id") != "" || inside(n, "label") {
			continue
		}
		b.t.Errorf("%s: <%s name=%q> has no label", target, n.Data, attr(n, "name"))
	}
	for _, n := range all(doc, func(n *html.Node) bool { return n.Data == "button" || n.Data == "a" }) {
		if words(n) == "" && attr(n, "aria-label") == "" && len(tagged(n, "img")) == 0 {
			b.t.Errorf("%s: a <%s> without a name: %v", target, n.Data, n.Attr)
		}
	}
	if len(tagged(doc, "h1")) != 1 || len(tagged(doc, "main")) != 1 || words(tagged(doc, "title")[0]) == "" || attr(tagged(doc, "html")[0], "lang") != "en" {
		b.t.Errorf("%s: heading, main, title or language is missing", target)
	}
}

func inside(n *html.Node, tag string) bool {
	for p := range n.Ancestors() {
		if p.Data == tag {
			return true
		}
	}
	return false
}

// A page says in which face, with which parts and at which step it is, and its links keep them.
func TestTheAddressHoldsWhatIsShown(t *testing.T) {
	b := newDesk(t)
	id := b.demos()[0]
	at := "/panels/" + string(id)
	doc := b.page(at + "/wire?face=back&select=S2,S10,S1,gone")
	if got := attr(b.byID(doc, "board-svg"), "data-face"); got != "back" {
		t.Errorf("the %s is up", got)
	}
	if svg := tagged(b.byID(doc, "board-svg"), "svg"); len(svg) != 1 || attr(svg[0], "data-face") != "back" {
		t.Error("the drawing shows another face than the page says")
	}
	if got := words(b.byID(doc, "slip")); !strings.Contains(got, "3 parts selected") || !strings.Contains(got, "S1 S2 S10") {
		t.Errorf("the slip says %q", got)
	}
	for _, want := range []string{at + "/place?face=back&select=S1%2CS2%2CS10", at + "/wire?select=S1%2CS2%2CS10"} {
		if !slices.ContainsFunc(tagged(doc, "a"), func(a *html.Node) bool { return attr(a, "href") == want }) {
			t.Errorf("no link leads to %s", want)
		}
	}
	if resp := b.get(at); resp.StatusCode != http.StatusSeeOther || resp.Header.Get("Location") != at+"/place" {
		t.Errorf("the bare address leads to %d %s", resp.StatusCode, resp.Header.Get("Location"))
	}
	if resp := b.get("/panels/0000000000000000/place"); resp.StatusCode != http.StatusNotFound {
		t.Errorf("a panel that is not there: %d", resp.StatusCode)
	}
}

// Names and legends of strangers are text wherever they appear (OWASP ASVS 5.0.0, 1.2.1).
func TestHostileTextStaysText(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	const evil = `"><script>x</script>`
	for _, edit := range []string{
		`{"do":"rename","name":"\"><script>x</script>"}`,
		`{"do":"note","notes":"</textarea><script>x</script>"}`,
		`{"do":"legend","key":"S1","legend":"\"><script>x</script>"}`,
		`{"do":"chord","name":"\"><script>x</script>","keys":["S1"]}`,
	} {
		if resp := b.postJSON("/panels/"+string(id)+"/edits", `{"id":"e`+regexp.MustCompile(`\W`).ReplaceAllString(edit[:20], "")+`","base":0,"edit":`+edit+`}`); resp.StatusCode != http.StatusOK {
			t.Fatalf("%s: %d %s", edit, resp.StatusCode, text(t, resp))
		}
	}
	for _, room := range rooms {
		doc := b.page("/panels/" + string(id) + "/" + room.name + "?select=S1")
		for _, s := range tagged(doc, "script") {
			if attr(s, "src") == "" {
				t.Errorf("%s: a script came out of a text", room.name)
			}
		}
		if got := attr(b.byID(doc, "name"), "value"); got != evil {
			t.Errorf("%s: the name reads %q", room.name, got)
		}
	}
}

// The checklist shows the step asked for, else the first that is not done.
func TestTheStepOnTheBench(t *testing.T) {
	b := newDesk(t)
	id := b.demos()[0]
	_, _, made, err := b.planOf(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	at := "/panels/" + string(id) + "/build"
	shown := func(target string) string { return words(b.byID(b.page(target), "on-bench-title")) }
	if got := shown(at); got != made.Steps[0].Title {
		t.Errorf("at first %q is on the bench", got)
	}
	if resp := b.postJSON("/panels/"+string(id)+"/ticks", `{"step":"`+made.Steps[0].ID+`","done":true}`); resp.StatusCode != http.StatusOK {
		t.Fatal(text(t, resp))
	}
	if got := shown(at); got != made.Steps[1].Title {
		t.Errorf("after one tick %q is on the bench, want %q", got, made.Steps[1].Title)
	}
	last := made.Steps[len(made.Steps)-1]
	if got := shown(at + "?" + url.Values{"step": {last.ID}}.Encode()); got != last.Title {
		t.Errorf("asked for %q, %q is on the bench", last.Title, got)
	}
	doc := b.page(at)
	if n := len(all(doc, func(n *html.Node) bool { return n.Data == "input" && attr(n, "data-tick") != "" })); n != len(made.Steps) {
		t.Errorf("%d boxes for %d steps", n, len(made.Steps))
	}
	if got := words(b.byID(doc, "progress-says")); !strings.HasPrefix(got, "1 of ") {
		t.Errorf("progress says %q", got)
	}
}

func TestPictures(t *testing.T) {
	b := newDesk(t)
	at := "/panels/" + string(b.counter())
	tests := []struct {
		name, target string
		status       int
		kept         bool
	}{
		{"the panel's, under its revision", "/picture.svg?rev=1", http.StatusOK, true},
		{"the panel's, under an older one", "/picture.svg?rev=0", http.StatusOK, false},
		{"a step's", "/steps/1.svg", http.StatusOK, false},
		{"a step that is not there", "/steps/999.svg", http.StatusNotFound, false},
		{"no number", "/steps/x.svg", http.StatusNotFound, false},
	}
	for _, tt := range tests {
		resp := b.get(at + tt.target)
		if resp.StatusCode != tt.status || strings.Contains(resp.Header.Get("Cache-Control"), "immutable") != tt.kept {
			t.Errorf("%s: %d, %s", tt.name, resp.StatusCode, resp.Header.Get("Cache-Control"))
		}
		if tt.status == http.StatusOK && (resp.Header.Get("Content-Security-Policy") != downloadPolicy || !strings.HasPrefix(text(t, resp), "<svg")) {
			t.Errorf("%s: not an inert drawing", tt.name)
		}
	}
}
