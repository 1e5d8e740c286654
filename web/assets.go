package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strings"

	"github.com/go-chi/chi/v5"
)

// Media types by the endings of our own files. What is not here is not served.
var mediaTypes = map[string]string{
	".js":          "text/javascript; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".svg":         "image/svg+xml; charset=utf-8",
	".png":         "image/png",
	".ico":         "image/x-icon",
	".woff2":       "font/woff2",
	".json":        "application/json; charset=utf-8",
	".webmanifest": "application/manifest+json; charset=utf-8",
	".txt":         "text/plain; charset=utf-8",
}

// An asset is one file that pages load.
type asset struct {
	media  string
	body   []byte
	packed []byte // the same by gzip; nil where that saves nothing
}

// assets holds every file under an address that changes when any of them does, so that modules may
// name each other by relative addresses and still never meet an older sibling.
type assets struct {
	digest string
	files  map[string]asset
}

// newAssets reads all files of fsys whose ending has a media type.
func newAssets(fsys fs.FS) (*assets, error) {
	a := &assets{files: map[string]asset{}}
	sum := sha256.New()
	if fsys != nil {
		err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			media, ok := mediaTypes[path.Ext(name)]
			if !ok {
				return nil
			}
			body, err := fs.ReadFile(fsys, name)
			if err != nil {
				return err
			}
			fmt.Fprintf(sum, "%q %d ", name, len(body))
			sum.Write(body)
			packed, err := gzipped(body)
			if err != nil {
				return err
			}
			a.files[name] = asset{media, body, packed}
			return nil
		})
		if err != nil {
			return nil, fmt.Errorf("read static files: %w", err)
		}
	}
	a.digest = hex.EncodeToString(sum.Sum(nil))[:16]
	return a, nil
}

func (a *assets) address(name string) string {
	if _, ok := a.files[name]; !ok {
		panic("web: no static file is called " + name)
	}
	return "/static/" + a.digest + "/" + name
}

// serve answers with a file of this very version; an older page's address is not answered with
// newer files.
func (a *assets) serve(w http.ResponseWriter, r *http.Request) {
	f, ok := a.files[strings.TrimPrefix(chi.URLParam(r, "*"), "/")]
	if !ok || chi.URLParam(r, "hash") != a.digest {
		http.Error(w, "There is no such file in this version.", http.StatusNotFound)
		return
	}
	h := w.Header()
	h.Set("Content-Type", f.media)
	h.Set("Cache-Control", "public, max-age=31536000, immutable")
	body := f.body
	h.Set("Vary", "Accept-Encoding")
	if f.packed != nil && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		body = f.packed
	}
	h.Set("Content-Length", fmt.Sprint(len(body)))
	if r.Method == http.MethodHead {
		return
	}
	// A failed write means that the reader left; the server notices the broken connection itself.
	_, _ = w.Write(body)
}

// gzipped packs body once, at start; nil when it would not be smaller.
func gzipped(body []byte) ([]byte, error) {
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(body); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	if out.Len() >= len(body) {
		return nil, nil
	}
	return out.Bytes(), nil
}
