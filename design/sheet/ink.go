package sheet

import (
	"slices"
	"strconv"
)

// An ink is how something looks: the presentation attributes of SVG that drawings use. Lengths are
// millimetres. What is left empty is inherited.
type ink struct {
	fill, stroke tint
	width        float64
	dash         string
	opacity      float64 // of the whole element; 0 leaves it alone
	veil         float64 // opacity of the fill alone; 0 leaves it alone
	round        bool    // round ends and corners
	under        bool    // the stroke lies under the fill, as a halo round letters
	mono, bold   bool
	anchor       string
}

// over returns k with all that m says taking its place, as a later rule of a stylesheet does.
func (k ink) over(m ink) ink {
	if m.fill != "" {
		k.fill = m.fill
	}
	if m.stroke != "" {
		k.stroke = m.stroke
	}
	if m.width != 0 {
		k.width = m.width
	}
	if m.dash != "" {
		k.dash = m.dash
	}
	if m.opacity != 0 {
		k.opacity = m.opacity
	}
	if m.veil != 0 {
		k.veil = m.veil
	}
	if m.anchor != "" {
		k.anchor = m.anchor
	}
	k.round, k.under = k.round || m.round, k.under || m.under
	k.mono, k.bold = k.mono || m.mono, k.bold || m.bold
	return k
}

// A property is one presentation attribute; CSS has the same ones under the same names.
type property struct{ name, value string }

// properties lists what k says, in a fixed order.
func (k ink) properties(colour func(tint) string) []property {
	var list []property
	add := func(name, value string) {
		if value != "" {
			list = append(list, property{name, value})
		}
	}
	number := func(name string, v float64) {
		if v != 0 {
			list = append(list, property{name, strconv.FormatFloat(v, 'f', -1, 64)})
		}
	}
	add("fill", paint(k.fill, colour))
	number("fill-opacity", k.veil)
	add("stroke", paint(k.stroke, colour))
	number("stroke-width", k.width)
	add("stroke-dasharray", k.dash)
	if k.round {
		add("stroke-linecap", "round")
		add("stroke-linejoin", "round")
	}
	if k.under {
		add("paint-order", "stroke")
	}
	number("opacity", k.opacity)
	add("text-anchor", k.anchor)
	if k.mono {
		add("font-family", monoFaces)
	}
	if k.bold {
		add("font-weight", "600")
	}
	return list
}

const (
	sansFaces = "system-ui, sans-serif"
	monoFaces = "ui-monospace, monospace"
)

func paint(t tint, colour func(tint) string) string {
	if t == "" || t == "none" {
		return string(t)
	}
	return colour(t)
}

// A rule gives a class its ink.
type rule struct {
	class class
	ink   ink
}

// A look is what a set of classes comes to, as a stylesheet would have it: of two rules that say
// the same thing the later one holds, in whatever order the element names them.
func look(classes []class) ink {
	found := make([]int, 0, 8)
	for _, c := range classes {
		if i, ok := ruleOf[c]; ok {
			found = append(found, i)
		}
	}
	slices.Sort(found)
	var k ink
	for _, i := range found {
		k = k.over(allRules[i].ink)
	}
	return k
}

var allRules = rules()

// ruleOf finds the rule of a class; a class without one only names things for the page.
var ruleOf = func() map[class]int {
	m := map[class]int{}
	for i, r := range allRules {
		m[r.class] = i
	}
	return m
}()

// rules lists every class with a look, in the order of the stylesheet.
func rules() []rule {
	return slices.Concat(boardRules, partRules, moduleRules, wireRules, colourRules(), markRules)
}

// colourRules are those of the real colours of wires, bands and lenses, which no theme changes.
func colourRules() []rule {
	var list []rule
	for _, c := range wireColours {
		list = append(list, rule{class("colour-" + c.letters), ink{stroke: c.tint}})
	}
	for i, t := range bandColours {
		list = append(list, rule{bandClass(i), ink{fill: t}})
	}
	for _, c := range ledColours {
		list = append(list, rule{class("lens-" + c.name), ink{fill: c.tint}})
	}
	return list
}
