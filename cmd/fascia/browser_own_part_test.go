package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// A part of the maker's own is drawn, saved, used here and in another panel, and travels in the
// project file: once drawn with the mouse, once with keys.
func TestOwnPart(t *testing.T) {
	for _, by := range []struct {
		name string
		hand func(*tab) hand
	}{
		{"mouse", func(p *tab) hand { return mouse{p} }},
		{"keyboard", func(p *tab) hand { return keyboard{p} }},
	} {
		t.Run(by.name, func(t *testing.T) {
			d := newDesk(t)
			p := newTab(t, d)
			h := by.hand(p)
			p.newPanel(h, "First use", "70 × 50")
			h.press(`[data-open="define-dialog"]`)
			h.write(`#define-form [name="name"]`, "Rocker of an old radio")
			h.choose(`#define-form [name="kind"]`, "Switch")
			legsOf(p, h)
			h.write(`#define-form [name="width"]`, "14")
			h.write(`#define-form [name="depth"]`, "8")
			h.press("#define-form button.primary")
			p.until("it is in hand", `document.querySelector('#part-rocker-of-an-old-radio[aria-pressed="true"]')`)
			if k, ok := h.(keyboard); ok {
				p.until("the board has the focus", `document.activeElement.id === 'board'`)
				k.aim("F6")
				p.edits(1, func() { k.keys(kb.Enter) })
			} else {
				p.edits(1, func() { mouse{p}.clickAt(p.spot("F6")) })
			}
			first := p.panel()

			p.newPanel(h, "Second use", "70 × 50")
			if n := p.count(`.shelf-part:has(.own)`); n != 1 {
				t.Fatalf("%d parts of the maker's own on the shelf, want 1", n)
			}
			h.placeMany("rocker-of-an-old-radio", "rocker", []string{"D4", "D12"})
			second := d.file(p.panel())
			for _, words := range []string{`"rocker-of-an-old-radio": {`, `"name": "Rocker of an old radio"`, `"height"`} {
				if !strings.Contains(second, words) || !strings.Contains(d.file(first), words) {
					t.Errorf("a project file has no %s", words)
				}
			}
			elsewhere := newDesk(t)
			q := newTab(t, elsewhere)
			again := elsewhere.bring(second)
			q.open(again + "/place")
			if q.count(".part") != 2 || elsewhere.file(again) != second {
				t.Errorf("on another machine there are %d parts", q.count(".part"))
			}
			p.open("/")
			if own := p.texts(".own-name"); len(own) != 1 || own[0] != "Rocker of an old radio" {
				t.Errorf("the start page lists %q", own)
			}
		})
	}
}

// legsOf presses three holes in a row of the form's grid.
func legsOf(p *tab, h hand) {
	p.Helper()
	if k, ok := h.(keyboard); ok {
		k.goTo("#define-grid button")
		for i := range 3 {
			k.keys(" ")
			if i < 2 {
				k.keys(kb.ArrowRight)
				k.keys(kb.ArrowRight)
			}
		}
	} else {
		for _, column := range []string{"0", "2", "4"} {
			h.press(`#define-grid [data-row="0"][data-col="` + column + `"]`)
		}
	}
	if names := ask[string](p, `document.querySelector('#define-form [name="legs"]').value`); names != "1 2 3" {
		p.Errorf("three holes pressed, legs are called %q", names)
	}
}
