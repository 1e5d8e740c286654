package main

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Names that would be a page's undoing if they were taken for markup, selectors or formulas.
const (
	hostileLegend = `"><img src=x onerror=a>` // no longer than a legend may be
	hostileName   = `</script><script>alert("panel")</script><b style='x'>'"&amp;`
	hostileChord  = `"]<svg onload=alert(1)>'`
	hostilePart   = `<iframe src="javascript:alert(1)"></iframe>`
)

// A panel of a stranger is text in every room, on both faces, in every drawing.
func TestHostileNamesStayText(t *testing.T) {
	file := demoFile(t, "hive-notebook")
	write := func(v any) string {
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	file = changed(t, file, `"name": "Hive notebook"`, `"name": `+write(hostileName))
	file = changed(t, file, `"legend": "Queen"`, `"legend": `+write(hostileLegend))
	file = changed(t, file, `"legend": "Eggs"`, `"legend": `+write(strings.Repeat("W", 24)))
	file = changed(t, file, `"name": "new apiary"`, `"name": `+write(hostileChord))
	file = changed(t, file, `"name": "6 x 6 mm tactile switch, 4 legs"`, `"name": `+write(hostilePart))
	file = changed(t, file, `"notes": "Worn`, `"notes": "</textarea><script>alert(2)</script> Worn`)

	d := newDesk(t)
	p := newTab(t, d)
	m := mouse{p}
	panel := d.bring(file)
	for _, room := range []string{"/place?select=S1", "/place?select=S1&face=back", "/scan", "/wire", "/wire?face=back", "/build"} {
		p.open(panel + room)
		if got := ask[string](p, `document.getElementById('name').value`); got != hostileName {
			t.Errorf("%s: the panel is called %q", room, got)
		}
		// Everything that a script, a frame or a handler could come from is our own.
		if strange := ask[[]string](p, `[...document.querySelectorAll('script, iframe, object, embed, base, #board-svg img, .margin img')].filter((e) => !(e.matches('head > script') && e.src.startsWith(location.origin + '/static/')))
			.concat([...document.querySelectorAll('*')].filter((e) => [...e.attributes].some((a) => /^on/i.test(a.name) || a.name === 'style' && e.closest('#board-svg svg, #room')))).map((e) => e.outerHTML.slice(0, 120))`); len(strange) > 0 {
			t.Errorf("%s: %q", room, strange)
		}
		if wide := ask[bool](p, `document.scrollingElement.scrollWidth > innerWidth`); wide {
			t.Errorf("%s: long names make the page scroll sideways", room)
		}
	}
	p.open(panel + "/place")
	if drawn := p.texts(".part .legend"); !slices.ContainsFunc(drawn, func(s string) bool { return strings.HasPrefix(s, `"><img`) }) {
		t.Errorf("the caps say %q", drawn)
	}
	p.open(panel + "/scan")
	if keys := p.texts(".matrix .cell-legend"); !slices.Contains(keys, hostileLegend) {
		t.Errorf("the matrix says %q", keys)
	}
	before := d.file(panel)
	p.edits(1, func() { m.press("#chord-forget-0") })
	p.edits(1, func() { p.keys("z", chromedp.ModifierCtrl) })
	if got := d.file(panel); got != before {
		t.Errorf("the chord is not back as it was:\n%s", got)
	}
	p.open("/")
	if cards := p.texts(".card-name"); !slices.Contains(cards, hostileName) {
		t.Errorf("the start page says %q", cards)
	}
	for _, name := range []string{"/picture.svg", "/files/front.svg", "/files/back.svg", "/steps/1.svg"} {
		inertXML(t, name, d.get(panel+name))
	}
}

// inertXML fails unless a drawing is well-formed and holds no element or attribute that acts.
func inertXML(t *testing.T, name string, text []byte) {
	t.Helper()
	read := xml.NewDecoder(strings.NewReader(string(text)))
	for {
		token, err := read.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if slices.Contains([]string{"script", "foreignObject", "iframe", "image", "a", "animate", "set"}, e.Name.Local) {
			t.Errorf("%s holds an element %s", name, e.Name.Local)
		}
		for _, a := range e.Attr {
			leads := slices.Contains([]string{"href", "src", "style"}, a.Name.Local) && !strings.HasPrefix(a.Value, "#")
			if leads || strings.HasPrefix(strings.ToLower(a.Name.Local), "on") {
				t.Errorf("%s: attribute %s=%q", name, a.Name.Local, a.Value)
			}
		}
	}
}

// changed is a project file with one place of it changed, spelt as the file spells it.
func changed(t *testing.T, file, from, to string) string {
	t.Helper()
	if !strings.Contains(file, from) {
		t.Fatalf("the file holds no %s", from)
	}
	return strings.Replace(file, from, to, 1)
}
