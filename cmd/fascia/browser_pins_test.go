package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// pinOf is the pin that the table gives a signal.
func (p *tab) pinOf(signal string) string {
	p.Helper()
	return ask[string](p, fmt.Sprintf(`document.getElementById('pin-%s')?.closest('tr').dataset.pin ?? ''`, signal))
}

func grip(signal string) string { return fmt.Sprintf(`[id="carry-%s"]`, signal) }

// hold presses the button at one place, moves to another and keeps it down there.
func (m mouse) hold(from, to point) {
	m.Helper()
	m.move(from)
	m.do("press", chromedp.MouseEvent(chromedp.MousePressed, from.X, from.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	m.move(point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}, held)
	m.move(to, held)
}

func (m mouse) letGo(at point) {
	m.Helper()
	m.do("let go", chromedp.MouseEvent(chromedp.MouseReleased, at.X, at.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

// A signal dragged to another pin is tied there and the plan follows, from the table, from both
// drawings of the module and on the board. A pin that cannot take it says why and takes nothing.
func TestWireRoomDragsSignalsToPins(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	p.size(1440, 1300)
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire")
	small := func(gpio string) point {
		return m.within(fmt.Sprintf(`.module-small .pin[data-gpio="%s"] > .hit`, gpio))
	}

	from := m.target(grip("U2.SDA"))
	m.hold(from, small("GP5"))
	p.untilText(".carried", "GP5 cannot be I2C SDA")
	if able := p.count(".module-small .pin.able"); able < 8 || p.count(`.module-small .pin.barred[data-gpio="GP5"]`) != 1 || p.count(`.module-small .pin.able[data-gpio="GP26"]`) != 1 {
		t.Errorf("%d pins are lit for SDA, GP5 or GP26 wrongly", able)
	}
	before := p.rev()
	m.letGo(small("GP5"))
	p.until("nothing is in hand", `!document.body.matches('.carrying')`)
	if p.rev() != before {
		t.Errorf("a pin that cannot be SDA took it")
	}

	from = m.target(grip("U2.SDA"))
	m.hold(from, small("GP26"))
	p.untilText(".carried", "Tie display SDA to GP26")
	p.edits(1, func() { m.letGo(small("GP26")) })
	if sda, scl := p.pinOf("U2.SDA"), p.pinOf("U2.SCL"); sda != "GP26" || scl == "" {
		t.Errorf("SDA is on %s and SCL on %q", sda, scl)
	}
	if says := p.text("#say"); !strings.HasPrefix(says, "Locked display SDA to GP26: ") || !strings.Contains(says, "more wire") {
		t.Errorf("the page says %q, not what that cost", says)
	}

	// On the large drawing, onto a pin that is taken: the other signal moves away.
	m.press(".module-small button")
	large := func(gpio string) point {
		return m.within(fmt.Sprintf(`#module-large .pin[data-gpio="%s"] > .hit`, gpio))
	}
	p.until("the module is large", `document.getElementById('module-dialog').open`)
	taken := p.pinOf("D2.A")
	m.hold(large(p.pinOf("D1.A")), large(taken))
	p.untilText("#module-dialog .carried", "now D2 A")
	p.edits(1, func() { m.letGo(large(taken)) })
	if d1, d2 := p.pinOf("D1.A"), p.pinOf("D2.A"); d1 != taken || d2 == taken {
		t.Errorf("D1 is on %s and D2 on %s, want D1 on %s", d1, d2, taken)
	}
	m.keys(kb.Escape)

	// On the board, from the hole of its pin to the hole of another; Escape on the way changes nothing.
	hole := func(gpio string) point {
		return p.spot(ask[string](p, fmt.Sprintf(`(async () => {
			const js = document.querySelector('script[type=module]').src, { holeOf } = await import(js.replace('main.js', 'pinplaces.js')), { holeName } = await import(js.replace('main.js', 'holes.js'));
			return holeName(holeOf(%s));
		})()`, quote(gpio))))
	}
	at := p.pinOf("LS1.1")
	m.hold(hole(at), hole("GP22"))
	p.untilText(".carried", "Tie piezo 1 to GP22")
	m.keys(kb.Escape)
	p.until("nothing is in hand", `!document.body.matches('.carrying')`)
	m.letGo(hole("GP22"))
	m.hold(hole(at), hole("GP22"))
	p.edits(1, func() { m.letGo(hole("GP22")) })
	if now := p.pinOf("LS1.1"); now != "GP22" {
		t.Errorf("the piezo is on %s, want GP22", now)
	}

	// From the name beside a pin, too.
	if says := p.text("#board-svg .used-name"); says != "display SCL" {
		t.Fatalf("the first name beside a pin is %q", says)
	}
	name := m.within("#board-svg .used-name")
	m.hold(name, hole("GP28"))
	p.untilText(".carried", "GP28 cannot be I2C SCL")
	m.keys(kb.Escape)
	m.letGo(hole("GP28"))

	// From row to row of the table, and back by undo.
	row := p.pinOf("D2.A")
	m.hold(m.target(grip("D1.A")), m.target(grip("D2.A")))
	p.edits(1, func() { m.letGo(m.target(grip("D2.A"))) })
	if now := p.pinOf("D1.A"); now != row {
		t.Errorf("D1 is on %s, want %s", now, row)
	}
	p.edits(1, func() { m.press(`#history [data-step="undo"]`) })
	if now := p.pinOf("D1.A"); now != taken {
		t.Errorf("after undo D1 is on %s, want %s", now, taken)
	}
}

// within is a place in an element, wherever it is on the screen.
func (m mouse) within(sel string) point {
	m.Helper()
	return ask[point](m.tab, fmt.Sprintf(`(() => { const r = document.querySelector(%s).getBoundingClientRect(); return { X: r.left + r.width / 2, Y: r.top + r.height / 2 }; })()`, quote(sel)))
}

// By keys alone: a name takes its signal in hand, arrows walk the pins that can do it, Enter ties; on
// the large drawing as in the table, and focus stays where the work is.
func TestWireRoomTiesByKeys(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	k := keyboard{p}
	p.size(1440, 900)
	panel := d.bring(demoFile(t, "hive-notebook"))
	pointed := p.countPointing()
	p.open(panel + "/wire")
	k.goTo(grip("U2.SDA"))
	k.keys(kb.Enter)
	p.until("SDA is in hand", `document.querySelector('[id="carry-U2.SDA"]').getAttribute('aria-pressed') === 'true'`)
	k.keys(kb.ArrowDown)
	p.untilText(".carried", "Tie display SDA to GP4, now D1 A") // GP2 is its own, GP3 cannot be SDA
	k.keys(kb.ArrowUp)
	k.keys(kb.ArrowUp)
	p.untilText(".carried", "to GP0, now free")
	k.keys(kb.Escape)
	p.until("nothing is in hand", `!document.body.matches('.carrying') && !document.querySelector('.carried')`)
	k.keys(kb.Enter)
	k.keys(kb.End)
	p.untilText(".carried", "to GP28")
	k.keys(kb.ArrowUp)
	p.edits(1, func() { k.keys(kb.Enter) })
	if now := p.pinOf("U2.SDA"); now != "GP26" {
		t.Errorf("SDA is on %s, want GP26", now)
	}
	p.until("the focus stays on the name", `document.activeElement.id === 'carry-U2.SDA'`)

	k.press(".module-small button")
	p.until("the module is large", `document.getElementById('module-dialog').open`)
	k.goTo(`#module-large [tabindex="0"]`)
	for range 30 {
		if ask[string](p, `document.activeElement.closest('.pin').dataset.signal`) == "U2.SDA" {
			break
		}
		k.keys(kb.ArrowDown)
	}
	k.keys(kb.Enter)
	k.keys(kb.Home)
	p.untilText("#carry-says", "Tie display SDA to GP0")
	p.edits(1, func() { k.keys(kb.Enter) })
	if now := p.pinOf("U2.SDA"); now != "GP0" {
		t.Errorf("SDA is on %s, want GP0", now)
	}
	p.untilText("#carry-says", "Locked display SDA to GP0")
	p.until("the focus stays on the signal, and the module large", `document.activeElement.closest('.pin')?.dataset.signal === 'U2.SDA' && document.getElementById('module-dialog').open`)
	if n := pointed(); n != 0 {
		t.Errorf("%d pointer events in a run by keys", n)
	}
}

// With a finger a handle drags at once, a drawing after a rest, and a tap on a name and then on a pin
// does the same without a drag (WCAG 2.2, 2.5.7).
func TestWireRoomTiesByFinger(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	f := finger{p}
	p.phone(390)
	p.open(d.bring(demoFile(t, "hive-notebook")) + "/wire")
	pin := func(frame, gpio string) point {
		sel := fmt.Sprintf(`%s .pin[data-gpio="%s"] > .hit`, frame, gpio)
		ask[chromedp.Void](p, fmt.Sprintf(`void document.querySelector(%s).scrollIntoView({ block: 'center', behavior: 'instant' })`, quote(sel)))
		return mouse{p}.within(sel)
	}
	f.press(".module-small button")
	p.until("the module is large", `document.getElementById('module-dialog').open`)
	f.tapAt(pin("#module-large", "GP2"))
	p.untilText("#carry-says", "display SDA in hand")
	p.edits(1, func() { f.tapAt(pin("#module-large", "GP6")) })
	f.press("#module-dialog [data-close]")
	if now := p.pinOf("U2.SDA"); now != "GP6" {
		t.Fatalf("SDA is on %s, want GP6", now)
	}
	want := p.pinOf("D2.A")
	to := f.target(`tr:has([id="pin-D2.A"])`)
	from := mouse{p}.within(grip("D1.A") + " .icon")
	f.touch(input.DispatchTouchEventTypeTouchStart, from)
	f.touch(input.DispatchTouchEventTypeTouchMove, point{(from.X + to.X) / 2, (from.Y + to.Y) / 2})
	f.touch(input.DispatchTouchEventTypeTouchMove, to)
	p.edits(1, func() { f.touch(input.DispatchTouchEventTypeTouchEnd) })
	if now := p.pinOf("D1.A"); now != want {
		t.Errorf("D1 is on %s, want %s", now, want)
	}

	to = pin(".module-small", "GP28")
	from = mouse{p}.within(`.module-small .pin[data-signal="U2.SDA"] > .hit`)
	f.touch(input.DispatchTouchEventTypeTouchStart, from)
	p.until("a finger that rests takes the signal in hand", `document.body.matches('.carrying')`)
	f.touch(input.DispatchTouchEventTypeTouchMove, point{(from.X + to.X) / 2, (from.Y + to.Y) / 2})
	f.touch(input.DispatchTouchEventTypeTouchMove, to)
	p.edits(1, func() { f.touch(input.DispatchTouchEventTypeTouchEnd) })
	if now := p.pinOf("U2.SDA"); now != "GP28" {
		t.Errorf("SDA is on %s, want GP28", now)
	}
}

// touch puts one finger down, moves it, or with no place lifts it.
func (f finger) touch(kind input.DispatchTouchEventType, at ...point) {
	f.Helper()
	points := []*input.TouchPoint{}
	for _, p := range at {
		points = append(points, &input.TouchPoint{X: p.X, Y: p.Y})
	}
	if _, err := chromedp.Call(f.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points}); err != nil {
		f.Fatal(err)
	}
}

// What the pins spare is put in another order and switched off, by buttons and boxes alone; the plan
// follows and the page says what gave way.
func TestWireRoomOrdersWhatPinsSpare(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m, k := mouse{p}, keyboard{p}
	p.size(1440, 900)
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire")
	order := func() string { p.Helper(); return strings.Join(p.texts(".wish-list label"), ", ") }
	if got := order(); got != "1. serial console, 2. analogue pins, I2C bus" {
		t.Fatalf("at first the pins spare %q", got)
	}
	p.edits(1, func() { m.press("#wish-down-serial-console") })
	if got := order(); got != "1. analogue pins, 2. serial console, I2C bus" {
		t.Errorf("after a press on the arrow the pins spare %q", got)
	}
	p.until("the focus stays on the button", `document.activeElement.id === 'wish-down-serial-console'`)
	p.edits(1, func() { k.press("#wish-i2c-bus") })
	p.edits(1, func() { k.press("#wish-up-i2c-bus") })
	p.edits(1, func() { k.press("#wish-serial-console") })
	if got := order(); got != "1. analogue pins, 2. I2C bus, serial console" {
		t.Errorf("by keys the pins spare %q", got)
	}
	if file := d.file(panel); !strings.Contains(strings.Join(strings.Fields(file), " "), `"prefer": [ "analogue pins", "I2C bus" ]`) {
		t.Errorf("the file does not hold the order")
	}
	p.edits(1, func() { m.press(`#history [data-step="undo"]`) })
	if got := order(); got != "1. analogue pins, 2. I2C bus, 3. serial console" {
		t.Errorf("after undo the pins spare %q", got)
	}
}

// An impossible tie comes with what would mend it, each a button: one press and the pins are back.
func TestWireRoomTakesAConcession(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m, k := mouse{p}, keyboard{p}
	p.size(1440, 900)
	panel := d.bring(demoFile(t, "hive-notebook"))
	p.open(panel + "/wire")
	rows := p.count(".pins-table tbody tr")
	p.edits(1, func() { m.choose(`[id="pin-U2.SDA"]`, "tie to GP27") }) // which can only be SCL
	p.untilText("#say", "but now the wishes cannot all be met")
	offers := p.texts("#pin-conflict button")
	if len(offers) < 2 || p.count(".pins-table") != 0 {
		t.Fatalf("the conflict offers %q", offers)
	}
	p.edits(1, func() { k.press("#concession-0") })
	if now := p.count(".pins-table tbody tr"); now != rows || p.count("#pin-conflict") != 0 {
		t.Errorf("after %q %d rows are left of %d", offers[0], now, rows)
	}
	p.edits(1, func() { m.press(`#history [data-step="undo"]`) })
	if again := p.texts("#pin-conflict button"); strings.Join(again, "|") != strings.Join(offers, "|") {
		t.Errorf("after undo the conflict offers %q", again)
	}
	last := len(offers) - 1
	p.edits(1, func() { m.press(fmt.Sprintf("#concession-%d", last)) })
	if p.count("#pin-conflict") != 0 {
		t.Errorf("%q does not mend it", offers[last])
	}

	// A row tied through a key that it serves is untied through the row, too.
	p.edits(1, func() { d.edit(panel, `{"do": "lock-pin", "signal": "S1.A1", "gpio": "GP16"}`) })
	if row := p.text(`tr:has([id="pin-row 0"])`); !strings.Contains(row, "tied by you") {
		t.Fatalf("the row says %q", row)
	}
	p.edits(1, func() { m.choose(`[id="pin-row 0"]`, "let") })
	if file := d.file(panel); strings.Contains(file, `"S1.A1"`) {
		t.Errorf("the tie through the key is still in the file")
	}
}
