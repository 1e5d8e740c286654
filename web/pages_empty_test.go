package web

import (
	"strings"
	"testing"

	"fascia/design/panel"
)

// An empty board says the next sensible step, in every room.
func TestAnEmptyBoardSaysWhatComesFirst(t *testing.T) {
	b := newDesk(t)
	id, err := b.store.Import(t.Context(), panel.New("Empty"))
	if err != nil {
		t.Fatal(err)
	}
	for _, room := range rooms {
		says := words(b.byID(b.page("/panels/"+string(id)+"/"+room.name), "notes"))
		if !strings.Contains(says, "Pick a module from the parts shelf") || strings.Contains(says, "Nothing to put right") {
			t.Errorf("%s says %q", room.name, says)
		}
	}
}
