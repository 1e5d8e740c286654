package scan

import (
	"fmt"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
)

// BenchmarkLines plans keys on lines with diodes, without chords and with one for every three keys.
func BenchmarkLines(b *testing.B) {
	for _, n := range []int{8, 20, 30, 60, 128} {
		for _, kind := range []struct {
			name string
			p    *panel.Panel
		}{{"scattered", scatteredKeys(n, 1)}, {"chords", playedKeys(n)}} {
			b.Run(fmt.Sprintf("%s/%d", kind.name, n), func(b *testing.B) {
				var r Result
				for b.Loop() {
					r = Plan(onLines(kind.p), rp2040(), 26)
				}
				b.ReportMetric(float64(r.Rows), "lines")
				b.ReportMetric(r.Cost, "holes")
				b.ReportMetric(r.Bound, "bound-holes")
				b.ReportMetric(float64(len(r.Ghosts)), "ghosts")
			})
		}
	}
}

// BenchmarkLineDraft is what the row of lines costs the table of a panel that is read otherwise.
func BenchmarkLineDraft(b *testing.B) {
	for _, n := range []int{20, 60, 128} {
		p := playedKeys(n)
		pl := planner{panel: p, wishes: p.Scan, free: 26, keys: keysOf(p), chip: *rp2040()}
		share(p, pl.keys)
		pl.declared, _ = chordsOf(p, pl.keys)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				pl.lines = pl.draftLines()
			}
			b.ReportMetric(float64(pl.lines.length), "holes")
		})
	}
}

func BenchmarkExpander(b *testing.B) {
	for _, n := range []int{20, 60} {
		p := byExpander(scatteredKeys(n, 1))
		for i := range chipsFor(n, 14) {
			withExpanders(p, grid.Hole{Col: 80 + 8*i, Row: 5})
			p.Placed[len(p.Placed)-1].Ref = fmt.Sprint("U", i+1)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var r Result
			for b.Loop() {
				r = Plan(p, rp2040(), 10)
			}
			b.ReportMetric(r.Cost, "holes")
		})
	}
}
