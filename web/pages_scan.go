package web

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/scan"
	"fascia/web/view"
)

// fillScan shows how the keys are read and why.
func (s *Server) fillScan(v *visit) error {
	got := &v.plan.Scan
	r := view.ScanRoom{
		Wishes: v.panel.Scan, Style: got.Style, Why: got.Why, Summary: scanSummary(got), Measure: scanMeasure(got),
		Direct: v.directKeys(), NextChord: nextChord(&v.panel), Place: v.address("place", v.face, nil),
		Offers: v.scanOffers(), Diodes: v.diodes(), Lamps: v.lamps(),
	}
	r.Methods, r.Others = v.methods()
	for _, k := range v.panel.Keys() {
		r.Keys = append(r.Keys, view.ChordKey{ID: k.ID, Legend: k.Legend})
	}
	says := speaker(v.plan)
	for _, c := range v.panel.Chords {
		r.Chords = append(r.Chords, view.Chord{Chord: c, Says: says.chord(c), Reading: says.reading(c)})
	}
	r.Matrix = v.matrix(r.Chords)
	v.page.Content = view.ScanContent(r)
	return nil
}

func scanSummary(got *scan.Result) string {
	if got.Style == "none" || got.Style == "" {
		return ""
	}
	words := []string{}
	switch {
	case got.Style == "lines":
		words = append(words, countOf(got.Rows, "line", "lines"))
	case got.Rows > 0:
		words = append(words, fmt.Sprintf("%d rows × %d columns", got.Rows, got.Columns))
	}
	if n := len(got.Direct); n > 0 && got.Style != "expander" {
		words = append(words, countOf(n, "key of its own pin", "keys of their own pins"))
	} else if n > 0 {
		words = append(words, countOf(n, "key on a line of an expander", "keys on lines of an expander"))
	}
	words = append(words, "a pressed key reads "+got.Active, got.Pulls+" pulls")
	if got.PeriodMicros > 0 {
		words = append(words, "all keys read in "+micros(got.PeriodMicros))
	}
	return strings.Join(words, ", ") + "."
}

// scanMeasure is the arrangement's length against the least that there can be.
func scanMeasure(got *scan.Result) view.Measure {
	if got.Cost == 0 {
		return view.Measure{}
	}
	m := view.Measure{Cost: holes(got.Cost), Bound: holes(got.Bound), Gap: "none"}
	switch {
	case got.Proved:
		m.Says = fmt.Sprintf("Proved: no arrangement takes fewer than %s of wire.", holes(got.Bound))
	default:
		m.Gap = fmt.Sprintf("at most %.0f %%", math.Ceil(100*got.Gap))
		m.Says = fmt.Sprintf("No arrangement takes fewer than %s of wire. Whether one comes nearer to that is not settled.", holes(got.Bound))
	}
	return m
}

func holes(n float64) string {
	if n == 1 {
		return "1 hole"
	}
	return fmt.Sprintf("%g holes", math.Round(n*10)/10)
}

// micros writes a time in the unit that suits it.
func micros(us float64) string {
	if us >= 1000 {
		return fmt.Sprintf("%.3g ms", us/1000)
	}
	return fmt.Sprintf("%.3g µs", us)
}

// directKeys lists the keys with a pin or an expander's line of their own.
func (v *visit) directKeys() []view.DirectKey {
	var list []view.DirectKey
	for _, d := range v.plan.Scan.Direct {
		one := view.DirectKey{Key: d.Key, Legend: d.Legend, Code: d.Code, Net: "key " + d.Key, Pin: strings.Replace(d.Via, ".", " ", 1)}
		if pin, ok := v.pinOf(d.Key); ok {
			one.Pin, one.Net = pin.GPIO, pin.Net
		}
		list = append(list, one)
	}
	return list
}

// matrix sets the cells out in rows and columns, with the pins where they are known, and marks the
// keys that some chord makes read as pressed.
func (v *visit) matrix(chords []view.Chord) view.Matrix {
	got := &v.plan.Scan
	m := view.Matrix{Low: got.Active == "low", Lines: got.Style == "lines"}
	first := got.Rows // columns go on with the colours where the rows end
	if m.Lines {
		first = 0
	}
	for c := range got.Columns {
		m.Columns = append(m.Columns, v.line(got.ColumnNet(c), first+c, func(at scan.Cell) bool { return at.Column == c }))
	}
	at := map[[2]int]scan.Cell{}
	for _, cell := range got.Cells {
		at[[2]int{cell.Row, cell.Column}] = cell
	}
	ghosts := ghostSays(chords)
	for r := range got.Rows {
		row := view.MatrixRow{Line: v.line(got.RowNet(r), r, func(at scan.Cell) bool { return at.Row == r })}
		for c := range got.Columns {
			cell := at[[2]int{r, c}]
			row.Cells = append(row.Cells, view.MatrixCell{Key: cell.Key, Legend: cell.Legend, Code: cell.Code, Diode: cell.Diode,
				Row: row.Net, Column: m.Columns[c].Net, RowHue: row.Hue, ColumnHue: m.Columns[c].Hue,
				Never: m.Lines && r == c, Ghost: ghosts[cell.Key]})
		}
		m.Rows = append(m.Rows, row)
	}
	return m
}

// ghostSays says of each key that some chord makes read as pressed, while which it does.
func ghostSays(chords []view.Chord) map[string]string {
	by := map[string][]string{}
	for _, c := range chords {
		for _, g := range c.Reading.Ghosts {
			if !slices.Contains(by[g.Key], c.Name) {
				by[g.Key] = append(by[g.Key], c.Name)
			}
		}
	}
	says := map[string]string{}
	for key, names := range by {
		says[key] = "reads as pressed while " + finding.Names(names) + " is held"
	}
	return says
}

// hues is how many colours lines have; after that they come again, and only names and places differ.
const hues = 8

func hue(n int) string { return string(rune('a' + n%hues)) }

func (v *visit) line(net string, n int, on func(scan.Cell) bool) view.Line {
	l := view.Line{Net: net, Hue: hue(n)}
	if pin, ok := v.pinOf(net); ok {
		l.Pin = pin.GPIO
	}
	var keys []string
	for _, c := range v.plan.Scan.Cells {
		if on(c) {
			keys = append(keys, c.Key)
		}
	}
	l.Keys = strings.Join(keys, " ")
	return l
}

// nextChord is a name that no chord has yet.
func nextChord(p *panel.Panel) string {
	for n := len(p.Chords) + 1; ; n++ {
		name := fmt.Sprintf("chord %d", n)
		if !slices.ContainsFunc(p.Chords, func(c panel.Chord) bool { return c.Name == name }) {
			return name
		}
	}
}
