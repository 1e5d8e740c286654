package main

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// inView makes a tab take itself for the one in front: a browser without a window has no two of them.
func (p *tab) inView() *tab {
	p.Helper()
	if _, err := chromedp.Call(p.ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		p.Fatal(err)
	}
	return p
}

// agree waits until two tabs show the same revision of the same parts.
func agree(t *testing.T, a, b *tab) {
	t.Helper()
	b.until("both pages show the same", fmt.Sprintf("%s.rev === %d", facts, a.rev()))
	const parts = "JSON.stringify(" + facts + ".parts)"
	if one, two := ask[string](a, parts), ask[string](b, parts); one != two {
		t.Errorf("one page shows %s, the other %s", one, two)
	}
}

func TestTwoTabsFollowEachOther(t *testing.T) {
	d := newDesk(t)
	a := newTab(t, d).inView()
	b := a.secondTab().inView()
	panel := d.bring(demoFile(t, "hive-notebook"))
	a.open(panel + "/place")
	b.open(panel + "/wire")
	ma, mb := mouse{a}, mouse{b}

	a.edits(1, func() { ma.pick("S1"); ma.press("#deed-turn1") })
	agree(t, a, b)
	b.edits(1, func() { b.keys("z", chromedp.ModifierCtrl) })
	agree(t, b, a)

	// What the one has in hand, the other deletes: the page says so, and shows what is.
	b.expects("status of 422", "status of 409")
	b.open(panel + "/place")
	mb.pick("S5")
	mb.press("[data-lift]")
	a.edits(1, func() { ma.pick("S5"); ma.press("#deed-remove") })
	mb.clickAt(mb.spot("B3"))
	b.until("the page says that it cannot be", `document.querySelector('#say.trouble')?.textContent.includes('S5')`)
	agree(t, a, b)
	if b.count(`.part[data-ref="S5"]`) != 0 {
		t.Error("the deleted part is still drawn where it was in hand")
	}

	// Both move one part: both moves are kept, and both pages show the same.
	from := b.middle("S6")
	mb.move(from)
	b.do("press", chromedp.MouseEvent(chromedp.MousePressed, from.X, from.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	to := b.spot("B20")
	mb.move(to, held)
	a.edits(1, func() { ma.drag(ma.middle("S6"), ma.spot("Y20")) })
	b.do("let go", chromedp.MouseEvent(chromedp.MouseReleased, to.X, to.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	b.until("the second move is saved", fmt.Sprintf("%s.rev > %d", facts, a.rev()))
	agree(t, b, a)
}

func TestPageOutlivesAKilledServer(t *testing.T) {
	d := newDesk(t)
	addr := d.addr()
	d.stop()
	d.startApart(addr)
	a := newTab(t, d).inView()
	b := a.secondTab().inView()
	for _, p := range []*tab{a, b} {
		p.expects("ERR_CONNECTION_REFUSED", "ERR_CONNECTION_RESET", "ERR_INCOMPLETE_CHUNKED_ENCODING", "ERR_EMPTY_RESPONSE")
	}
	panel := d.bring(demoFile(t, "lantern-run"))
	a.open(panel + "/place")
	b.open(panel + "/scan")
	a.edits(1, func() { mouse{a}.pick("S7"); mouse{a}.press("#deed-turn1") })
	kept := d.file(panel)

	d.stop()
	before := a.rev()
	a.keys("f") // goes nowhere: the focus is on the deed's button
	keyboard{a}.goTo("#board")
	a.keys(kb.Delete)
	a.untilText("#saved", "no connection, 1 change waits")
	d.startApart(addr)
	if got := d.file(panel); got != kept {
		t.Errorf("an edit that was acknowledged is gone:\n%s\nwant\n%s", got, kept)
	}
	a.until("the waiting edit is saved", fmt.Sprintf(`%s.rev === %d && !document.getElementById('saved').dataset.state`, facts, before+1))
	agree(t, a, b)
	if a.count(`.part[data-ref="S7"]`) != 0 || b.count(`.part[data-ref="S7"]`) != 0 {
		t.Error("the part that was deleted meanwhile is still drawn")
	}
}
