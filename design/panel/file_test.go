package panel

import (
	"errors"
	"strings"
	"testing"
)

func TestDecodeRefuses(t *testing.T) {
	good := bytesOf(t, twoKeys(t))
	swap := func(old, new string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("the example holds no %q", old)
		}
		return strings.Replace(good, old, new, 1)
	}
	tests := []struct{ name, text, pointer, want string }{
		{"empty", "", "", "ends in the middle"},
		{"not JSON", "hello", "", "not JSON"},
		{"cut off", good[:len(good)/2], "", ""},
		{"another program's JSON", `{"name":"x"}`, "", `"fascia" is missing`},
		{"newer", swap(`"fascia": 2`, `"fascia": 3`), "/fascia", "use a newer Fascia"},
		{"newer with members of its own", `{"fascia": 9, "colour": 1}`, "/fascia", "use a newer Fascia"},
		{"version is text", swap(`"fascia": 2`, `"fascia": "2"`), "/fascia", "whole number"},
		{"unknown member", swap(`"at": "C5"`, `"at": "C5", "glow": true`), "/placed/0/glow", "not known"},
		{"member in other case", swap(`"notes"`, `"Notes"`), "/Notes", "not known"},
		{"member twice", swap(`"notes": ""`, `"notes": "", "notes": "x"`), "/notes", "twice"},
		{"wrong type", swap(`"columns": 30`, `"columns": "30"`), "/boards/0/columns", "JSON string"},
		{"fraction", swap(`"columns": 30`, `"columns": 30.5`), "/boards/0/columns", ""},
		{"no board so large", swap(`"columns": 30`, `"columns": 1000000000`), "/boards/0/columns", "1 to 200"},
		{"hole name", swap(`"at": "C5"`, `"at": "C0"`), "/placed/0/at", "not a hole name"},
		{"unknown part", swap(`"part": "tact6"`, `"part": "tact7"`), "/placed/0/part", "no definition"},
		{"style", swap(`"style": "auto"`, `"style": "magic"`), "/scan/style", "none of"},
		{"nothing to spare so", swap(`"serial console"`, `"console"`), "/pins/prefer/0", "none of"},
		{"spared twice", swap(`"analogue pins"`, `"serial console"`), "/pins/prefer/1", "twice"},
		{"choice of none", swap(`"name": "reset",`, `"name": "reset", "any": [{"count": 1, "of": []}],`), "/chords/0/any/0/of", "1 to 64"},
		{"more than there are", swap(`"name": "reset",`, `"name": "reset", "any": [{"count": 2, "of": ["S1"]}],`), "/chords/0/any/0/count", "1 to 1"},
		{"chosen twice", swap(`"name": "reset",`, `"name": "reset", "any": [{"count": 1, "of": ["S1", "S1"]}],`), "/chords/0/any/0/of/1", "twice"},
		{"five choices", swap(`"name": "reset",`, `"name": "reset", "any": [`+strings.Repeat(`{"count": 1, "of": ["S1"]},`, 4)+`{"count": 1, "of": ["S1"]}],`), "/chords/0/any", "at most 4"},
		{"no such lamp", swap(`"reader": "pio"`, `"reader": "pio", "lamps": ["lamp"]`), "/scan/lamps/0", "name an LED"},
		{"lamp twice", swap(`"reader": "pio"`, `"reader": "pio", "lamps": ["D1", "D1"]`), "/scan/lamps/1", "twice"},
		{"bent off the grid", swap(`"locked": []`, `"locked": [{"from": "A1", "to": "B2", "kind": "bare", "face": "back", "path": ["A1", "B2"]}]`), "/wires/locked/0/path/1", "along a row"},
		{"path elsewhere", swap(`"locked": []`, `"locked": [{"from": "A1", "to": "B2", "kind": "bare", "face": "back", "path": ["A1", "A2"]}]`), "/wires/locked/0/path", "from A1 to B2"},
		{"path of an insulated wire", swap(`"locked": []`, `"locked": [{"from": "A1", "to": "A2", "kind": "insulated", "face": "back", "path": ["A1", "A2"]}]`), "/wires/locked/0/path", "bare run"},
		{"no such colour", swap(`"locked": []`, `"locked": [{"from": "A1", "to": "A2", "kind": "insulated", "face": "back", "colour": "XX"}]`), "/wires/locked/0/colour", "none of"},
		{"no such gauge", swap(`"keep_out": []`, `"keep_out": [], "nets": [{"net": "ground", "gauge": 12}]`), "/wires/nets/0/gauge", "none of"},
		{"net twice", swap(`"keep_out": []`, `"keep_out": [], "nets": [{"net": "ground"}, {"net": "ground"}]`), "/wires/nets/1/net", "twice"},
		{"ends", swap(`"keep_out": []`, `"keep_out": [], "ends": 4`), "/wires/ends", "2 or 3"},
		{"cost", swap(`"keep_out": []`, `"keep_out": [], "costs": {"bend": -1, "solder": 0, "insulated": 0, "per_hole": 0, "through": 0}`), "/wires/costs/bend", "0 to 1000"},
		{"gpio", swap(`"GP4"`, `"P4"`), "/pins/locked/S1", "not a GPIO name"},
		{"terminal twice", swap(`"name": "A2"`, `"name": "A1"`), "/parts/tact6/terminals/1/name", "used twice"},
		{"always closed", swap("\"A1\",\n            \"B1\"", "\"A1\",\n            \"A2\""), "/parts/tact6/contacts/0/between", "always be closed"},
		{"something after it", good + "{}", "", ""},
		{"too large", strings.Repeat(" ", MaxFileBytes+1), "", "larger than 4 MiB"},
		{"not UTF-8", swap("reset", "re\xffset"), "", "not UTF-8"},
		{"deep", strings.Repeat(`{"a":`, 5000) + "1" + strings.Repeat("}", 5000), "", ""},
		{"script in an id", swap(`"ref": "S1"`, `"ref": "<script>"`), "/placed/0/ref", "capital letters"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Decode([]byte(tt.text))
			var f *FileError
			if !errors.As(err, &f) {
				t.Fatalf("Decode gave %v, want a *FileError", err)
			}
			if tt.want != "" && !strings.Contains(f.Text, tt.want) || tt.pointer != "" && f.Pointer != tt.pointer {
				t.Errorf("Decode says %q at %q; want %q at %q", f.Text, f.Pointer, tt.want, tt.pointer)
			}
		})
	}
}

func TestDecodeReadsWhatItWrote(t *testing.T) {
	good := bytesOf(t, twoKeys(t))
	for name, text := range map[string]string{"as written": good, "with a byte-order mark": "\uFEFF" + good, "in one line": strings.ReplaceAll(good, "\n", "")} {
		p, err := Decode([]byte(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if again := bytesOf(t, p); again != good {
			t.Errorf("%s: became\n%s", name, again)
		}
	}
}

// A file may list parts in any order; the panel is the same.
func TestPlacedOrderDoesNotMatter(t *testing.T) {
	p := twoKeys(t)
	p.Placed[0], p.Placed[1] = p.Placed[1], p.Placed[0]
	if got, want := bytesOf(t, p), bytesOf(t, twoKeys(t)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A file of version 1 says nothing of what the pins spare, and means the serial console, then the
// analogue pins.
func TestDecodeReadsVersion1(t *testing.T) {
	good := bytesOf(t, twoKeys(t))
	old := strings.Replace(good, `"fascia": 2`, `"fascia": 1`, 1)
	from, to := strings.Index(old, ",\n    \"prefer\""), strings.Index(old, "\n  },\n  \"wires\"")
	if from < 0 || to < from {
		t.Fatalf("the example holds no member prefer:\n%s", old)
	}
	p, err := Decode([]byte(old[:from] + old[to:]))
	if err != nil {
		t.Fatal(err)
	}
	if got := bytesOf(t, p); got != good {
		t.Errorf("got\n%s\nwant\n%s", got, good)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(bytesOf(f, twoKeys(f))))
	f.Add([]byte(bytesOf(f, New("x"))))
	f.Fuzz(func(t *testing.T, text []byte) {
		p, err := Decode(text)
		if err != nil {
			var e *FileError
			if !errors.As(err, &e) {
				t.Fatalf("Decode gave %v, want a *FileError", err)
			}
			return
		}
		again, err := Decode([]byte(bytesOf(t, p)))
		if err != nil || bytesOf(t, again) != bytesOf(t, p) {
			t.Fatalf("accepted, but does not read back: %v", err)
		}
	})
}
