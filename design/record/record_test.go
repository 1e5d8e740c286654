package record

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseID(t *testing.T) {
	tests := []struct {
		name, in string
		want     bool
	}{
		{"sixteen of the alphabet", "0123456789abcdef", true},
		{"too short", "0123456789abcde", false},
		{"too long", "0123456789abcdef0", false},
		{"empty", "", false},
		{"a letter that looks like a digit", "0123456789abcdel", false},
		{"a capital", "0123456789abcdeF", false},
		{"a slash still encoded in the address", "a%2Fb012345678ab", false},
		{"a NUL", "0123456789abcde\x00", false},
		{"a path", "../../etc/passwd", false},
	}
	for _, tt := range tests {
		if id, ok := ParseID(tt.in); ok != tt.want || ok && string(id) != tt.in {
			t.Errorf("%s: ParseID(%q) = %q, %v", tt.name, tt.in, id, ok)
		}
	}
}

func TestNewID(t *testing.T) {
	if got := NewID([10]byte{}); got != "0000000000000000" {
		t.Errorf("all zero bits gave %q", got)
	}
	// 0x00 44 32 14 c7 in groups of five bits counts 0 1 2 3 4 5 6 7 (RFC 4648 section 6 grouping).
	if got := NewID([10]byte{0x00, 0x44, 0x32, 0x14, 0xc7}); !strings.HasPrefix(string(got), "01234567") {
		t.Errorf("counting bits gave %q", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		var bytes [2][10]byte
		for i := range bytes {
			copy(bytes[i][:], rapid.SliceOfN(rapid.Byte(), 10, 10).Draw(t, "bytes"))
		}
		a, b := NewID(bytes[0]), NewID(bytes[1])
		if _, ok := ParseID(string(a)); !ok {
			t.Fatalf("%x gave %q, which is no id", bytes[0], a)
		}
		if (a == b) != (bytes[0] == bytes[1]) {
			t.Fatalf("%x gave %q and %x gave %q", bytes[0], a, bytes[1], b)
		}
	})
}

func TestValidCommand(t *testing.T) {
	tests := []struct {
		name, in string
		want     bool
	}{
		{"a random UUID", "3f0c2a52-7b1e-4c8e-9a53-0d8f5b0a6c11", true},
		{"one letter", "a", true},
		{"64 letters", strings.Repeat("x", 64), true},
		{"65 letters", strings.Repeat("x", 65), false},
		{"empty", "", false},
		{"a space", "a b", false},
		{"a letter outside ASCII", "é", false},
	}
	for _, tt := range tests {
		if got := ValidCommand(tt.in); got != tt.want {
			t.Errorf("%s: ValidCommand(%q) = %v", tt.name, tt.in, got)
		}
	}
}
