package main

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
)

// A finger works the page by taps.
type finger struct{ *tab }

func (f finger) tapAt(at point) {
	f.Helper()
	f.do("tap", chromedp.TapXY(at.X, at.Y))
}

func (f finger) press(sel string) { f.Helper(); f.tapAt(f.target(sel)) }

func (f finger) write(sel, text string) {
	f.Helper()
	f.press(sel)
	f.until(sel+" has the focus", fmt.Sprintf(`document.activeElement === document.querySelector(%s)`, quote(sel)))
	f.keys("a", chromedp.ModifierCtrl)
	f.typeText(text)
}

// phone makes the tab a telephone of that width.
func (p *tab) phone(width int64) {
	p.Helper()
	p.do("be a telephone", chromedp.EmulateViewport(width, 740, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulateScale(2)))
}

// The main deeds on a telephone by taps alone, with the bar under the thumb.
func TestPhoneByTaps(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	p.phone(360)
	f := finger{p}
	p.open("/")
	f.write(`form[action="/panels"] input[name="name"]`, "Pocket try")
	p.turnsPage(func() { f.press(`form[action="/panels"] button`) })

	f.write("#shelf-search", "tactile 4 leg")
	f.press("#part-tact6")
	f.until("the part is in hand", `!document.getElementById('in-hand').hidden`)
	p.edits(1, func() { f.tapAt(p.spot("D5")) })
	p.edits(1, func() { f.tapAt(p.spot("P9")) })
	f.press("[data-let-go]")
	f.tapAt(p.middle("S1"))
	p.until("the slip is there", `document.querySelector('[data-slip="S1"]')`)
	f.write("#legend-S1", "Go")
	p.edits(1, func() { f.keys("\r") })
	p.edits(1, func() { f.press("#deed-turn1") })

	f.press("[data-lift]")
	p.edits(1, func() { f.tapAt(p.spot("D12")) })
	if at := p.partAt("D12"); at != "S1" {
		t.Errorf("in D12 is %q, want S1", at)
	}
	p.edits(1, func() { f.press(`.thumbs [data-step="undo"]`) })
	f.press(".thumbs [data-face-link]")
	p.until("the back is up", `document.getElementById('board').dataset.face === 'back'`)
	f.press(`.thumbs a[href="#notes"]`)
	p.until("the notes are in view", `(() => { const r = document.getElementById('notes').getBoundingClientRect(); return r.top < innerHeight - 64 && r.bottom > 0; })()`)
	for i, room := range []string{"scan", "wire", "build", "place"} {
		p.turnsPage(func() { f.press(fmt.Sprintf(`.thumbs a[href*="/%s"]`, room)) })
		if now := p.text(".thumbs [aria-current]"); now == "" || p.count(".thumbs [aria-current]") != 1 {
			t.Errorf("room %d, %s: the bar shows %q as current", i, room, now)
		}
	}
	if parts := ask[int](p, facts+".parts.length"); parts != 2 {
		t.Errorf("%d parts, want 2", parts)
	}
}

// At 320 CSS pixels nothing needs scrolling sideways but the board and wide tables, each in a frame
// of its own (WCAG 2.2, 1.4.10 Reflow).
func TestNarrowPagesScrollOneWay(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	panel := d.bring(demoFile(t, "pocket-organ"))
	for _, width := range []int64{320, 360} {
		p.phone(width)
		for _, path := range []string{"/", panel + "/place", panel + "/place?select=S1", panel + "/scan", panel + "/wire", panel + "/build", "/panels/nowhere"} {
			if path == "/panels/nowhere" {
				p.expects("status of 404")
			}
			p.open(path)
			wide := ask[[]string](p, `(() => {
				const out = [];
				if (document.scrollingElement.scrollWidth > innerWidth) out.push('the page is ' + document.scrollingElement.scrollWidth + ' wide');
				const framed = (el) => { for (let e = el.parentElement; e; e = e.parentElement) if (/auto|scroll|hidden|clip/.test(getComputedStyle(e).overflowX)) return true; return false; };
				for (const el of document.querySelectorAll('body *')) {
					const r = el.getBoundingClientRect();
					if (r.width && r.right > innerWidth + 1 && !framed(el) && getComputedStyle(el).visibility !== 'hidden') out.push(el.outerHTML.slice(0, 90) + ' reaches ' + Math.round(r.right));
				}
				return out.slice(0, 4);
			})()`)
			if len(wide) > 0 {
				t.Errorf("%s at %d pixels: %q", path, width, wide)
			}
		}
	}
}
