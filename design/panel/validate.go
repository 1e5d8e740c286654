package panel

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"

	"fascia/design/grid"
	"fascia/design/part"
)

// Limits of a panel. They bound the work of every stage; a hand-held needs a tenth of them.
const (
	MaxBoards  = 4
	MaxSide    = 200 // holes along one side of a board
	MaxPlaced  = 400
	MaxParts   = 200
	MaxKeys    = 256
	MaxChords  = 200
	MaxJoins   = 200
	MaxName    = 80
	MaxLegend  = 24
	MaxNotes   = 20000
	MaxMembers = 64 // keys of a chord, terminals of a join
	MaxHoles   = 2000
)

var (
	refRx   = regexp.MustCompile(`^[A-Z]{1,3}[1-9][0-9]{0,3}$`)
	boardRx = regexp.MustCompile(`^[A-Z][A-Z0-9]{0,3}$`)
	usageRx = regexp.MustCompile(`^[0-9A-F]{2}:[0-9A-F]{2,4}$`)
	gpioRx  = regexp.MustCompile(`^GP(0|[1-9][0-9]?)$`)
)

// Validate returns the first thing that makes p no panel, as a *FileError, or nil. It looks at
// form alone: what will not work, but can be said, is left to findings.
func (p *Panel) Validate() error {
	for _, check := range []func() *FileError{p.validHead, p.validBoards, p.validParts, p.validPlaced, p.validWishes} {
		if e := check(); e != nil {
			return e
		}
	}
	return nil
}

func (p *Panel) validHead() *FileError {
	if p.Version != FormatVersion {
		return fault("/fascia", "must be %d", FormatVersion)
	}
	if p.Name == "" {
		return fault("/name", "is empty; give the panel a name")
	}
	if bad := part.CleanText(p.Name, MaxName); bad != "" {
		return fault("/name", "%s", bad)
	}
	if bad := part.CleanText(p.Notes, MaxNotes); bad != "" {
		return fault("/notes", "%s", bad)
	}
	return nil
}

func (p *Panel) validBoards() *FileError {
	if n := len(p.Boards); n == 0 || n > MaxBoards {
		return fault("/boards", "holds %d boards; a panel has 1 to %d", n, MaxBoards)
	}
	ids := map[string]bool{}
	for i := range p.Boards {
		b := &p.Boards[i]
		at := fmt.Sprintf("/boards/%d", i)
		if ids[b.ID] {
			return fault(at+"/id", "two boards are called %q", b.ID)
		}
		ids[b.ID] = true
		if e := b.valid(at); e != nil {
			return e
		}
	}
	for i := range p.Boards {
		if s := p.Boards[i].Seam; s != nil && (!ids[s.Board] || s.Board == p.Boards[i].ID) {
			return fault(fmt.Sprintf("/boards/%d/seam/board", i), "%q is no other board of this panel", s.Board)
		}
	}
	return nil
}

func (b *Board) valid(at string) *FileError {
	last := b.At.Add(grid.Offset{Cols: b.Columns - 1, Rows: b.Rows - 1})
	switch {
	case !boardRx.MatchString(b.ID):
		return fault(at+"/id", "%q: use a capital letter, and up to three letters or digits more", b.ID)
	case b.Columns < 1 || b.Columns > MaxSide:
		return fault(at+"/columns", "%d columns; a board has 1 to %d", b.Columns, MaxSide)
	case b.Rows < 1 || b.Rows > MaxSide:
		return fault(at+"/rows", "%d rows; a board has 1 to %d", b.Rows, MaxSide)
	case !last.Valid():
		return fault(at+"/at", "the board reaches past hole %s", grid.Hole{Col: grid.MaxIndex, Row: grid.MaxIndex})
	case !slices.Contains([]Copper{Pads, Strips, Groups}, b.Copper):
		return fault(at+"/copper", "%q: write pads, strips or groups", b.Copper)
	case !slices.Contains([]Faces{"", BothFaces, BackOnly, FrontOnly}, b.Faces):
		return fault(at+"/faces", "%q: write both, back or front", b.Faces)
	case b.Plated && (b.Faces == BackOnly || b.Faces == FrontOnly):
		return fault(at+"/plated", "a plated board has copper on both faces")
	case !slices.Contains([]string{"", "rows", "columns"}, b.Along):
		return fault(at+"/along", "%q: write rows or columns", b.Along)
	case len(b.Cuts) > MaxHoles:
		return fault(at+"/cuts", "holds more than %d holes", MaxHoles)
	}
	for i, h := range b.Cuts {
		if !b.Holds(h) {
			return fault(fmt.Sprintf("%s/cuts/%d", at, i), "%s is no hole of this board", h)
		}
	}
	if e := b.validGroups(at); e != nil {
		return e
	}
	if b.Margins != nil {
		for i, m := range b.Margins {
			if !(m >= 0 && m <= 50) {
				return fault(fmt.Sprintf("%s/margins/%d", at, i), "must be 0 to 50 mm")
			}
		}
	}
	if s := b.Seam; s != nil {
		if !slices.Contains([]string{"left", "top", "right", "bottom"}, s.Side) {
			return fault(at+"/seam/side", "%q: write left, top, right or bottom", s.Side)
		}
		if !(math.Abs(s.AcrossMM) <= 5) || !(math.Abs(s.AlongMM) <= 5) {
			return fault(at+"/seam", "a misfit must be within 5 mm either way")
		}
	}
	return nil
}

func (b *Board) validGroups(at string) *FileError {
	seen := map[grid.Hole]bool{}
	for i, g := range b.Groups {
		for j, h := range g {
			pointer := fmt.Sprintf("%s/groups/%d/%d", at, i, j)
			if !b.Holds(h) {
				return fault(pointer, "%s is no hole of this board", h)
			}
			if seen[h] {
				return fault(pointer, "%s is in two groups", h)
			}
			seen[h] = true
		}
	}
	return nil
}

func (p *Panel) validParts() *FileError {
	if len(p.Parts) > MaxParts {
		return fault("/parts", "holds %d definitions; at most %d", len(p.Parts), MaxParts)
	}
	for _, id := range sortedKeys(p.Parts) {
		if !part.ValidID(id) {
			return fault("/parts/"+escape(id), "use lower-case letters, digits and dashes for a part's id")
		}
		d := p.Parts[id]
		if err := d.Validate(); err != nil {
			var f part.Fault
			if errors.As(err, &f) {
				return fault("/parts/"+escape(id)+f.Pointer, "%s", f.Text)
			}
			return fault("/parts/"+escape(id), "%s", err)
		}
	}
	return nil
}

func (p *Panel) validPlaced() *FileError {
	if len(p.Placed) > MaxPlaced {
		return fault("/placed", "holds %d parts; at most %d", len(p.Placed), MaxPlaced)
	}
	refs := map[string]bool{}
	for i := range p.Placed {
		pl := &p.Placed[i]
		at := fmt.Sprintf("/placed/%d", i)
		d, known := p.Parts[pl.Part]
		switch {
		case !refRx.MatchString(pl.Ref):
			return fault(at+"/ref", "%q: use one to three capital letters and a number, such as S1", pl.Ref)
		case refs[pl.Ref]:
			return fault(at+"/ref", "%s stands twice", pl.Ref)
		case !known:
			return fault(at+"/part", "no definition is called %q", pl.Part)
		case !pl.At.Valid():
			return fault(at+"/at", "lies outside the grid")
		case !pl.Turn.Valid():
			return fault(at+"/turn", "must be 0, 1, 2 or 3")
		case part.CleanText(pl.Value, 24) != "":
			return fault(at+"/value", "%s", part.CleanText(pl.Value, 24))
		}
		refs[pl.Ref] = true
		if pl.Address != "" {
			if _, err := part.ParseAddress(pl.Address); err != nil {
				return fault(at+"/address", "%s", err)
			}
		}
		if e := pl.validKeys(d, at); e != nil {
			return e
		}
	}
	if n := len(p.Keys()); n > MaxKeys {
		return fault("/placed", "holds %d keys; at most %d", n, MaxKeys)
	}
	return nil
}

func (pl *Placed) validKeys(d part.Definition, at string) *FileError {
	if pl.Key != nil {
		if len(d.Contacts) != 1 {
			return fault(at+"/key", "this part has %d contacts; use keys and name them", len(d.Contacts))
		}
		if e := pl.Key.valid(at + "/key"); e != nil {
			return e
		}
	}
	if pl.Keys != nil && len(d.Contacts) < 2 {
		return fault(at+"/keys", "this part has %d contacts; use key", len(d.Contacts))
	}
	for _, name := range sortedKeys(pl.Keys) {
		pointer := at + "/keys/" + escape(name)
		if _, ok := d.Contact(name); !ok || name == "" {
			return fault(pointer, "the part has no contact called %q", name)
		}
		k := pl.Keys[name]
		if e := k.valid(pointer); e != nil {
			return e
		}
	}
	return nil
}

func (k *Key) valid(at string) *FileError {
	if bad := part.CleanText(k.Legend, MaxLegend); bad != "" {
		return fault(at+"/legend", "%s", bad)
	}
	if k.Usage != "" && !usageRx.MatchString(k.Usage) {
		return fault(at+"/usage", "%q: write page and id in hexadecimal, such as 07:57", k.Usage)
	}
	return nil
}

func (p *Panel) validWishes() *FileError {
	s := p.Scan
	for _, w := range []struct {
		name, value string
		allowed     []string
	}{
		{"style", s.Style, Styles},
		{"active", s.Active, []string{"auto", "high", "low"}},
		{"pulls", s.Pulls, []string{"auto", "internal", "external"}},
		{"diodes", s.Diodes, []string{"none", "where needed", "every key"}},
		{"reader", s.Reader, []string{"pio", "polled"}},
	} {
		if !slices.Contains(w.allowed, w.value) {
			return fault("/scan/"+w.name, "%q is none of %q", w.value, w.allowed)
		}
	}
	if s.Rows < 0 || s.Rows > 64 {
		return fault("/scan/rows", "must be 0 to 64")
	}
	if s.Columns < 0 || s.Columns > 64 {
		return fault("/scan/columns", "must be 0 to 64")
	}
	for i, led := range s.Lamps {
		if !refRx.MatchString(led) {
			return fault(fmt.Sprintf("/scan/lamps/%d", i), "%q: name an LED, such as D1", led)
		}
		if slices.Contains(s.Lamps[:i], led) {
			return fault(fmt.Sprintf("/scan/lamps/%d", i), "%s stands twice", led)
		}
	}
	if len(s.Lamps) > MaxMembers {
		return fault("/scan/lamps", "holds %d LEDs; at most %d", len(s.Lamps), MaxMembers)
	}
	for _, check := range []func() *FileError{p.validChords, p.validJoins, p.validPins, p.validWires} {
		if e := check(); e != nil {
			return e
		}
	}
	return nil
}

func (p *Panel) validChords() *FileError {
	if len(p.Chords) > MaxChords {
		return fault("/chords", "holds %d chords; at most %d", len(p.Chords), MaxChords)
	}
	names := map[string]bool{}
	for i, c := range p.Chords {
		at := fmt.Sprintf("/chords/%d", i)
		if e := namedSet(at, "keys", c.Name, c.Keys, names); e != nil {
			return e
		}
		if len(c.Any) > MaxAny {
			return fault(at+"/any", "holds %d choices of keys; at most %d", len(c.Any), MaxAny)
		}
		for j, a := range c.Any {
			if e := a.valid(fmt.Sprintf("%s/any/%d", at, j)); e != nil {
				return e
			}
		}
	}
	return nil
}

func (a *AnyOf) valid(at string) *FileError {
	if n := len(a.Of); n == 0 || n > MaxMembers {
		return fault(at+"/of", "holds %d keys; 1 to %d", n, MaxMembers)
	}
	if a.Count < 1 || a.Count > len(a.Of) {
		return fault(at+"/count", "must be 1 to %d, as many as there are keys", len(a.Of))
	}
	for i, k := range a.Of {
		if bad := part.CleanText(k, 40); bad != "" || k == "" {
			return fault(fmt.Sprintf("%s/of/%d", at, i), "%s", orEmpty(bad))
		}
		if slices.Contains(a.Of[:i], k) {
			return fault(fmt.Sprintf("%s/of/%d", at, i), "%s stands twice", k)
		}
	}
	return nil
}

func (p *Panel) validJoins() *FileError {
	if len(p.Joins) > MaxJoins {
		return fault("/joins", "holds %d joins; at most %d", len(p.Joins), MaxJoins)
	}
	names := map[string]bool{}
	for i, j := range p.Joins {
		at := fmt.Sprintf("/joins/%d", i)
		if e := namedSet(at, "terminals", j.Name, j.Terminals, names); e != nil {
			return e
		}
		for k, name := range j.Terminals {
			t, _ := ParseTerminal(name)
			if _, ok := p.HoleOf(t); !ok {
				return fault(fmt.Sprintf("%s/terminals/%d", at, k), "%q is no terminal of a placed part, such as R1.2", name)
			}
		}
	}
	return nil
}

// namedSet checks a list that carries a name of its own.
func namedSet(at, member, name string, list []string, names map[string]bool) *FileError {
	if bad := part.CleanText(name, MaxLegend); bad != "" || name == "" {
		return fault(at+"/name", "must be a short name: %s", orEmpty(bad))
	}
	if names[name] {
		return fault(at+"/name", "%q stands twice", name)
	}
	names[name] = true
	if len(list) > MaxMembers {
		return fault(at+"/"+member, "holds %d; at most %d", len(list), MaxMembers)
	}
	for i, s := range list {
		pointer := fmt.Sprintf("%s/%s/%d", at, member, i)
		if bad := part.CleanText(s, 40); bad != "" {
			return fault(pointer, "%s", bad)
		}
		if slices.Contains(list[:i], s) {
			return fault(pointer, "%q stands twice", s)
		}
	}
	return nil
}

func orEmpty(bad string) string {
	if bad == "" {
		return "it is empty"
	}
	return bad
}

func (p *Panel) validPins() *FileError {
	for _, signal := range sortedKeys(p.Pins.Locked) {
		pointer := "/pins/locked/" + escape(signal)
		if bad := part.CleanText(signal, 40); bad != "" || signal == "" {
			return fault(pointer, "name a signal, such as U2.SDA or row 0")
		}
		if gpio := p.Pins.Locked[signal]; !gpioRx.MatchString(gpio) {
			return fault(pointer, "%q is not a GPIO name such as GP4", gpio)
		}
	}
	for i, g := range p.Pins.KeepFree {
		pointer := fmt.Sprintf("/pins/keep_free/%d", i)
		if !gpioRx.MatchString(g) {
			return fault(pointer, "%q is not a GPIO name such as GP4", g)
		}
		if slices.Contains(p.Pins.KeepFree[:i], g) {
			return fault(pointer, "%s stands twice", g)
		}
	}
	for i, w := range p.Pins.Prefer {
		pointer := fmt.Sprintf("/pins/prefer/%d", i)
		if !slices.Contains(Spared, w) {
			return fault(pointer, "%q is none of %q", w, Spared)
		}
		if slices.Contains(p.Pins.Prefer[:i], w) {
			return fault(pointer, "%s stands twice", w)
		}
	}
	return nil
}
