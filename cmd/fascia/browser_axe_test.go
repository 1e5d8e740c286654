package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// axeFile is the checker of accessibility rules: axe-core 4.14.1, pinned by the lock file.
const axeFile = "../../static/testdata/npm/node_modules/axe-core/axe.min.js"

// prefers sets a preference of the reader, such as prefers-color-scheme.
func (p *tab) prefers(name, value string) {
	p.Helper()
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: name, Value: value}}})
	if err != nil {
		p.Fatal(err)
	}
}

// axe fails the test for each rule of WCAG 2.2 A and AA that the page breaks, as far as a program
// can judge it. The rule on the size of targets runs only because its tag is asked for.
func (p *tab) axe(where, script string) {
	p.Helper()
	ask[chromedp.Void](p, script)
	type fault struct{ ID, Help, Where string }
	faults := ask[[]fault](p, `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'], resultTypes: ['violations'] })
		.then((r) => r.violations.flatMap((v) => v.nodes.slice(0, 3).map((n) => ({ ID: v.id, Help: v.help, Where: n.html.slice(0, 160) + ' | ' + n.failureSummary.replace(/\s+/g, ' ').slice(0, 260) }))))`)
	for _, f := range faults {
		p.Errorf("%s: %s: %s: %s", where, f.ID, f.Help, f.Where)
	}
}

func TestAccessibilityRules(t *testing.T) {
	script, err := os.ReadFile(axeFile)
	if err != nil {
		t.Fatalf("%v; go run ./cmd/verify installs what the tests need", err)
	}
	d := newDesk(t)
	p := newTab(t, d)
	d.get("/") // so that the demos' plans are there
	panel := d.bring(demoFile(t, "hive-notebook"))
	d.edit(panel, `{"do": "chord", "name": "rolled over", "keys": ["S1", "S2", "S6", "S19"]}`) // for ghosts and stops
	for _, look := range []struct {
		scheme string
		width  int64
	}{{"light", 1440}, {"dark", 1440}, {"light", 360}, {"dark", 360}} {
		t.Run(fmt.Sprint(look.scheme, " ", look.width), func(t *testing.T) {
			p.T = t
			if look.width < 700 {
				p.phone(look.width)
			} else {
				p.size(look.width, 900)
			}
			p.prefers("prefers-color-scheme", look.scheme)
			for _, path := range []string{"/", panel + "/place", panel + "/place?select=S1&face=back", panel + "/scan", panel + "/wire", panel + "/build"} {
				p.open(path)
				ask[chromedp.Void](p, `void document.querySelectorAll('details').forEach((d) => { d.open = true; })`)
				p.axe(strings.TrimPrefix(path, panel), string(script))
				for _, dialog := range ask[[]string](p, `[...document.querySelectorAll('dialog')].map((d) => d.id)`) {
					if dialog == "keys-dialog" && !strings.HasSuffix(path, "/scan") {
						continue // the same in every room
					}
					ask[chromedp.Void](p, fmt.Sprintf(`document.getElementById(%s).showModal()`, quote(dialog)))
					p.axe(dialog, string(script))
					ask[chromedp.Void](p, fmt.Sprintf(`document.getElementById(%s).close()`, quote(dialog)))
				}
			}
		})
	}
	p.T = t
}
