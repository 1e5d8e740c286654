package web

import (
	"net/http"
	"strings"
	"testing"
	"testing/fstest"
)

func TestAssets(t *testing.T) {
	files := fstest.MapFS{
		"css/fascia.css": {Data: []byte("body { color: black }")}, "js/main.js": {Data: []byte("export {}")},
		"icons/fascia.svg": {Data: []byte("<svg/>")}, "notes.md": {Data: []byte("not for browsers")}, "js/tsconfig": {Data: []byte("{}")},
	}
	b := newDesk(t, func(c *Config) { c.Static = files })
	for name, kind := range map[string]string{"css/fascia.css": "text/css; charset=utf-8", "js/main.js": "text/javascript; charset=utf-8", "icons/fascia.svg": "image/svg+xml; charset=utf-8"} {
		resp := b.get(b.asset(name))
		if resp.StatusCode != http.StatusOK || resp.Header.Get("Content-Type") != kind || !strings.Contains(resp.Header.Get("Cache-Control"), "max-age=31536000") {
			t.Errorf("%s: %d %v", name, resp.StatusCode, resp.Header)
		}
		if got := text(t, resp); got != string(files[name].Data) {
			t.Errorf("%s: %s", name, got)
		}
	}
	prefix := strings.TrimSuffix(b.asset("js/main.js"), "js/main.js")
	for _, target := range []string{prefix + "notes.md", prefix + "js/tsconfig", prefix + "js/", prefix, prefix + "js/none.js", "/static/0000000000000000/js/main.js"} {
		if resp := b.get(target); resp.StatusCode != http.StatusNotFound || strings.Contains(resp.Header.Get("Cache-Control"), "immutable") {
			t.Errorf("%s: %d %s", target, resp.StatusCode, resp.Header.Get("Cache-Control"))
		}
	}
	files["js/main.js"] = &fstest.MapFile{Data: []byte("export {};")}
	if changed := newDesk(t, func(c *Config) { c.Static = files }); changed.asset("css/fascia.css") == b.asset("css/fascia.css") {
		t.Error("a change of one file left the others' addresses")
	}
	defer func() {
		if recover() == nil {
			t.Error("the address of a file that is not there")
		}
	}()
	b.asset("css/none.css")
}
