package ipc356

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Widths of the fields for names, and how long a name stands behind an NNAME.
const (
	netWidth   = 14
	refWidth   = 6
	pinWidth   = 4
	aliasWidth = 60
)

// unconnected stands in the field for the net of a point that is on none (from memory).
const unconnected = "N/C"

var netAlias = regexp.MustCompile(`^NNAME[0-9]+$`)

// isPlain reports whether s may stand in a field of this width as it is.
func isPlain(s string, width int) bool {
	if s == "" || len(s) > width || s[0] == ' ' || s[len(s)-1] == ' ' {
		return false
	}
	return isPrintable(s)
}

func isPrintable(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// Plain makes any text printable ASCII of at most most characters, for a reader who cannot show
// more: what it cannot show is a question mark.
func Plain(s string, most int) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, s)
	return strings.TrimSpace(s[:min(len(s), most)])
}

// An aliaser gives names that do not fit their field one that does, in order of first use, and keeps
// the records that say what each stands for.
type aliaser struct {
	nets, refs, pins map[string]string
	shown            map[string]bool // whole names of nets, and what stands behind an NNAME
	records          []string
}

func newAliaser(points []Point) *aliaser {
	a := aliaser{nets: map[string]string{}, refs: map[string]string{}, pins: map[string]string{}, shown: map[string]bool{"": true}}
	for i := range points {
		a.shown[points[i].Net] = true
	}
	return &a
}

// net is what stands in the field for the net of a point.
func (a *aliaser) net(p *Point) string {
	name := p.Net
	switch {
	case name == "" && p.Kind == Tooling:
		return ""
	case name == "":
		return unconnected
	case isPlain(name, netWidth) && !isReserved(name):
		return name
	}
	key, known := a.nets[name]
	if !known {
		key = fmt.Sprintf("NNAME%d", len(a.nets)+1)
		a.nets[name] = key
		a.say(key, name)
	}
	return key
}

// isReserved reports whether a name has a meaning of its own in the field for a net.
func isReserved(name string) bool { return name == unconnected || netAlias.MatchString(name) }

// say writes the records of a net's alias: the standard's own, and where that cannot hold the name a
// comment with all of it.
func (a *aliaser) say(key, name string) {
	shown := name
	if !isPlain(name, aliasWidth) || isReserved(name) {
		short := Plain(name, aliasWidth-8)
		shown = short
		for n := 2; a.shown[shown] || isReserved(shown); n++ {
			shown = fmt.Sprintf("%s~%d", short, n)
		}
		a.shown[shown] = true
	}
	a.records = append(a.records, "P  "+key+" "+shown)
	if shown != name {
		a.comment(key, name)
	}
}

// comment writes a name in quotes, over as many lines as it takes.
func (a *aliaser) comment(key, name string) {
	for first := true; first || name != ""; first = false {
		n := 0
		for n < len(name) {
			_, width := utf8.DecodeRuneInString(name[n:])
			if len(strconv.QuoteToASCII(name[:n+width])) > aliasWidth {
				break
			}
			n += width
		}
		a.records = append(a.records, "C  "+aliasWord+key+" = "+strconv.QuoteToASCII(name[:n]))
		name = name[n:]
	}
}

// aliasWord begins the comments that hold aliases.
const aliasWord = "ALIAS "

// ref is what stands in the field for a reference, and pin for a pin.
func (a *aliaser) ref(name string) (string, error) { return a.short("REF", name, refWidth, a.refs) }
func (a *aliaser) pin(name string) (string, error) { return a.short("PIN", name, pinWidth, a.pins) }

// short returns name when it fits, else a tilde and a number to the base of 36.
func (a *aliaser) short(what, name string, width int, known map[string]string) (string, error) {
	if name == "" || isPlain(name, width) && name[0] != '~' {
		return name, nil
	}
	if key, ok := known[name]; ok {
		return key, nil
	}
	key := "~" + strconv.FormatInt(int64(len(known)+1), 36)
	if len(key) > width {
		return "", fmt.Errorf("%d names are too long for their field; it has room for no more aliases", len(known)+1)
	}
	known[name] = key
	a.comment(what+" "+key, name)
	return key, nil
}
