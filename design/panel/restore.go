package panel

import (
	"encoding/json"
	"reflect"

	"fascia/design/part"
)

// Restore puts members of a panel back to what they were. It is the inverse of every edit, its own
// included. A nil member stays as it is; a nil entry in Placed or Parts is taken away.
type Restore struct {
	What   string                      `json:"label"`
	Name   *string                     `json:"name,omitempty"`
	Notes  *string                     `json:"notes,omitempty"`
	Boards *[]Board                    `json:"boards,omitempty"`
	Parts  map[string]*part.Definition `json:"parts,omitempty"`
	Placed map[string]*Placed          `json:"placed,omitempty"`
	Scan   *Scan                       `json:"scan,omitempty"`
	Chords *[]Chord                    `json:"chords,omitempty"`
	Joins  *[]Join                     `json:"joins,omitempty"`
	Pins   *Pins                       `json:"pins,omitempty"`
	Wires  *Wires                      `json:"wires,omitempty"`
}

// Do is the edit's name.
func (e *Restore) Do() string { return "restore" }

// Label is the label of the edit that it takes back or does again.
func (e *Restore) Label() string { return e.What }

func (e *Restore) apply(p *Panel) error {
	put(&p.Name, e.Name)
	put(&p.Notes, e.Notes)
	put(&p.Boards, e.Boards)
	put(&p.Scan, e.Scan)
	put(&p.Chords, e.Chords)
	put(&p.Joins, e.Joins)
	put(&p.Pins, e.Pins)
	put(&p.Wires, e.Wires)
	for id, d := range e.Parts {
		if d == nil {
			delete(p.Parts, id)
		} else {
			p.Parts[id] = *d
		}
	}
	if len(e.Placed) == 0 {
		return nil
	}
	var kept []Placed
	for _, pl := range p.Placed {
		if _, changed := e.Placed[pl.Ref]; !changed {
			kept = append(kept, pl)
		}
	}
	for _, pl := range e.Placed {
		if pl != nil {
			kept = append(kept, pl.clone())
		}
	}
	p.Placed = kept // Tidy puts them in order
	return nil
}

// between returns the edit that leads from one panel to another.
func between(from, to Panel, label string) *Restore {
	e := &Restore{What: label,
		Name: changed(from.Name, to.Name), Notes: changed(from.Notes, to.Notes),
		Boards: changed(from.Boards, to.Boards), Scan: changed(from.Scan, to.Scan),
		Chords: changed(from.Chords, to.Chords), Joins: changed(from.Joins, to.Joins),
		Pins: changed(from.Pins, to.Pins), Wires: changed(from.Wires, to.Wires),
		Parts: map[string]*part.Definition{}, Placed: map[string]*Placed{},
	}
	for id := range from.Parts {
		if _, ok := to.Parts[id]; !ok {
			e.Parts[id] = nil
		}
	}
	for id, d := range to.Parts {
		if old, ok := from.Parts[id]; !ok || !SameDefinition(old, d) {
			e.Parts[id] = &d
		}
	}
	for _, pl := range from.Placed {
		if to.Find(pl.Ref) == nil {
			e.Placed[pl.Ref] = nil
		}
	}
	for _, pl := range to.Placed {
		if old := from.Find(pl.Ref); old == nil || !reflect.DeepEqual(*old, pl) {
			c := pl.clone()
			e.Placed[pl.Ref] = &c
		}
	}
	return e
}

// SameDefinition reports whether two definitions are written the same in a project file.
func SameDefinition(a, b part.Definition) bool {
	x, errX := json.Marshal(a)
	y, errY := json.Marshal(b)
	return errX == nil && errY == nil && string(x) == string(y)
}

func put[T any](place, value *T) {
	if value != nil {
		*place = *value
	}
}

func changed[T any](from, to T) *T {
	if reflect.DeepEqual(from, to) {
		return nil
	}
	return &to
}
