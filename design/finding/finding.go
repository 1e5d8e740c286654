// Package finding holds the one shape of what any stage has to say about a panel: how bad it is,
// where it is, what it is and the way out. A mistake in the panel is a finding, never a Go error.
package finding

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fascia/design/grid"
)

// Severity says what a finding means for the maker.
type Severity uint8

// Note is worth knowing, Mind works but, Stop will not work or can do harm.
const (
	Note Severity = iota
	Mind
	Stop
)

var severityNames = [...]string{"note", "mind", "stop"}

// String returns note, mind or stop.
func (s Severity) String() string { return severityNames[s] }

// MarshalText writes note, mind or stop.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads note, mind or stop.
func (s *Severity) UnmarshalText(text []byte) error {
	i := slices.Index(severityNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("severity %q: write note, mind or stop", text)
	}
	*s = Severity(i)
	return nil
}

// A Where points at what a finding speaks of. Every field may be empty.
type Where struct {
	Refs  []string    `json:"refs,omitempty"`  // placed parts, most telling first
	Keys  []string    `json:"keys,omitempty"`  // key references, such as S1 or S9.up
	Holes []grid.Hole `json:"holes,omitempty"` // holes, most telling first
	Net   string      `json:"net,omitempty"`
	Pin   string      `json:"pin,omitempty"` // GPIO name, such as GP4
}

// String names the place in one word for lists and command lines.
func (w Where) String() string {
	switch {
	case len(w.Refs) > 0:
		return strings.Join(w.Refs, "+")
	case len(w.Keys) > 0:
		return strings.Join(w.Keys, "+")
	case len(w.Holes) > 0:
		return grid.JoinHoles(w.Holes[:1])
	case w.Net != "":
		return w.Net
	case w.Pin != "":
		return w.Pin
	}
	return "panel"
}

// A Finding is something in the panel that its maker should know and can change.
type Finding struct {
	Severity Severity `json:"severity"`
	Code     string   `json:"code"` // stable, such as fit-body-overlap; one a rule
	Where    Where    `json:"where"`
	Text     string   `json:"text"` // what and where, a plain sentence
	Fix      string   `json:"fix"`  // the way out, a plain sentence
}

// Sort orders findings worst first, then by code, place and text, so that output never varies.
func Sort(list []Finding) {
	slices.SortStableFunc(list, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(b.Severity, a.Severity), cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Where.String(), b.Where.String()), cmp.Compare(a.Text, b.Text))
	})
}

// Count returns how many findings have severity s.
func Count(list []Finding, s Severity) int {
	n := 0
	for _, f := range list {
		if f.Severity == s {
			n++
		}
	}
	return n
}
