package sheet

import (
	"math"
	"slices"
	"strconv"

	"fascia/design/grid"
)

// A pen writes SVG elements. With classes it leaves their look to the page's stylesheet; with a
// palette it writes the look itself, as presentation attributes. Nothing else is ever written: no
// style attribute, no style or script element, no reference to anything outside the drawing.
type pen struct {
	out     []byte
	classes bool
	palette palette // nil leaves the look to the stylesheet
	coarse  bool    // leaves out what is only for a closer look
}

// tag begins an element; attributes may follow until shut or open.
func (p *pen) tag(name string, classes ...class) {
	p.out = append(p.out, '<')
	p.out = append(p.out, name...)
	p.dress(classes)
}

// dress writes the class attribute, the presentation attributes, or both.
func (p *pen) dress(classes []class) {
	if p.classes && len(classes) > 0 {
		p.out = append(p.out, ` class="`...)
		for i, c := range classes {
			if i > 0 {
				p.out = append(p.out, ' ')
			}
			p.out = append(p.out, c...)
		}
		p.out = append(p.out, '"')
	}
	if p.palette != nil {
		for _, a := range look(classes).properties(p.palette.colour) {
			p.word(a.name, a.value)
		}
	}
}

func (p *pen) word(name, value string) {
	p.out = append(p.out, ' ')
	p.out = append(p.out, name...)
	p.out = append(p.out, `="`...)
	p.out = appendText(p.out, value)
	p.out = append(p.out, '"')
}

func (p *pen) num(name string, value grid.Millimetre) {
	p.out = append(p.out, ' ')
	p.out = append(p.out, name...)
	p.out = append(p.out, `="`...)
	p.out = appendMM(p.out, value)
	p.out = append(p.out, '"')
}

func (p *pen) whole(name string, n int) { p.word(name, strconv.Itoa(n)) }

func (p *pen) shut()           { p.out = append(p.out, "/>"...) }
func (p *pen) open()           { p.out = append(p.out, '>') }
func (p *pen) end(name string) { p.out = append(append(append(p.out, "</"...), name...), '>') }
func (p *pen) write(s string)  { p.out = appendText(p.out, s) }
func (p *pen) newline()        { p.out = append(p.out, '\n') }

// layer draws a group on lines of its own, so that a drawing can be read and compared.
func (p *pen) layer(draw func(), classes ...class) {
	p.newline()
	p.group(draw, classes...)
}

func (p *pen) group(draw func(), classes ...class) {
	p.tag("g", classes...)
	p.open()
	draw()
	p.end("g")
}

// skips reports whether an element is detail that this drawing is too small for.
func (p *pen) skips(classes []class) bool {
	return p.coarse && (slices.Contains(classes, "detail-near") || slices.Contains(classes, "detail-middle"))
}

func (p *pen) title(s string) {
	p.out = append(p.out, "<title>"...)
	p.write(s)
	p.end("title")
}

func (p *pen) viewBox(r grid.Rect) {
	p.out = append(p.out, ` viewBox="`...)
	for i, n := range []grid.Millimetre{r.Min.X, r.Min.Y, r.Width(), r.Height()} {
		if i > 0 {
			p.out = append(p.out, ' ')
		}
		p.out = appendMM(p.out, n)
	}
	p.out = append(p.out, '"')
}

func (p *pen) rect(r grid.Rect, corner grid.Millimetre, classes ...class) {
	if p.skips(classes) {
		return
	}
	p.tag("rect", classes...)
	p.rectangle(r, corner)
	p.shut()
}

func (p *pen) rectangle(r grid.Rect, corner grid.Millimetre) {
	p.num("x", r.Min.X)
	p.num("y", r.Min.Y)
	p.num("width", r.Width())
	p.num("height", r.Height())
	if corner > 0 {
		p.num("rx", corner)
	}
}

func (p *pen) circle(c grid.Point, radius grid.Millimetre, classes ...class) {
	if p.skips(classes) {
		return
	}
	p.tag("circle", classes...)
	p.round(c, radius)
	p.shut()
}

func (p *pen) round(c grid.Point, radius grid.Millimetre) {
	p.num("cx", c.X)
	p.num("cy", c.Y)
	p.num("r", radius)
}

func (p *pen) line(a, b grid.Point, classes ...class) {
	p.path(new(trace).move(a).line(b), classes...)
}

func (p *pen) path(t *trace, classes ...class) {
	if p.skips(classes) || len(t.d) == 0 {
		return
	}
	p.tag("path", classes...)
	p.route(t)
	p.shut()
}

func (p *pen) route(t *trace) {
	p.out = append(p.out, ` d="`...)
	p.out = append(p.out, t.d...)
	p.out = append(p.out, '"')
}

// text writes one line whose middle is at c; size is the height of its em in millimetres.
func (p *pen) text(c grid.Point, size grid.Millimetre, s string, classes ...class) {
	p.lettering(c, size, false, s, classes)
}

// upward is text that reads from the right side of the sheet: turned a quarter, upright nowhere.
func (p *pen) upward(c grid.Point, size grid.Millimetre, s string, classes ...class) {
	p.lettering(c, size, true, s, classes)
}

func (p *pen) lettering(c grid.Point, size grid.Millimetre, up bool, s string, classes []class) {
	if p.skips(classes) || s == "" {
		return
	}
	p.tag("text", classes...)
	p.num("x", c.X)
	p.num("y", c.Y+size*capMiddle)
	p.num("font-size", size)
	if up {
		p.out = append(p.out, ` transform="rotate(-90 `...)
		p.out = appendMM(p.out, c.X)
		p.out = append(p.out, ' ')
		p.out = appendMM(p.out, c.Y)
		p.out = append(p.out, `)"`...)
	}
	p.open()
	p.write(s)
	p.end("text")
}

// capMiddle is how far below the middle of its capitals a text's base line lies, in ems; browsers
// disagree about every base line but the alphabetic one. From memory of common sans-serif faces.
const capMiddle = 0.36

// appendMM writes a length to a hundredth of a millimetre, the shortest way.
func appendMM(out []byte, v grid.Millimetre) []byte {
	n := math.Round(float64(v) * 100)
	if math.IsNaN(n) || math.Abs(n) > 1e9 || n == 0 {
		n = 0 // never minus nought
	}
	return strconv.AppendFloat(out, n/100, 'f', -1, 64)
}
