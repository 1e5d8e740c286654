package sheet

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/part"
)

// edgeOf is the edge of the body whose row of leads t belongs to: a lead with more fellows in its
// column stands at the left or right, one with more in its row at the top or bottom. One with as many
// of both is taken to stand at the left or right, where its name can be read level.
func (k *sketch) edgeOf(t part.Terminal) edge {
	at, c := k.lead(t), k.main.Centre()
	inRow, inColumn := 0, 0
	for _, o := range k.def.Terminals {
		if p := k.lead(o); p.Y == at.Y {
			inRow++
		} else if p.X == at.X {
			inColumn++
		}
	}
	switch {
	case inColumn+1 > inRow && at.X < c.X:
		return left
	case inColumn+1 > inRow:
		return right
	case inRow > inColumn+1 && at.Y < c.Y:
		return top
	case inRow > inColumn+1:
		return bottom
	}
	if k.main.Contains(at) && at.X < c.X {
		return left
	}
	if k.main.Contains(at) {
		return right
	}
	return side(k.main, at)
}

// edgeNames writes each terminal's name beside its lead: inside the body, or outside it when the
// lead is.
func (k *sketch) edgeNames() {
	for _, t := range k.def.Terminals {
		k.edgeName(t, 1.05, "pin-name")
	}
}

// haloedNames are edgeNames on a body with detail of its own under them.
func (k *sketch) haloedNames() {
	for _, t := range k.def.Terminals {
		k.edgeName(t, 1, "pin-outside")
	}
}

func (k *sketch) edgeName(t part.Terminal, size grid.Millimetre, inside class) {
	if k.main.Contains(k.lead(t)) {
		k.beside(t, k.edgeOf(t), -1, 0.85, size, t.Name, inside, "detail-near")
		return
	}
	k.beside(t, k.edgeOf(t), 1, 0.85, size, t.Name, "pin-outside", "detail-near")
}

// beside writes s next to a terminal, gap millimetres from its hole: outward across edge e for way
// 1, inward for -1. Along the top and bottom it reads upward.
func (k *sketch) beside(t part.Terminal, e edge, way, gap, size grid.Millimetre, s string, classes ...class) {
	o := e.outward()
	at := k.lead(t).Add(grid.Point{X: o.X * way * gap, Y: o.Y * way * gap})
	// A line of text starts at its left, or at its foot when it reads upward.
	if starts := (e == right || e == top) == (way > 0); starts {
		classes = append(classes, "start")
	} else {
		classes = append(classes, "finish")
	}
	if e == top || e == bottom {
		k.upward(at, size, s, classes...)
		return
	}
	k.text(at, size, s, classes...)
}

// refBelow writes the reference, and a value if there is one, under the part as it lies on the sheet.
func (k *sketch) refBelow(value string) {
	text := k.pl.Ref
	if value != "" {
		text += " " + value
	}
	k.text(grid.Point{X: k.main.Centre().X, Y: k.main.Max.Y + 0.9}, 1.15, text, "ref", "detail-middle")
}

// refCorner writes the reference into the first corner of the body that no lead is near.
func (k *sketch) refCorner() {
	in := k.main.Grown(-1.2)
	x := 0.2 + 0.4*breadth(k.pl.Ref)
	corners := []grid.Point{{X: in.Min.X + x, Y: in.Max.Y}, {X: in.Max.X - x, Y: in.Max.Y}, {X: in.Min.X + x, Y: in.Min.Y}, {X: in.Max.X - x, Y: in.Min.Y}}
	free := slices.IndexFunc(corners, func(c grid.Point) bool {
		return !slices.ContainsFunc(k.def.Terminals, func(t part.Terminal) bool { return k.lead(t).Distance(c) < 4 })
	})
	k.text(corners[max(free, 0)], 1.3, k.pl.Ref, "pin-name", "detail-middle")
}
