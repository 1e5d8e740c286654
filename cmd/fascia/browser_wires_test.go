package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp/kb"
)

// wiresOf are the maker's own wires in a panel's file, without spaces.
func (d *desk) wiresOf(panel string) string {
	d.Helper()
	_, after, _ := strings.Cut(strings.Join(strings.Fields(d.file(panel)), ""), `"locked":[`)
	wires, _, _ := strings.Cut(after, `],"keep_out"`)
	return wires
}

const drawTool = `.wire-tools [data-wire-tool="draw"]`

// toolOut waits until the tool for wires is in hand, and the board has made room for its bar.
func (p *tab) toolOut() {
	p.Helper()
	p.until("the tool is out", `!document.getElementById('wire-bar').hidden`)
	ask[bool](p, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))`)
}

// A wire drawn from hole to hole and one told by the names of its holes make the same panel.
func TestWireRoomDrawsAWire(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	p.size(1440, 900)
	drawn, told := d.bring(demoFile(t, "hive-notebook")), d.bring(demoFile(t, "hive-notebook"))

	p.open(drawn + "/wire?face=back")
	m.press(drawTool)
	p.toolOut()
	m.hold(p.spot("G25"), p.spot("I25"))
	p.untilText("#wire-says", "Bare run of row 0, G25 to I25, 2 holes long")
	p.edits(1, func() { m.letGo(p.spot("I25")) })
	for _, hole := range []string{"G27", "F27", "F32"} {
		m.clickAt(p.spot(hole))
	}
	m.move(p.spot("G32"))
	p.untilText("#wire-says", "Bare run of column 0, G27 to G32, 7 holes long")
	p.edits(1, func() { m.clickAt(p.spot("G32")) })

	p.open(told + "/wire?face=back")
	m.press("#wire-typed summary")
	tell := func(from, to, bends string) {
		m.write(`#wire-new [name="from"]`, from)
		m.write(`#wire-new [name="to"]`, to)
		m.write(`#wire-new [name="bends"]`, bends)
		p.edits(1, func() { m.press("#wire-new button") })
	}
	tell("g25", "I25", "")
	tell("G27", "G32", "F27 F32")

	one, other := d.wiresOf(drawn), d.wiresOf(told)
	if one != other || strings.Count(one, `"from"`) != 2 || !strings.Contains(one, `"path":["G27","F27","F32","G32"]`) {
		t.Fatalf("drawn %s\ntold  %s", one, other)
	}
	if n := p.count(`.wires-table [aria-pressed="true"]`); n != 2 {
		t.Errorf("%d wires of the list are the maker's own, want 2", n)
	}
	m.press("#own-wires summary")
	p.until("what the wishes cost is told", `[...document.querySelectorAll('#own-wires .price')].every((e) => /^(It costs nothing|Without this wish the wiring would cost [0-9.]+ holes? less)\.$/.test(e.textContent))`)
	p.edits(1, func() { m.press(`#lock-backG25I25`) })
	if left := d.wiresOf(told); strings.Contains(left, "G25") || !strings.Contains(left, "G27") {
		t.Errorf("left to Fascia again, the wires are %s", left)
	}
	p.edits(1, func() { m.press("#undo") })
	if again := d.wiresOf(told); again != one {
		t.Errorf("undone, the wires are %s", again)
	}
}

// A wire that would join two nets is told so while it is drawn, and refused.
func TestWireRoomRefusesAShort(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	p.size(1440, 900)
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire?face=back")
	p.expects("status of 422")
	before := d.file(panel)
	m.press(drawTool)
	p.toolOut()
	m.hold(p.spot("D25"), p.spot("D27"))
	p.untilText(".wire-tag.no", "It would join row 0 with column 0.")
	m.letGo(p.spot("D27"))
	p.untilText("#say.trouble", "Bare run from D25 to D27 on the back cannot be: it would join row 0 with column 0.")
	m.hold(p.spot("G27"), p.spot("G32"))
	p.untilText("#wire-says", "Bare run of column 0") // which goes round the row
	m.keys(kb.Escape)
	m.letGo(p.spot("G32"))
	m.press(`#wire-kinds label:has([value="solder"])`)
	m.hold(p.spot("G25"), p.spot("L25"))
	p.untilText("#wire-says.no", "Solder joins neighbours")
	m.letGo(p.spot("L25"))
	p.untilText("#say.trouble", "Solder bridge from G25 to L25 on the back cannot be")
	if d.file(panel) != before || p.rev() != 0 {
		t.Errorf("a wire that was refused changed the panel")
	}
	m.press("#wire-done")
	p.until("the tool is away", `document.getElementById('wire-bar').hidden && !document.querySelector('[data-wire-tool][aria-pressed="true"]')`)
}

// By keys alone: W takes the tool, Enter begins, bends and ends a wire, K keeps a hole clear.
func TestWireRoomDrawsByKeys(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	k := keyboard{p}
	p.size(1440, 900)
	panel := d.bring(demoFile(t, "hive-notebook"))
	pointed := p.countPointing()
	p.open(panel + "/wire?face=back")
	k.goTo("#board")
	k.aim("G25")
	k.keys("w")
	k.keys(kb.Enter)
	for range 2 {
		k.keys(kb.ArrowLeft) // right on the front
	}
	p.untilText("#wire-says", "Bare run of row 0, G25 to I25")
	p.edits(1, func() { k.keys(kb.Enter) })
	k.keys("k")
	k.aim("B3")
	p.edits(1, func() { k.keys(kb.Enter) })
	if file := strings.Join(strings.Fields(d.file(panel)), ""); !strings.Contains(file, `"keep_out":["B3"]`) || !strings.Contains(file, `"from":"G25","to":"I25","kind":"bare","face":"back"`) {
		t.Errorf("the file says %s", file[strings.Index(file, `"wires"`):])
	}
	p.edits(1, func() { k.keys(kb.Enter) })
	if file := strings.Join(strings.Fields(d.file(panel)), ""); !strings.Contains(file, `"keep_out":[]`) {
		t.Errorf("pressed again, B3 is still kept clear")
	}
	k.keys(kb.Escape)
	p.until("the tool is away", `document.getElementById('wire-bar').hidden`)
	if n := pointed(); n != 0 {
		t.Errorf("%d pointer events in a run by keys", n)
	}
}

// A finger draws by a drag.
func TestWireRoomByFinger(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	f := finger{p}
	p.phone(360)
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire?face=back")
	f.press(drawTool)
	p.toolOut()
	from, to := p.spot("G25"), p.spot("I25")
	f.touch(input.DispatchTouchEventTypeTouchStart, from)
	f.touch(input.DispatchTouchEventTypeTouchMove, point{(from.X + to.X) / 2, from.Y})
	f.touch(input.DispatchTouchEventTypeTouchMove, to)
	p.edits(1, func() { f.touch(input.DispatchTouchEventTypeTouchEnd) })
	if got := d.wiresOf(panel); got != `{"from":"G25","to":"I25","kind":"bare","face":"back"}` {
		t.Errorf("the finger drew %s", got)
	}
	f.press("#wire-done")
}

// Wishes by mouse: a net gets its colour, a wire of the plan is locked as it is, a face takes no runs, and
// the costs are the maker's own until the usual ones come back.
func TestWireRoomWishes(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	p.size(1440, 900)
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire?face=back")
	m.press("#net-wishes summary")
	p.edits(1, func() { m.choose(`[id="colour-row 1"]`, "GN") })
	if n := p.count(`#board-svg .wire[data-net="row 1"] .colour-GN`); n == 0 {
		t.Errorf("row 1 shall be green, and is not")
	}
	p.edits(1, func() { m.press(`[id="insulated-column 0"]`) })
	if n := p.count(`.wires-table [data-wire-net="column 0"] .swatch-bare`); n != 0 {
		t.Errorf("column 0 shall be insulated and has %d bare runs", n)
	}
	p.edits(1, func() { m.press(`.wires-table tr[data-wire-net="row 1"][data-face="back"] [aria-pressed="false"]`) })
	if now := p.count(`.wires-table [aria-pressed="true"]`); now != 1 {
		t.Errorf("%d wires are locked, want 1", now)
	}
	m.press("#wire-ways summary")
	p.edits(1, func() { m.press("#no-runs-front") })
	if n := p.count(`#board-svg .wire-bare[data-face="front"]`); n != 0 {
		t.Errorf("%d bare runs are on the front though it takes none", n)
	}
	m.write("#cost-insulated", "40")
	p.edits(1, func() { m.press("#wire-costs button") })
	if file := strings.Join(strings.Fields(d.file(panel)), ""); !strings.Contains(file, `"no_runs":["front"],"costs":{"bend":0.3,"solder":0.5,"insulated":40,`) {
		t.Errorf("the wishes are %s", file[strings.Index(file, `"wires"`):])
	}
	p.edits(1, func() { m.press("#usual-costs") })
	if file := d.file(panel); strings.Contains(file, `"costs"`) || !strings.Contains(file, `"no_runs"`) {
		t.Errorf("the usual costs are back, and the file still tells them")
	}
}

// The list sorts by net, kind and length, and a press on a wire brings it near with its face up.
func TestWireRoomSortsAndZooms(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	p.size(1440, 900)
	p.open(d.bring(demoFile(t, "hive-notebook")) + "/wire")
	kinds := func() string {
		p.Helper()
		return ask[string](p, `[...document.querySelectorAll('.wires-table')[0].querySelectorAll('.wire-way')].map((e) => e.textContent.replace(/.*(solder|bare|insulated).*/s, '$1')).filter((k, i, all) => k !== all[i - 1]).join(' ')`)
	}
	first := kinds()
	m.press(`.orders a:nth-child(3)`)
	p.until("the list is by kind", `document.querySelector('.orders a:nth-child(3)').matches('[aria-current]')`)
	if got := kinds(); got != "solder bare insulated" || first == got {
		t.Errorf("by kind the list runs %q, by work %q", got, first)
	}
	scale := p.text("#scale")
	m.press(`.wires-table tr[data-face="back"] .zoom-wire`)
	p.until("the back is up, nearer, with the net lit", fmt.Sprintf(`document.getElementById('board').dataset.face === 'back' && document.getElementById('scale').textContent !== %s && document.querySelector('#board-svg .wire.this-wire')`, quote(scale)))
	p.until("the wire is in the middle", `(() => { const b = document.getElementById('board').getBoundingClientRect(), w = document.querySelector('#board-svg .wire.this-wire').getBoundingClientRect();
		return w.left > b.left && w.right < b.right && w.top > b.top && w.bottom < b.bottom; })()`)
}
