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

func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{20, 24, 40, 60, 128} {
		for _, kind := range []struct {
			name string
			p    *panel.Panel
		}{{"scattered", scatteredKeys(n, 1)}, {"chords", playedKeys(n)}} {
			b.Run(fmt.Sprintf("%s/%d", kind.name, n), func(b *testing.B) {
				var r Result
				for b.Loop() {
					r = Plan(wishing(kind.p, "matrix", "where needed"), rp2040(), 40)
				}
				diodes := 0
				for _, c := range r.Cells {
					if c.Diode {
						diodes++
					}
				}
				b.ReportMetric(r.Cost, "holes")
				b.ReportMetric(r.Bound, "bound-holes")
				b.ReportMetric(float64(diodes), "diodes")
			})
		}
	}
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
