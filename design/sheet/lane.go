package sheet

import (
	"cmp"
	"slices"

	"fascia/design/grid"
)

// Insulated wires may cross anything, so where exactly they run is the solderer's affair. They are
// drawn as lanes along the gaps between the rows of holes, each where it hides the fewest others.

// laidRoutes gives every insulated wire its way on the board, by its index in the wire list. Short
// wires come first, since a long one has more ways to go. Time is O(n²) in the wires of a face.
func (s *scene) laidRoutes() map[int][]grid.Point {
	routes := map[int][]grid.Point{}
	if s.Wiring == nil || s.Style == Picture {
		return routes
	}
	for _, face := range []grid.Face{grid.Front, grid.Back} {
		var order []int
		for i, w := range s.Wiring.Wires {
			if wireClass(w.Kind) == "wire-insulated" && w.Face == face {
				order = append(order, i)
			}
		}
		wires := s.Wiring.Wires
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Or(cmp.Compare(wires[a].From.Steps(wires[a].To), cmp.Compare(wires[b].From.Steps(wires[b].To), 0)), a-b)
		})
		var laid lanes
		for _, i := range order {
			routes[i] = laid.lay(wires[i].From.Centre(), wires[i].To.Centre())
		}
	}
	return routes
}

// lanes are the straight pieces of the wires laid so far on one face.
type lanes struct{ level, upright []lane }

// A lane is one straight piece: it lies at `at` across its direction, from `from` to `to` along it.
type lane struct{ at, from, to grid.Millimetre }

// Prices, in millimetres of wire.
const (
	bendPrice  = 1.2
	crossPrice = 0.5
	coverPrice = 6    // a millimetre along another wire
	holePrice  = 0.45 // a millimetre along a row of holes, less beside it
	apart      = 1    // wires nearer than this crowd each other, the more the nearer
)

// lay takes the cheapest way from a to b and keeps it.
func (l *lanes) lay(a, b grid.Point) []grid.Point {
	var best []grid.Point
	lowest := grid.Millimetre(-1)
	for _, way := range waysBetween(a, b) {
		if price := l.price(way, lowest); lowest < 0 || price < lowest {
			best, lowest = way, price
		}
	}
	for i := 1; i < len(best); i++ {
		l.keep(best[i-1], best[i])
	}
	return best
}

func (l *lanes) keep(p, q grid.Point) {
	if p.Y == q.Y {
		l.level = append(l.level, lane{p.Y, min(p.X, q.X), max(p.X, q.X)})
		return
	}
	l.upright = append(l.upright, lane{p.X, min(p.Y, q.Y), max(p.Y, q.Y)})
}

// price adds up what a way costs; it gives up once that is more than the limit, if there is one.
func (l *lanes) price(way []grid.Point, limit grid.Millimetre) grid.Millimetre {
	total := bendPrice * grid.Millimetre(len(way)-2)
	for i := 1; i < len(way); i++ {
		p, q := way[i-1], way[i]
		along, across := l.level, l.upright
		piece := lane{p.Y, min(p.X, q.X), max(p.X, q.X)}
		if p.Y != q.Y {
			along, across = across, along
			piece = lane{p.X, min(p.Y, q.Y), max(p.Y, q.Y)}
		}
		total += piece.to - piece.from
		total += holePrice * offCentre(piece.at) * (piece.to - piece.from)
		for _, o := range along {
			d := max(o.at-piece.at, piece.at-o.at)
			if shared := min(o.to, piece.to) - max(o.from, piece.from); d < apart && shared > 0 {
				total += coverPrice * shared * (apart - d)
			}
		}
		for _, o := range across {
			if o.at > piece.from && o.at < piece.to && piece.at > o.from && piece.at < o.to {
				total += crossPrice
			}
		}
		if limit >= 0 && total > limit {
			break
		}
	}
	return total
}

// offCentre is 1 on a row of holes and 0 half-way to the next.
func offCentre(v grid.Millimetre) grid.Millimetre {
	n := grid.Nearest(grid.Point{X: v}).Col
	d := v - (grid.Hole{Col: n}).Centre().X
	return 1 - max(d, -d)/(grid.Pitch/2)
}

// wideOf goes from a to b, which face each other, by a row or column that far aside.
func wideOf(a, b grid.Point, aside grid.Millimetre) []grid.Point {
	if a.Y == b.Y {
		return []grid.Point{a, {X: a.X, Y: a.Y + aside}, {X: b.X, Y: b.Y + aside}, b}
	}
	return []grid.Point{a, {X: a.X + aside, Y: a.Y}, {X: b.X + aside, Y: b.Y}, b}
}

// gaps are where lanes lie between a row of holes and the next, from the row.
var gaps = [...]grid.Millimetre{1.27, 0.77, 1.77}

// waysBetween lists how a wire may run: straight when its ends face each other; one bend; or along
// the gap beside its one end, then along the gap beside the other.
func waysBetween(a, b grid.Point) [][]grid.Point {
	var ways [][]grid.Point
	add := func(way ...grid.Point) {
		for i := 1; i < len(way); i++ {
			if way[i] == way[i-1] {
				return
			}
		}
		ways = append(ways, way)
	}
	if a.X == b.X || a.Y == b.Y {
		ways = append(ways, []grid.Point{a, b})
	} else {
		add(a, grid.Point{X: a.X, Y: b.Y}, b)
		add(a, grid.Point{X: b.X, Y: a.Y}, b)
	}
	for _, gap := range gaps {
		for _, way := range [...]grid.Millimetre{1, -1} {
			y, x := a.Y+gap*way, a.X+gap*way
			endY, endX := b.Y+gap*way, b.X+gap*way
			if a.X != b.X {
				add(a, grid.Point{X: a.X, Y: y}, grid.Point{X: b.X, Y: y}, b)
				add(a, grid.Point{X: a.X, Y: endY}, grid.Point{X: b.X, Y: endY}, b)
			}
			if a.Y != b.Y {
				add(a, grid.Point{X: x, Y: a.Y}, grid.Point{X: x, Y: b.Y}, b)
				add(a, grid.Point{X: endX, Y: a.Y}, grid.Point{X: endX, Y: b.Y}, b)
			}
			if a.X == b.X || a.Y == b.Y {
				ways = append(ways, wideOf(a, b, way*(gap+grid.Pitch)))
				continue
			}
			for _, far := range gaps {
				for _, side := range [...]grid.Millimetre{1, -1} {
					u, v := b.X+far*side, b.Y+far*side
					add(a, grid.Point{X: a.X, Y: y}, grid.Point{X: u, Y: y}, grid.Point{X: u, Y: b.Y}, b)
					add(a, grid.Point{X: x, Y: a.Y}, grid.Point{X: x, Y: v}, grid.Point{X: b.X, Y: v}, b)
				}
			}
		}
	}
	return ways
}
