package grid

import (
	"errors"
	"testing"

	"pgregory.net/rapid"
)

func TestHoleNames(t *testing.T) {
	tests := []struct {
		name string
		want Hole
	}{
		{"A1", Hole{0, 0}}, {"C7", Hole{2, 6}}, {"Z26", Hole{25, 25}}, {"AA1", Hole{26, 0}},
		{"AB12", Hole{27, 11}}, {"ZZ702", Hole{701, 701}},
	}
	for _, tt := range tests {
		got, err := ParseHole(tt.name)
		if err != nil || got != tt.want || got.String() != tt.name {
			t.Errorf("ParseHole(%q) = %v %q, %v; want %v", tt.name, got, got.String(), err, tt.want)
		}
	}
	if h, err := ParseHole("ab12"); err != nil || h.String() != "AB12" {
		t.Errorf("small letters: %v, %v", h, err)
	}
	for _, bad := range []string{"", "A", "1", "A0", "A01", "AAA1", "A1B", "A-1", "Ä1", "A703", "A9999", " A1", "A1 "} {
		if h, err := ParseHole(bad); !errors.Is(err, ErrHoleName) {
			t.Errorf("ParseHole(%q) = %v, %v; want a refusal", bad, h, err)
		}
	}
}

func FuzzParseHole(f *testing.F) {
	for _, s := range []string{"A1", "ZZ702", "A0", "AAA1", "é4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		h, err := ParseHole(s)
		if err != nil {
			return
		}
		if again, err := ParseHole(h.String()); err != nil || again != h || !h.Valid() {
			t.Fatalf("%q became %v, then %v, %v", s, h, again, err)
		}
	})
}

// The rules of the project file: clockwise seen from the front; a part on the back is mirrored.
func TestPose(t *testing.T) {
	at := MustHole("M10")
	tests := []struct {
		name string
		pose Pose
		off  Offset
		want string
	}{
		{"as drawn", Pose{at, 0, Front}, Offset{3, 2}, "P12"},
		{"a quarter turn takes right to down", Pose{at, 1, Front}, Offset{3, 0}, "M13"},
		{"and down to left", Pose{at, 1, Front}, Offset{0, 2}, "K10"},
		{"half a turn", Pose{at, 2, Front}, Offset{3, 2}, "J8"},
		{"three quarters", Pose{at, 3, Front}, Offset{3, 0}, "M7"},
		{"on the back columns run the other way", Pose{at, 0, Back}, Offset{3, 2}, "J12"},
		{"mirrored, then turned", Pose{at, 1, Back}, Offset{3, 0}, "M7"},
	}
	for _, tt := range tests {
		if got := tt.pose.Hole(tt.off).String(); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

// Holes and millimetres move alike, and turning keeps distances.
func TestPoseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.IntRange(-20, 20)
		p := Pose{Hole{small.Draw(t, "col") + 50, small.Draw(t, "row") + 50}, Turn(rapid.IntRange(0, 3).Draw(t, "turn")), Face(rapid.IntRange(0, 1).Draw(t, "face"))}
		o := Offset{small.Draw(t, "dc"), small.Draw(t, "dr")}
		if a, b := p.Hole(o).Centre(), p.Point(o.Point()); a.Distance(b) > 1e-9 {
			t.Fatalf("hole lies at %v, point at %v", a, b)
		}
		if a, b := p.Hole(o).Centre().Distance(p.At.Centre()), o.Point().Distance(Point{}); a-b > 1e-9 || b-a > 1e-9 {
			t.Fatalf("turning changed a distance from %v to %v", b, a)
		}
		if h := p.Hole(o); Nearest(h.Centre()) != h {
			t.Fatalf("the hole nearest to the centre of %v is %v", h, Nearest(h.Centre()))
		}
	})
}

func TestRect(t *testing.T) {
	r := RectOf(Point{5.2, 5.2}, Point{0, 0})
	if got := JoinHoles(r.Holes()); got != "A1 B1 C1 A2 B2 C2 A3 B3 C3" {
		t.Errorf("holes in 5.2 mm square: %s", got)
	}
	s := RectOf(Point{4, 4}, Point{10, 10})
	if got := r.Overlap(s); got < 1.19 || got > 1.21 {
		t.Errorf("overlap %v, want 1.2", got)
	}
	if r.Overlap(RectOf(Point{6, 0}, Point{7, 1})) > 0 || !s.Grown(-1).Inside(s) || s.Inside(r) {
		t.Error("separate rectangles overlap, or inside is wrong")
	}
}
