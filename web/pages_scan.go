package web

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/scan"
	"fascia/web/view"
)

// fillScan shows how the keys are read and why.
func (s *Server) fillScan(v *visit) error {
	w, got := v.panel.Scan, &v.plan.Scan
	r := view.ScanRoom{
		Style: w.Style, Rows: w.Rows, Columns: w.Columns, Active: w.Active, Pulls: w.Pulls, Diodes: w.Diodes, Reader: w.Reader,
		Why: got.Why, Summary: scanSummary(got), Matrix: v.matrix(), Keys: chordKeys(v.panel.Keys(), nil),
		NextChord: nextChord(&v.panel),
	}
	for _, c := range got.Choices {
		r.Choices = append(r.Choices, scanChoice(c))
	}
	for _, d := range got.Direct {
		one := view.DirectKey{Key: d.Key, Legend: d.Legend, Code: d.Code, Net: "key " + d.Key}
		if pin, ok := v.pinOf(d.Key); ok {
			one.Pin, one.Net = pin.GPIO, pin.Net
		}
		r.Direct = append(r.Direct, one)
	}
	legends := map[string]string{}
	for _, k := range v.panel.Keys() {
		legends[k.ID] = k.Legend
	}
	ghosts := map[string]int{}
	for _, g := range got.Ghosts {
		ghosts[g.Chord]++
		legend := legends[g.Phantom]
		if legend == "" {
			legend = fmt.Sprintf("the empty cell in row %d, column %d", g.Row, g.Column)
		}
		r.Ghosts = append(r.Ghosts, view.Ghost{Chord: g.Chord, Pressed: strings.Join(g.Pressed, " "), Phantom: g.Phantom, Legend: legend})
	}
	for _, c := range v.panel.Chords {
		r.Chords = append(r.Chords, view.Chord{Name: c.Name, Refs: strings.Join(c.Keys, " "), Says: chordSays(c, legends),
			Keys: chordKeys(v.panel.Keys(), c.Keys), Ghosts: ghosts[c.Name]})
	}
	v.page.Content = view.ScanContent(r)
	return nil
}

func scanSummary(got *scan.Result) string {
	if got.Style == "none" || got.Style == "" {
		return ""
	}
	words := []string{}
	if got.Rows > 0 {
		words = append(words, fmt.Sprintf("%d rows × %d columns", got.Rows, got.Columns))
	}
	if n := len(got.Direct); n > 0 {
		words = append(words, countOf(n, "key of its own pin", "keys of their own pins"))
	}
	words = append(words, "a pressed key reads "+got.Active, got.Pulls+" pulls")
	if got.PeriodMicros > 0 {
		words = append(words, "all keys read in "+micros(got.PeriodMicros))
	}
	return strings.Join(words, ", ") + "."
}

// micros writes a time in the unit that suits it.
func micros(us float64) string {
	if us >= 1000 {
		return fmt.Sprintf("%.3g ms", us/1000)
	}
	return fmt.Sprintf("%.3g µs", us)
}

func scanChoice(c scan.Choice) view.ScanChoice {
	v := view.ScanChoice{Method: c.Method, Pins: fmt.Sprint(c.Pins), Diodes: fmt.Sprint(c.Diodes), Time: micros(c.PeriodMicros),
		Verdict: c.Verdict, Fits: c.Fits, Chosen: c.Chosen}
	if c.Method == "matrix" {
		v.Shape = fmt.Sprintf("%d × %d", c.Rows, c.Columns)
	}
	return v
}

// matrix sets the cells out in rows and columns, with the pins where they are known.
func (v *visit) matrix() view.Matrix {
	got := &v.plan.Scan
	m := view.Matrix{Low: got.Active == "low"}
	for c := range got.Columns {
		m.Columns = append(m.Columns, v.line("column", c))
	}
	for r := range got.Rows {
		row := view.MatrixRow{Line: v.line("row", r), Cells: make([]view.MatrixCell, got.Columns)}
		for _, cell := range got.Cells {
			if cell.Row == r && cell.Column < got.Columns {
				row.Cells[cell.Column] = view.MatrixCell{Key: cell.Key, Legend: cell.Legend, Code: cell.Code, Diode: cell.Diode}
			}
		}
		m.Rows = append(m.Rows, row)
	}
	for _, g := range got.Ghosts {
		if g.Row < len(m.Rows) && g.Column < len(m.Columns) {
			cell := &m.Rows[g.Row].Cells[g.Column]
			cell.Ghost, cell.GhostSays = true, "reads as pressed while "+g.Chord+" is held"
		}
	}
	return m
}

func (v *visit) line(what string, n int) view.Line {
	net := fmt.Sprintf("%s %d", what, n)
	l := view.Line{What: what, Number: fmt.Sprint(n), Net: net}
	if pin, ok := v.pinOf(net); ok {
		l.Pin = pin.GPIO
	}
	return l
}

func chordKeys(keys []panel.KeyRef, in []string) []view.ChordKey {
	var list []view.ChordKey
	for _, k := range keys {
		list = append(list, view.ChordKey{ID: k.ID, Legend: k.Legend, In: slices.Contains(in, k.ID)})
	}
	return list
}

func chordSays(c panel.Chord, legends map[string]string) string {
	var words []string
	for _, k := range c.Keys {
		if legends[k] == "" {
			words = append(words, k)
			continue
		}
		words = append(words, legends[k])
	}
	return finding.Names(words)
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
