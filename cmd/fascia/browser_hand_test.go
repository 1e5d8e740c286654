package main

import (
	"context"
	"fmt"
	"time"

	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A hand works the page in one way only: with the mouse, with the keyboard, or with a finger. A flow
// that takes a hand is done the same with each.
type hand interface {
	press(sel string)                         // a link, a button or a box to tick
	write(sel, text string)                   // into a field, in place of what it holds
	choose(sel, start string)                 // the option of a list that begins like this
	turnOver()                                // to the other face
	place(part, words, hole string)           // one part from the shelf, found by words
	placeMany(part, words string, h []string) // the same part in several holes
	legends(first string, texts []string)     // typed on the keys in reading order, from the one at first
}

// target is where to press an element, once it is scrolled into view and nothing lies over it.
func (p *tab) target(sel string) point {
	p.Helper()
	look := fmt.Sprintf(`(() => {
		const el = document.querySelector(%s);
		if (!el) return { Why: 'it is not there' };
		el.scrollIntoView({ block: 'nearest', inline: 'nearest', behavior: 'instant' });
		const r = el.getBoundingClientRect(), X = r.left + r.width / 2, Y = r.top + r.height / 2;
		const hit = document.elementFromPoint(X, Y);
		if (el.disabled) return { Why: 'it is disabled' };
		return { X, Y, Why: hit && (el.contains(hit) || el.labels && [...el.labels].some((l) => l.contains(hit))) ? '' : 'over it lies ' + (hit ? hit.outerHTML.slice(0, 120) : 'nothing') };
	})()`, quote(sel))
	for end := time.Now().Add(patience); ; time.Sleep(8 * time.Millisecond) {
		got := ask[struct {
			X, Y float64
			Why  string
		}](p, look)
		if got.Why == "" {
			return point{got.X, got.Y}
		}
		if time.Now().After(end) {
			p.Fatalf("%s cannot be pressed: %s%s", sel, got.Why, p.soFar())
		}
	}
}

// typeText types into what has the focus.
func (p *tab) typeText(text string) {
	p.Helper()
	p.do("type "+text, chromedp.KeyEvent(text))
}

func (p *tab) keys(keys string, modifiers ...chromedp.Modifier) {
	p.Helper()
	p.do("press a key", chromedp.KeyEvent(keys, chromedp.KeyModifiers(modifiers...)))
}

// countPointing counts the events of pointers, over all pages of the tab from now on.
func (p *tab) countPointing() func() int {
	p.Helper()
	_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `
		for (const type of ['pointerdown', 'pointermove', 'mousedown', 'mousemove', 'touchstart', 'wheel']) {
			document.addEventListener(type, () => sessionStorage.setItem('pointed', Number(sessionStorage.getItem('pointed') ?? 0) + 1), { capture: true });
		}`})
	if err != nil {
		p.Fatal(err)
	}
	return func() int { return ask[int](p, `Number(sessionStorage.getItem('pointed') ?? 0)`) }
}

// fileFor gives the file chooser that a deed opens a file to choose.
func (p *tab) fileFor(file string, deed func()) {
	p.Helper()
	intercept := func(on bool) {
		if _, err := chromedp.Call(p.ctx, page.SetInterceptFileChooserDialog, page.SetInterceptFileChooserDialogParams{Enabled: on}); err != nil {
			p.Fatal(err)
		}
	}
	intercept(true)
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	opened := chromedp.Events(ctx, page.FileChooserOpened)
	deed()
	for e, err := range opened {
		if err == nil {
			_, err = chromedp.Call(p.ctx, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{file}, BackendNodeID: e.BackendNodeID})
		}
		if err != nil {
			p.Fatalf("choose a file: %v%s", err, p.soFar())
		}
		break
	}
	intercept(false)
}

// A mouse works the page by pointing, and types only where text is asked for.
type mouse struct{ *tab }

func (m mouse) move(to point, more ...chromedp.MouseOption) {
	m.Helper()
	m.do("move the mouse", chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, to.X, to.Y, more...))
}

func (m mouse) clickAt(at point, more ...chromedp.MouseOption) {
	m.Helper()
	m.move(at)
	m.do("click", chromedp.MouseClickXY(at.X, at.Y, more...))
}

// press clicks on what has come to rest: an answer that comes in above it would push it from under
// the pointer.
func (m mouse) press(sel string) {
	m.Helper()
	at := m.target(sel)
	for range 50 {
		time.Sleep(30 * time.Millisecond)
		now := m.target(sel)
		if now == at {
			break
		}
		at = now
	}
	m.clickAt(at)
}

// pick selects one part on the board, and waits for its slip.
func (m mouse) pick(ref string) {
	m.Helper()
	m.clickAt(m.middle(ref))
	m.until("the slip of "+ref+" is there", fmt.Sprintf(`document.querySelector('[data-slip=%q]')`, ref))
}

func (m mouse) write(sel, text string) {
	m.Helper()
	m.press(sel)
	m.keys("a", chromedp.ModifierCtrl)
	m.typeText(text)
}

// choose opens the list by a click; its options are drawn outside the page, where only keys reach.
func (m mouse) choose(sel, start string) {
	m.Helper()
	m.press(sel)
	m.typeText(start)
	m.keys(kb.Enter)
}

func (m mouse) turnOver() {
	m.Helper()
	face := ask[string](m.tab, `document.getElementById('board').dataset.face`)
	m.press(map[string]string{"front": `#faces a:last-child`, "back": `#faces a:first-child`}[face])
	m.until("the other face is up", fmt.Sprintf(`document.getElementById('board').dataset.face !== %s`, quote(face)))
}

// place drags the part from the shelf.
func (m mouse) place(part, words, hole string) {
	m.Helper()
	m.write("#shelf-search", words)
	m.edits(1, func() { m.drag(m.target("#part-"+part), m.spot(hole)) })
}

// drag holds the button down from one place to another.
func (m mouse) drag(from, to point) {
	m.Helper()
	m.move(from)
	m.do("drag", chromedp.DragAndDropXY(from.X, from.Y, to.X, to.Y, 6))
}

// placeMany picks the part once and then clicks hole after hole.
func (m mouse) placeMany(part, words string, holes []string) {
	m.Helper()
	m.write("#shelf-search", words)
	m.press("#part-" + part)
	for _, hole := range holes {
		m.edits(1, func() { m.clickAt(m.spot(hole)) })
	}
	m.press("[data-let-go]")
}

// legends opens the field on a key by a double click.
func (m mouse) legends(first string, texts []string) {
	m.Helper()
	at := m.middle(m.partAt(first))
	m.clickAt(at)
	m.do("double click", chromedp.MouseClickXY(at.X, at.Y, chromedp.ClickCount(2)))
	m.tab.typeLegends(texts)
}

// typeLegends types a legend and Enter, which leads to the next key.
func (p *tab) typeLegends(texts []string) {
	p.Helper()
	p.edits(len(texts), func() {
		for _, text := range texts {
			p.until("a key waits for its legend", `document.activeElement.matches('.legend-input') && document.activeElement.value === ''`)
			p.typeText(text)
			p.keys(kb.Enter)
		}
	})
}

// held is the option of a mouse move with the button down.
func held(e *input.DispatchMouseEventParams) {
	e.Button, e.Buttons = input.MouseButtonLeft, 1
}
