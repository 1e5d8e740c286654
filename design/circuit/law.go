package circuit

import (
	"fmt"
	"sort"
)

// A Law gives a current by a voltage along straight lines between points. Below the first point and
// above the last the current stays as there.
type Law struct{ volts, amps []float64 }

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
		l.amps = append(l.amps, p.Amps)
	}
	if len(points) == 0 {
		panic("circuit: a law without points")
	}
	return l
}

// Points lists the corners of the law.
func (l *Law) Points() []Point {
	points := make([]Point, len(l.volts))
	for i := range points {
		points[i] = Point{l.volts[i], l.amps[i]}
	}
	return points
}

// At returns the current at volts.
func (l *Law) At(volts float64) float64 {
	amps, _ := l.at(volts, l.stretch(volts))
	return amps
}

// stretch is the number of the straight line on which volts lies: 0 before the first point. A
// corner belongs to the stretch above it.
func (l *Law) stretch(volts float64) int {
	return sort.Search(len(l.volts), func(i int) bool { return l.volts[i] > volts })
}

// at returns the current at volts and its slope, taken along one stretch.
func (l *Law) at(volts float64, stretch int) (amps, slope float64) {
	switch last := len(l.volts) - 1; {
	case stretch == 0:
		return l.amps[0], 0
	case stretch > last:
		return l.amps[last], 0
	}
	from, to := stretch-1, stretch
	slope = (l.amps[to] - l.amps[from]) / (l.volts[to] - l.volts[from])
	return l.amps[from] + slope*(volts-l.volts[from]), slope
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
