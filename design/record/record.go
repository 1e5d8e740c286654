// Package record holds the words that whoever keeps panels and whoever shows them share: the id of
// a kept panel, its entry in the list, what an edit led to, saved parts with their stock, and the
// ways in which keeping can say no. It keeps nothing itself.
package record

import (
	"errors"
	"strings"
	"time"

	"fascia/design/part"
)

// The ways in which a store says no. Errors from a store wrap one of them, or are failures of the
// program.
var (
	ErrNotFound = errors.New("not found")
	ErrConflict = errors.New("does not fit what is stored")
	ErrNothing  = errors.New("nothing left to take back or do again")
	ErrFull     = errors.New("no room left on the disk")
	ErrTooLarge = errors.New("larger than can be kept")
)

// An ID names a kept panel: 16 characters of Alphabet, chosen at random.
type ID string

// Alphabet holds the characters of an ID: digits and small letters without those that look alike.
const Alphabet = "0123456789abcdefghjkmnpqrstvwxyz"

const idLength = 16

// NewID makes an id of 80 bits out of ten random bytes.
func NewID(random [10]byte) ID {
	var text [idLength]byte
	bits, have, next := uint32(0), 0, 0
	for i := range text {
		for have < 5 {
			bits = bits<<8 | uint32(random[next])
			next++
			have += 8
		}
		have -= 5
		text[i] = Alphabet[bits>>have&31]
	}
	return ID(text[:])
}

// ParseID reports whether s has the form of an ID.
func ParseID(s string) (ID, bool) {
	if len(s) != idLength || strings.Trim(s, Alphabet) != "" {
		return "", false
	}
	return ID(s), true
}

// ValidCommand reports whether s may name a command: 1 to 64 letters, digits, dashes and
// underscores. A client makes one up for each command, so that sending it again does it only once.
func ValidCommand(s string) bool {
	for _, r := range s {
		if !strings.ContainsRune("0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-_", r) {
			return false
		}
	}
	return len(s) >= 1 && len(s) <= 64
}

// An Entry is one line of the list of panels. Deleted is zero unless the panel is in the trash.
type Entry struct {
	ID                        ID
	Name                      string
	Rev                       int64
	Created, Changed, Deleted time.Time
}

// Trashed reports whether the panel has been deleted and can still be restored.
func (e Entry) Trashed() bool { return !e.Deleted.IsZero() }

// Steps says what undo and redo would do; empty when there is nothing to do.
type Steps struct {
	Undo string `json:"undo"`
	Redo string `json:"redo"`
}

// A Change is the answer to a command: the revision it made and what undo and redo would now do.
type Change struct {
	Rev int64 `json:"rev"`
	Steps
}

// A File is one output of a plan.
type File struct {
	Name  string // slash-separated, such as wiring.csv
	Media string // its media type, such as text/csv; charset=utf-8
	Data  []byte
}

// A SavedPart is one of the maker's own definitions.
type SavedPart struct {
	ID         string
	Definition part.Definition
	Changed    time.Time
}
