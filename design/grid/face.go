package grid

import "fmt"

// A Face is one side of the board.
type Face uint8

// Front is the player's side, Back the other.
const (
	Front Face = iota
	Back
)

// Other returns the opposite face.
func (f Face) Other() Face { return Back - f }

// String returns front or back.
func (f Face) String() string {
	if f == Back {
		return "back"
	}
	return "front"
}

// MarshalText writes front or back.
func (f Face) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText reads front or back and nothing else.
func (f *Face) UnmarshalText(text []byte) error {
	switch string(text) {
	case "front":
		*f = Front
	case "back":
		*f = Back
	default:
		return fmt.Errorf("face %q: write front or back", text)
	}
	return nil
}

// A Turn counts quarter turns clockwise seen from the front, 0 to 3.
type Turn uint8

// Valid reports whether t is 0, 1, 2 or 3.
func (t Turn) Valid() bool { return t < 4 }

// A Pose is how a part lies on the board: the hole of its first terminal, its quarter turns, and
// the face its body is on. A part on the back is seen through the board: its columns are mirrored
// first, then it is turned.
type Pose struct {
	At   Hole
	Turn Turn
	Face Face
}

// Hole returns where offset o of the part, drawn at turn 0 on the front, comes to lie.
func (p Pose) Hole(o Offset) Hole {
	if p.Face == Back {
		o.Cols = -o.Cols
	}
	for range p.Turn % 4 {
		o.Cols, o.Rows = -o.Rows, o.Cols
	}
	return p.At.Add(o)
}

// Point returns where a point of the part, in millimetres from its first terminal's hole, drawn at
// turn 0 on the front, comes to lie.
func (p Pose) Point(q Point) Point {
	if p.Face == Back {
		q.X = -q.X
	}
	for range p.Turn % 4 {
		q.X, q.Y = -q.Y, q.X
	}
	return p.At.Centre().Add(q)
}

// Rect returns where a rectangle of the part comes to lie.
func (p Pose) Rect(r Rect) Rect { return RectOf(p.Point(r.Min), p.Point(r.Max)) }

// Side returns the board face on which something lies that the part, drawn on the front, has on f.
func (p Pose) Side(f Face) Face {
	if p.Face == Back {
		return f.Other()
	}
	return f
}
