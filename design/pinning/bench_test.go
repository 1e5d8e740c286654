package pinning

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/signal"
)

// quantiles reports the middle and the largest of some times.
func quantiles(b *testing.B, took []time.Duration) {
	slices.Sort(took)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(took[len(took)/2]), "ms-median")
	b.ReportMetric(ms(took[len(took)*99/100]), "ms-99%")
	b.ReportMetric(ms(took[len(took)-1]), "ms-worst")
}

// quickest is the least of three times that f takes, so that what else the machine does counts less.
func quickest(f func()) time.Duration {
	least := time.Hour
	for range 3 {
		start := time.Now()
		f()
		least = min(least, time.Since(start))
	}
	return least
}

// BenchmarkRandomPanels plans 1,000 panels of 24 to 26 signals on the 40-pin module.
func BenchmarkRandomPanels(b *testing.B) {
	for b.Loop() {
		var took []time.Duration
		proved, untangled, crossings := 0, 0, 0
		for seed := uint64(0); len(took) < 1_000; seed++ {
			p, m, list := randomPanel(seed)
			var r Result
			once := quickest(func() { r = Assign(p, m, "U1", list) })
			if len(r.Conflict) > 0 {
				continue
			}
			took = append(took, once)
			crossings += r.Crossings
			if r.Proved {
				proved++
			}
			if r.Untangled {
				untangled++
			}
		}
		quantiles(b, took)
		b.ReportMetric(float64(proved)/10, "%-proved")
		b.ReportMetric(float64(untangled)/10, "%-untangled")
		b.ReportMetric(float64(crossings)/1000, "crossings")
	}
}

// BenchmarkConflict explains impossible panels, concessions included.
func BenchmarkConflict(b *testing.B) {
	for _, c := range []struct {
		name string
		draw func(seed uint64) (*panel.Panel, *controller.Module, []signal.Signal)
	}{{"small modules", smallPanel}, {"40-pin module, 24 to 26 signals", randomPanel}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				var took []time.Duration
				wishes, offers := 0, 0
				for seed := uint64(0); len(took) < 200; seed++ {
					p, m, list := c.draw(seed)
					var r Result
					if once := quickest(func() { r = Assign(p, m, "U1", list) }); len(r.Conflict) > 0 {
						took = append(took, once)
						wishes, offers = wishes+len(r.Conflict), offers+len(r.Concessions)
					}
				}
				quantiles(b, took)
				b.ReportMetric(float64(wishes)/200, "wishes")
				b.ReportMetric(float64(offers)/200, "concessions")
			}
		})
	}
}

// BenchmarkWhatIf prices wishes on the 40-pin module; the times are those of one wish.
func BenchmarkWhatIf(b *testing.B) {
	for b.Loop() {
		var took []time.Duration
		for seed := uint64(0); len(took) < 500; seed++ {
			p, m, list := randomPanel(seed)
			r := Assign(p, m, "U1", list)
			var prices []Price
			if once := quickest(func() { prices = WhatIf(p, m, "U1", list, &r) }); len(prices) > 0 {
				took = append(took, once/time.Duration(len(prices)))
			}
		}
		quantiles(b, took)
	}
}

// BenchmarkGrowth shows how time grows with signals.
func BenchmarkGrowth(b *testing.B) {
	for n := 4; n <= 26; n += 2 {
		b.Run(fmt.Sprintf("%d signals", n), func(b *testing.B) {
			for b.Loop() {
				var took []time.Duration
				proved, untangled := 0, 0
				for seed := range uint64(100) {
					rows, columns := n/6, n/4
					i2c := 1
					list := crowd(rows, columns, n/16, i2c, n/12, n/10, n-rows-columns-2*(n/16)-2*i2c-n/12-n/10)
					p, m := bench(scatter(seed, len(list), 60, 40)...)
					var r Result
					took = append(took, quickest(func() { r = Assign(p, m, "U1", list) }))
					if r.Proved {
						proved++
					}
					if r.Untangled {
						untangled++
					}
				}
				quantiles(b, took)
				b.ReportMetric(float64(proved), "%-proved")
				b.ReportMetric(float64(untangled), "%-untangled")
			}
		})
	}
}
