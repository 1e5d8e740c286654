package panel

import (
	"slices"
	"strings"

	"fascia/design/grid"
)

// Rename gives the panel another name.
type Rename struct {
	Name string `json:"name"`
}

// Do is the edit's name.
func (e *Rename) Do() string { return "rename" }

// Label says so.
func (e *Rename) Label() string { return "Rename the panel" }

func (e *Rename) apply(p *Panel) error { p.Name = strings.TrimSpace(e.Name); return nil }

// SetNotes changes the maker's notes.
type SetNotes struct {
	Notes string `json:"notes"`
}

// Do is the edit's name.
func (e *SetNotes) Do() string { return "note" }

// Label says so.
func (e *SetNotes) Label() string { return "Change the notes" }

func (e *SetNotes) apply(p *Panel) error { p.Notes = e.Notes; return nil }

// SetBoard adds a board, or changes the one with its id.
type SetBoard struct {
	Board Board `json:"board"`
}

// Do is the edit's name.
func (e *SetBoard) Do() string { return "board" }

// Label names the board.
func (e *SetBoard) Label() string { return "Board " + e.Board.ID }

func (e *SetBoard) apply(p *Panel) error {
	for i := range p.Boards {
		if p.Boards[i].ID == e.Board.ID {
			p.Boards[i] = e.Board
			return nil
		}
	}
	p.Boards = append(p.Boards, e.Board)
	return nil
}

// RemoveBoard takes a board away; parts on it stay where they are, off every board. Boards whose
// seam named it stand alone.
type RemoveBoard struct {
	ID string `json:"id"`
}

// Do is the edit's name.
func (e *RemoveBoard) Do() string { return "remove-board" }

// Label names the board.
func (e *RemoveBoard) Label() string { return "Remove board " + e.ID }

func (e *RemoveBoard) apply(p *Panel) error {
	i := slices.IndexFunc(p.Boards, func(b Board) bool { return b.ID == e.ID })
	if i < 0 {
		return refuse("there is no board %q", e.ID)
	}
	if len(p.Boards) == 1 {
		return refuse("a panel has at least one board")
	}
	p.Boards = slices.Delete(p.Boards, i, i+1)
	for i := range p.Boards {
		if s := p.Boards[i].Seam; s != nil && s.Board == e.ID {
			p.Boards[i].Seam = nil
		}
	}
	return nil
}

// SetScan changes the wishes for reading the keys.
type SetScan struct {
	Scan Scan `json:"scan"`
}

// Do is the edit's name.
func (e *SetScan) Do() string { return "scan" }

// Label says so.
func (e *SetScan) Label() string { return "Change how keys are read" }

func (e *SetScan) apply(p *Panel) error { p.Scan = e.Scan; return nil }

// SetChord adds a chord, or changes the one with its name.
type SetChord struct {
	Name string   `json:"name"`
	Keys []string `json:"keys"`
	Any  []AnyOf  `json:"any,omitempty"`
}

// Do is the edit's name.
func (e *SetChord) Do() string { return "chord" }

// Label names the chord.
func (e *SetChord) Label() string { return "Chord " + e.Name }

func (e *SetChord) apply(p *Panel) error {
	keys := p.Keys()
	chord := Chord{strings.TrimSpace(e.Name), e.Keys, e.Any}.clone()
	for _, id := range chord.All() {
		if !slices.ContainsFunc(keys, func(k KeyRef) bool { return k.ID == id }) {
			return refuse("%s is no key of this panel", id)
		}
	}
	for i := range p.Chords {
		if p.Chords[i].Name == chord.Name {
			p.Chords[i] = chord
			return nil
		}
	}
	p.Chords = append(p.Chords, chord)
	return nil
}

// RemoveChord forgets a chord.
type RemoveChord struct {
	Name string `json:"name"`
}

// Do is the edit's name.
func (e *RemoveChord) Do() string { return "remove-chord" }

// Label names the chord.
func (e *RemoveChord) Label() string { return "Remove chord " + e.Name }

func (e *RemoveChord) apply(p *Panel) error {
	i := slices.IndexFunc(p.Chords, func(c Chord) bool { return c.Name == e.Name })
	if i < 0 {
		return refuse("there is no chord %q", e.Name)
	}
	p.Chords = slices.Delete(p.Chords, i, i+1)
	return nil
}

// LockPin ties a signal to a GPIO; an empty GPIO unties it. Whether the GPIO can do it is for the
// plan to say, since other wishes may make room later.
type LockPin struct {
	Signal string `json:"signal"`
	GPIO   string `json:"gpio"`
}

// Do is the edit's name.
func (e *LockPin) Do() string { return "lock-pin" }

// Label names the signal.
func (e *LockPin) Label() string {
	if e.GPIO == "" {
		return "Unlock " + e.Signal
	}
	return "Lock " + e.Signal + " to " + e.GPIO
}

func (e *LockPin) apply(p *Panel) error {
	if e.GPIO == "" {
		delete(p.Pins.Locked, e.Signal)
		return nil
	}
	p.Pins.Locked[e.Signal] = e.GPIO
	return nil
}

// KeepFree asks that a GPIO be left alone, or takes that back.
type KeepFree struct {
	GPIO string `json:"gpio"`
	Keep bool   `json:"keep"`
}

// Do is the edit's name.
func (e *KeepFree) Do() string { return "keep-free" }

// Label names the pin.
func (e *KeepFree) Label() string {
	if e.Keep {
		return "Keep " + e.GPIO + " free"
	}
	return "Give " + e.GPIO + " back"
}

func (e *KeepFree) apply(p *Panel) error {
	p.Pins.KeepFree = slices.DeleteFunc(p.Pins.KeepFree, func(g string) bool { return g == e.GPIO })
	if e.Keep {
		p.Pins.KeepFree = append(p.Pins.KeepFree, e.GPIO)
	}
	return nil
}

// Prefer orders what the pins are to spare, the most important first; what is left out is not spared.
type Prefer struct {
	Spare []string `json:"spare"`
}

// Do is the edit's name.
func (e *Prefer) Do() string { return "prefer" }

// Label says so.
func (e *Prefer) Label() string { return "Change what the pins spare" }

func (e *Prefer) apply(p *Panel) error {
	p.Pins.Prefer = append([]string{}, e.Spare...)
	return nil
}

// SetJoin asks for a connection between terminals, or changes the one with its name.
type SetJoin struct {
	Name      string   `json:"name"`
	Terminals []string `json:"terminals"`
}

// Do is the edit's name.
func (e *SetJoin) Do() string { return "join" }

// Label names the connection.
func (e *SetJoin) Label() string { return "Join " + e.Name }

func (e *SetJoin) apply(p *Panel) error {
	for i := range p.Joins {
		if p.Joins[i].Name == e.Name {
			p.Joins[i].Terminals = slices.Clone(e.Terminals)
			return nil
		}
	}
	p.Joins = append(p.Joins, Join{Name: strings.TrimSpace(e.Name), Terminals: slices.Clone(e.Terminals)})
	return nil
}

// RemoveJoin takes a connection of the maker's back.
type RemoveJoin struct {
	Name string `json:"name"`
}

// Do is the edit's name.
func (e *RemoveJoin) Do() string { return "remove-join" }

// Label names the connection.
func (e *RemoveJoin) Label() string { return "Remove join " + e.Name }

func (e *RemoveJoin) apply(p *Panel) error {
	i := slices.IndexFunc(p.Joins, func(j Join) bool { return j.Name == e.Name })
	if i < 0 {
		return refuse("there is no join %q", e.Name)
	}
	p.Joins = slices.Delete(p.Joins, i, i+1)
	return nil
}

// KeepOut forbids a hole to wires, or allows it again.
type KeepOut struct {
	Hole grid.Hole `json:"hole"`
	Keep bool      `json:"keep"`
}

// Do is the edit's name.
func (e *KeepOut) Do() string { return "keep-out" }

// Label names the hole.
func (e *KeepOut) Label() string {
	if e.Keep {
		return "Keep wires out of " + e.Hole.String()
	}
	return "Let wires use " + e.Hole.String()
}

func (e *KeepOut) apply(p *Panel) error {
	p.Wires.KeepOut = slices.DeleteFunc(p.Wires.KeepOut, func(h grid.Hole) bool { return h == e.Hole })
	if e.Keep {
		p.Wires.KeepOut = append(p.Wires.KeepOut, e.Hole)
	}
	return nil
}
