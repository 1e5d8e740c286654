package part

import (
	"embed"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"sync"
)

//go:embed catalogue/*.json
var files embed.FS

// A Catalogue holds definitions by id. It is read-only once made.
type Catalogue map[string]Definition

// BuiltIn returns the catalogue that comes with the program, read once. A file in it that does not
// hold is a mistake in the program and panics with the file's name.
var BuiltIn = sync.OnceValue(func() Catalogue {
	c, err := read(files)
	if err != nil {
		panic(err)
	}
	return c
})

// IDs lists the catalogue's ids: by kind in the order of Kinds, then by id.
func (c Catalogue) IDs() []string {
	return slices.SortedFunc(maps.Keys(c), func(a, b string) int {
		ka, kb := slices.Index(Kinds, c[a].Kind), slices.Index(Kinds, c[b].Kind)
		if ka != kb {
			return ka - kb
		}
		return strings.Compare(a, b)
	})
}

// read loads every catalogue/ID.json of fsys.
func read(fsys fs.FS) (Catalogue, error) {
	names, err := fs.Glob(fsys, "catalogue/*.json")
	if err != nil {
		return nil, err
	}
	c := Catalogue{}
	for _, name := range names {
		text, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		d, err := Decode(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		c[strings.TrimSuffix(strings.TrimPrefix(name, "catalogue/"), ".json")] = d
	}
	return c, nil
}
