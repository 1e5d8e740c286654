package circuit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestDescend takes random circuits the slow way only and compares with the quick one.
func TestDescend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		c, _ := r.build(counting(len(r.rails)+r.free), counting(len(r.elements)))
		quick := Solve(c)
		slow := Solver{circuit: c}
		slow.begin(nil)
		slow.split()
		for i := range slow.sections {
			if count, ok := slow.descend(&slow.sections[i]); !ok {
				t.Fatalf("section %d is not settled after %d steps", i, count)
			}
		}
		for n, v := range slow.volts {
			if math.Abs(v-quick.Volts[n]) > 1e-5 {
				t.Fatalf("node %d has %.7f V the slow way and %.7f V the quick way", n, v, quick.Volts[n])
			}
		}
	})
}
