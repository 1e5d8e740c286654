package sheet

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

func moduleNode(t *testing.T, d Drawing) *node {
	t.Helper()
	var b bytes.Buffer
	if err := Module(&b, d); err != nil {
		t.Fatal(err)
	}
	checkAllowed(t, b.Bytes())
	return parse(t, b.Bytes())
}

func TestModuleNamesEveryPin(t *testing.T) {
	d := example()
	d.Panel.Pins.KeepFree = []string{"GP2"}
	root := moduleNode(t, d)
	tests := []struct{ terminal, gpio, class, signal, words string }{
		{"GP0", "GP0", "pin-used", "S1", "GP0, pin 1, key S1, digital in, pull up, locked. Locked by the maker."},
		{"GP1", "GP1", "pin-open", "", "free"},
		{"GP2", "GP2", "pin-kept", "", "kept free"},
		{"GND", "", "pin-power", "", "ground"},
		{"3V3", "", "pin-power", "", "3V3"},
	}
	for _, tt := range tests {
		var pin *node
		for _, n := range root.with("pin") {
			if n.attr["data-terminal"] == tt.terminal {
				pin = n
			}
		}
		if pin == nil {
			t.Fatalf("pin %s is not drawn", tt.terminal)
		}
		if !pin.has(tt.class) || pin.attr["data-gpio"] != tt.gpio || pin.attr["data-signal"] != tt.signal || !strings.Contains(pin.words(), tt.words) {
			t.Errorf("pin %s: %v says %q; want %+v", tt.terminal, pin.attr, pin.words(), tt)
		}
		if locks := len(pin.with("lock")); (locks == 1) != (tt.terminal == "GP0") {
			t.Errorf("pin %s has %d padlocks", tt.terminal, locks)
		}
	}
}

// However a module lies on the board, it is drawn upright from its chip side, the same each time.
func TestModuleIsAlwaysUpright(t *testing.T) {
	for _, id := range part.BuiltIn().IDs() {
		def := part.BuiltIn()[id]
		if def.Kind != part.Module {
			continue
		}
		var first []byte
		for turn := range grid.Turn(4) {
			for _, face := range []grid.Face{grid.Front, grid.Back} {
				p := panel.New("x")
				p.Parts[id], p.Placed = def, []panel.Placed{{Ref: "U1", Part: id, At: grid.MustHole("J9"), Turn: turn, Face: face}}
				var b bytes.Buffer
				if err := Module(&b, Drawing{Panel: &p}); err != nil {
					t.Fatal(err)
				}
				if first == nil {
					first = b.Bytes()
				}
				if !bytes.Equal(b.Bytes(), first) {
					t.Errorf("%s at turn %d on the %s is drawn another way", id, turn, face)
				}
			}
		}
		root := parse(t, first)
		if got := len(root.with("pin")); got != len(def.Terminals) {
			t.Errorf("%s: %d pins drawn of %d", id, got, len(def.Terminals))
		}
		board, shell := root.with("mask")[0], root.with("steel")[0]
		if shell.number(t, "y") >= board.number(t, "y") {
			t.Errorf("%s: the socket is not at the top", id)
		}
	}
}

func TestModuleOfAPanelWithoutOne(t *testing.T) {
	p := panel.New("x")
	if err := Module(new(bytes.Buffer), Drawing{Panel: &p}); !errors.Is(err, ErrNoModule) {
		t.Errorf("Module = %v, want ErrNoModule", err)
	}
}
