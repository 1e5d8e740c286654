package web

import (
	"encoding/json"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"fascia/design/record"
)

// edits carries out edits on a panel, each as its own step.
func (b *desk) edits(id record.ID, edits ...string) {
	b.t.Helper()
	for i, edit := range edits {
		ask := `{"id":"e` + strconv.Itoa(i) + `-` + strconv.Itoa(len(edit)) + `","base":0,"edit":` + edit + `}`
		if resp := b.postJSON("/panels/"+string(id)+"/edits", ask); resp.StatusCode != http.StatusOK {
			b.t.Fatalf("%s: %d %s", edit, resp.StatusCode, text(b.t, resp))
		}
	}
}

// The scripts learn from the page where each signal could be tied and what bars it elsewhere.
func TestThePageTellsWhereSignalsCouldGo(t *testing.T) {
	b := newDesk(t)
	id := b.demos()[0]
	b.edits(id, `{"do":"keep-free","gpio":"GP10","keep":true}`, `{"do":"lock-pin","signal":"U2.SDA","gpio":"GP26"}`)
	doc := b.page("/panels/" + string(id) + "/wire")
	var told map[string]struct {
		Net, GPIO  string
		Able, Ties []string
		Bars       map[string]string
	}
	if err := json.Unmarshal([]byte(attr(b.byID(doc, "pin-reach"), "data-reach")), &told); err != nil {
		t.Fatal(err)
	}
	sda := told["U2.SDA"]
	if sda.Net != "display SDA" || sda.GPIO != "GP26" || !slices.Equal(sda.Ties, []string{"U2.SDA"}) ||
		!slices.Contains(sda.Able, "GP4") || slices.Contains(sda.Able, "GP5") {
		t.Errorf("of SDA the page tells %+v", sda)
	}
	if sda.Bars["GP5"] != "cannot be I2C SDA" || sda.Bars["GP10"] != "is kept free by you" {
		t.Errorf("SDA is barred by %v", sda.Bars)
	}
	rows := all(doc, func(n *html.Node) bool { return n.Data == "tr" && attr(n, "data-pin") != "" })
	if len(rows) != len(told) {
		t.Errorf("%d rows for %d signals", len(rows), len(told))
	}
	kept := words(b.byID(doc, "pins"))
	if !strings.Contains(kept, "Kept free by you") || attr(b.byID(doc, "free-GP10"), "data-do") != "keep-free" {
		t.Errorf("the kept pin is not told: %s", kept)
	}
}

// Each button of the wishes carries the whole edit that it makes.
func TestWishesCarryTheirEdits(t *testing.T) {
	b := newDesk(t)
	id := b.demos()[0]
	b.edits(id, `{"do":"prefer","spare":["I2C bus","serial console"]}`)
	doc := b.page("/panels/" + string(id) + "/wire")
	for _, tt := range []struct{ id, want string }{
		{"wish-down-i2c-bus", `{"do":"prefer","spare":["serial console","I2C bus"]}`},
		{"wish-up-serial-console", `{"do":"prefer","spare":["serial console","I2C bus"]}`},
		{"wish-up-i2c-bus", ""},
		{"wish-i2c-bus", `{"do":"prefer","spare":["serial console"]}`},
		{"wish-analogue-pins", `{"do":"prefer","spare":["I2C bus","serial console","analogue pins"]}`},
	} {
		if got := attr(b.byID(doc, tt.id), "data-whole"); got != tt.want {
			t.Errorf("%s makes %q, want %q", tt.id, got, tt.want)
		}
	}
}

// Keys on an expander have a line in place of a pin.
func TestKeysOnAnExpanderAreListedByLine(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	b.edits(id,
		`{"do":"place","placed":{"ref":"U1","part":"module40-rp2040","at":"D4","turn":0,"face":"front"}}`,
		`{"do":"place","placed":{"ref":"U2","part":"expander-i2c16","at":"R4","turn":0,"face":"front"}}`,
		`{"do":"scan","scan":{"style":"expander","rows":0,"columns":0,"active":"auto","pulls":"auto","diodes":"where needed","reader":"polled"}}`)
	doc := b.page("/panels/" + string(id) + "/wire")
	if says := words(b.byID(doc, "pins")); !strings.Contains(says, "On the expander") || !strings.Contains(says, "U2.GP") || !strings.Contains(says, "key S1") {
		t.Errorf("the pins say %q", says)
	}
}
