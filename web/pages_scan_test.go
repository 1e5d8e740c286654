package web

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/record"
	"fascia/web/view"
)

// bring imports a panel after a change.
func (b *desk) bring(p panel.Panel, change func(*panel.Panel)) record.ID {
	b.t.Helper()
	p = p.Clone()
	change(&p)
	id, err := b.store.Import(b.t.Context(), p)
	if err != nil {
		b.t.Fatal(err)
	}
	return id
}

// hive is the demo of 20 keys in a grid of 4 by 5 on the board.
func hive(t *testing.T) panel.Panel {
	t.Helper()
	for _, d := range demo.All() {
		if d.ID == "hive-notebook" {
			return d.Panel
		}
	}
	t.Fatal("there is no hive notebook")
	return panel.Panel{}
}

func classed(n *html.Node, name string) []*html.Node {
	return all(n, func(d *html.Node) bool { return slices.Contains(strings.Fields(attr(d, "class")), name) })
}

// Every way to read the keys has a row, the one in use is marked, and the button of each other one that
// can be had is an edit that brings just that way about.
func TestEachWayCanBeTaken(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(*panel.Panel) {})
	target := "/panels/" + string(id) + "/scan"
	_, _, made, err := b.planOf(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	doc := b.page(target)
	rows := classed(doc, "method")
	if len(rows) != len(made.Scan.Choices) || len(rows) < 6 {
		t.Fatalf("%d rows for %d ways", len(rows), len(made.Scan.Choices))
	}
	taken := 0
	for _, row := range rows {
		name := attr(row, "id")
		if got := words(row); slices.Contains(strings.Fields(attr(row, "class")), "chosen") != strings.Contains(got, "in use") {
			t.Errorf("%s says %q", name, got)
		}
		forms := tagged(row, "form")
		if len(forms) == 0 {
			continue
		}
		taken++
		edit := `{"do":"scan",` + strings.TrimPrefix(attr(forms[0], "data-base"), "{")
		if resp := b.postJSON("/panels/"+string(id)+"/edits", `{"id":"take-`+name+`","base":0,"edit":`+edit+`}`); resp.StatusCode != http.StatusOK {
			t.Fatalf("%s: %s is refused: %s", name, edit, text(t, resp))
		}
		after := b.page(target)
		chosen := classed(after, "chosen")
		if len(chosen) != 1 || attr(chosen[0], "id") != name {
			var ids []string
			for _, c := range chosen {
				ids = append(ids, attr(c, "id"))
			}
			t.Errorf("%s was taken, in use is %q", name, ids)
		}
	}
	if taken < 4 {
		t.Errorf("only %d ways have a button", taken)
	}
}

// The first rows are those that fit and keep every chord; among them fewer pins come first.
func TestWaysAreSorted(t *testing.T) {
	b := newDesk(t)
	for _, d := range demo.All() {
		id := b.bring(d.Panel, func(p *panel.Panel) { p.Scan.Diodes = "none" })
		_, _, made, err := b.planOf(t.Context(), id)
		if err != nil {
			t.Fatal(err)
		}
		v := visit{panel: *made.Panel, plan: made}
		first, rest := v.methods()
		rank, pins := -1, 0
		for _, c := range sortedWays(made.Scan.Choices) {
			r := 0
			if !c.Fits {
				r = 2
			} else if c.SafeChords < c.Chords {
				r = 1
			}
			if r < rank || r == rank && c.Pins < pins {
				t.Errorf("%s: %s with %d pins comes after rank %d with %d", d.ID, c.Method, c.Pins, rank, pins)
			}
			rank, pins = r, c.Pins
		}
		if len(first)+len(rest) != len(made.Scan.Choices) || slices.ContainsFunc(rest, func(m view.Method) bool { return m.Chosen }) {
			t.Errorf("%s: %d and %d ways of %d", d.ID, len(first), len(rest), len(made.Scan.Choices))
		}
	}
}

// The matrix names every line and cell, whatever the way: a matrix, keys of their own pins beside it,
// lines that both read and are driven, or no matrix at all.
func TestMatrixNamesItsCells(t *testing.T) {
	b := newDesk(t)
	tests := []struct {
		name, style, head string
		cells, never      int
		alone             int
	}{
		{"matrix", "matrix", "row 0", 20, 0, 0},
		{"lines", "lines", "line 0", 20, 5, 0},
		{"direct", "direct", "", 0, 0, 20},
	}
	for _, tt := range tests {
		doc := b.page("/panels/" + string(b.bring(hive(t), func(p *panel.Panel) { p.Scan.Style = tt.style })) + "/scan")
		keyed := all(doc, func(n *html.Node) bool { return n.Data == "td" && attr(n, "data-cell") != "" })
		alone := all(doc, func(n *html.Node) bool { return n.Data == "tr" && attr(n, "data-cell") != "" })
		if len(keyed) != tt.cells || len(classed(doc, "cell-never")) != tt.never || len(alone) != tt.alone {
			t.Errorf("%s: %d cells with keys, %d that cannot have one, %d keys alone; want %d, %d, %d", tt.name,
				len(keyed), len(classed(doc, "cell-never")), len(alone), tt.cells, tt.never, tt.alone)
		}
		heads := all(doc, func(n *html.Node) bool { return attr(n, "data-line") == tt.head && tt.head != "" })
		if tt.head != "" && (len(heads) == 0 || !strings.HasPrefix(words(heads[0]), tt.head) || !strings.Contains(words(heads[0]), "GP")) {
			t.Errorf("%s: no head reads %s and its pin", tt.name, tt.head)
		}
		for _, cell := range keyed {
			if attr(cell, "data-net") == attr(cell, "data-cross") || attr(cell, "data-net") == "" || words(cell) == "" {
				t.Errorf("%s: cell %s lies between %q and %q and reads %q", tt.name, attr(cell, "data-cell"), attr(cell, "data-net"), attr(cell, "data-cross"), words(cell))
			}
		}
	}
}

// Each diode says which chord needs it, which keys are then down, and which ghost it prevents.
func TestDiodesSayWhy(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) {
		p.Scan.Rows, p.Scan.Columns, p.Scan.Diodes = 4, 5, "every key"
		p.Chords = append(p.Chords, panel.Chord{Name: "grip", Keys: []string{"S1", "S2", "S6", "S7"}})
	})
	section := b.byID(b.page("/panels/"+string(id)+"/scan"), "diodes")
	if says := words(section); !strings.Contains(says, "All diodes point the same way") || !strings.Contains(says, "Asked for at every key") {
		t.Errorf("the diodes say %q", says)
	}
	reasons := tagged(section, "li")
	if len(reasons) == 0 {
		t.Fatal("no diode has a reason")
	}
	for _, li := range reasons {
		if says := words(li); !strings.Contains(says, "for grip: without it, ") || !strings.Contains(says, "read as pressed (row ") {
			t.Errorf("a diode says %q", says)
		}
	}
	without := b.bring(hive(t), func(p *panel.Panel) { p.Scan.Diodes = "none" })
	if found := all(b.page("/panels/"+string(without)+"/scan"), func(n *html.Node) bool { return attr(n, "id") == "diodes" }); len(found) != 0 {
		t.Errorf("no key has a diode, and the page speaks of them: %q", words(found[0]))
	}
}

// What the wishes do not show in a form survives it: the lamps stay when the way is changed.
func TestTheFormOfWishesKeepsTheLamps(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) { p.Scan.Lamps = []string{"D1"} })
	doc := b.page("/panels/" + string(id) + "/scan")
	for _, form := range []string{"scan-form", "lamp-form", "method-auto"} {
		if base := attr(b.byID(doc, form), "data-base"); !strings.Contains(base, `"lamps":["D1"]`) {
			t.Errorf("%s starts from %s", form, base)
		}
	}
	if selected := attr(all(b.byID(doc, "lamp-0"), func(n *html.Node) bool {
		return n.Data == "option" && slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "selected" })
	})[0], "value"); selected != "D1" {
		t.Errorf("column 0 shows %q, want D1", selected)
	}
}

func TestAPanelWithoutKeysSaysWhatComesFirst(t *testing.T) {
	b := newDesk(t)
	id, err := b.store.Import(t.Context(), panel.New("Empty"))
	if err != nil {
		t.Fatal(err)
	}
	doc := b.page("/panels/" + string(id) + "/scan")
	if got := attr(b.byID(doc, "to-place"), "href"); got != "/panels/"+string(id)+"/place" {
		t.Errorf("the way to the switches leads to %q", got)
	}
	if len(classed(doc, "method"))+len(tagged(doc, "fieldset")) != 0 {
		t.Error("without keys there are ways to compare or chords to tell")
	}
}
