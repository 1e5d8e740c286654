package ipc356_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"fascia/design/ipc356"
)

// sample has one record a used hole; columns as in the printed sample record of a vendor's page,
// "Using IPC-D356 to import nets and nodes".
const sample = `C  panel netlist, one record per used hole
P  JOB   PANEL1
P  CODE  00
P  UNITS CUST 0
P  TITLE FRONT PANEL REV A
P  NUM   P1
P  REV   A
P  VER   IPC-D-356A
P  IMAGE PRIMARY
317ROW0             SW1   -1    D0394PA00X+002000Y+003000X0709Y0000     S0
317K1               SW1   -3    D0394PA00X+002000Y+001000X0709Y0000     S0
317K1               D1    -A    D0394PA00X+006000Y+001000X0709Y0000     S0
367                 H1    -1    D1260UA00X-000500Y-000500
999
`

func TestSample(t *testing.T) {
	f, err := ipc356.Parse([]byte(sample))
	if err != nil {
		t.Fatal(err)
	}
	pad := ipc356.Point{Kind: ipc356.Through, Hole: 394, Plated: true, Width: 709, Mask: ipc356.MaskNone}
	at := func(net, ref, pin string, x, y int) ipc356.Point {
		p := pad
		p.Net, p.Ref, p.Pin, p.X, p.Y = net, ref, pin, x, y
		return p
	}
	want := []ipc356.Point{at("ROW0", "SW1", "1", 2000, 3000), at("K1", "SW1", "3", 2000, 1000), at("K1", "D1", "A", 6000, 1000),
		{Kind: ipc356.Tooling, Ref: "H1", Pin: "1", Hole: 1260, X: -500, Y: -500}}
	if !slices.Equal(f.Points, want) {
		t.Errorf("reads %+v, want %+v", f.Points, want)
	}
	if f.Job != "PANEL1" || f.Code != "00" || f.Title != "FRONT PANEL REV A" || f.Number != "P1" || f.Revision != "A" || f.Units != ipc356.TenThousandthInch {
		t.Errorf("head reads %+v", f)
	}
	var nets []string
	for _, n := range f.Nets() {
		nets = append(nets, n.Name)
	}
	if !slices.Equal(nets, []string{"ROW0", "K1"}) {
		t.Errorf("nets are %q", nets)
	}
	if again, err := f.Write(); err != nil || string(again) != sample {
		t.Errorf("written again, %v:\n%s", err, again)
	}
}

// change is the sample with one text in place of another.
func change(old, new string) string {
	if !strings.Contains(sample, old) {
		panic("the sample holds no " + old)
	}
	return strings.Replace(sample, old, new, 1)
}

// What another writer may leave out, add or shift, as public readers report that writers do.
func TestParseTakes(t *testing.T) {
	tests := []struct{ name, text string }{
		{"lines that end in CR LF", strings.ReplaceAll(sample, "\n", "\r\n")},
		{"no newline at the end", strings.TrimSuffix(sample, "\n")},
		{"blank lines", strings.ReplaceAll(sample, "\n", "\n   \n")},
		{"units without a number", change("CUST 0", "CUST")},
		{"a number of the record", change("S0\n", "S0000012\n")},
		{"fields behind column 41 that are shifted", change("X0709Y0000     S0", " X0709 Y0000 S0")},
		{"a turn of nought", change("X0709Y0000     S0", "X0709Y0000R000 S0")},
		{"a tooling hole on no net", change("367                 H1", "367N/C              H1")},
		{"a value not in column 10", change("P  JOB   PANEL1", "P  JOB PANEL1")},
	}
	want, err := ipc356.Parse([]byte(sample))
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range tests {
		got, err := ipc356.Parse([]byte(tt.text))
		if err != nil || !slices.Equal(got.Points, want.Points) || got.Job != want.Job || got.Units != want.Units {
			t.Errorf("%s: %v, %+v", tt.name, err, got)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		name, text   string
		line, column int
		says         string
	}{
		{"nothing", "", 1, 1, "999"},
		{"no end", change("999\n", ""), 14, 1, "999"},
		{"something behind the end", sample + "C  more\n", 15, 1, "after the record 999"},
		{"units that readers dispute", change("CUST 0", "CUST 2"), 4, 10, "readers disagree"},
		{"no units", change("P  UNITS CUST 0\n", ""), 8, 4, "UNITS must come"},
		{"another version", change("IPC-D-356A", "IPC-D-356B"), 8, 10, "version"},
		{"a parameter twice", change("P  REV   A", "P  NUM   A"), 7, 4, "NUM stands twice"},
		{"a parameter that is not known", change("P  REV ", "P  REF "), 7, 4, `"REF" is not known`},
		{"the job not first", change("P  JOB   PANEL1\n", ""), 2, 4, "JOB"},
		{"a parameter behind the image", change("P  IMAGE PRIMARY\n", "P  IMAGE PRIMARY\nP  REV   B\n"), 10, 4, "after"},
		{"another image", change("PRIMARY", "PANEL"), 9, 10, "PRIMARY"},
		{"records before the image", change("P  IMAGE PRIMARY\n", ""), 9, 1, "IMAGE PRIMARY"},
		{"a letter that is not ASCII", change("PANEL1", "PANÉL1"), 2, 13, "0xc3"},
		{"a tab", change("SW1   -1", "SW1\t-1"), 10, 24, "0x09"},
		{"a long line", change("REV A\n", "REV A"+strings.Repeat(".", 80)+"\n"), 5, 81, "80 columns"},
		{"a comment that begins early", change("C  panel", "C panel"), 1, 2, "column 4"},
		{"a net without a name", change("ROW0", "    "), 10, 4, "name of the net"},
		{"a net name of 15", change("ROW0           ", "ROW0ROW0ROW0ROW"), 10, 18, "18 to 20"},
		{"an alias of nothing", change("ROW0  ", "NNAME1"), 10, 4, "NNAME1"},
		{"an alias of a pin that is not said", change("SW1   -1 ", "SW1   -~1"), 10, 28, "~1"},
		{"a pin without a dash", change("SW1   -1", "SW1    1"), 10, 27, "dash"},
		{"a dash without a pin", change("SW1   -1", "SW1   - "), 10, 27, "dash"},
		{"a mid that is none", change("-1    D", "-1   ED"), 10, 32, "M"},
		{"a hole of no size", change("D0394P", "D0000P"), 10, 34, "diameter"},
		{"a hole of letters", change("D0394P", "D+394P"), 10, 34, "diameter"},
		{"a through hole without a hole", change("D0394P", "      "), 10, 1, "does not go with kind 317"},
		{"a pad with a hole", change("317ROW0", "327ROW0"), 10, 1, "does not go with kind 327"},
		{"a plated tooling hole", change("D1260U", "D1260P"), 13, 1, "plated"},
		{"neither plated nor not", change("D0394P", "D0394X"), 10, 38, "P nor U"},
		{"no side", change("PA00", "P   "), 10, 39, "side"},
		{"a side of letters", change("PA00", "PA0B"), 10, 40, "side"},
		{"five digits", change("X+002000", "X+02000 "), 10, 42, "six digits"},
		{"no sign", change("X+002000", "X0002000"), 10, 42, "sign"},
		{"no Y", change("Y+003000", "        "), 10, 58, "Y, a sign"},
		{"a pad of three digits", change("X0709Y", "X709 Y"), 10, 59, "4 digits"},
		{"a mask of 4", change("S0", "S4"), 10, 74, "mask"},
		{"a full turn", change("Y0000     S0", "Y0000R360 S0"), 10, 1, "out of range"},
		{"a letter that has no meaning", change("     S0", " Q   S0"), 10, 69, `"Q"`},
		{"a continuation", change("367 ", "017 "), 13, 1, "continuation"},
		{"a conductor", change("367 ", "378 "), 13, 1, "conductor"},
		{"a record that is none", change("367 ", "467 "), 13, 1, "no record"},
		{"an alias twice", change("P  IMAGE PRIMARY\n", "P  IMAGE PRIMARY\nP  NNAME1 A\nP  NNAME1 B\n"), 11, 4, "twice"},
		{"an alias before the image", change("P  IMAGE", "P  NNAME1 A\nP  IMAGE"), 9, 4, "before"},
		{"an alias in no quotes", change("P  IMAGE", "C  ALIAS PIN ~1 = A\nP  IMAGE"), 9, 10, "reads"},
		{"an alias that breaks off", change("P  IMAGE", "C  ALIAS PIN ~1 = \"A\nP  IMAGE"), 9, 19, "quotes"},
		{"an alias for a plain pin", change("P  IMAGE", "C  ALIAS PIN 1 = \"A\"\nP  IMAGE"), 9, 10, "no alias"},
		{"an alias behind the records", change("999", "C  ALIAS PIN ~1 = \"A\"\n999"), 14, 4, "before the first"},
	}
	for _, tt := range tests {
		f, err := ipc356.Parse([]byte(tt.text))
		var fault ipc356.Fault
		if !errors.As(err, &fault) {
			t.Errorf("%s: read as %+v, %v", tt.name, f, err)
			continue
		}
		if fault.Line != tt.line || fault.Column != tt.column || !strings.Contains(fault.Text, tt.says) {
			t.Errorf("%s: %v; want line %d, column %d, %q", tt.name, err, tt.line, tt.column, tt.says)
		}
	}
}

// Both units: 2.54 mm is 1000 of 0.0001 inch and 2540 of 0.001 mm (0.1 inch exactly; international
// inch of 25.4 mm).
func TestUnits(t *testing.T) {
	tests := []struct {
		units ipc356.Units
		word  string
		pitch int
	}{{ipc356.TenThousandthInch, "CUST 0", 1000}, {ipc356.Micrometre, "CUST 1", 2540}}
	for _, tt := range tests {
		if got := tt.units.Counts(2.54); got != tt.pitch {
			t.Errorf("%s: the pitch is %d counts, want %d", tt.word, got, tt.pitch)
		}
		for _, n := range []int{0, 1, -1, 394, 999999, -999999} {
			if got := tt.units.Counts(tt.units.Millimetres(n)); got != n {
				t.Errorf("%s: %d counts come back as %d", tt.word, n, got)
			}
		}
		text, err := (&ipc356.File{Job: "J", Units: tt.units}).Write()
		if err != nil || !strings.Contains(string(text), "P  UNITS "+tt.word+"\n") {
			t.Errorf("%s: %v\n%s", tt.word, err, text)
		}
	}
	f, err := ipc356.Parse([]byte(change("CUST 0", "SI")))
	if err != nil || f.Units != ipc356.Micrometre {
		t.Errorf("SI: %v, %+v", err, f)
	}
}
