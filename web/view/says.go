package view

import (
	"strconv"
	"strings"
)

func int64Text(n int64) string { return strconv.FormatInt(n, 10) }

// roomLabel names the column that belongs to a room.
func roomLabel(room string) string {
	switch room {
	case "place":
		return "Parts shelf"
	case "scan":
		return "Keys and chords"
	case "wire":
		return "Pins and wires"
	default:
		return "Checklist"
	}
}

func severitySays(severity string) string {
	switch severity {
	case "stop":
		return "Stop"
	case "mind":
		return "Mind"
	default:
		return "Note"
	}
}

func historySays(verb, deed string) string {
	if deed == "" {
		return "Nothing to " + strings.ToLower(verb)
	}
	return verb + ": " + deed
}

func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }

func otherFace(s Sheet) string {
	if s.Face.String() == "front" {
		return s.Back
	}
	return s.Front
}

// refOf is the part that a key belongs to.
func refOf(key string) string {
	ref, _, _ := strings.Cut(key, ".")
	return ref
}

// roomName is the room's name as a heading has it.
func roomName(room string) string { return capital(room) + " room" }
