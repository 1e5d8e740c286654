package scan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"fascia/design/panel"
)

// playedKeys is a panel of scattered keys with a chord of four for every three keys.
func playedKeys(n int) *panel.Panel {
	p := scatteredKeys(n, 1)
	r := rand.New(rand.NewPCG(2, 0))
	for range n / 3 {
		keys := r.Perm(n)[:4]
		for i := range keys {
			keys[i]++
		}
		withChords(p, keys)
	}
	return p
}

// BenchmarkCells is the table of how time, wire and what is proved grow with keys and chords of four.
func BenchmarkCells(b *testing.B) {
	for _, n := range []int{8, 12, 16, 20, 24, 32, 40, 60, 80, 100, 128} {
		for _, chords := range []int{0, 6, 20} {
			p := scatteredKeys(n, 1)
			r := rand.New(rand.NewPCG(uint64(n), 3))
			for range chords {
				keys := r.Perm(n)[:4]
				for i := range keys {
					keys[i]++
				}
				withChords(p, keys)
			}
			b.Run(fmt.Sprintf("keys=%d/chords=%d", n, chords), func(b *testing.B) { planning(b, wishing(p, "matrix", "where needed")) })
		}
	}
}

// BenchmarkPlayed plans panels with a chord of four for every three keys.
func BenchmarkPlayed(b *testing.B) {
	for _, n := range []int{20, 40, 60} {
		b.Run(fmt.Sprint("keys=", n), func(b *testing.B) { planning(b, wishing(playedKeys(n), "matrix", "where needed")) })
	}
}

func planning(b *testing.B, p *panel.Panel) {
	var r Result
	for b.Loop() {
		r = Plan(p, rp2040(), 40)
	}
	diodes := 0
	for _, c := range r.Cells {
		if c.Diode {
			diodes++
		}
	}
	b.ReportMetric(r.Cost, "holes")
	b.ReportMetric(r.Bound, "bound-holes")
	b.ReportMetric(100*r.Gap, "gap-%")
	b.ReportMetric(float64(diodes), "diodes")
	b.ReportMetric(float64(r.DiodeBound), "bound-diodes")
}

func BenchmarkVerify(b *testing.B) {
	p := playedKeys(40)
	r := Plan(wishing(p, "matrix", "where needed"), rp2040(), 40)
	for b.Loop() {
		if len(Verify(p, &r)) > 0 {
			b.Fatal("a chord ghosts")
		}
	}
}
