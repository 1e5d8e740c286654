package panel

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fascia/design/part"
)

// Place puts a part on a board. An empty reference gets the next free number. The definition is
// taken from the edit, else from the panel, else from the built-in catalogue.
type Place struct {
	Placed     Placed           `json:"placed"`
	Definition *part.Definition `json:"definition,omitempty"`
}

// Do is the edit's name.
func (e *Place) Do() string { return "place" }

// Label names the part.
func (e *Place) Label() string {
	if e.Placed.Ref != "" {
		return "Place " + e.Placed.Ref
	}
	return "Place " + e.Placed.Part
}

func (e *Place) apply(p *Panel) error {
	d, err := p.definitionFor(e.Placed.Part, e.Definition)
	if err != nil {
		return err
	}
	pl := e.Placed.clone()
	if pl.Ref == "" {
		pl.Ref = p.nextRef(d.Prefix)
	}
	if p.Find(pl.Ref) != nil {
		return refuse("%s is already on the panel; choose another reference", pl.Ref)
	}
	if pl.Key == nil && pl.Keys == nil && d.Kind == part.Switch {
		pl.Key, pl.Keys = firstKeys(d)
	}
	p.Placed = append(p.Placed, pl)
	return nil
}

// firstKeys makes each contact of a switch a key: a lone contact waits for its legend, several are
// called by their contacts.
func firstKeys(d part.Definition) (*Key, map[string]Key) {
	if len(d.Contacts) == 1 {
		return &Key{}, nil
	}
	keys := map[string]Key{}
	for _, c := range d.Contacts {
		keys[c.Name] = Key{Legend: c.Name}
	}
	return nil, keys
}

func (p *Panel) definitionFor(id string, given *part.Definition) (part.Definition, error) {
	if !part.ValidID(id) {
		return part.Definition{}, refuse("part %q: use lower-case letters, digits and dashes", id)
	}
	if d, ok := p.Parts[id]; ok {
		return d, nil
	}
	d, ok := part.BuiltIn()[id]
	if given != nil {
		d, ok = *given, true
	}
	if !ok {
		return part.Definition{}, refuse("no part is called %q; define it first", id)
	}
	d.Tidy()
	p.Parts[id] = d
	return d, nil
}

// nextRef is the lowest free reference with these letters.
func (p *Panel) nextRef(prefix string) string {
	for n := 1; ; n++ {
		if ref := fmt.Sprintf("%s%d", prefix, n); p.Find(ref) == nil {
			return ref
		}
	}
}

// Define puts a part definition into the panel, or changes one of the maker's own.
type Define struct {
	ID         string          `json:"id"`
	Definition part.Definition `json:"definition"`
}

// Do is the edit's name.
func (e *Define) Do() string { return "define" }

// Label names the part.
func (e *Define) Label() string { return "Define " + e.Definition.Name }

func (e *Define) apply(p *Panel) error {
	if !part.ValidID(e.ID) {
		return refuse("part %q: use lower-case letters, digits and dashes", e.ID)
	}
	p.Parts[e.ID] = e.Definition
	return nil
}

// Remove takes parts off, and with them their chords' keys, locks and joins.
type Remove struct {
	Refs []string `json:"refs"`
}

// Do is the edit's name.
func (e *Remove) Do() string { return "remove" }

// Label names the parts.
func (e *Remove) Label() string { return "Remove " + refList(e.Refs) }

func (e *Remove) apply(p *Panel) error {
	if err := p.eachRef(e.Refs, func(*Placed) error { return nil }); err != nil {
		return err
	}
	gone := func(s string) bool { ref, _, _ := strings.Cut(s, "."); return slices.Contains(e.Refs, ref) }
	p.Placed = slices.DeleteFunc(p.Placed, func(pl Placed) bool { return slices.Contains(e.Refs, pl.Ref) })
	for i := range p.Chords {
		p.Chords[i].forget(gone)
	}
	p.Chords = slices.DeleteFunc(p.Chords, func(c Chord) bool { return len(c.All()) == 0 })
	if p.Scan.Lamps = slices.DeleteFunc(p.Scan.Lamps, gone); len(p.Scan.Lamps) == 0 {
		p.Scan.Lamps = nil
	}
	for i := range p.Joins {
		p.Joins[i].Terminals = slices.DeleteFunc(p.Joins[i].Terminals, gone)
	}
	p.Joins = slices.DeleteFunc(p.Joins, func(j Join) bool { return len(j.Terminals) < 2 })
	maps.DeleteFunc(p.Pins.Locked, func(signal, _ string) bool { return gone(signal) })
	p.dropUnused()
	return nil
}

// dropUnused forgets definitions from the catalogue that nothing uses; the maker's own stay.
func (p *Panel) dropUnused() {
	used := map[string]bool{}
	for _, pl := range p.Placed {
		used[pl.Part] = true
	}
	maps.DeleteFunc(p.Parts, func(id string, d part.Definition) bool {
		built, ok := part.BuiltIn()[id]
		return !used[id] && ok && SameDefinition(built, d)
	})
}

// SetValue gives a part its value: a resistance, a capacitance, a colour, a chip stepping.
type SetValue struct {
	Ref   string `json:"ref"`
	Value string `json:"value"`
}

// Do is the edit's name.
func (e *SetValue) Do() string { return "value" }

// Label names the part.
func (e *SetValue) Label() string { return "Value of " + e.Ref }

func (e *SetValue) apply(p *Panel) error {
	return p.eachRef([]string{e.Ref}, func(pl *Placed) error { pl.Value = strings.TrimSpace(e.Value); return nil })
}

// SetAddress chooses one of a part's I2C addresses; "" goes back to the usual one.
type SetAddress struct {
	Ref     string `json:"ref"`
	Address string `json:"address"`
}

// Do is the edit's name.
func (e *SetAddress) Do() string { return "address" }

// Label names the part.
func (e *SetAddress) Label() string { return "Address of " + e.Ref }

func (e *SetAddress) apply(p *Panel) error {
	return p.eachRef([]string{e.Ref}, func(pl *Placed) error { pl.Address = e.Address; return nil })
}

// Renumber gives a part another reference, everywhere it is named.
type Renumber struct {
	Ref string `json:"ref"`
	To  string `json:"to"`
}

// Do is the edit's name.
func (e *Renumber) Do() string { return "renumber" }

// Label names both references.
func (e *Renumber) Label() string { return "Renumber " + e.Ref + " to " + e.To }

func (e *Renumber) apply(p *Panel) error {
	if e.Ref != e.To && p.Find(e.To) != nil {
		return refuse("%s is already on the panel", e.To)
	}
	if err := p.eachRef([]string{e.Ref}, func(pl *Placed) error { pl.Ref = e.To; return nil }); err != nil {
		return err
	}
	renamed := func(s string) string {
		ref, rest, dotted := strings.Cut(s, ".")
		switch {
		case ref != e.Ref:
			return s
		case dotted:
			return e.To + "." + rest
		}
		return e.To
	}
	for i := range p.Chords {
		p.Chords[i].rename(renamed)
	}
	for i, led := range p.Scan.Lamps {
		p.Scan.Lamps[i] = renamed(led)
	}
	for i := range p.Joins {
		for j, t := range p.Joins[i].Terminals {
			p.Joins[i].Terminals[j] = renamed(t)
		}
	}
	locked := map[string]string{}
	for signal, gpio := range p.Pins.Locked {
		locked[renamed(signal)] = gpio
	}
	p.Pins.Locked = locked
	return nil
}

// eachRef calls f with each named part; it refuses an empty list, a repeated or unknown reference.
func (p *Panel) eachRef(refs []string, f func(*Placed) error) error {
	if len(refs) == 0 {
		return refuse("name at least one part")
	}
	for i, ref := range refs {
		pl := p.Find(ref)
		if pl == nil {
			return refuse("%s is not on the panel any more", ref)
		}
		if slices.Contains(refs[:i], ref) {
			return refuse("%s is named twice", ref)
		}
		if err := f(pl); err != nil {
			return err
		}
	}
	return nil
}

// refList writes a few references and counts the rest.
func refList(refs []string) string {
	if len(refs) <= 3 {
		return strings.Join(refs, ", ")
	}
	return fmt.Sprintf("%s and %d more", refs[0], len(refs)-1)
}
