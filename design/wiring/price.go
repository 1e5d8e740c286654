package wiring

// A price is in twentieths of a hole of bare wire, so that every price is whole.
type price int32

// Prices of the ways to join. An insulated wire stands for cutting, stripping and two joints.
const (
	perHole       price = 20
	perBend       price = 6
	perBridge     price = 10
	perThrough    price = 60
	perInsulated  price = 200
	perFarHole    price = 24  // of an insulated wire
	roundEdge     price = 300 // of an insulated wire that changes the face
	onFront       price = 200 // of an insulated wire among the keys
	frontStep     price = 1   // in the search only: the back is to be preferred
	faceChange    price = 20  // in the search only: one more wire with two more ends
	trespass      price = 50  // in the search only: a hole of another net's run, which would have to move
	beyondPrice   price = 1 << 29
	holesInPrices       = 20
)

func insulatedPrice(holes int) price { return perInsulated + perFarHole*price(holes) }

// holes turns a price into holes of bare wire.
func (p price) holes() float64 { return float64(p) / holesInPrices }

// A piece is a wire of the search.
type piece struct {
	kind    Kind
	through bool
	path    []spot // every hole of a bare run; the two ends of the other kinds
	locked  bool
}

// price is what a piece costs: length and bends of a bare run, a fixed price for a bridge.
func (pc *piece) price(fd *field) price {
	switch {
	case pc.through:
		return perThrough
	case pc.kind == Solder:
		return perBridge
	case pc.kind == Insulated:
		cost, _ := fd.insulated(pc.path[0], pc.path[1])
		return cost
	}
	return perHole*price(len(pc.path)-1) + perBend*price(bends(fd, pc.path))
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
