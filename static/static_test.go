package static

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"

	"fascia/design/sheet"
)

var update = flag.Bool("update", false, "write css/drawing.css anew")

// The page and the paper are drawn with the same inks: drawing.css is a copy of what design/sheet says.
func TestDrawingStylesheetIsCurrent(t *testing.T) {
	const name = "css/drawing.css"
	want := sheet.Stylesheet()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return // the embedded copy is that of the build
	}
	got, err := Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, []byte(want)) {
		t.Errorf("%s is not what sheet.Stylesheet gives: run go test ./static -update", name)
	}
}

// What our pages load may run nothing but itself and reach no other host (CSP Level 3 and Trusted Types
// would block the first group; the second would leak that the maker is at work).
func TestFilesKeepWithinTheHouse(t *testing.T) {
	forbidden := map[string]*regexp.Regexp{
		"markup from text":      regexp.MustCompile(`innerHTML|outerHTML|insertAdjacentHTML|DOMParser|document\.write|\bsrcdoc\b`),
		"code from text":        regexp.MustCompile(`\beval\s*\(|new Function|javascript:`),
		"a style attribute":     regexp.MustCompile(`setAttribute\(\s*['"]style`),
		"another host":          regexp.MustCompile(`https?://|@import\s+(url|['"])|url\(\s*['"]?//`),
		"an export of all":      regexp.MustCompile(`export default`),
		"a leftover of a trial": regexp.MustCompile(`console\.|debugger`),
	}
	walk(t, func(name, text string) {
		text = strings.ReplaceAll(text, "http://www.w3.org/2000/svg", "") // a name, never fetched
		for what, rx := range forbidden {
			if m := rx.FindString(text); m != "" {
				t.Errorf("%s holds %s: %q", name, what, m)
			}
		}
	})
}

// Every module opens with the word that has its types checked, and every module that another one names
// exists.
func TestModules(t *testing.T) {
	imports := regexp.MustCompile(`(?m)(?:from|import) '([^']+)'`)
	walk(t, func(name, text string) {
		if path.Ext(name) != ".js" {
			return
		}
		if !strings.HasPrefix(text, "// @ts-check\n") {
			t.Errorf("%s does not begin with // @ts-check", name)
		}
		for _, m := range imports.FindAllStringSubmatch(text, -1) {
			if _, err := fs.Stat(Files, path.Join(path.Dir(name), m[1])); err != nil {
				t.Errorf("%s imports %s: %v", name, m[1], err)
			}
		}
	})
}

func walk(t *testing.T, see func(name, text string)) {
	t.Helper()
	err := fs.WalkDir(Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := Files.ReadFile(name)
		if err == nil {
			see(name, string(text))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
