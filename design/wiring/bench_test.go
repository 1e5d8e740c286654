package wiring_test

import (
	"fmt"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/part"
	"fascia/design/wiring"
)

// console is a hand-held of the usual size: a module, a display, LEDs with resistors, a piezo and
// rows x columns keys on one plated board.
func console(rows, columns int) *panel.Panel {
	p := panel.New("console")
	p.Boards[0].Columns, p.Boards[0].Rows = max(36, 6*columns+12), max(30, 5*rows+14)
	put := func(ref, id, at string, turn grid.Turn, face grid.Face) *panel.Placed {
		p.Parts[id] = part.BuiltIn()[id]
		p.Placed = append(p.Placed, panel.Placed{Ref: ref, Part: id, At: grid.MustHole(at), Turn: turn, Face: face})
		return &p.Placed[len(p.Placed)-1]
	}
	put("U1", "module40-rp2040", "B2", 0, grid.Front)
	put("U2", "oled096-i2c", "R3", 0, grid.Front)
	put("LS1", "piezo12", "AB4", 0, grid.Front)
	for i := range 4 {
		put(fmt.Sprintf("D%d", i+1), "led3", fmt.Sprintf("L%d", 2+3*i), 0, grid.Front)
		put(fmt.Sprintf("R%d", i+1), "resistor-small", fmt.Sprintf("AB%d", 8+i), 0, grid.Front)
	}
	for r := range rows {
		for c := range columns {
			at := grid.Hole{Col: 11 + 6*c, Row: 16 + 4*r}
			k := put(fmt.Sprintf("S%d", r*columns+c+1), "tact6", at.String(), 0, grid.Front)
			k.Key = &panel.Key{Legend: "x"}
		}
	}
	p.Tidy()
	return &p
}

func BenchmarkRoute(b *testing.B) {
	for _, size := range [][2]int{{3, 4}, {4, 6}, {5, 8}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			p := console(size[0], size[1])
			x := planUp(p)
			for _, f := range x.fit.Findings {
				b.Log(f)
			}
			var r wiring.Result
			for b.Loop() {
				r = wiring.Route(p, &x.fit, &x.nets)
			}
			insulated := 0
			for _, w := range r.Wires {
				if w.Kind == wiring.Insulated {
					insulated++
				}
			}
			b.ReportMetric(float64(len(p.Placed)), "parts")
			b.ReportMetric(float64(insulated), "insulated")
			b.ReportMetric(r.Cost, "cost")
			b.ReportMetric(100*r.Gap, "gap%")
		})
	}
}

// BenchmarkDemos gives the first answer for each demo, and the answer after a fixed number of moves.
func BenchmarkDemos(b *testing.B) {
	for _, moves := range []int{0, 1500} {
		for _, d := range demo.All() {
			b.Run(fmt.Sprintf("%s/%d", d.ID, moves), func(b *testing.B) {
				x := planUp(&d.Panel)
				var r wiring.Result
				for b.Loop() {
					r = wiring.RouteWith(&d.Panel, &x.fit, &x.nets, wiring.Options{Moves: moves})
				}
				b.ReportMetric(r.Cost, "cost")
				b.ReportMetric(r.Bound, "bound")
				b.ReportMetric(100*r.Gap, "gap%")
				b.ReportMetric(float64(r.Counts.Insulated), "insulated")
				b.ReportMetric(float64(r.InsulatedBound), "insulated-bound")
			})
		}
	}
}
