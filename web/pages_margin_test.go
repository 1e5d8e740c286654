package web

import (
	"net/http"
	"strings"
	"testing"

	"fascia/design/panel/demo"

	"golang.org/x/net/html"
)

// Where keys lack a diode, the margin offers to place them all; taking the offer mends the notes.
func TestTheMarginOffersDiodes(t *testing.T) {
	b := newDesk(t)
	p := demo.All()[2].Panel.Clone()
	p.Scan.Diodes = "every key"
	id, err := b.store.Import(t.Context(), p)
	if err != nil {
		t.Fatal(err)
	}
	target := "/panels/" + string(id) + "/place"
	form := b.byID(b.page(target), "offer")
	if !strings.HasPrefix(words(form), "Place 19 diodes") {
		t.Fatalf("the margin offers %q for 19 keys without a diode", words(form))
	}
	edit := `{"do":"together",` + strings.TrimPrefix(attr(form, "data-base"), "{")
	resp := b.postJSON("/panels/"+string(id)+"/edits", `{"id":"d1","base":0,"edit":`+edit+`}`)
	if resp.StatusCode != http.StatusOK {
		t.Fatalf("the offer is refused: %s", resp.Status)
	}
	for _, node := range all(b.page(target), func(n *html.Node) bool {
		return attr(n, "id") == "offer" || strings.Contains(attr(n, "class"), "note stop")
	}) {
		t.Errorf("after taking the offer there is still %q", words(node))
	}
}
