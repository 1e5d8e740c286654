package web

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"fascia/design/lend"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
	"fascia/web/view"
)

// comparedFirst is how many ways are shown before the rest.
const comparedFirst = 6

// methods is the table of choices: those that fit and keep every chord first, then by pins and parts. The
// one in use is never among the rest.
func (v *visit) methods() (first, rest []view.Method) {
	for i, c := range sortedWays(v.plan.Scan.Choices) {
		if m := v.method(c); i < comparedFirst || m.Chosen {
			first = append(first, m)
		} else {
			rest = append(rest, m)
		}
	}
	return first, rest
}

func sortedWays(choices []scan.Choice) []scan.Choice {
	sorted := slices.Clone(choices)
	rank := func(c scan.Choice) int {
		switch {
		case !c.Fits:
			return 2
		case c.SafeChords < c.Chords:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(sorted, func(a, b scan.Choice) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.Pins, b.Pins), cmp.Compare(a.Parts, b.Parts), cmp.Compare(a.Length, b.Length))
	})
	return sorted
}

func (v *visit) method(c scan.Choice) view.Method {
	m := view.Method{
		ID: strings.ReplaceAll(c.Method, " ", "-"), Name: c.Method, Pins: fmt.Sprint(c.Pins), Parts: fmt.Sprint(c.Parts),
		Joints: fmt.Sprint(c.Joints), Diodes: fmt.Sprint(c.Diodes), Chords: "none told", Period: micros(c.PeriodMicros),
		Wake: micros(c.WakeMicros), Idle: microamps(c.IdleMicroamp), Held: microamps(c.HeldMicroamp), Wire: "–",
		Verdict: c.Verdict, Fits: c.Fits, Chosen: c.Chosen, Unsafe: c.SafeChords < c.Chords,
	}
	switch {
	case c.Rows > 0 && c.Rows == c.Columns && strings.HasPrefix(c.Method, "lines"):
		m.Shape = countOf(c.Rows, "line", "lines")
	case c.Rows > 0:
		m.Shape = fmt.Sprintf("%d × %d", c.Rows, c.Columns)
	}
	if c.Rows > 0 {
		m.ID += fmt.Sprintf("-%dx%d", c.Rows, c.Columns)
	}
	if c.Chords > 0 {
		m.Chords = fmt.Sprintf("%d of %d", c.SafeChords, c.Chords)
	}
	if c.Length > 0 {
		m.Wire = fmt.Sprintf("%g", c.Length)
	}
	if w := v.panel.Scan; c.Wish.Style != "" {
		w.Style, w.Rows, w.Columns, w.Diodes = c.Wish.Style, c.Wish.Rows, c.Wish.Columns, cmp.Or(c.Wish.Diodes, w.Diodes)
		m.Edit = editText(map[string]panel.Scan{"scan": w})
	}
	if c.Method == "expander" {
		m.Lend = "expander" // the wish, and those that lack
	}
	return m
}

func microamps(ua float64) string {
	if ua >= 1000 {
		return fmt.Sprintf("%.3g mA", ua/1000)
	}
	return fmt.Sprintf("%.3g µA", ua)
}

// editText writes the members of an edit, which always can be written.
func editText(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("web: %v", err))
	}
	return string(text)
}

// scanOffers proposes places for what the way in use asks for and the panel lacks.
func (v *visit) scanOffers() []view.Offer {
	var list []view.Offer
	if edit := lend.Diodes(&v.panel, &v.plan.Fit, &v.plan.Scan, &v.plan.Nets); edit != nil {
		list = append(list, view.Offer{Label: edit.What + " near the keys that want one", Edit: editText(edit)})
	}
	if v.panel.Scan.Style == "expander" && v.plan.Scan.Style != "expander" {
		list = append(list, view.Offer{Label: "Place the expanders that the keys lack", Lend: "expander"})
	}
	return list
}

// lamps is which LEDs light with the select lines; nothing where no line is selected.
func (v *visit) lamps() view.Lamps {
	got := &v.plan.Scan
	l := view.Lamps{Edit: editText(map[string]panel.Scan{"scan": v.panel.Scan})}
	if got.Style != "matrix" && got.Style != "mixed" {
		return l
	}
	for j := range got.Columns {
		one := view.LampLine{Line: v.line(got.ColumnNet(j), j, func(scan.Cell) bool { return false })}
		if j < len(v.panel.Scan.Lamps) {
			one.LED = v.panel.Scan.Lamps[j]
		}
		l.Lines = append(l.Lines, one)
	}
	if len(v.panel.Scan.Lamps) < got.Columns {
		l.Offer = view.Offer{Label: "Place an LED with its resistor for each line that has none", Lend: "lamps"}
	}
	for _, pl := range v.panel.OfKind(part.LED) {
		l.LEDs = append(l.LEDs, view.Word{Value: pl.Ref, Label: strings.TrimSpace(pl.Ref + " " + pl.Value)})
	}
	return l
}
