// Package panel holds what the maker decides: boards, parts in holes, legends, chords and wishes;
// the named edits that change it, each with an inverse; and the project file it is kept in. All
// boards share one grid of holes. It works nothing out: that is the plan's business.
package panel

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"fascia/design/grid"
	"fascia/design/part"
)

// FormatVersion is the `fascia` number of project files written by this program. Version 2 added
// scan styles lines and expander, lamps, chords with a choice of keys, the order of the soft wishes
// about pins, and wishes about wires; files of version 1 are read as before.
const FormatVersion = 2

// A Panel is the whole document. Its zero value is not valid; start from New. Stages read it and
// never change it.
type Panel struct {
	Version int                        `json:"fascia"`
	Name    string                     `json:"name"`
	Boards  []Board                    `json:"boards"`
	Parts   map[string]part.Definition `json:"parts"`  // by id: every definition that Placed uses, and the maker's own
	Placed  []Placed                   `json:"placed"` // by reference in natural order
	Scan    Scan                       `json:"scan"`
	Chords  []Chord                    `json:"chords"`
	Joins   []Join                     `json:"joins,omitempty"` // connections the maker asks for
	Pins    Pins                       `json:"pins"`
	Wires   Wires                      `json:"wires"`
	Notes   string                     `json:"notes"`
}

// A Board is one piece of perfboard. Its top left hole is At in the common grid.
type Board struct {
	ID      string        `json:"id"`
	Columns int           `json:"columns"`
	Rows    int           `json:"rows"`
	At      grid.Hole     `json:"at"`
	Copper  Copper        `json:"copper"`
	Plated  bool          `json:"plated"`
	Faces   Faces         `json:"faces,omitempty"`   // which faces carry copper; empty means both
	Along   string        `json:"along,omitempty"`   // strips run along rows (the default) or columns
	Cuts    []grid.Hole   `json:"cuts,omitempty"`    // holes at which a strip is cut
	Groups  [][]grid.Hole `json:"groups,omitempty"`  // fixed hole groups
	Margins *[4]float64   `json:"margins,omitempty"` // left, top, right, bottom: hole centre to edge, mm; 1.27 when left out
	Seam    *Seam         `json:"seam,omitempty"`
}

// Copper says how a board's holes are joined by its own metal.
type Copper string

// The kinds of copper.
const (
	Pads   Copper = "pads"
	Strips Copper = "strips"
	Groups Copper = "groups"
)

// Faces says which faces of a board carry copper.
type Faces string

// The faces that may carry copper.
const (
	BothFaces Faces = "both"
	BackOnly  Faces = "back"
	FrontOnly Faces = "front"
)

// A Seam says where a board joins an older one, and how far its grid misses the common grid.
type Seam struct {
	Board    string  `json:"board"`     // the neighbour's id
	Side     string  `json:"side"`      // the neighbour's side it touches: left, top, right or bottom
	AcrossMM float64 `json:"across_mm"` // further from the neighbour than a whole number of holes
	AlongMM  float64 `json:"along_mm"`  // shifted along the seam: down for left and right, rightward for top and bottom
}

// A Placed part is one of a definition on a board.
type Placed struct {
	Ref     string         `json:"ref"`
	Part    string         `json:"part"`
	At      grid.Hole      `json:"at"` // the hole of the first terminal
	Turn    grid.Turn      `json:"turn"`
	Face    grid.Face      `json:"face"`
	Value   string         `json:"value,omitempty"`   // resistance, capacitance, LED colour, chip stepping
	Address string         `json:"address,omitempty"` // I2C address, where the part offers several
	Key     *Key           `json:"key,omitempty"`     // what its contact means, for a part with one contact
	Keys    map[string]Key `json:"keys,omitempty"`    // the same by contact name, for a part with several
}

// A Key is what a contact means. Usage is a USB HID usage as page:id in hexadecimal, such as 07:57.
type Key struct {
	Legend string `json:"legend"`
	Usage  string `json:"usage,omitempty"`
	Direct bool   `json:"direct,omitempty"` // wants a pin of its own
}

// Scan holds the wishes for reading the keys.
type Scan struct {
	Style   string   `json:"style"`           // one of Styles
	Rows    int      `json:"rows"`            // 0 lets Fascia choose; of a matrix
	Columns int      `json:"columns"`         // 0 lets Fascia choose; of a matrix
	Active  string   `json:"active"`          // high, low or auto
	Pulls   string   `json:"pulls"`           // internal, external or auto
	Diodes  string   `json:"diodes"`          // none, where needed or every key; of a matrix
	Reader  string   `json:"reader"`          // pio or polled
	Lamps   []string `json:"lamps,omitempty"` // LEDs that light with the select lines, the first with the first
}

// Styles are the ways to read keys that a maker may ask for. Lines is one pin a line, with a key and
// a diode for each ordered pair of lines; expander puts every key on a line of a placed I2C expander.
var Styles = []string{"auto", "direct", "matrix", "lines", "expander"}

// A Join is a connection the maker asks for between terminals, each as ref.terminal, such as R1.2.
type Join struct {
	Name      string   `json:"name"`
	Terminals []string `json:"terminals"`
}

// Pins holds the wishes about pins: signals tied to a GPIO, GPIOs to be left alone, and what else
// is to be spared where that can be, the most important first.
type Pins struct {
	Locked   map[string]string `json:"locked"` // signal id, such as U2.SDA or "row 0", to GPIO name
	KeepFree []string          `json:"keep_free"`
	Prefer   []string          `json:"prefer"` // out of Spared
}

// What the pins may be asked to spare: the two pins of the serial console, the analogue inputs, and
// both lines of one I2C bus.
const (
	SerialConsole = "serial console"
	AnaloguePins  = "analogue pins"
	I2CBus        = "I2C bus"
)

// Spared lists what Prefer may hold.
var Spared = []string{SerialConsole, AnaloguePins, I2CBus}

// New returns a panel with one plated 30 x 22 hole board and nothing on it.
func New(name string) Panel {
	p := Panel{
		Version: FormatVersion, Name: name,
		Boards: []Board{{ID: "A", Columns: 30, Rows: 22, Copper: Pads, Plated: true}},
		Scan:   Scan{Style: "auto", Active: "auto", Pulls: "auto", Diodes: "where needed", Reader: "pio"},
	}
	p.Tidy()
	return p
}

// Tidy puts the panel into the one form that equal panels share: lists present, parts in natural
// order of their references. It changes no decision.
func (p *Panel) Tidy() {
	if p.Parts == nil {
		p.Parts = map[string]part.Definition{}
	}
	for id, d := range p.Parts {
		d.Tidy()
		p.Parts[id] = d
	}
	if p.Boards == nil {
		p.Boards = []Board{}
	}
	if p.Placed == nil {
		p.Placed = []Placed{}
	}
	if p.Chords == nil {
		p.Chords = []Chord{}
	}
	if p.Pins.Locked == nil {
		p.Pins.Locked = map[string]string{}
	}
	if p.Pins.KeepFree == nil {
		p.Pins.KeepFree = []string{}
	}
	if p.Pins.Prefer == nil {
		p.Pins.Prefer = []string{SerialConsole, AnaloguePins} // as version 1 had it, unsaid
	}
	if p.Wires.Locked == nil {
		p.Wires.Locked = []LockedWire{}
	}
	if p.Wires.KeepOut == nil {
		p.Wires.KeepOut = []grid.Hole{}
	}
	if len(p.Wires.NoRuns) == 0 {
		p.Wires.NoRuns = nil
	}
	if len(p.Wires.Nets) == 0 {
		p.Wires.Nets = nil
	}
	if p.Wires.Ends == UsualEnds {
		p.Wires.Ends = 0
	}
	slices.SortStableFunc(p.Wires.Nets, func(a, b NetWish) int { return CompareRefs(a.Net, b.Net) })
	slices.SortStableFunc(p.Placed, func(a, b Placed) int { return CompareRefs(a.Ref, b.Ref) })
}

// CompareRefs orders references naturally: S2 before S10.
func CompareRefs(a, b string) int {
	la, na := splitRef(a)
	lb, nb := splitRef(b)
	return cmp.Or(cmp.Compare(la, lb), cmp.Compare(len(na), len(nb)), cmp.Compare(na, nb))
}

func splitRef(ref string) (letters, rest string) {
	i := strings.IndexAny(ref, "0123456789")
	if i < 0 {
		return ref, ""
	}
	return ref[:i], ref[i:]
}

// Find returns the placed part with this reference, or nil.
func (p *Panel) Find(ref string) *Placed {
	for i := range p.Placed {
		if p.Placed[i].Ref == ref {
			return &p.Placed[i]
		}
	}
	return nil
}

// Definition returns the definition of a placed part. Every placed part of a valid panel has one.
func (p *Panel) Definition(pl *Placed) part.Definition { return p.Parts[pl.Part] }

// Pose is how the part lies.
func (pl *Placed) Pose() grid.Pose { return grid.Pose{At: pl.At, Turn: pl.Turn, Face: pl.Face} }

// A TerminalRef names one terminal of one placed part.
type TerminalRef struct {
	Ref      string `json:"ref"`
	Terminal string `json:"terminal"`
}

// String writes ref.terminal, such as U2.SDA.
func (t TerminalRef) String() string { return t.Ref + "." + t.Terminal }

// Compare orders terminals by reference, then by name.
func (t TerminalRef) Compare(u TerminalRef) int {
	return cmp.Or(CompareRefs(t.Ref, u.Ref), cmp.Compare(t.Terminal, u.Terminal))
}

// ParseTerminal splits ref.terminal at its first dot.
func ParseTerminal(s string) (TerminalRef, bool) {
	ref, name, ok := strings.Cut(s, ".")
	return TerminalRef{ref, name}, ok && ref != "" && name != ""
}

// HoleOf returns the hole in which a terminal sits; false when there is no such terminal.
func (p *Panel) HoleOf(t TerminalRef) (grid.Hole, bool) {
	pl := p.Find(t.Ref)
	if pl == nil {
		return grid.Hole{}, false
	}
	d := p.Parts[pl.Part]
	term, ok := d.Terminal(t.Terminal)
	return pl.Pose().Hole(term.Offset()), ok
}

// A KeyRef is one key: a contact that the maker gave a meaning.
type KeyRef struct {
	ID      string // S1, or S9.up for one contact of several
	Ref     string
	Contact part.Contact
	Key
}

// Keys lists every key in natural order of reference, then in order of the definition's contacts.
func (p *Panel) Keys() []KeyRef {
	var keys []KeyRef
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Parts[pl.Part]
		for _, c := range d.Contacts {
			switch {
			case pl.Key != nil && len(d.Contacts) == 1:
				keys = append(keys, KeyRef{pl.Ref, pl.Ref, c, *pl.Key})
			case pl.Keys != nil:
				if k, ok := pl.Keys[c.Name]; ok {
					keys = append(keys, KeyRef{pl.Ref + "." + c.Name, pl.Ref, c, k})
				}
			}
		}
	}
	return keys
}

// Modules lists the placed parts that carry a controller, in order.
func (p *Panel) Modules() []*Placed {
	var found []*Placed
	for i := range p.Placed {
		if p.Parts[p.Placed[i].Part].Kind == part.Module {
			found = append(found, &p.Placed[i])
		}
	}
	return found
}

// OfKind lists the placed parts of a kind, in order.
func (p *Panel) OfKind(kinds ...part.Kind) []*Placed {
	var found []*Placed
	for i := range p.Placed {
		if slices.Contains(kinds, p.Parts[p.Placed[i].Part].Kind) {
			found = append(found, &p.Placed[i])
		}
	}
	return found
}

// Clone returns a copy that shares nothing that an edit may change.
func (p *Panel) Clone() Panel {
	c := *p
	c.Boards = slices.Clone(p.Boards)
	for i := range c.Boards {
		b := &c.Boards[i]
		b.Cuts = slices.Clone(b.Cuts)
		b.Groups = slices.Clone(b.Groups)
		b.Margins = copyOf(b.Margins)
		b.Seam = copyOf(b.Seam)
	}
	c.Parts = maps.Clone(p.Parts)
	c.Placed = slices.Clone(p.Placed)
	for i := range c.Placed {
		c.Placed[i] = c.Placed[i].clone()
	}
	c.Chords = slices.Clone(p.Chords)
	for i := range c.Chords {
		c.Chords[i] = c.Chords[i].clone()
	}
	c.Joins = slices.Clone(p.Joins)
	for i := range c.Joins {
		c.Joins[i].Terminals = slices.Clone(c.Joins[i].Terminals)
	}
	c.Scan.Lamps = slices.Clone(p.Scan.Lamps)
	c.Pins = Pins{maps.Clone(p.Pins.Locked), slices.Clone(p.Pins.KeepFree), slices.Clone(p.Pins.Prefer)}
	c.Wires = p.Wires.clone()
	return c
}

func (pl Placed) clone() Placed {
	pl.Key = copyOf(pl.Key)
	pl.Keys = maps.Clone(pl.Keys)
	return pl
}

func copyOf[T any](v *T) *T {
	if v == nil {
		return nil
	}
	c := *v
	return &c
}
