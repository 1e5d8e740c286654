package circuit

import (
	"math"

	"pgregory.net/rapid"
)

// A recipe is a circuit as a list of elements, so that it can be built twice in different orders.
type recipe struct {
	rails    []float64
	free     int
	elements []ingredient
}

type ingredient struct {
	kind  kind
	a, b  int // 0 is ground, then rails, then free nodes
	ohms  float64
	model Diode
	law   *Law
}

// models are the diodes that the random circuits draw from.
var models = []Diode{Small1N4148, SchottkyBAT85, Power1N5819, LED(1.8, 2e-3), LED(2.8, 2e-3), Small1N4148.InSeries(100), {1e-14, 1, leastSeriesOhms}}

// steadyLaw falls with the voltage, so that a circuit with it rests in one way only.
var steadyLaw = NewLaw(Point{0.5, 100e-6}, Point{2, 20e-6}, Point{2.5, -50e-6})

// drawRecipe draws a circuit of up to 30 nodes: any element between any two nodes.
func drawRecipe(t *rapid.T) recipe {
	r := recipe{rails: []float64{3.3, -2}, free: rapid.IntRange(1, 30).Draw(t, "free")}
	nodes := 1 + len(r.rails) + r.free
	for range rapid.IntRange(0, 3*r.free).Draw(t, "elements") {
		e := ingredient{a: rapid.IntRange(0, nodes-1).Draw(t, "a"), b: rapid.IntRange(0, nodes-1).Draw(t, "b"),
			kind: rapid.SampledFrom([]kind{isResistor, isResistor, isDiode, isDiode, isLeak}).Draw(t, "kind")}
		e.ohms = math.Pow(10, rapid.Float64Range(-1, 8).Draw(t, "decades"))
		e.model = rapid.SampledFrom(models).Draw(t, "model")
		e.law = steadyLaw
		r.elements = append(r.elements, e)
	}
	return r
}

// build makes the circuit: rails and free nodes in the order of names, elements in the order of
// order. It returns the node of each number of the recipe.
func (r recipe) build(names, order []int) (*Circuit, []Node) {
	c := &Circuit{}
	at := make([]Node, 1+len(r.rails)+r.free)
	for _, n := range names {
		if n < len(r.rails) {
			at[1+n] = c.Rail(r.rails[n])
		} else {
			at[1+n] = c.Node()
		}
	}
	for _, i := range order {
		e := r.elements[i]
		switch e.kind {
		case isResistor:
			c.Resistor(at[e.a], at[e.b], e.ohms)
		case isDiode:
			c.Diode(at[e.a], at[e.b], e.model)
		case isLeak:
			c.Leak(at[e.a], e.law)
		}
	}
	return c, at
}

func counting(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// through finds the current of a diode by halving: it shares nothing with the solver.
func through(d Diode, volts float64) float64 {
	low, high := -9.0, 9.0 // voltage of the junction alone
	for range 200 {
		mid := (low + high) / 2
		amps := d.SaturationAmps * math.Expm1(mid/(d.Emission*thermalVolts))
		if mid+amps*d.SeriesOhms > volts {
			high = mid
		} else {
			low = mid
		}
	}
	return d.SaturationAmps * math.Expm1(low/(d.Emission*thermalVolts))
}
