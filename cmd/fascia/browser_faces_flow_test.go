package main

import (
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// The back is the board turned over: left and right change places, above and below stay, and what
// is selected stays selected.
func TestBackIsMirrored(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m, k := mouse{p}, keyboard{p}
	p.open(d.bring(demoFile(t, "lantern-run")) + "/place")
	refs := []string{"S1", "S3", "S8", "U2"}
	front := places(p, refs)
	if front[1].X >= front[0].X || front[0].X >= front[2].X {
		t.Fatalf("S3 is left of S1 is left of S8 on the front, drawn at %v", front)
	}
	m.pick("S3")
	m.turnOver()
	back := places(p, refs)
	for i, ref := range refs {
		if math.Abs(front[i].X+back[i].X-1) > 0.005 || math.Abs(front[i].Y-back[i].Y) > 0.005 {
			t.Errorf("%s is at %.3f, %.3f of the board on the front and at %.3f, %.3f on the back", ref, front[i].X, front[i].Y, back[i].X, back[i].Y)
		}
	}
	if p.count(`.part.selected[data-ref="S3"]`) != 1 || p.count(`[data-slip="S3"]`) != 1 {
		t.Error("S3 is no longer selected")
	}
	if at := ask[string](p, "location.search"); !strings.Contains(at, "face=back") || !strings.Contains(at, "select=S3") {
		t.Errorf("the address says %q", at)
	}
	// No text is drawn in mirror writing.
	if n := ask[int](p, `[...document.querySelectorAll('#board-svg text')].filter((e) => e.getScreenCTM().a * e.getScreenCTM().d - e.getScreenCTM().b * e.getScreenCTM().c < 0).length`); n != 0 {
		t.Errorf("%d texts on the back are in mirror writing", n)
	}
	// Right on the screen is left on the board.
	k.goTo("#board")
	k.keys(kb.Home, chromedp.ModifierCtrl)
	p.untilText("#where", "AS1:")
	k.keys(kb.ArrowRight)
	p.untilText("#where", "AR1:")
	k.keys("b")
	p.until("the front is up again", `document.getElementById('board').dataset.face === 'front'`)
	if p.count(`.part.selected[data-ref="S3"]`) != 1 || p.count("#faces [aria-current]") != 1 || p.text("#faces [aria-current]") != "Front" {
		t.Errorf("after the key b, %q is current", p.text("#faces [aria-current]"))
	}
}

// places are the middles of parts, as shares of the width and height of the drawn board.
func places(p *tab, refs []string) []point {
	p.Helper()
	var at []point
	for _, ref := range refs {
		m, a, b := p.middle(ref), p.spot("A1"), p.spot("AS30")
		drawn := ask[point](p, `(() => { const r = document.querySelector('.part[data-ref="`+ref+`"]').getBoundingClientRect(); return { X: r.left + r.width / 2, Y: r.top + r.height / 2 }; })()`)
		if r := math.Hypot(drawn.X-m.X, drawn.Y-m.Y); r > 12 {
			p.Errorf("%s is drawn %.0f pixels from where it is", ref, r)
		}
		left, right := min(a.X, b.X), max(a.X, b.X)
		at = append(at, point{(m.X - left) / (right - left), (m.Y - a.Y) / (b.Y - a.Y)})
	}
	return at
}
