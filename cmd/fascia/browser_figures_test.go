package main

import (
	"fmt"
	"slices"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// What the page weighs, and how long an edit takes until its plan is drawn. Times depend on the
// machine and are only told (go test -v); what is held is that the work measured was done.
func TestFiguresOfThePage(t *testing.T) {
	d := newDesk(t)
	p := newTab(t, d)
	m, k := mouse{p}, keyboard{p}
	p.size(1280, 800)
	panel := d.bring(demoFile(t, "hive-notebook"))
	d.get(panel + "/place") // the plan itself is measured by the design's own benchmarks
	carried := p.weigh()
	p.open(panel + "/place")
	total := 0.0
	for _, kind := range []network.ResourceType{network.ResourceTypeDocument, network.ResourceTypeStylesheet, network.ResourceTypeScript} {
		c := carried()[kind]
		total += c.bytes
		t.Logf("%-10s %2d files, %7.0f bytes on the wire, %7.0f unpacked", kind, c.files, c.bytes, c.unpacked)
		if c.files == 0 {
			t.Errorf("no %s was loaded", kind)
		}
	}
	t.Logf("in all %.0f bytes on the wire", total)

	before := d.file(panel)
	m.pick("S8")
	k.goTo("#board")
	ask[chromedp.Void](p, watchEdits)
	for range 20 {
		p.edits(1, func() { p.keys("r") })
	}
	took := ask[[]float64](p, `window.tookMs`)
	if d.file(panel) != before || len(took) != 20 {
		t.Errorf("%d edits were seen, and twenty quarter turns must leave the part as it was", len(took))
	}
	slices.Sort(took)
	t.Logf("key to drawn plan, 20 turns: median %.0f ms, worst %.0f ms", took[len(took)/2], took[len(took)-1])

	at := p.middle("S8")
	m.move(at)
	p.do("press", chromedp.MouseEvent(chromedp.MousePressed, at.X, at.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	ask[chromedp.Void](p, watchFrames)
	for i := range 90 {
		m.move(point{at.X + float64(i), at.Y - float64(i)/2}, held)
	}
	gaps := ask[[]float64](p, `window.gapsMs`)
	p.edits(1, func() {
		p.do("let go", chromedp.MouseEvent(chromedp.MouseReleased, at.X+89, at.Y-44, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	})
	if len(gaps) < 10 || d.file(panel) == before {
		t.Errorf("%d frames were drawn while the part was dragged, and it must have moved", len(gaps))
	}
	slices.Sort(gaps)
	t.Logf("frames while dragging: %d, gap median %.1f ms, 95th %.1f ms, worst %.1f ms", len(gaps), gaps[len(gaps)/2], gaps[len(gaps)*95/100], gaps[len(gaps)-1])
	slow := ask[[]float64](p, `[...window.slowMs.values()]`)
	slices.Sort(slow)
	t.Logf("of %d interactions %d took 16 ms or more to the next frame, the worst %v ms", ask[int](p, `performance.interactionCount`), len(slow), fmt.Sprint(slow[max(0, len(slow)-3):]))
}

// watchEdits notes the time from each key to the frame after the plan was put in place, and how long
// each interaction took to its next frame (Event Timing, W3C).
const watchEdits = `void (() => {
	window.tookMs = [];
	window.slowMs = new Map();
	let from = 0;
	document.addEventListener('keydown', () => { from = performance.now(); }, { capture: true });
	document.addEventListener('renewed', () => { if (from) { const since = from; from = 0; requestAnimationFrame(() => window.tookMs.push(performance.now() - since)); } });
	new PerformanceObserver((list) => { for (const e of list.getEntries()) if (e.interactionId) window.slowMs.set(e.interactionId, Math.max(window.slowMs.get(e.interactionId) ?? 0, e.duration)); })
		.observe({ type: 'event', durationThreshold: 16, buffered: true });
})()`

const watchFrames = `void (() => {
	window.gapsMs = [];
	let last = performance.now();
	const next = (now) => { window.gapsMs.push(now - last); last = now; requestAnimationFrame(next); };
	requestAnimationFrame(next);
})()`

// A load is what came over the wire of one kind.
type load struct {
	files           int
	bytes, unpacked float64
}

// weigh counts what is loaded from now on.
func (p *tab) weigh() func() map[network.ResourceType]load {
	p.Helper()
	var mu sync.Mutex
	kinds, all := map[network.RequestID]network.ResourceType{}, map[network.ResourceType]load{}
	err := chromedp.Listen(p.ctx, func(event any) {
		mu.Lock()
		defer mu.Unlock()
		switch e := event.(type) {
		case *network.EventResponseReceived:
			kinds[e.RequestID] = e.Type
		case *network.EventDataReceived:
			c := all[kinds[e.RequestID]]
			c.unpacked += float64(e.DataLength)
			all[kinds[e.RequestID]] = c
		case *network.EventLoadingFinished:
			c := all[kinds[e.RequestID]]
			c.files++
			c.bytes += e.EncodedDataLength
			all[kinds[e.RequestID]] = c
		}
	})
	if err != nil {
		p.Fatal(err)
	}
	return func() map[network.ResourceType]load {
		mu.Lock()
		defer mu.Unlock()
		out := map[network.ResourceType]load{}
		for kind, c := range all {
			out[kind] = c
		}
		return out
	}
}
