package part

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

const schemaFile = "definition.schema.json"

// schema compiles the definition's JSON Schema with an independent validator.
func schema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	text, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(schemaFile, document); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// refused says why text does not hold against s, or "".
func refused(t testing.TB, s *jsonschema.Schema, text []byte) string {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(document); err != nil {
		return err.Error()
	}
	return ""
}

// TestCatalogueAgainstSchema: every file as it lies there, and as Encode writes it again.
func TestCatalogueAgainstSchema(t *testing.T) {
	s := schema(t)
	names, err := filepath.Glob("catalogue/*.json")
	if err != nil || len(names) < 45 {
		t.Fatalf("%d files, %v", len(names), err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if why := refused(t, s, text); why != "" {
			t.Errorf("%s: %s", name, why)
		}
		d, err := Decode(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		again, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		if why := refused(t, s, again); why != "" {
			t.Errorf("%s, written again: %s", name, why)
		}
	}
}

// wrong are changes to a good definition that both the schema and Decode must refuse. pointer is
// where Decode says the fault is.
var wrong = []struct{ name, from, to, pointer string }{
	{"unknown member", `"prefix"`, `"colour": "red", "prefix"`, "/colour"},
	{"unknown fact", `"bounce_ms"`, `"colour": 1, "bounce_ms"`, "/facts/colour"},
	{"unknown kind", `"kind": "switch"`, `"kind": "button"`, "/kind"},
	{"small letters in the prefix", `"prefix": "S"`, `"prefix": "s"`, "/prefix"},
	{"empty name", `"name": "6 x 6 mm tactile switch, 4 legs"`, `"name": ""`, "/name"},
	{"one coordinate", `"at": [3, 0]`, `"at": [3]`, "/terminals/1/at"},
	{"three coordinates", `"mm": [7.06, 0.29]`, `"mm": [7.06, 0.29, 0]`, "/terminals/1/mm"},
	{"half a hole", `"at": [3, 0]`, `"at": [3.5, 0]`, "/terminals/1/at/0"},
	{"space in a terminal's name", `"name": "A2"`, `"name": "A 2"`, "/terminals/1/name"},
	{"unknown supply", `"lead_mm": 0.8}`, `"lead_mm": 0.8, "net": "12V"}`, "/terminals/0/net"},
	{"no GPIO name", `"lead_mm": 0.8}`, `"lead_mm": 0.8, "gpio": "4"}`, "/terminals/0/gpio"},
	{"joined to nothing", `["A1", "A2"]`, `["A1"]`, "/joined/0"},
	{"contact with itself", `["A1", "B1"]`, `["A1", "A1"]`, "/contacts/0/between"},
	{"no face", `"face": "front"`, `"face": "top"`, "/bodies/0/face"},
	{"negative height", `"height": 4.3`, `"height": -4.3`, "/bodies/0/height"},
	{"window with three corners", `"stand_off": 0`, `"stand_off": 0, "window": [0, 0, 1]`, "/bodies/0/window"},
	{"negative figure", `"bounce_ms": 10`, `"bounce_ms": -10`, "/facts"},
	{"reserved address", `"bounce_ms"`, `"i2c_addresses": ["0x78"], "bounce_ms"`, "/facts/i2c_addresses/0"},
	{"address with a space", `"bounce_ms"`, `"i2c_addresses": ["0x 9"], "bounce_ms"`, "/facts/i2c_addresses/0"},
	{"key line twice", `"bounce_ms"`, `"key_lines": ["A1", "A1"], "bounce_ms"`, "/facts/key_lines/1"},
	{"unknown signal", `"needs": []`, `"needs": [{"terminal": "A1", "signal": "CAN"}]`, "/needs/0/signal"},
	{"pull sideways", `"needs": []`, `"needs": [{"terminal": "A1", "signal": "ADC", "pull": "left"}]`, "/needs/0/pull"},
	{"hole without a width", `"needs": []`, `"drills": [{"mm": [0, 0], "diameter": 0, "why": ""}], "needs": []`, "/drills/0"},
}

// senseless are faults that a schema cannot see.
var senseless = []struct{ name, from, to, pointer string }{
	{"two terminals of one name", `"name": "A2"`, `"name": "A1"`, "/terminals/1/name"},
	{"two terminals in one hole", `"at": [3, 0], "mm": [7.06, 0.29]`, `"at": [0, 0], "mm": [0.06, 0.29]`, "/terminals/1/at"},
	{"first terminal elsewhere", `"at": [0, 0]`, `"at": [1, 0]`, "/terminals/0/at"},
	{"lead far from its hole", `"mm": [7.06, 0.29]`, `"mm": [17.06, 0.29]`, "/terminals/1/mm"},
	{"joined to a stranger", `["A1", "A2"]`, `["A1", "A9"]`, "/joined/0"},
	{"joined twice", `["B1", "B2"]`, `["B1", "A2"]`, "/joined/1"},
	{"contact on one metal", `["A1", "B1"]`, `["A1", "A2"]`, "/contacts/0/between"},
	{"body inside out", `[0.81, -0.46, 6.81, 5.54]`, `[6.81, -0.46, 0.81, 5.54]`, "/bodies/0/rect"},
	{"window inside out", `"stand_off": 0`, `"stand_off": 0, "window": [2, 0, 1, 1]`, "/bodies/0/window"},
	{"need of a stranger", `"needs": []`, `"needs": [{"terminal": "A9", "signal": "ADC"}]`, "/needs/0/terminal"},
	{"key line of a stranger", `"bounce_ms"`, `"key_lines": ["A9"], "bounce_ms"`, "/facts/key_lines/0"},
	{"two needs of one terminal", `"needs": []`, `"needs": [{"terminal": "A1", "signal": "ADC"}, {"terminal": "A1", "signal": "PWM"}]`, "/needs/1/terminal"},
	{"supply upside down", `"bounce_ms"`, `"supply_min_volts": 5, "supply_max_volts": 3, "bounce_ms"`, "/facts/supply_min_volts"},
	{"direction mark in the name", `"name": "6 x 6 mm`, "\"name\": \"6 x 6 \u202e mm", "/name"},
	{"member twice", `"prefix": "S"`, `"prefix": "S", "prefix": "S"`, "/prefix"},
	{"text after the end", "]\n}\n", "]\n}\n{}", ""},
	{"cut off", `"sources"`, "", ""},
}

func TestDecodeAndSchemaRefuse(t *testing.T) {
	s := schema(t)
	good, err := os.ReadFile("catalogue/tact6.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range slices.Concat(wrong, senseless) {
		bad := strings.Replace(string(good), tt.from, tt.to, 1)
		if bad == string(good) {
			t.Errorf("%s: %s is not in the file", tt.name, tt.from)
			continue
		}
		_, err := Decode([]byte(bad))
		if f, ok := err.(Fault); !ok || f.Pointer != tt.pointer || f.Text == "" {
			t.Errorf("%s: Decode says %v, want a fault at %q", tt.name, err, tt.pointer)
		}
		if slices.Contains(wrong, tt) && refused(t, s, []byte(bad)) == "" {
			t.Errorf("%s: the schema accepts it", tt.name)
		}
	}
}

// FuzzDecode: what Decode accepts is written back, holds against the schema, and reads the same.
func FuzzDecode(f *testing.F) {
	names, err := filepath.Glob("catalogue/*.json")
	if err != nil || len(names) == 0 {
		f.Fatal("no seeds", err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte(`{"name":"x","kind":"other","prefix":"X","terminals":[{"name":"1","at":[0,0],"mm":[0,0]}]}`))
	f.Add([]byte(`{"name":null}`))
	s := schema(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := Decode(text)
		if err != nil {
			return
		}
		once, err := Encode(d)
		if err != nil {
			t.Fatalf("%q is accepted and cannot be written: %v", text, err)
		}
		if why := refused(t, s, once); why != "" {
			t.Fatalf("%q is accepted and written as %s, which the schema refuses: %s", text, once, why)
		}
		again, err := Decode(once)
		if err != nil {
			t.Fatalf("%s is written and refused: %v", once, err)
		}
		if twice, err := Encode(again); err != nil || !bytes.Equal(once, twice) {
			t.Fatalf("%s became %s, %v", once, twice, err)
		}
	})
}
