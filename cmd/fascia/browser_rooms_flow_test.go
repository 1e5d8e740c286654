package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A chord is told by pressing keys on the drawing. Of six keys in two rows and three columns any
// five ghost the sixth: three of them are corners of a rectangle whose fourth corner it is (common
// practice, no source). The table says so in words; diodes take the ghost away.
func TestScanRoomFindsTheGhostOfAChord(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	panel := d.bring(demoFile(t, "lantern-run"))
	p.open(panel + "/scan")
	p.edits(1, func() { d.edit(panel, `{"do": "remove-chord", "name": "lit dash"}`) })
	p.edits(1, func() { m.choose("#scan-diodes", "none") })
	if n := p.count(".matrix td[data-chord-key^=S]"); n != 6 || p.count(".ghost-flag") != 0 {
		t.Fatalf("%d keys in the matrix and ghosts %q, want 6 and none", n, p.texts(".ghost-flag"))
	}
	m.write("#chord-name", "both hands")
	m.press("#chord-press-new")
	for _, key := range []string{"S1", "S2", "S3", "S4", "S5", "S6", "S6"} { // the last one in and out again
		m.clickAt(m.middle(key))
	}
	m.until("five keys are marked", `document.querySelectorAll('.part.in-chord').length === 5`)
	p.untilText("#chord-reading", "would stop it")
	p.edits(1, func() { m.press("#chord-new button.primary") })

	says := p.text(`td[data-chord-key="S6"] .ghost-flag`)
	// Beside the sixth key four of the chord are a fourth corner themselves; the third of the sixth
	// key's row or column is not.
	if p.count(".ghost-flag") != 5 || !strings.Contains(says, "ghost") || !strings.Contains(says, "both hands") {
		t.Errorf("the sixth key says %q, %d cells are marked", says, p.count(".ghost-flag"))
	}
	if notes := p.texts("#notes .note.stop"); !slices.ContainsFunc(notes, func(n string) bool { return strings.Contains(n, "both hands") }) {
		t.Errorf("no note speaks of the chord: %q", notes)
	}
	p.edits(1, func() { m.choose("#scan-diodes", "where needed") })
	if n := p.count(".ghost-flag"); n != 0 {
		t.Errorf("with diodes where needed %d ghosts are left", n)
	}
	some := p.count(`.matrix [title="with a diode"]`)
	p.edits(1, func() { m.choose("#scan-diodes", "at every key") })
	if all := p.count(`.matrix [title="with a diode"]`); some < 1 || some >= all || all != 6 {
		t.Errorf("%d diodes where needed and %d at every key; there are 6 keys", some, all)
	}
}

// A wire and its row light each other, and the whole net on both faces, by pointer and by focus.
func TestWireRoomLightsWireAndRow(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m, k := mouse{p}, keyboard{p}
	p.size(1440, 900)
	p.open(d.bring(demoFile(t, "hive-notebook")) + "/wire?face=back")
	lit := func(index string) string {
		return fmt.Sprintf(`(() => { const w = document.querySelector('#board-svg .wire.this-wire[data-index="%s"]'), all = (sel) => document.querySelectorAll('#board-svg .wire' + sel).length;
			return w && all('.this-wire') === 1 && all('.lit') === all('[data-net="' + w.dataset.net + '"]') && all('.lit.face-front') > 0 && all('.lit.face-back') > 0; })()`, index)
	}
	rows := ask[[]string](p, `[...document.querySelectorAll('#wires [data-wire]')].slice(0, 5).map((r) => r.dataset.wire)`)
	row := func(index string) string { return fmt.Sprintf(`#wires [data-wire="%s"]`, index) }
	m.move(m.target(row(rows[1])))
	p.until("pointing at a row lights its wire and the whole net", lit(rows[1]))
	m.move(point{700, 20})
	p.until("pointing elsewhere puts it out", `!document.querySelector('#board-svg .wire.lit')`)
	k.goTo(row(rows[2]) + " .zoom-wire")
	p.until("a row with the focus lights its wire", lit(rows[2]))
	k.keys(kb.Tab)
	k.keys(kb.Tab)
	p.until("the next row lights the next wire", lit(rows[3]))

	on := ask[struct {
		X, Y  float64
		Index string
	}](p, `(() => {
		for (const g of document.querySelectorAll('#board-svg .wire')) {
			if (!document.querySelector('#wires [data-wire="' + g.dataset.index + '"]')) continue;
			for (const line of g.querySelectorAll('path')) {
				for (let part = 0.2; part < 0.9; part += 0.1) {
					const at = line.getPointAtLength(line.getTotalLength() * part).matrixTransform(line.getScreenCTM());
					if (document.elementFromPoint(at.x, at.y)?.closest('.wire') === g) return { X: at.x, Y: at.y, Index: g.dataset.index };
				}
			}
		}
	})()`)
	m.move(point{on.X, on.Y})
	p.until("pointing at a wire lights its row", fmt.Sprintf(`document.querySelector('%s').matches('.lit')`, row(on.Index)))
	m.clickAt(point{on.X, on.Y})
	p.until("a press on a wire brings its row into view", fmt.Sprintf(`(() => { const r = document.querySelector('%s').getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; })()`, row(on.Index)))
}

// A signal tied to another pin is planned again; a tie that cannot be is told beside the pins.
func TestWireRoomTiesSignals(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire")
	pin := func(signal string) string {
		return ask[string](p, fmt.Sprintf(`document.getElementById('pin-%s').closest('tr').dataset.pin`, signal))
	}
	if now := pin("U2.SDA"); now == "GP26" {
		t.Fatalf("SDA is on %s of its own", now)
	}
	p.edits(1, func() { m.choose(`[id="pin-U2.SDA"]`, "tie to GP26") })
	if sda, scl := pin("U2.SDA"), pin("U2.SCL"); sda != "GP26" || scl != "GP27" && scl != "GP3" && scl != "GP7" && scl != "GP11" && scl != "GP15" && scl != "GP19" {
		t.Errorf("SDA tied to GP26 is on %s and SCL on %s, want an SCL of the same I2C1", sda, scl)
	}
	if says := p.text(`tr:has([id="pin-U2.SDA"])`); !strings.Contains(says, "tied by you") {
		t.Errorf("the row says %q", says)
	}
	if file := d.file(panel); !strings.Contains(file, `"U2.SDA": "GP26"`) {
		t.Errorf("the tie is not in the file")
	}
	p.edits(1, func() { m.choose(`[id="pin-U2.SDA"]`, "tie to GP27") }) // which can only be SCL
	told := append(p.texts("#pins .conflict"), p.texts("#notes .note.stop")...)
	if p.count("#pins .conflict") == 0 || p.count("#notes .note.stop") == 0 || !strings.Contains(strings.Join(told, " "), "GP27") {
		t.Errorf("SDA on GP27 is impossible, and the page says %q", told)
	}
	p.edits(1, func() { m.press(`[id="untie-U2.SDA"]`) })
	if p.count("#pins .conflict") != 0 || pin("U2.SDA") == "" {
		t.Errorf("untied, SDA is on %q and the page says %q", pin("U2.SDA"), p.texts("#pins .conflict"))
	}
}

// Ticks of the checklist are kept with the panel.
func TestBuildRoomKeepsTicks(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m, k := mouse{p}, keyboard{p}
	panel := d.bring(demoFile(t, "lantern-run"))
	p.open(panel + "/build")
	total := ask[int](p, `document.querySelector('progress').max`)
	steps := ask[[]string](p, `[...document.querySelectorAll('.step-tick input')].map((b) => b.id)`)
	if total != len(steps) || total < 20 {
		t.Fatalf("%d steps are listed, progress counts %d", len(steps), total)
	}
	done := func(n int) {
		t.Helper()
		p.untilText("#progress-says", fmt.Sprintf("%d of %d done", n, total))
		p.until("the bar and the tab count it", fmt.Sprintf(`document.querySelector('progress').value === %d && document.querySelector('#tabs [aria-current]').textContent.includes('%d/%d')`, n, n, total))
	}
	done(0)
	m.press(fmt.Sprintf("[id=%q]", steps[2]))
	done(1)
	k.press("#step-done")
	done(2)
	p.untilText(".on-bench", "Step 2 of")
	p.open(panel + "/build")
	done(2)
	ticked := ask[[]string](p, `[...document.querySelectorAll('.step-tick input:checked')].map((b) => b.id)`)
	if want := []string{steps[0], steps[2]}; !slices.Equal(ticked, want) {
		t.Errorf("after a reload %q are ticked, want %q", ticked, want)
	}
	m.press(fmt.Sprintf("[id=%q]", steps[2]))
	done(1)
	p.open(panel + "/build")
	done(1)
}

// On paper every step has its words and its picture, and nothing that only a screen can use.
func TestChecklistPrintsWithItsPictures(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	p.open(d.bring(demoFile(t, "lantern-run")) + "/build")
	if _, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	p.until("all pictures are drawn", `[...document.querySelectorAll('.step-picture')].every((i) => i.complete)`)
	got := ask[struct {
		Steps, Pictures, Wordless int
		Shown                     []string
	}](p, `(() => {
		const seen = (e) => e.getClientRects().length > 0;
		const steps = [...document.querySelectorAll('.step')];
		return { Steps: steps.length, Pictures: [...document.querySelectorAll('.step-picture')].filter((i) => seen(i) && i.naturalWidth > 0).length,
			Wordless: steps.filter((s) => !seen(s.querySelector('.step-text'))).length,
			Shown: [...document.querySelectorAll('button, .tabs a, .thumbs a, input[type="search"]')].filter(seen).map((e) => e.outerHTML.slice(0, 80)) };
	})()`)
	if got.Pictures < got.Steps-4 || got.Pictures < 40 || got.Wordless > 0 || len(got.Shown) > 0 {
		t.Errorf("%d steps print %d pictures, %d without words, and %q", got.Steps, got.Pictures, got.Wordless, got.Shown)
	}
}
