package wiring

import (
	"math"

	"fascia/design/panel"
)

// A price is in twentieths of a hole of bare wire, so that every price is whole.
type price int64

// Prices that are not the maker's to set.
const (
	perHole       price = 20
	roundEdge     price = 300 // of an insulated wire that changes the face
	onFront       price = 200 // of an insulated wire among the keys
	frontStep     price = 1   // in the search only: the back is to be preferred
	faceChange    price = 20  // in the search only: one more wire with two more ends
	beyondPrice   price = 1 << 40
	holesInPrices       = 20
)

// prices are what the ways to join cost this maker.
type prices struct {
	bend, bridge, through price
	insulated, farHole    price // an insulated wire, and each hole that it spans
}

// pricesOf rounds the maker's costs to whole twentieths of a hole.
func pricesOf(w *panel.Wires) prices {
	c := panel.UsualCosts()
	if w.Costs != nil {
		c = *w.Costs
	}
	whole := func(holes float64) price { return price(math.Round(holes * holesInPrices)) }
	return prices{bend: whole(c.Bend), bridge: whole(c.Solder), through: whole(c.Through),
		insulated: whole(c.Insulated), farHole: whole(c.PerHole)}
}

func (c *prices) insulatedWire(holes int) price { return c.insulated + c.farHole*price(holes) }

// leastJoin is what no way to join two pieces of copper falls below.
func (c *prices) leastJoin() price { return min(c.bridge, perHole, c.insulatedWire(1)) }

// mostBend bounds what a wave reckons for a bend or a link, so that its lists stay few.
const mostBend = 100 * perHole

func (c *prices) waveBend() price    { return min(c.bend, mostBend) }
func (c *prices) waveThrough() price { return min(c.through, mostBend) }

// holes turns a price into holes of bare wire.
func (p price) holes() float64 { return float64(p) / holesInPrices }

// A piece is a wire of the search.
type piece struct {
	kind    Kind
	through bool
	path    []spot            // every hole of a bare run; the two ends of the other kinds
	locked  *panel.LockedWire // the maker's own wish for it, or nil
}

// price is what a piece costs: length and bends of a bare run, a fixed price for a bridge.
func (pc *piece) price(fd *field) price {
	switch {
	case pc.through:
		return fd.costs.through
	case pc.kind == Solder:
		return fd.costs.bridge
	case pc.kind == Insulated:
		cost, _ := fd.insulated(pc.path[0], pc.path[1])
		return cost
	}
	return perHole*price(len(pc.path)-1) + fd.costs.bend*price(bends(fd, pc.path))
}

func bends(fd *field, path []spot) int {
	n := 0
	for i := 2; i < len(path); i++ {
		if fd.hole(path[i]).Minus(fd.hole(path[i-1])) != fd.hole(path[i-1]).Minus(fd.hole(path[i-2])) {
			n++
		}
	}
	return n
}
