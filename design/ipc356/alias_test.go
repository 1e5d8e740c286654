package ipc356_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/ipc356"

	"pgregory.net/rapid"
)

// point is a bare point on a net.
func point(net, ref, pin string) ipc356.Point {
	return ipc356.Point{Kind: ipc356.Through, Net: net, Ref: ref, Pin: pin, Hole: 394}
}

// The field of a net holds 14 characters; a longer name is a record NNAMEn, and the test records
// carry NNAMEn ("IPC-D-356A Netlist Format", guide of 23 pages, Organization).
func TestLongNamesOfNets(t *testing.T) {
	f := ipc356.File{Job: "J", Points: []ipc356.Point{
		point("exactly 14 ch.", "U1", "1"), point("one more than 14", "U1", "2"), point("one more than 14", "U1", "3"),
		point("Lautstärke", "U1", "4"), point("音", "U1", "5"), point("音", "U1", "6"), point("響", "U1", "7"), point("Lautst?rke", "U1", "8"),
		point("N/C", "U1", "9"), point("NNAME1", "U1", "10"), point("", "U1", "11"), point(strings.Repeat("long ", 30)+"name", "U1", "12"),
	}}
	text, err := f.Write()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"\n317exactly 14 ch.   U1    -1    D0394U",
		"\nP  NNAME1 one more than 14\n",
		"\n317NNAME1           U1    -2    D",
		"\n317NNAME1           U1    -3    D",
		"\nP  NNAME2 Lautst?rke~2\n" + `C  ALIAS NNAME2 = "Lautst\u00e4rke"` + "\n",
		"\nP  NNAME3 ?\n" + `C  ALIAS NNAME3 = "\u97f3"` + "\n",
		"\nP  NNAME4 ?~2\n" + `C  ALIAS NNAME4 = "\u97ff"` + "\n",
		"\n317Lautst?rke       U1    -8",
		"\nP  NNAME5 N/C~2\n" + `C  ALIAS NNAME5 = "N/C"` + "\n",
		"\nP  NNAME6 NNAME1~2\n",
		"\n317N/C              U1    -11 ",
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the file lacks %q:\n%s", want, text)
		}
	}
	again, err := ipc356.Parse(text)
	if err != nil || !slices.Equal(again.Points, f.Points) {
		t.Errorf("%v: read back as %+v", err, again)
	}
}

// References hold 6 characters and pins 4 (columns 21 to 26 and 28 to 31).
func TestLongReferencesAndPins(t *testing.T) {
	f := ipc356.File{Job: "J", Points: []ipc356.Point{
		point("a", "ABCDEF", "1234"), point("a", "ABCDEFG", "12345"), point("b", "U1", "ADC_VREF"), point("b", "U2", "ADC_VREF"), point("c", "~1", "~1"),
	}}
	text, err := f.Write()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"\n317a                ABCDEF-1234 D", `C  ALIAS REF ~1 = "ABCDEFG"`, `C  ALIAS PIN ~1 = "12345"`, "\n317a                ~1    -~1   D",
		`C  ALIAS PIN ~2 = "ADC_VREF"`, "\n317b                U1    -~2   D", "\n317b                U2    -~2   D", `C  ALIAS REF ~2 = "~1"`,
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the file lacks %q:\n%s", want, text)
		}
	}
	again, err := ipc356.Parse(text)
	if err != nil || !slices.Equal(again.Points, f.Points) {
		t.Errorf("%v: read back as %+v", err, again)
	}
}

func TestWriteRefuses(t *testing.T) {
	good := point("a", "U1", "1")
	with := func(change func(*ipc356.Point)) ipc356.File {
		p := good
		change(&p)
		return ipc356.File{Points: []ipc356.Point{p}}
	}
	tests := []struct {
		name string
		file ipc356.File
		says string
	}{
		{"a coordinate of seven digits", with(func(p *ipc356.Point) { p.X = 1000000 }), "six digits"},
		{"one below nought", with(func(p *ipc356.Point) { p.Y = -1000000 }), "six digits"},
		{"a hole of five digits", with(func(p *ipc356.Point) { p.Hole = 10000 }), "four digits"},
		{"no hole", with(func(p *ipc356.Point) { p.Hole = 0 }), "hole of 0"},
		{"a kind of its own", with(func(p *ipc356.Point) { p.Kind = "999" }), "none of"},
		{"a pin of nothing", with(func(p *ipc356.Point) { p.Ref = "" }), "no reference"},
		{"a turn of 360", with(func(p *ipc356.Point) { p.Turn = 360 }), "out of range"},
		{"a side of three digits", with(func(p *ipc356.Point) { p.Side = 100 }), "out of range"},
		{"a pad without a width", with(func(p *ipc356.Point) { p.Height = 5 }), "no width"},
		{"a title in Greek", ipc356.File{Title: "Φ"}, "TITLE"},
		{"a title over two lines", ipc356.File{Title: "a\nb"}, "TITLE"},
		{"a job too long", ipc356.File{Job: strings.Repeat("a", 72)}, "JOB"},
		{"a comment that would be an alias", ipc356.File{Comments: []string{`ALIAS PIN ~1 = "A"`}}, "comment"},
		{"a comment too long", ipc356.File{Comments: []string{strings.Repeat("a", 78)}}, "comment"},
		{"units of its own", ipc356.File{Units: 2}, "units"},
	}
	for _, tt := range tests {
		if text, err := tt.file.Write(); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want %q\n%s", tt.name, err, tt.says, text)
		}
	}
	many := ipc356.File{}
	for i := range 36 * 36 * 36 {
		many.Points = append(many.Points, point("a", "U1", fmt.Sprintf("terminal %d", i)))
	}
	if _, err := many.Write(); err == nil || !strings.Contains(err.Error(), "no more aliases") {
		t.Errorf("46656 long names of pins: %v", err)
	}
}

// files draws any file that can be written.
func files() *rapid.Generator[ipc356.File] {
	value := rapid.StringMatching(`([!-~]([ -~]{0,69}[!-~])?)?`)
	name := rapid.OneOf(rapid.String(), rapid.StringMatching(`[A-Z0-9 ~/?-]{1,16}`), rapid.StringMatching(`NNAME[0-9]{1,2}|N/C|~[1-3]`), rapid.StringN(1, 200, -1))
	points := rapid.Custom(func(t *rapid.T) ipc356.Point {
		p := ipc356.Point{
			Kind: rapid.SampledFrom([]ipc356.Kind{ipc356.Through, ipc356.Surface, ipc356.Tooling}).Draw(t, "kind"),
			Net:  name.Draw(t, "net"), Ref: name.Draw(t, "ref"), Mid: rapid.Bool().Draw(t, "mid"),
			Side: rapid.IntRange(0, 99).Draw(t, "side"), Turn: rapid.IntRange(0, 359).Draw(t, "turn"), Mask: ipc356.Mask(rapid.IntRange(0, 4).Draw(t, "mask")),
			X: rapid.IntRange(-999999, 999999).Draw(t, "x"), Y: rapid.IntRange(-999999, 999999).Draw(t, "y"),
			Width: rapid.IntRange(0, 9999).Draw(t, "width"),
		}
		if p.Ref != "" {
			p.Pin = name.Draw(t, "pin")
		}
		if p.Width > 0 {
			p.Height = rapid.IntRange(0, 9999).Draw(t, "height")
		}
		if p.Kind != ipc356.Surface {
			p.Hole = rapid.IntRange(1, 9999).Draw(t, "hole")
		}
		p.Plated = p.Kind == ipc356.Through && rapid.Bool().Draw(t, "plated")
		return p
	})
	return rapid.Custom(func(t *rapid.T) ipc356.File {
		return ipc356.File{
			Job: value.Draw(t, "job"), Code: value.Draw(t, "code"), Title: value.Draw(t, "title"), Number: value.Draw(t, "number"), Revision: value.Draw(t, "revision"),
			Units:    ipc356.Units(rapid.IntRange(0, 1).Draw(t, "units")),
			Comments: rapid.SliceOfN(rapid.StringMatching(`([ -~]{0,76}[!-~])?`).Filter(func(s string) bool { return !strings.HasPrefix(s, "ALIAS ") }), 0, 3).Draw(t, "comments"),
			Points:   rapid.SliceOfN(points, 0, 12).Draw(t, "points"),
		}
	})
}

// What is written is read back as it was, in lines of ASCII of 80 columns.
func TestParseUndoesWrite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := files().Draw(t, "file")
		text, err := f.Write()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(text)) {
			if line = strings.TrimSuffix(line, "\n"); len(line) > 80 || strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || r > '~' }) {
				t.Errorf("no line of the format: %q", line)
			}
		}
		again, err := ipc356.Parse(text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if !same(&f, again) {
			t.Errorf("wrote %+v, read %+v\n%s", f, again, text)
		}
	})
}

func same(a, b *ipc356.File) bool {
	return a.Job == b.Job && a.Code == b.Code && a.Title == b.Title && a.Number == b.Number && a.Revision == b.Revision && a.Units == b.Units &&
		slices.Equal(a.Comments, b.Comments) && slices.Equal(a.Points, b.Points)
}

// Whatever is read can be written, reads the same again, and is then written as it is.
func FuzzParse(f *testing.F) {
	f.Add([]byte(sample))
	f.Add([]byte(change("ROW0  ", "NNAME1")))
	f.Add([]byte(strings.Replace(change("ROW0  ", "NNAME1"), "PRIMARY\n", "PRIMARY\nP  NNAME1 a name of twenty\nC  ALIAS NNAME1 = \"\\u00e9\"\nC  ALIAS REF ~1 = \"x\"\n", 1)))
	f.Add([]byte("999"))
	f.Fuzz(func(t *testing.T, text []byte) {
		file, err := ipc356.Parse(text)
		if err != nil {
			return // refusing is fine; crashing is not
		}
		once, err := file.Write()
		if err != nil {
			t.Fatalf("read and cannot be written: %v\n%s", err, text)
		}
		again, err := ipc356.Parse(once)
		if err != nil || !same(file, again) {
			t.Fatalf("%v: %+v became %+v\n%s", err, file, again, once)
		}
		if twice, err := again.Write(); err != nil || string(twice) != string(once) {
			t.Fatalf("%v: written twice:\n%s%s", err, once, twice)
		}
	})
}
