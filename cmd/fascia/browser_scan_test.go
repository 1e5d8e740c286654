package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"fascia/design/grid"
)

// square is four switches of which each pair shares a row or a column: S1 and S2 in row 0, S3 and S4 in
// row 1. Any three of them make the fourth read as pressed (common practice, no source).
func square(d *desk) string {
	d.Helper()
	panel := d.bring(demoFile(d.T, "hive-notebook"))
	d.edit(panel, `{"do": "remove", "refs": ["S3","S4","S5","S8","S9","S10","S11","S12","S13","S14","S15","S16","S17","S18","S19","S20"]}`)
	d.edit(panel, `{"do": "scan", "scan": {"style": "matrix", "rows": 2, "columns": 2, "active": "auto", "pulls": "auto", "diodes": "none", "reader": "pio"}}`)
	return panel
}

// A row of the table of ways is taken by its button, and the wishes follow; undo takes it back.
func TestScanRoomTakesAWay(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/scan")
	if p.count(".method.chosen") != 1 || p.count(".method.chosen button") != 0 {
		t.Errorf("%d ways are marked as in use", p.count(".method.chosen"))
	}
	p.edits(1, func() { m.press("#take-matrix-5x4") })
	if p.count("#method-matrix-5x4.chosen") != 1 || p.count(".matrix tbody tr") != 5 {
		t.Errorf("taken 5 x 4, the matrix has %d rows and %q is in use", p.count(".matrix tbody tr"), p.texts(".method.chosen .method-name"))
	}
	if file := d.file(panel); !strings.Contains(file, `"rows": 5`) || !strings.Contains(file, `"reader": "pio"`) {
		t.Errorf("the wishes in the file are %s", file[strings.Index(file, `"scan"`):])
	}
	p.edits(1, func() { m.press("#undo") })
	if p.count(".matrix tbody tr") != 4 {
		t.Errorf("undone, the matrix has %d rows", p.count(".matrix tbody tr"))
	}
}

// An expander is placed with the wish to read by it, as one step.
func TestScanRoomLendsAnExpander(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	panel := d.bring(demoFile(t, "lantern-run"))
	p.open(panel + "/scan")
	p.edits(1, func() { mouse{p}.press("#take-expander") })
	if n := p.count(".direct-table tbody tr"); n < 6 || p.count("#method-expander.chosen") != 1 {
		t.Errorf("%d keys have a line of their own; in use is %q", n, p.texts(".method.chosen .method-name"))
	}
	p.edits(1, func() { mouse{p}.press("#undo") })
	if p.count("#method-expander.chosen") != 0 || strings.Contains(d.file(panel), "expander-i2c16") {
		t.Errorf("undo left the expander")
	}
}

// While a chord is told the ghost shows at every press, on the board, in the matrix and in words, and
// nothing is kept until the maker says so. By mouse, and by the keyboard alone, on the board and in the
// matrix.
func TestScanRoomShowsTheGhostBeforeTheChordIsKept(t *testing.T) {
	for _, by := range []struct {
		name  string
		begin func(*tab)
		press func(p *tab, ref string)
		keep  func(*tab)
	}{
		{"mouse", func(p *tab) { mouse{p}.press("#chord-press-new") },
			func(p *tab, ref string) { mouse{p}.clickAt(p.middle(ref)) },
			func(p *tab) { mouse{p}.press("#chord-keep") }},
		{"keyboard on the board", func(p *tab) { keyboard{p}.press("#chord-press-new") },
			func(p *tab, ref string) {
				k := keyboard{p}
				k.goTo("#board")
				at := ask[[2]int](p, facts+`.parts.find((q) => q.ref === `+quote(ref)+`).at`)
				k.aim(grid.Hole{Col: at[0], Row: at[1]}.String())
				k.keys(" ")
			},
			func(p *tab) { keyboard{p}.press("#chord-keep") }},
		{"keyboard in the matrix", func(p *tab) { keyboard{p}.press("#chord-press-new") },
			func(p *tab, ref string) {
				keyboard{p}.goTo("#cell-" + ref)
				p.keys(map[bool]string{true: " ", false: kb.Enter}[ref == "S1"])
			},
			func(p *tab) { keyboard{p}.press("#chord-keep") }},
	} {
		t.Run(by.name, func(t *testing.T) {
			d := newDesk(t)
			p := newTab(t, d)
			panel := square(d)
			p.open(panel + "/scan")
			seen := func(says string, down, ghosts int) {
				t.Helper()
				p.untilText("#chord-reading", says)
				p.until(fmt.Sprintf("%d keys are down and %d ghosts on the board and in the matrix", down, ghosts), fmt.Sprintf(
					`document.querySelectorAll('.part.in-chord').length === %d && document.querySelectorAll('td.in-chord').length === %d &&
					document.querySelectorAll('.part.ghosting').length === %d && document.querySelectorAll('.live-flag').length === %d`, down, down, ghosts, ghosts))
			}
			by.begin(p)
			by.press(p, "S1")
			seen("begins with two keys", 1, 0)
			by.press(p, "S2")
			seen("Safe", 2, 0)
			by.press(p, "S6")
			seen("A diode at", 3, 1)
			if way := p.text("#chord-reading .way"); strings.Count(way, "row ")+strings.Count(way, "column ") != 4 || strings.Count(way, "S") != 3 {
				t.Errorf("the current goes %q, want four lines and three keys", way)
			}
			if file := d.file(panel); strings.Contains(file, "S6\"\n      ]") {
				t.Error("the chord was kept before it was said")
			}
			p.edits(1, func() { by.keep(p) })
			if p.text(".mark-ghost") != "ghost" || p.count(".part.in-chord") != 0 || p.count("td .ghost-flag") != 1 {
				t.Errorf("kept, the list says %q and %d keys are marked", p.texts(".mark"), p.count(".part.in-chord"))
			}
		})
	}
}

// pressAll puts fingers down at once, and takes them away.
func (f finger) pressAll(at ...point) {
	f.Helper()
	var points []*input.TouchPoint
	for i, to := range at {
		points = append(points, &input.TouchPoint{X: to.X, Y: to.Y, ID: new(float64(i))})
	}
	for _, e := range []input.DispatchTouchEventParams{{Type: input.DispatchTouchEventTypeTouchStart, TouchPoints: points},
		{Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{}}} {
		if _, err := chromedp.Call(f.ctx, input.DispatchTouchEvent, e); err != nil {
			f.Fatal(err)
		}
	}
}

// Fingers press several keys at once; a second press lets a key go again. None of it pans or zooms.
func TestScanRoomByFingers(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	p.phone(360)
	f := finger{p}
	p.open(square(d) + "/scan")
	f.press("#chord-press-new")
	scale := p.text("#scale")
	f.pressAll(p.middle("S1"), p.middle("S2"), p.middle("S6"))
	p.untilText("#chord-reading", "Ghost")
	f.tapAt(p.middle("S2"))
	p.untilText("#chord-reading", "Safe")
	if now := p.text("#scale"); now != scale || p.count(".part.in-chord") != 2 {
		t.Errorf("the scale went from %s to %s, and %d keys are down", scale, now, p.count(".part.in-chord"))
	}
}

// A chord may hold choices: what it stands for is counted while it is told, kept, and taken up again.
func TestScanRoomTellsChoices(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	panel := square(d)
	p.open(panel + "/scan")
	m.write("#chord-name", "corners")
	m.press("#chord-press-new")
	m.clickAt(p.middle("S1"))
	m.press("#chord-add") // its keys are told at once
	for _, ref := range []string{"S2", "S6", "S7"} {
		m.clickAt(p.middle(ref))
	}
	p.untilText("#chord-reading", "3 sets of keys; all of them are safe")
	m.write(`#chord-choices input[type="number"]`, "2")
	p.untilText("#chord-reading", "3 sets of keys; none of them is safe")
	p.edits(1, func() { m.press("#chord-keep") })
	if says := p.text(".chord-kept"); !strings.Contains(says, "any 2 of Eggs, Honey and Pollen") || !strings.Contains(says, "none of them is safe") {
		t.Errorf("the list says %q", says)
	}
	m.press("#chord-change-0")
	p.until("the form holds the chord again", `document.querySelectorAll('#chord-choices [data-group]').length === 1 && document.getElementById('chord-name').value === 'corners'`)
	m.press("[data-drop-choice]")
	m.press("#chord-press-new")
	m.clickAt(p.middle("S7"))
	m.write("#chord-name", "across")
	p.edits(1, func() { m.press("#chord-keep") })
	if names := p.texts(".chord-kept strong"); !slices.Equal(names, []string{"across"}) {
		t.Errorf("changed and renamed, the chords are %q", names)
	}
	p.edits(1, func() { m.press("#undo") })
	if names := p.texts(".chord-kept strong"); !slices.Equal(names, []string{"corners"}) {
		t.Errorf("undone, the chords are %q", names)
	}
}

// A cell and its key light each other, with both lines.
func TestScanRoomLightsCellAndKey(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	p.open(d.bring(demoFile(t, "hive-notebook")) + "/scan")
	lit := func(ref string) string {
		return fmt.Sprintf(`(() => { const c = document.querySelector('td[data-cell=%[1]q]');
			const wires = (net) => document.querySelector('#board-svg .wire.lit[data-net="' + net + '"]');
			return c.matches('.lit') && document.querySelector('.part[data-ref=%[1]q].pointed') && document.querySelectorAll('.part.pointed').length === 1 &&
				wires(c.dataset.net) && wires(c.dataset.cross) && document.querySelectorAll('.matrix th.lit').length === 2; })()`, ref)
	}
	m.move(m.target("#cell-S7"))
	p.until("pointing at a cell lights its key and both lines", lit("S7"))
	m.move(p.middle("S9"))
	p.until("pointing at a key lights its cell and both lines", lit("S9"))
	keyboard{p}.goTo("#cell-S3")
	p.until("a cell with the focus does the same", lit("S3"))
}

// LEDs of the select lines are lent, light in the order of the lines, and can be left out.
func TestScanRoomLightsSelectLines(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/scan")
	p.edits(1, func() { m.press("#offer-lamps") })
	chosen := ask[[]string](p, `[...document.querySelectorAll('#lamp-form select')].map((s) => s.value)`)
	if len(chosen) != 5 || slices.Contains(chosen, "") || p.count("#offer-lamps") != 0 {
		t.Fatalf("the lines light %q", chosen)
	}
	p.edits(1, func() { m.choose("#lamp-4", "none") })
	_, lamps, _ := strings.Cut(d.file(panel), `"lamps": [`)
	if lamps, _, _ = strings.Cut(lamps, "]"); !strings.Contains(lamps, chosen[3]) || strings.Contains(lamps, chosen[4]) {
		t.Errorf("the last line's LED was left out; the file says %s", lamps)
	}
}
