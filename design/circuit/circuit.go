// Package circuit works out the steady voltages of a small circuit: resistors, fixed voltages,
// diodes with their series resistance, and inputs that leak by a piecewise-linear law. Volts,
// amperes, ohms and siemens; 27 degrees Celsius. It knows no keys, pins or parts.
//
// The method is nodal analysis with the fixed nodes eliminated and Newton's iteration on the
// diodes: Ho, Ruehli and Brennan, The modified nodal approach to network analysis, 1975, and
// Nagel, SPICE2, 1975 (both from memory). Where quick steps do not end, slow ones do.
package circuit

import (
	"fmt"
	"math"
)

// A Node is a point of a circuit. Nodes count from 0, which is Ground.
type Node int

// Ground is the node at 0 V that every circuit has.
const Ground Node = 0

// A Branch is an element of a circuit, in order of addition from 0.
type Branch int

// A Circuit is nodes and the elements between them. The zero value is an empty circuit.
type Circuit struct {
	nodes    []node // from node 1
	kinds    []element
	resistor []resistor
	diode    []junction
	leak     []leak
}

type node struct {
	fixed bool
	volts float64 // of a fixed node
}

// An element says where a branch is kept.
type element struct {
	kind  kind
	index int
}

type kind uint8

const (
	isResistor kind = iota
	isDiode
	isLeak
)

type resistor struct {
	a, b    Node
	siemens float64
}

type junction struct {
	anode, cathode Node
	model          Diode
}

type leak struct {
	at  Node
	law *Law
}

// Reset takes everything out of the circuit and keeps its memory for the next.
func (c *Circuit) Reset() {
	c.nodes, c.kinds = c.nodes[:0], c.kinds[:0]
	c.resistor, c.diode, c.leak = c.resistor[:0], c.diode[:0], c.leak[:0]
}

// Nodes is how many nodes there are, Ground included.
func (c *Circuit) Nodes() int { return len(c.nodes) + 1 }

// Node adds a node whose voltage is to be found.
func (c *Circuit) Node() Node {
	c.nodes = append(c.nodes, node{})
	return Node(len(c.nodes))
}

// Rail adds a node that is held at a voltage. It panics when volts is not finite.
func (c *Circuit) Rail(volts float64) Node {
	if math.IsNaN(volts) || math.IsInf(volts, 0) {
		panic(fmt.Sprintf("circuit: a rail of %g V", volts))
	}
	c.nodes = append(c.nodes, node{fixed: true, volts: volts})
	return Node(len(c.nodes))
}

// Resistor joins two nodes. Its current counts from a to b. It panics when ohms is not a positive
// finite number.
func (c *Circuit) Resistor(a, b Node, ohms float64) Branch {
	if !(ohms > 0) || math.IsInf(ohms, 0) {
		panic(fmt.Sprintf("circuit: a resistor of %g ohms", ohms))
	}
	c.check(a, b)
	c.resistor = append(c.resistor, resistor{a, b, 1 / ohms})
	return c.add(isResistor, len(c.resistor)-1)
}

// Source joins n to a voltage against Ground through a resistance, such as a driven output. Its
// current counts from the source into n. It panics as Rail and Resistor do.
func (c *Circuit) Source(n Node, volts, ohms float64) Branch {
	return c.Resistor(c.Rail(volts), n, ohms)
}

// leastSeriesOhms stands for the metal of any diode. An ideal one would carry more amperes at a volt
// or two than a number has digits for.
const leastSeriesOhms = 1e-3

// Diode joins two nodes by a diode, with a milliohm in series at the least. Its current counts from
// anode to cathode. It panics when the model is not valid.
func (c *Circuit) Diode(anode, cathode Node, model Diode) Branch {
	if !model.valid() {
		panic(fmt.Sprintf("circuit: a diode of %+v", model))
	}
	c.check(anode, cathode)
	model.SeriesOhms = max(model.SeriesOhms, leastSeriesOhms)
	c.diode = append(c.diode, junction{anode, cathode, model})
	return c.add(isDiode, len(c.diode)-1)
}

// Leak lets current into n that depends on the voltage of n alone. It panics when law is nil.
func (c *Circuit) Leak(n Node, law *Law) Branch {
	if law == nil {
		panic("circuit: a leak without a law")
	}
	c.check(n, n)
	c.leak = append(c.leak, leak{n, law})
	return c.add(isLeak, len(c.leak)-1)
}

func (c *Circuit) add(k kind, index int) Branch {
	c.kinds = append(c.kinds, element{k, index})
	return Branch(len(c.kinds) - 1)
}

func (c *Circuit) check(a, b Node) {
	if a < 0 || b < 0 || int(a) > len(c.nodes) || int(b) > len(c.nodes) {
		panic(fmt.Sprintf("circuit: no nodes %d and %d among %d", a, b, c.Nodes()))
	}
}

// fixed returns the voltage of a node that is held; false for the others.
func (c *Circuit) fixed(n Node) (volts float64, ok bool) {
	if n == Ground {
		return 0, true
	}
	at := &c.nodes[n-1]
	return at.volts, at.fixed
}
