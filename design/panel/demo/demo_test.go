package demo

import (
	"testing"

	"fascia/design/panel"
)

func TestDemosReadBack(t *testing.T) {
	for _, d := range All() {
		text, err := panel.Encode(d.Panel)
		if err != nil {
			t.Fatal(err)
		}
		p, err := panel.Decode(text)
		if err != nil {
			t.Fatalf("%s: %v", d.ID, err)
		}
		if again, err := panel.Encode(p); err != nil || string(again) != string(text) {
			t.Errorf("%s does not read back to the same bytes: %v", d.ID, err)
		}
	}
}
