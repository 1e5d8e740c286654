package sheet

import "strings"

// Stylesheet is how drawings of the Screen style look: the tints as custom properties for both
// themes, a rule for each class that has a look, and what depends on the room, the zoom and the
// selection. It is made of the same inks that paper is drawn with, so that page and paper cannot
// part ways; the page serves a copy of it.
func Stylesheet() string {
	var b strings.Builder
	b.WriteString("/* Drawings. Made by design/sheet, whose test keeps this file current. */\n")
	b.WriteString(":root {\n")
	for _, w := range swatches {
		b.WriteString("  --" + string(w.tint) + ": " + w.day + ";\n")
	}
	b.WriteString("}\n")
	night := func(indent string) {
		for _, w := range swatches {
			b.WriteString(indent + "--" + string(w.tint) + ": " + w.blueprint + ";\n")
		}
	}
	b.WriteString("@media (prefers-color-scheme: dark) {\n  :root:not([data-theme=\"day\"]) {\n")
	night("    ")
	b.WriteString("  }\n}\n:root[data-theme=\"blueprint\"] {\n")
	night("  ")
	b.WriteString("}\n\n")
	for _, r := range allRules {
		writeRule(&b, r)
	}
	b.WriteString(contextRules)
	return b.String()
}

func writeRule(b *strings.Builder, r rule) {
	list := r.ink.properties(func(t tint) string {
		if strings.HasPrefix(string(t), "#") {
			return string(t)
		}
		return "var(--" + string(t) + ")"
	})
	if len(list) == 0 {
		return
	}
	b.WriteString(".sheet-drawing ." + string(r.class) + " {")
	for _, a := range list {
		b.WriteString(" " + a.name + ": " + a.value + ";")
	}
	b.WriteString(" }\n")
}

// contextRules are the looks that depend on more than a class: what each room puts in full ink,
// what each step of zoom leaves out, and what is selected.
const contextRules = `
.sheet-drawing { display: block; user-select: none; }
.sheet-drawing text { pointer-events: none; }
.sheet-drawing .hit { fill: transparent; stroke: none; }
.sheet-drawing .part { cursor: grab; }

/* The other face is there to be found, not to be read. */
.sheet-drawing .others { opacity: 0.8; }
.sheet-drawing.room-place .wires { opacity: 0.4; }
.sheet-drawing.room-place .net-name, .sheet-drawing.room-place .letters { display: none; }
.sheet-drawing.room-scan .wires, .sheet-drawing.room-scan .hints { opacity: 0.3; }
.sheet-drawing.room-scan .net-name, .sheet-drawing.room-scan .letters { display: none; }
.sheet-drawing.room-wire .parts .part:not(.faint) { opacity: 0.9; }

/* Zooming out drops detail in three steps, never legends. */
.sheet-drawing.zoom-middle .detail-near, .sheet-drawing.zoom-far .detail-near, .sheet-drawing.zoom-far .detail-middle { display: none; }

.sheet-drawing .part.selected > .hit, .sheet-drawing .part:focus-visible > .hit { stroke: var(--accent); stroke-width: 2px; vector-effect: non-scaling-stroke; }
.sheet-drawing .wire.selected { opacity: 1; filter: drop-shadow(0 0 1.5px var(--accent)); }
.sheet-drawing .net-name.selected .net-tag { fill: var(--accent); }
.sheet-drawing .mark { cursor: pointer; }
`
