package part

import (
	"fmt"
	"regexp"
	"slices"
	"unicode"
	"unicode/utf8"
)

// Limits on what a definition may hold; more is refused, since files come from strangers.
const (
	MaxTerminals = 128
	MaxText      = 400
	maxReach     = 100 // holes and bodies lie within this many holes of the first terminal
)

// A Fault is one thing wrong with a definition. Pointer is a JSON Pointer (RFC 6901) from the
// definition's root.
type Fault struct{ Pointer, Text string }

func (f Fault) Error() string { return f.Pointer + ": " + f.Text }

var (
	identifier  = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,47}$`)
	refLetters  = regexp.MustCompile(`^[A-Z]{1,3}$`)
	terminalRx  = regexp.MustCompile(`^[A-Za-z0-9+\-_/]{1,16}$`)
	gpioRx      = regexp.MustCompile(`^GP(0|[1-9][0-9]?)$`)
	netByNature = []string{"", Ground, Supply3V3, Supply5V, VSYS, Charged, BatteryPlus, BatteryMinus}
)

// ValidID reports whether id may name a definition: lower-case letters, digits and dashes.
func ValidID(id string) bool { return identifier.MatchString(id) }

// CleanText reports what is wrong with a text a maker typed, or "". It refuses invalid UTF-8,
// control characters, and the invisible direction marks that make text read as something else.
func CleanText(s string, most int) string {
	switch {
	case !utf8.ValidString(s):
		return "is not valid UTF-8"
	case utf8.RuneCountInString(s) > most:
		return fmt.Sprintf("is longer than %d characters", most)
	}
	for _, r := range s {
		if unicode.IsControl(r) && r != '\n' || r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069 ||
			r >= 0x200B && r <= 0x200F || r == 0xFEFF || r == utf8.RuneError {
			return fmt.Sprintf("holds the invisible character U+%04X", r)
		}
	}
	return ""
}

// Validate returns the first fault of d, or nil.
func (d *Definition) Validate() error {
	for _, check := range []func() error{d.validText, d.validTerminals, d.validJoins, d.validBodies, d.validFacts} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func (d *Definition) validText() error {
	if d.Name == "" {
		return Fault{"/name", "is empty"}
	}
	if !slices.Contains(Kinds, d.Kind) {
		return Fault{"/kind", fmt.Sprintf("%q is not a kind of part", d.Kind)}
	}
	if !refLetters.MatchString(d.Prefix) {
		return Fault{"/prefix", "must be one to three capital letters"}
	}
	texts := []struct{ pointer, text string }{{"/name", d.Name}, {"/bom/text", d.BOM.Text}, {"/bom/note", d.BOM.Note}}
	for i, s := range d.Sources {
		texts = append(texts, struct{ pointer, text string }{fmt.Sprintf("/sources/%d", i), s.Figure + s.Source})
	}
	for i, s := range d.BOM.Extras {
		texts = append(texts, struct{ pointer, text string }{fmt.Sprintf("/bom/extras/%d", i), s})
	}
	for _, t := range texts {
		if bad := CleanText(t.text, MaxText); bad != "" {
			return Fault{t.pointer, bad}
		}
	}
	return nil
}

func (d *Definition) validTerminals() error {
	if len(d.Terminals) == 0 || len(d.Terminals) > MaxTerminals {
		return Fault{"/terminals", fmt.Sprintf("must hold 1 to %d terminals, holds %d", MaxTerminals, len(d.Terminals))}
	}
	if d.Terminals[0].At != [2]int{} {
		return Fault{"/terminals/0/at", "the first terminal lies at [0, 0]"}
	}
	names, places := map[string]bool{}, map[[2]int]bool{}
	for i, t := range d.Terminals {
		at := fmt.Sprintf("/terminals/%d", i)
		switch {
		case !terminalRx.MatchString(t.Name):
			return Fault{at + "/name", fmt.Sprintf("%q: use 1 to 16 letters, digits, + - _ or /", t.Name)}
		case names[t.Name]:
			return Fault{at + "/name", fmt.Sprintf("%q is used twice", t.Name)}
		case max(t.At[0], -t.At[0], t.At[1], -t.At[1]) > maxReach:
			return Fault{at + "/at", fmt.Sprintf("lies more than %d holes away", maxReach)}
		case places[t.At]:
			return Fault{at + "/at", "two terminals share this hole"}
		case !finite(t.MM[:]...) || !finite(t.Lead) || t.Lead < 0 || t.Lead > 10:
			return Fault{at + "/mm", "is out of range"}
		case t.Residual() > 2.54*2:
			return Fault{at + "/mm", "lies more than two holes from its own hole"}
		case !slices.Contains(netByNature, t.Net):
			return Fault{at + "/net", fmt.Sprintf("%q is not a supply net", t.Net)}
		case t.GPIO != "" && !gpioRx.MatchString(t.GPIO):
			return Fault{at + "/gpio", fmt.Sprintf("%q is not a GPIO name such as GP4", t.GPIO)}
		case CleanText(t.Pin, 8) != "":
			return Fault{at + "/pin", CleanText(t.Pin, 8)}
		}
		names[t.Name], places[t.At] = true, true
	}
	return nil
}

func (d *Definition) validJoins() error {
	seen := map[string]bool{}
	for i, set := range d.Joined {
		at := fmt.Sprintf("/joined/%d", i)
		if len(set) < 2 {
			return Fault{at, "names fewer than two terminals"}
		}
		for _, name := range set {
			if _, ok := d.Terminal(name); !ok {
				return Fault{at, fmt.Sprintf("no terminal is called %q", name)}
			}
			if seen[name] {
				return Fault{at, fmt.Sprintf("terminal %q is joined twice", name)}
			}
			seen[name] = true
		}
	}
	names := map[string]bool{}
	for i, c := range d.Contacts {
		at := fmt.Sprintf("/contacts/%d", i)
		if !terminalRx.MatchString(c.Name) || names[c.Name] {
			return Fault{at + "/name", fmt.Sprintf("%q must be a short name of its own", c.Name)}
		}
		names[c.Name] = true
		for _, name := range c.Between {
			if _, ok := d.Terminal(name); !ok {
				return Fault{at + "/between", fmt.Sprintf("no terminal is called %q", name)}
			}
		}
		if slices.Contains(d.Metal(c.Between[0]), c.Between[1]) {
			return Fault{at + "/between", "both ends are one metal, so it would always be closed"}
		}
	}
	needed := map[string]bool{}
	for i, n := range d.Needs {
		at := fmt.Sprintf("/needs/%d", i)
		if _, ok := d.Terminal(n.Terminal); !ok {
			return Fault{at + "/terminal", fmt.Sprintf("no terminal is called %q", n.Terminal)}
		}
		if !slices.Contains(Signals, n.Signal) {
			return Fault{at + "/signal", fmt.Sprintf("%q is not a signal", n.Signal)}
		}
		if n.Pull != "" && n.Pull != "up" && n.Pull != "down" {
			return Fault{at + "/pull", "must be up or down"}
		}
		if needed[n.Terminal] {
			return Fault{at + "/terminal", fmt.Sprintf("terminal %q has two needs", n.Terminal)}
		}
		if bad := CleanText(n.Says, 40); bad != "" {
			return Fault{at + "/says", bad}
		}
		needed[n.Terminal] = true
	}
	return nil
}
