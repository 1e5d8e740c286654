package circuit

import (
	"strconv"
	"testing"
)

// BenchmarkSolve takes circuits of n nodes, a pull and a diode to the next node at each, from cold
// and from an answer.
func BenchmarkSolve(b *testing.B) {
	for _, nodes := range []int{8, 16, 32, 64, 128} {
		for _, start := range []string{"cold", "warm"} {
			b.Run(strconv.Itoa(nodes)+" nodes "+start, func(b *testing.B) {
				c := &Circuit{}
				list := make([]Node, nodes)
				for i := range list {
					list[i] = c.Node()
					c.Source(list[i], 3.3, 65e3)
				}
				c.Source(list[0], 0, 40)
				for i := range list[1:] {
					c.Diode(list[i+1], list[i/2], Small1N4148.InSeries(100))
				}
				var s, first Solver
				var from []float64
				if start == "warm" {
					from = first.Solve(c, nil).Volts
				}
				var got Solution
				for b.Loop() {
					got = s.Solve(c, from)
				}
				if got.Verdict != Settled {
					b.Fatal(got.Verdict)
				}
				b.ReportMetric(float64(got.Iterations), "iterations")
			})
		}
	}
}
