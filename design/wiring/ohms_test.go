package wiring_test

import (
	"math"
	"testing"

	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/wiring"
)

// TestTreeOhms: a hole of 0.5 mm tinned wire is 2.54 mm of 0.0878 ohm a metre, one of AWG 28 2.54 mm of
// 0.2130, worked by hand from the rule of ASTM B258 and the resistivity of annealed copper.
func TestTreeOhms(t *testing.T) {
	const bare, awg28 = 2.54e-3 * 0.0878, 2.54e-3 * 0.2130
	tests := []struct {
		name     string
		pic      picture
		from, to string
		want     float64
	}{
		{"a run", picture{board: oneFace, rows: []string{"A....A"}}, "A1", "A2", 5 * bare},
		{"half-way along a run", picture{board: oneFace, rows: []string{"A...A", ".....", "..A.."}}, "A1", "A3", 4 * bare},
		{"past the end of a run", picture{board: oneFace, rows: []string{"A...A", ".....", "..A.."}}, "A2", "A3", 4 * bare},
		{"an insulated wire", picture{board: oneFace, rows: []string{"A.x.A", "..x.."}}, "A1", "A2", 4 * awg28},
		{"solder", picture{rows: []string{"AA"}}, "A1", "A2", 0},
		{"metal of a part in the way", picture{board: oneFace, metal: [][]string{{"A2", "A3"}}, rows: []string{"A..Ax.A..A"}}, "A1", "A4", 6 * bare},
		{"a strip", picture{board: strips, rows: []string{"A..A", "...."}}, "A1", "A2", 0},
	}
	for _, tt := range tests {
		d := tt.pic.draw()
		r := d.route()
		tree := wiring.TreeOf(&d.p, &d.nets.Nets[0], &r)
		ref := func(lead string) panel.TerminalRef {
			for _, term := range d.nets.Nets[0].Terminals {
				if term.Terminal == lead {
					return term.TerminalRef
				}
			}
			return panel.TerminalRef{}
		}
		got, ok := tree.Ohms(ref(tt.from), ref(tt.to))
		if !ok || math.Abs(got-tt.want) > 0.003*tt.want+1e-12 {
			t.Errorf("%s: %.6f ohm, %v; want %.6f", tt.name, got, ok, tt.want)
		}
	}
}

// TestTreeReachesAll: on the demos wires lead between every two terminals of a net, over less than an
// ohm, and to none that is not of the net.
func TestTreeReachesAll(t *testing.T) {
	pairs := 0
	for _, d := range demo.All() {
		x := planUp(&d.Panel)
		r := wiring.Route(&d.Panel, &x.fit, &x.nets)
		for i := range x.nets.Nets {
			n := &x.nets.Nets[i]
			tree := wiring.TreeOf(&d.Panel, n, &r)
			for _, a := range n.Terminals {
				if ohms, ok := tree.Ohms(n.Terminals[0].TerminalRef, a.TerminalRef); !ok || ohms >= 1 {
					t.Errorf("%s: %s to %s: %v ohm, %v", d.ID, n.Terminals[0].TerminalRef, a.TerminalRef, ohms, ok)
				}
				pairs++
			}
			if _, ok := tree.Ohms(n.Terminals[0].TerminalRef, panel.TerminalRef{Ref: "nobody", Terminal: "1"}); ok {
				t.Errorf("%s: a way to nobody", d.ID)
			}
		}
	}
	if pairs < 100 {
		t.Errorf("only %d pairs", pairs)
	}
}
