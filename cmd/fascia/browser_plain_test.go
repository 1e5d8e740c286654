package main

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// Without scripts panels are made, copied, brought in, deleted and brought back, and every room can
// be read.
func TestPagesWithoutScripts(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	if _, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	m := mouse{p}
	show := func(path string) {
		t.Helper()
		p.do("open "+path, chromedp.Navigate(d.url+path))
	}
	follow := func(deed func()) { // without scripts a page is never ready by itself
		t.Helper()
		ask[chromedp.Void](p, `void (window.pageBefore = true)`)
		deed()
		p.until("another page has come", `!window.pageBefore && document.readyState === 'complete'`)
	}
	show("/")
	m.write(`form[action="/panels"] input[name="name"]`, "No scripts")
	follow(func() { m.press(`form[action="/panels"] button`) })
	if ask[bool](p, `'ready' in document.body.dataset`) {
		t.Fatal("scripts run")
	}
	show("/")
	hive := `.card:has(img):has([aria-label="Duplicate Hive notebook"])`
	follow(func() { m.press(hive + ` form[action$="/duplicate"] button`) })
	for room, wants := range map[string]string{"place": ".shelf-part", "scan": ".matrix td", "wire": ".pins-table tbody tr", "build": ".step"} {
		follow(func() { m.press(`#tabs a[href*="/` + room + `"]`) })
		if p.count(wants) < 14 || p.count("#board-svg .part") < 20 {
			t.Errorf("%s shows %d of %s and %d parts", room, p.count(wants), wants, p.count("#board-svg .part"))
		}
		drawn := ask[point](p, `(() => { const r = document.querySelector('#board-svg svg').getBoundingClientRect(); return { X: r.width, Y: r.height }; })()`)
		if drawn.X < 150 || drawn.Y < 200 {
			t.Errorf("%s draws the board %.0f x %.0f", room, drawn.X, drawn.Y)
		}
	}
	follow(func() { m.press(`#faces a:last-child`) })
	if face := ask[string](p, `document.getElementById('board').dataset.face`); face != "back" {
		t.Errorf("the link to the back shows the %s", face)
	}
	show("/")
	follow(func() { m.press(`[aria-label="Delete No scripts"]`) })
	if cards := p.texts(".card-name"); slices.Contains(cards, "No scripts") || len(cards) != 4 {
		t.Errorf("after the delete: %q", cards)
	}
	follow(func() { m.press(".bar button") })
	file := filepath.Join(t.TempDir(), "lantern.fascia.json")
	if err := os.WriteFile(file, []byte(demoFile(t, "lantern-run")), 0o600); err != nil {
		t.Fatal(err)
	}
	show("/")
	p.fileFor(file, func() { m.press(`input[type="file"]`) })
	follow(func() { m.press(`form[action="/import"] button`) })
	show("/")
	if cards := p.texts(".card-name"); len(cards) != 6 || !slices.Contains(cards, "No scripts") {
		t.Errorf("at the end: %q", cards)
	}
}
