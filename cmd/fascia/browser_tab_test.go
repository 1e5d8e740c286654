package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"

	"fascia/design/grid"
)

// do runs steps in the tab and fails the test when one of them fails.
func (p *tab) do(what string, steps ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.Fatalf("%s: %v%s", what, err, p.soFar())
	}
}

// soFar lists the faults of the page, to explain a failure.
func (p *tab) soFar() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.faults) == 0 {
		return ""
	}
	return "\nbefore that: " + strings.Join(p.faults, "\n")
}

// ask evaluates a JavaScript expression.
func ask[T any](p *tab, expression string) T {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.Fatalf("%s: %v%s", expression, err, p.soFar())
	}
	return got
}

// until waits for an expression to come true. A page that is just being replaced is asked again.
func (p *tab) until(what, expression string) {
	p.Helper()
	end := time.Now().Add(patience)
	for {
		ctx, cancel := context.WithDeadline(p.ctx, end)
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+expression+")"))
		cancel()
		if err == nil && ok {
			return
		}
		if time.Now().After(end) {
			p.Fatalf("waited in vain until %s\n%s: %v%s", what, expression, err, p.soFar())
		}
		time.Sleep(8 * time.Millisecond) // between two looks; what is waited for is the condition
	}
}

// open shows an address of the desk, and waits for its scripts.
func (p *tab) open(path string) {
	p.Helper()
	p.do("open "+path, chromedp.Navigate(p.desk.url+path))
	p.ready()
}

const pageReady = `document.readyState === 'complete' && (!document.body.classList.contains('panel') || document.body.dataset.ready !== undefined)`

func (p *tab) ready() {
	p.Helper()
	p.until("the page is ready", pageReady)
}

// turnsPage waits until a deed has brought another page.
func (p *tab) turnsPage(deed func()) {
	p.Helper()
	ask[chromedp.Void](p, `void (window.pageBefore = true)`)
	deed()
	p.until("another page has come", `!window.pageBefore && `+pageReady)
}

const facts = `JSON.parse(document.getElementById('facts').dataset.facts)`

// rev is the revision that the page shows.
func (p *tab) rev() int { p.Helper(); return ask[int](p, facts+".rev") }

// edits waits until so many edits of a deed are saved and the page shows them.
func (p *tab) edits(n int, deed func()) {
	p.Helper()
	want := p.rev() + n
	deed()
	p.until(fmt.Sprintf("revision %d is shown", want), fmt.Sprintf(`%s.rev >= %d && !document.getElementById('saved').dataset.state`, facts, want))
	if got := p.rev(); got != want {
		p.Fatalf("the deed made revision %d, want %d", got, want)
	}
}

// panel is the address of the panel that the page shows.
func (p *tab) panel() string { p.Helper(); return "/panels/" + ask[string](p, facts+".panel") }

// quote writes text as JavaScript.
func quote(text string) string {
	out, err := json.Marshal(text)
	if err != nil {
		panic(err) // a string always encodes
	}
	return string(out)
}

func (p *tab) count(sel string) int {
	p.Helper()
	return ask[int](p, fmt.Sprintf(`document.querySelectorAll(%s).length`, quote(sel)))
}

// text is what an element says, with its spaces as one sees them.
func (p *tab) text(sel string) string {
	p.Helper()
	got := ask[string](p, fmt.Sprintf(`document.querySelector(%s)?.textContent ?? 'no such element'`, quote(sel)))
	return strings.Join(strings.Fields(got), " ")
}

// texts are what all such elements say.
func (p *tab) texts(sel string) []string {
	p.Helper()
	return ask[[]string](p, fmt.Sprintf(`[...document.querySelectorAll(%s)].map((e) => e.textContent.trim().replace(/\s+/g, ' '))`, quote(sel)))
}

func (p *tab) untilText(sel, words string) {
	p.Helper()
	p.until(sel+" says "+words, fmt.Sprintf(`document.querySelector(%s)?.textContent.replace(/\s+/g, ' ').includes(%s)`, quote(sel), quote(words)))
}

// A point is a place in the window, in CSS pixels.
type point struct{ X, Y float64 }

// spot is where a hole is on the screen, scrolled to if need be.
func (p *tab) spot(hole string) point {
	p.Helper()
	h := grid.MustHole(hole)
	return p.onScreen(fmt.Sprintf("[%d * 2.54, %d * 2.54]", h.Col, h.Row))
}

// middle is where the middle of a part's body is on the screen.
func (p *tab) middle(ref string) point {
	p.Helper()
	return p.onScreen(fmt.Sprintf(`(({ box: [l, t, r, b] }) => [(l + r) / 2, (t + b) / 2])(%s.parts.find((q) => q.ref === %s))`, facts, quote(ref)))
}

// partAt is the part whose first leg is in a hole.
func (p *tab) partAt(hole string) string {
	p.Helper()
	h := grid.MustHole(hole)
	return ask[string](p, fmt.Sprintf(`%s.parts.find((q) => q.at[0] === %d && q.at[1] === %d)?.ref ?? ''`, facts, h.Col, h.Row))
}

// onScreen takes millimetres on the board, seen from the front, to the window.
func (p *tab) onScreen(millimetres string) point {
	p.Helper()
	return ask[point](p, fmt.Sprintf(`(() => {
		const layer = document.querySelector('#board-hand > svg'), board = document.getElementById('board');
		const mirror = parseFloat(document.querySelector('#board-svg svg').dataset.mirror ?? ''), [x, y] = %s;
		const place = () => new DOMPoint(isNaN(mirror) ? x : mirror - x, y).matrixTransform(layer.getScreenCTM());
		const r = board.getBoundingClientRect(), now = place();
		if (now.x < r.left + 8 || now.x > r.right - 8) board.scrollLeft += now.x - r.left - r.width / 2;
		if (now.y < r.top + 8 || now.y > r.bottom - 8) board.scrollTop += now.y - r.top - r.height / 2;
		return { X: place().x, Y: place().y };
	})()`, millimetres))
}

// size sets the window; scale 1, no touch.
func (p *tab) size(width, height int64) {
	p.Helper()
	p.do("size the window", chromedp.EmulateViewport(width, height))
}

// saves returns the name and the text of the file that a deed downloads.
func (p *tab) saves(deed func()) (name, text string) {
	p.Helper()
	dir := p.TempDir()
	_, err := chromedp.CallBrowser(p.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, BrowserContextID: p.visitor(), DownloadPath: dir, EventsEnabled: new(true)})
	if err != nil {
		p.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	progress := chromedp.BrowserEvents(ctx, browser.DownloadProgress)
	deed()
	for e, err := range progress {
		if err != nil || e.State == browser.DownloadProgressStateCanceled {
			p.Fatalf("download: %v %v%s", e.State, err, p.soFar())
		}
		if e.State == browser.DownloadProgressStateCompleted {
			break
		}
	}
	files, err := os.ReadDir(dir)
	if err != nil || len(files) != 1 {
		p.Fatalf("%d files came, want 1: %v", len(files), err)
	}
	data, err := os.ReadFile(filepath.Join(dir, files[0].Name()))
	if err != nil {
		p.Fatal(err)
	}
	return files[0].Name(), string(data)
}
