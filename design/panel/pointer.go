package panel

import (
	"maps"
	"slices"
	"strings"
)

// escape writes one reference token of a JSON Pointer (RFC 6901, section 3).
func escape(token string) string {
	return strings.NewReplacer("~", "~0", "/", "~1").Replace(token)
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
