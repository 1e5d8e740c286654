package main

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// newPanel makes a panel by the form of the start page, and shows it.
func (p *tab) newPanel(h hand, name, size string) string {
	p.Helper()
	p.open("/")
	h.write(`form[action="/panels"] input[name="name"]`, name)
	h.choose(`form[action="/panels"] select`, size)
	p.turnsPage(func() { h.press(`form[action="/panels"] button`) })
	return p.panel()
}

// Undo reaches back to the empty panel, through a restart of the program, and redo leads forward
// again: every state on the way is the same to the byte.
func TestUndoAndRedoThroughARestart(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	p.expects("ERR_CONNECTION_REFUSED", "ERR_INCOMPLETE_CHUNKED_ENCODING") // while the program is away
	m := mouse{p}
	panel := p.newPanel(m, "To and fro", "100 × 100")
	states := []string{d.file(panel)}
	for _, step := range []struct {
		name string
		deed func()
	}{
		{"place by drag", func() { m.write("#shelf-search", "tactile 4 leg"); m.drag(m.target("#part-tact6"), m.spot("D5")) }},
		{"turn", func() { m.pick("S1"); m.press("#deed-turn1") }},
		{"to the back", func() { m.press("#deed-flip") }},
		{"and again to the front", func() { m.press("#deed-flip") }},
		{"legend in the slip", func() { m.write("#legend-S1", "Go"); m.keys(kb.Enter) }},
		{"key code in the slip", func() { m.write("#usage-S1", "07:28"); m.keys(kb.Enter) }},
		{"a pin of its own", func() { m.press("#direct-S1") }},
		{"move by drag", func() { m.drag(m.middle("S1"), m.spot("T20")) }},
		{"move by its hole", func() { m.write("#slip-at", "j9"); m.keys(kb.Tab) }},
		{"copy", func() { m.press("[data-duplicate]"); m.clickAt(m.spot("W9")) }},
		{"renumber", func() { m.pick("S2"); m.write("#slip-ref", "S7"); m.keys(kb.Enter) }},
		{"delete", func() { m.pick("S7"); m.press("#deed-remove") }},
		{"notes", func() { m.clickAt(m.spot("AA30")); m.write("#panel-notes", "from the old radio"); m.keys(kb.Tab) }},
		{"rename", func() { m.write("#name", "There and back"); m.keys(kb.Enter) }},
	} {
		p.Logf("%s", step.name)
		p.edits(1, step.deed)
		states = append(states, d.file(panel))
		if n := len(states); states[n-1] == states[n-2] {
			t.Errorf("%s changed nothing", step.name)
		}
	}

	addr := d.addr()
	d.stop()
	d.start(addr)
	p.open(panel)
	for i := len(states) - 2; i >= 0; i-- {
		p.edits(1, func() { p.keys("z", chromedp.ModifierCtrl) })
		if got := d.file(panel); got != states[i] {
			t.Fatalf("undone to state %d:\n%s\nwant\n%s", i, got, states[i])
		}
	}
	if ask[bool](p, `!document.getElementById('undo').disabled`) || p.count(".part") != 0 {
		t.Errorf("after all is undone, undo offers %q and %d parts are there", p.text("#undo"), p.count(".part"))
	}
	p.keys("z", chromedp.ModifierCtrl)
	p.untilText("#say", "Nothing left to undo")
	for i, want := range states[1:] {
		p.edits(1, func() { p.keys("z", chromedp.ModifierCtrl, chromedp.ModifierShift) })
		if got := d.file(panel); got != want {
			t.Fatalf("redone to state %d:\n%s\nwant\n%s", i, got, want)
		}
	}
	if ask[bool](p, `!document.getElementById('redo').disabled`) {
		t.Errorf("all is redone, and redo offers %q", p.text("#redo"))
	}
}
