package sheet

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"fascia/design/grid"
)

func TestFitted(t *testing.T) {
	tests := []struct {
		name, in string
		want     []string
	}{
		{"one letter", "1", []string{"1"}},
		{"short", "Menu", []string{"Menu"}},
		{"two words", "Queen seen", []string{"Queen", "seen"}},
		{"three words", "Open the hive", []string{"Open", "the", "hive"}},
		{"spaces", "  a   b ", []string{"a b"}},
		{"nothing", " \t", nil},
		{"one long word", "Supercalifragilistic", []string{"Supercali", "fragilistic"}},
		{"too long", "abcdefghijklmnopqrstuvwxyz", []string{"abcdefghijklm", "nopqrstuvw…"}},
	}
	for _, tt := range tests {
		got, size := fitted(tt.in, 4.4, 4.4, 2.8)
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: fitted(%q) = %q at %.2f mm, want %q", tt.name, tt.in, got, size, tt.want)
		}
	}
}

// What fitted sets lies inside its box by its own reckoning, is readable, and keeps every letter.
func TestFittedStaysInItsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(rapid.String(), rapid.StringMatching(`[A-Za-z]{1,10}( [a-z+]{1,8}){0,3}`)).Draw(t, "text")
		w := grid.Millimetre(rapid.Float64Range(1, 30).Draw(t, "width"))
		h := grid.Millimetre(rapid.Float64Range(1, 30).Draw(t, "height"))
		lines, size := fitted(s, w, h, 2.8)
		letters := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := letters(strings.Join(lines, "")), letters(shortened(strings.Join(strings.Fields(s), " "), MaxLegend)); got != want {
			t.Fatalf("%q was set as %q", s, lines)
		}
		if len(lines) == 0 {
			return
		}
		if len(lines) > 4 || size <= 0 || size > 2.8 {
			t.Fatalf("%q takes %d lines of %v mm", s, len(lines), size)
		}
		if tall := size * (0.78 + leading*grid.Millimetre(len(lines)-1)); tall > h+0.001 {
			t.Fatalf("%q is %v mm tall in a box of %v", lines, tall, h)
		}
		for _, l := range lines {
			if breadth(l)*size > w+0.001 {
				t.Fatalf("%q is %v mm wide in a box of %v", l, breadth(l)*size, w)
			}
		}
	})
}

// A legend of the greatest length on the smallest key is still 0.6 mm high, which three steps of
// zoom make 6 mm on a screen.
func TestLongestLegendIsReadable(t *testing.T) {
	for _, s := range []string{"Inspection finished now", "Supercalifragilisticexpi", "WWWWWWWW WWWWWWW WWWWWWW", "one two three four five"} {
		if n := utf8.RuneCountInString(s); n > MaxLegend {
			t.Fatalf("%q has %d characters", s, n)
		}
		if _, size := fitted(s, 4.4, 4.4, 2.8); size < 0.48 {
			t.Errorf("%q is set at %.2f mm", s, size)
		}
	}
}

func TestShortened(t *testing.T) {
	for _, tt := range []struct {
		in   string
		n    int
		want string
	}{{"abc", 3, "abc"}, {"abcd", 3, "ab…"}, {"äöü", 3, "äöü"}, {"", 3, ""}} {
		if got := shortened(tt.in, tt.n); got != tt.want {
			t.Errorf("shortened(%q, %d) = %q, want %q", tt.in, tt.n, got, tt.want)
		}
	}
}
