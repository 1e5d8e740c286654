package web

import (
	"net/http"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/record"
)

// What is lent comes as one step that undo takes back, and brings no stop.
func TestPartsAreLent(t *testing.T) {
	b := newDesk(t)
	tests := []struct{ what, file, label string }{
		{"lamps", `"lamps": [`, "Place 5 LEDs"},
		{"expander", `"style": "expander"`, "Place 2 expanders"},
	}
	for _, tt := range tests {
		id := b.bring(hive(t), func(*panel.Panel) {})
		at := "/panels/" + string(id)
		before := text(t, b.get(at+"/export"))
		resp := b.postJSON(at+"/lend", `{"id":"l1","base":0,"what":"`+tt.what+`"}`)
		if resp.StatusCode != http.StatusOK {
			t.Fatalf("%s: %d %s", tt.what, resp.StatusCode, text(t, resp))
		}
		if got := decoded[record.Change](t, resp); got.Rev != 1 || !strings.HasPrefix(got.Undo, tt.label) {
			t.Errorf("%s: %+v", tt.what, got)
		}
		if file := text(t, b.get(at+"/export")); !strings.Contains(file, tt.file) {
			t.Errorf("%s: the file does not have %s", tt.what, tt.file)
		}
		_, _, made, err := b.planOf(t.Context(), id)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range made.Findings {
			if f.Severity == finding.Stop {
				t.Errorf("%s: %s %s: %s", tt.what, f.Code, f.Where, f.Text)
			}
		}
		if resp := b.postJSON(at+"/undo", `{"id":"u1"}`); resp.StatusCode != http.StatusOK {
			t.Fatalf("%s: undo: %s", tt.what, text(t, resp))
		}
		if after := text(t, b.get(at+"/export")); after != before {
			t.Errorf("%s: undo leaves another panel", tt.what)
		}
	}
}

func TestLendingRefuses(t *testing.T) {
	b := newDesk(t)
	at := "/panels/" + string(b.bring(hive(t), func(p *panel.Panel) { p.Scan.Style = "direct" })) + "/lend"
	for _, tt := range []struct {
		name, body string
		status     int
	}{
		{"what nobody lends", `{"id":"a","base":0,"what":"money"}`, http.StatusBadRequest},
		{"lamps without select lines", `{"id":"a","base":0,"what":"lamps"}`, http.StatusConflict},
		{"no id", `{"base":0,"what":"lamps"}`, http.StatusBadRequest},
		{"no object", `[]`, http.StatusBadRequest},
	} {
		resp := b.postJSON(at, tt.body)
		if got := decoded[problem](t, resp); resp.StatusCode != tt.status || got.Text == "" {
			t.Errorf("%s: %d %+v", tt.name, resp.StatusCode, got)
		}
	}
}
