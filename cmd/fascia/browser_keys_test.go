package main

import (
	"fmt"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"fascia/design/grid"
)

// A keyboard works the page with keys alone: Tab to get about, arrows on the board.
type keyboard struct{ *tab }

// mostTabs is how far apart two things on a page may lie; more means that the way does not exist.
const mostTabs = 400

// goTo presses Tab, or Shift and Tab when that is the shorter way, until an element has the focus.
func (k keyboard) goTo(sel string) {
	k.Helper()
	k.until(sel+" is there", fmt.Sprintf(`document.querySelector(%s)`, quote(sel)))
	has := fmt.Sprintf(`document.activeElement === document.querySelector(%s)`, quote(sel))
	before := ask[bool](k.tab, fmt.Sprintf(`document.activeElement !== document.body &&
		!!(document.activeElement.compareDocumentPosition(document.querySelector(%s)) & Node.DOCUMENT_POSITION_PRECEDING)`, quote(sel)))
	var way []chromedp.Modifier
	if before {
		way = append(way, chromedp.ModifierShift)
	}
	for range mostTabs {
		if ask[bool](k.tab, has) {
			k.seen(sel)
			return
		}
		k.keys(kb.Tab, way...)
	}
	k.Fatalf("Tab does not lead to %s; it led to %s%s", sel, ask[string](k.tab, `document.activeElement.outerHTML.slice(0, 200)`), k.soFar())
}

// seen fails when what has the focus stays hidden under something else (WCAG 2.2, 2.4.11) or shows no
// mark of the focus (2.4.7). The page may still be scrolling to it.
func (k keyboard) seen(sel string) {
	k.Helper()
	fault := ""
	for range 20 {
		fault = ask[string](k.tab, `(() => {
			const el = document.activeElement, r = el.getBoundingClientRect(), style = getComputedStyle(el);
			if (el.id !== 'board' && style.outlineStyle === 'none' && style.boxShadow === 'none') return 'shows no mark of the focus';
			const spots = [[0.5, 0.5], [0.1, 0.5], [0.9, 0.5], [0.5, 0.1], [0.5, 0.9]].map(([x, y]) => document.elementFromPoint(r.left + r.width * x, r.top + r.height * y));
			return spots.some((hit) => hit && (el.contains(hit) || hit.contains(el) || el.labels && [...el.labels].some((l) => l.contains(hit)))) ? '' : 'is hidden by ' + spots.map((s) => s?.outerHTML.slice(0, 60)).join(' and ') + ', at ' + [r.left, r.top, r.width, r.height].map(Math.round);
		})()`)
		if fault == "" {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	k.Errorf("%s has the focus and %s", sel, fault)
}

func (k keyboard) press(sel string) {
	k.Helper()
	k.goTo(sel)
	if ask[bool](k.tab, `document.activeElement.matches('input[type="checkbox"]')`) {
		k.keys(" ")
		return
	}
	k.keys(kb.Enter)
}

func (k keyboard) write(sel, text string) {
	k.Helper()
	k.goTo(sel)
	k.keys("a", chromedp.ModifierCtrl)
	k.typeText(text)
}

func (k keyboard) choose(sel, start string) {
	k.Helper()
	k.goTo(sel)
	k.typeText(start)
}

func (k keyboard) turnOver() {
	k.Helper()
	face := ask[string](k.tab, `document.getElementById('board').dataset.face`)
	k.goTo("#board")
	k.keys("b")
	k.until("the other face is up", fmt.Sprintf(`document.getElementById('board').dataset.face !== %s`, quote(face)))
}

// aim leads the cursor to a hole, from the board's first: the left one as it is seen.
func (k keyboard) aim(hole string) {
	k.Helper()
	h := grid.MustHole(hole)
	type frame struct {
		Back                    bool
		Col, Row, Columns, Rows int
	}
	f := ask[frame](k.tab, fmt.Sprintf(`(({ boards: [b], face }) => ({ Back: face === 'back', Col: b.col, Row: b.row, Columns: b.columns, Rows: b.rows }))(%s)`, facts))
	right := h.Col - f.Col
	if f.Back {
		right = f.Col + f.Columns - 1 - h.Col
	}
	k.keys(kb.Home, chromedp.ModifierCtrl)
	k.steps(kb.ArrowRight, right)
	k.steps(kb.ArrowDown, h.Row-f.Row)
}

// steps goes n holes one way, five at a time as long as it can.
func (k keyboard) steps(key string, n int) {
	k.Helper()
	for ; n >= 5; n -= 5 {
		k.keys(key, chromedp.ModifierShift)
	}
	for ; n > 0; n-- {
		k.keys(key)
	}
}

func (k keyboard) take(part, words string) {
	k.Helper()
	k.write("#shelf-search", words)
	k.press("#part-" + part)
	k.until("the board has the focus and a part is in hand", `document.activeElement.id === 'board' && document.querySelector('#board.aiming')`)
}

func (k keyboard) place(part, words, hole string) {
	k.Helper()
	k.take(part, words)
	k.aim(hole)
	k.edits(1, func() { k.keys(kb.Enter) })
}

func (k keyboard) placeMany(part, words string, holes []string) {
	k.Helper()
	k.take(part, words)
	for _, hole := range holes {
		k.aim(hole)
		k.edits(1, func() { k.keys(kb.Enter) })
	}
	k.keys(kb.Escape)
}

// legends selects the first key and opens its field with Enter.
func (k keyboard) legends(first string, texts []string) {
	k.Helper()
	k.goTo("#board")
	k.aim(first)
	k.keys(kb.Enter)
	k.until("a key is selected", `document.querySelector('.part.selected')`)
	k.keys(kb.Enter)
	k.tab.typeLegends(texts)
}
