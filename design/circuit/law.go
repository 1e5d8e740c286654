package circuit

import (
	"fmt"
	"sort"
)

// A Law gives a current by a voltage along straight lines between points. Below the first point and
// above the last the current stays as there.
type Law struct {
	volts    []float64
	up, down []float64 // the current as a part that only rises with the voltage and one that only falls
}

// A Point is one corner of a Law.
type Point struct{ Volts, Amps float64 }

// NewLaw makes a law of points with rising voltages. It panics when there is no point or they do
// not rise.
func NewLaw(points ...Point) *Law {
	l := &Law{}
	for i, p := range points {
		if i > 0 && !(p.Volts > points[i-1].Volts) {
			panic(fmt.Sprintf("circuit: a law goes back from %g V to %g V", points[i-1].Volts, p.Volts))
		}
		l.volts = append(l.volts, p.Volts)
		up, down := p.Amps, 0.0
		if i > 0 {
			change := p.Amps - points[i-1].Amps
			up, down = l.up[i-1]+max(change, 0), l.down[i-1]+min(change, 0)
		}
		l.up, l.down = append(l.up, up), append(l.down, down)
	}
	if len(points) == 0 {
		panic("circuit: a law without points")
	}
	return l
}

// rises reports whether the current rises anywhere with the voltage.
func (l *Law) rises() bool { return l.up[len(l.up)-1] > l.up[0] }

// At returns the current at volts.
func (l *Law) At(volts float64) float64 {
	at := l.stretch(volts)
	up, _ := l.along(l.up, volts, at)
	down, _ := l.along(l.down, volts, at)
	return up + down
}

// stretch is the number of the straight line on which volts lies: 0 before the first point. A
// corner belongs to the stretch above it.
func (l *Law) stretch(volts float64) int {
	return sort.Search(len(l.volts), func(i int) bool { return l.volts[i] > volts })
}

// along returns the current at volts of one part of the law and its slope, taken along one stretch.
func (l *Law) along(amps []float64, volts float64, stretch int) (at, slope float64) {
	switch last := len(l.volts) - 1; {
	case stretch == 0:
		return amps[0], 0
	case stretch > last:
		return amps[last], 0
	}
	from, to := stretch-1, stretch
	slope = (amps[to] - amps[from]) / (l.volts[to] - l.volts[from])
	return amps[from] + slope*(volts-l.volts[from]), slope
}

// span returns the ends of a stretch.
func (l *Law) span(stretch int) (low, high float64) {
	low, high = -unbounded, unbounded
	if stretch > 0 {
		low = l.volts[stretch-1]
	}
	if stretch < len(l.volts) {
		high = l.volts[stretch]
	}
	return low, high
}

const unbounded = 1e300
