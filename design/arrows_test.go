package design_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// arrows says what each package may import of this module. A package not listed may not exist, and
// a new arrow is a line to be reviewed. Test files may look anywhere.
var arrows = map[string]string{
	"design/grid":               "",
	"design/usage":              "",
	"design/pio":                "",
	"design/search":             "",
	"design/circuit":            "",
	"design/finding":            "grid",
	"design/part":               "grid",
	"design/controller":         "part",
	"design/panel":              "grid part",
	"design/panel/demo":         "grid part panel",
	"design/record":             "panel part",
	"design/signal":             "grid part panel",
	"design/fit":                "finding grid part panel",
	"design/scan":               "finding grid part controller panel signal search",
	"design/hold":               "panel scan",
	"design/pinning":            "finding grid part controller panel scan search signal",
	"design/netlist":            "finding grid part panel pinning scan search signal",
	"design/reading":            "circuit controller netlist panel part scan",
	"design/ipc356":             "grid netlist panel",
	"design/wiring":             "finding grid part panel fit netlist pinning scan",
	"design/wiring/randompanel": "grid part panel",
	"design/check":              "finding grid part controller panel fit scan signal pinning netlist wiring usage reading",
	"design/bench":              "finding grid part panel fit netlist scan wiring",
	"design/bom":                "grid part panel wiring",
	"design/keymap":             "panel pinning scan usage",
	"design/sheet":              "finding grid part controller panel fit scan pinning netlist wiring",
	"design/lend":               "check controller fit grid netlist panel part pinning scan",
	"design/plan":               "bench bom check controller finding fit grid ipc356 keymap netlist panel part pinning scan sheet signal wiring",
}

func TestArrows(t *testing.T) {
	real := map[string]map[string]bool{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && (d.Name() == "node_modules" || d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && d.Name() != "..") {
			if d != nil && d.IsDir() && err == nil {
				return fs.SkipDir
			}
			return err
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ImportsOnly)
		if err != nil {
			return err
		}
		pack := filepath.ToSlash(strings.TrimPrefix(filepath.Dir(path), ".."+string(filepath.Separator)))
		if real[pack] == nil {
			real[pack] = map[string]bool{}
		}
		for _, imp := range f.Imports {
			if name, err := strconv.Unquote(imp.Path.Value); err == nil {
				real[pack][name] = true
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(real) < 20 {
		t.Fatalf("only %d packages were found", len(real))
	}
	for pack, imports := range real {
		if strings.HasPrefix(pack, "design/") {
			checkDesign(t, pack, imports)
		}
		checkOuter(t, pack, imports)
	}
}

// outside are the modules that the pure core may use.
var outside = []string{"github.com/go-json-experiment/json", "github.com/go-json-experiment/json/jsontext"}

// impure are packages of the standard library that the core must not touch.
var impure = []string{"os", "io/ioutil", "net", "net/http", "time", "math/rand", "database/sql", "os/exec", "path/filepath", "log", "log/slog"}

func checkDesign(t *testing.T, pack string, imports map[string]bool) {
	t.Helper()
	allowed, listed := arrows[pack]
	if !listed {
		t.Errorf("%s is in no row of the table of arrows", pack)
		return
	}
	for name := range imports {
		inner, ours := strings.CutPrefix(name, "fascia/design/")
		switch {
		case ours && !slices.Contains(strings.Fields(allowed), inner):
			t.Errorf("%s imports %s: the arrow is not in the table", pack, inner)
		case !ours && strings.HasPrefix(name, "fascia/"):
			t.Errorf("%s imports %s: design knows nothing outside itself", pack, name)
		case strings.Contains(name, ".") && !slices.Contains(outside, name):
			t.Errorf("%s imports %s: the core uses the standard library and %v", pack, name, outside)
		case slices.Contains(impure, name) && !(pack == "design/record" && name == "time"):
			t.Errorf("%s imports %s: the core has no clock, files, network or chance", pack, name)
		}
	}
}

// checkOuter keeps SQL in store, and store and web apart but in the program.
func checkOuter(t *testing.T, pack string, imports map[string]bool) {
	t.Helper()
	if imports["database/sql"] && pack != "store" {
		t.Errorf("%s imports database/sql: SQL stays in store", pack)
	}
	if imports["fascia/store"] && pack != "cmd/fascia" {
		t.Errorf("%s imports store: only the program connects it", pack)
	}
	if pack == "store" {
		for name := range imports {
			if strings.HasPrefix(name, "fascia/web") || name == "fascia/design/plan" {
				t.Errorf("store imports %s", name)
			}
		}
	}
}
