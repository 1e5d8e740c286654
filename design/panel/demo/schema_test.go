package demo

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"fascia/design/panel"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// The published shape of the project file, read by a validator of its own (JSON Schema 2020-12).
func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	for id, path := range map[string]string{"panel.schema.json": "../panel.schema.json", "definition.schema.json": "../../part/definition.schema.json"} {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if err := c.AddResource("https://fascia.invalid/"+id, doc); err != nil {
			t.Fatal(err)
		}
	}
	s, err := c.Compile("https://fascia.invalid/panel.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestDemosFollowTheSchema(t *testing.T) {
	s := schema(t)
	for _, d := range All() {
		text, err := panel.Encode(d.Panel)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(doc); err != nil {
			t.Errorf("%s: %v", d.ID, err)
		}
	}
}

// What the schema refuses the decoder refuses too.
func TestSchemaRefuses(t *testing.T) {
	s := schema(t)
	good, err := panel.Encode(All()[0].Panel)
	if err != nil {
		t.Fatal(err)
	}
	for name, swap := range map[string][2]string{
		"unknown member": {`"notes":`, `"glow": 1, "notes":`},
		"newer version":  {`"fascia": 2`, `"fascia": 3`},
		"no such style":  {`"style": "matrix"`, `"style": "magic"`},
		"no hole":        {`"at": "J2"`, `"at": "2J"`},
		"fifth quarter":  {`"turn": 0`, `"turn": 5`},
		"no face":        {`"face": "back"`, `"face": "side"`},
		"no GPIO":        {`"keep_free": []`, `"keep_free": ["P1"]`},
	} {
		bad := strings.Replace(string(good), swap[0], swap[1], 1)
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(bad))
		if err != nil || bad == string(good) {
			t.Fatalf("%s: nothing was swapped: %v", name, err)
		}
		if s.Validate(doc) == nil {
			t.Errorf("%s: the schema lets it pass", name)
		}
		if _, err := panel.Decode([]byte(bad)); err == nil {
			t.Errorf("%s: the decoder lets it pass", name)
		}
	}
}
