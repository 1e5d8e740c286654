package web

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"fascia/design/part"
)

func TestSavedPartsOverHTTP(t *testing.T) {
	b := newDesk(t)
	definition, err := json.Marshal(part.BuiltIn()["tact6"])
	if err != nil {
		t.Fatal(err)
	}
	if resp := b.postJSON("/parts", `{"id":"drawer-switch","definition":`+string(definition)+`}`); resp.StatusCode != http.StatusOK {
		t.Fatalf("save: %d %s", resp.StatusCode, text(t, resp))
	}
	if resp := b.postJSON("/parts/drawer-switch/stock", `{"have":7}`); resp.StatusCode != http.StatusOK {
		t.Errorf("stock: %d %s", resp.StatusCode, text(t, resp))
	}
	list, err := b.store.SavedParts(t.Context())
	stock, stockErr := b.store.Stock(t.Context())
	if err != nil || stockErr != nil || len(list) != 1 || stock["drawer-switch"] != 7 {
		t.Errorf("%+v, %v, %v, %v", list, stock, err, stockErr)
	}
	if resp := b.send(http.MethodDelete, "/parts/drawer-switch", ""); resp.StatusCode != http.StatusNoContent {
		t.Errorf("delete: %d", resp.StatusCode)
	}
	if resp := b.send(http.MethodDelete, "/parts/drawer-switch", ""); resp.StatusCode != http.StatusNotFound {
		t.Errorf("delete again: %d", resp.StatusCode)
	}
}

func TestSavedPartsRefusals(t *testing.T) {
	b := newDesk(t)
	definition, err := json.Marshal(part.BuiltIn()["tact6"])
	if err != nil {
		t.Fatal(err)
	}
	good := string(definition)
	tests := []struct {
		name, target, body string
		status             int
		says               string
	}{
		{"the id of a built-in part", "/parts", `{"id":"tact6","definition":` + good + `}`, 422, "built-in"},
		{"an id with a slash", "/parts", `{"id":"../x","definition":` + good + `}`, 422, "cannot name"},
		{"no id", "/parts", `{"definition":` + good + `}`, 422, "cannot name"},
		{"no definition", "/parts", `{"id":"mine"}`, 422, "cannot be used"},
		{"a definition with an unknown member", "/parts", `{"id":"mine","definition":` + strings.Replace(good, `"name":"`, `"x":1,"name":"`, 1) + `}`, 422, "/x"},
		{"a kind nobody knows", "/parts", `{"id":"mine","definition":` + strings.Replace(good, `"kind":"switch"`, `"kind":"oven"`, 1) + `}`, 422, "/kind"},
		{"less than nothing in stock", "/parts/tact6/stock", `{"have":-1}`, 422, "-1"},
		{"too many in stock", "/parts/tact6/stock", `{"have":1000001}`, 422, "1000001"},
		{"half a part in stock", "/parts/tact6/stock", `{"have":0.5}`, 400, "0.5"},
		{"stock of no part", "/parts/unknown-part/stock", `{"have":1}`, 404, "nothing"},
		{"stock of what is no id", "/parts/A%00/stock", `{"have":1}`, 404, "no such part"},
	}
	for _, tt := range tests {
		resp := b.postJSON(tt.target, tt.body)
		if got := decoded[problem](t, resp); resp.StatusCode != tt.status || !strings.Contains(got.Text, tt.says) {
			t.Errorf("%s: %d %+v; want %d saying %q", tt.name, resp.StatusCode, got, tt.status, tt.says)
		}
	}
	if list, err := b.store.SavedParts(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("stored: %+v, %v", list, err)
	}
}
