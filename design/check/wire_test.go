package check

import (
	"fmt"
	"math"
	"testing"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/wiring"
)

// wire lays an insulated wire of a net between terminals. Its length is what counts, wherever they are.
func (d *desk) wire(net, gauge string, mm float64, from, to string) {
	a, b := d.joint(from), d.joint(to)
	d.wires = append(d.wires, wiring.Wire{Net: net, Class: netlist.Supply, Kind: wiring.Insulated, Face: grid.Back, From: a, To: b,
		Path: []grid.Hole{a, b}, LengthMM: mm, Gauge: gauge})
}

func (d *desk) joint(terminal string) grid.Hole {
	t, _ := panel.ParseTerminal(terminal)
	h, ok := d.panel.HoleOf(t)
	if !ok {
		panic("no terminal " + terminal)
	}
	return h
}

// feedWires joins the display with the module by two wires of so many millimetres each.
func feedWires(gauge string, mm float64) func(*desk) {
	return func(d *desk) {
		d.wire(part.Supply3V3, gauge, mm, "U1.3V3", "U2.VCC")
		d.wire(part.Ground, gauge, mm, "U1.GND", "U2.GND")
	}
}

// draws sets what the display takes.
func draws(ma float64) func(*desk) {
	return func(d *desk) { d.def("U2", func(p *part.Definition) { p.Facts.CurrentMA = ma }) }
}

func lossOf(t *testing.T, d *desk, ref string) loss {
	t.Helper()
	for _, l := range viewOf(d.plan()).losses() {
		if l.it.Ref == ref {
			return l
		}
	}
	t.Fatalf("nothing is said of %s", ref)
	return loss{}
}

// What 0.2 m of wire lose at 100 mA, in millivolts: ASTM B258 and annealed copper of 1.7241e-8 ohm
// metres (from memory). There and back is twice that.
func TestLossByGauge(t *testing.T) {
	for gauge, want := range map[string]float64{"AWG 22": 1.1, "AWG 24": 1.7, "AWG 26": 2.7, "AWG 28": 4.3, "AWG 30": 6.8} {
		d := newDesk()
		d.panel.Find("R1").Value = "10M" // the LED's current comes back over other wire
		both(draws(100), feedWires(gauge, 200))(d)
		if got := lossOf(t, d, "U2"); math.Abs(got.mv/2-want) > 0.051 || math.Abs(got.ohms()*100-got.mv) > 0.001 {
			t.Errorf("%s: %.2f mV and %.4f ohms, want %.1f mV each way", gauge, got.mv, got.ohms(), want)
		}
	}
}

// Two parts on one wire: 1 m of AWG 26 (0.134 ohm) to U2 and 1 m more to U3. U2 takes 20 mA and U3
// 30 mA, so the first metre carries 50 mA and the second 30 mA: Ohm's and Kirchhoff's laws. Of ground
// there is one wire to each.
func TestLossOnABranch(t *testing.T) {
	d := newDesk()
	d.panel.Find("R1").Value = "10M"
	d.place("U3", displayDef())
	d.net(part.Supply3V3, netlist.Supply, "U3.VCC")
	d.net(part.Ground, netlist.Ground, "U3.GND")
	d.def("U3", func(p *part.Definition) { p.Facts.CurrentMA = 30 })
	d.wire(part.Supply3V3, "AWG 26", 1000, "U1.3V3", "U2.VCC")
	d.wire(part.Supply3V3, "AWG 26", 1000, "U2.VCC", "U3.VCC")
	d.wire(part.Ground, "AWG 26", 1000, "U1.GND", "U2.GND")
	d.wire(part.Ground, "AWG 26", 1000, "U1.GND", "U3.GND")
	const ohm = 0.134
	for ref, want := range map[string]struct{ mv, ohms float64 }{"U2": {(50 + 20) * ohm, 2 * ohm}, "U3": {(50 + 30 + 30) * ohm, 3 * ohm}} {
		if got := lossOf(t, d, ref); math.Abs(got.mv-want.mv) > 0.05 || math.Abs(got.ohms()-want.ohms) > 0.001 {
			t.Errorf("%s: %.3f mV over %.4f ohms, want %.3f over %.4f", ref, got.mv, got.ohms(), want.mv, want.ohms)
		}
	}
}

// An LED of 2 mA that a pin lights sends its current back over the display's ground wire: 22 mA there,
// 20 mA on the way out, 1 m of AWG 26 each.
func TestLossByAnLED(t *testing.T) {
	d := newDesk()
	feedWires("AWG 26", 1000)(d)
	d.wire(part.Ground, "AWG 26", 500, "U2.GND", "D1.K")
	if got, want := lossOf(t, d, "U2").mv, (20+22)*0.134; math.Abs(got-want) > 0.02 {
		t.Errorf("%.3f mV, want %.3f", got, want)
	}
}

// A cell feeds the module by wires that carry everything: 25 mA of its own, the display's 20 mA and the
// LED's 2 mA. The display's loss counts from the module.
func TestLossFromACell(t *testing.T) {
	d := newDesk()
	d.battery()
	d.wire(part.VSYS, "AWG 26", 1000, "J1.+", "U1.VSYS")
	d.wire(part.Ground, "AWG 26", 1000, "J1.-", "U1.GND")
	feedWires("AWG 26", 1000)(d)
	d.wire(part.Ground, "AWG 26", 500, "U1.GND", "D1.K")
	if got := lossOf(t, d, "U1"); math.Abs(got.mv-2*47*0.134) > 0.05 || got.giver.Ref != "J1" {
		t.Errorf("%.3f mV from %s, want %.3f from J1", got.mv, got.giver.Ref, 2*47*0.134)
	}
	if got := lossOf(t, d, "U2"); math.Abs(got.mv-2*20*0.134) > 0.05 || got.giver.Ref != "U1" {
		t.Errorf("%.3f mV from %s, want %.3f from U1", got.mv, got.giver.Ref, 2*20*0.134)
	}
}

// A bare run with a part in its middle: 4 holes of 0.5 mm tinned wire, 0.088 ohm a metre, and the part
// at half way. Two ground wires side by side have half the resistance of one.
func TestLossAlongARun(t *testing.T) {
	d := newDesk()
	d.panel.Find("R1").Value = "10M"
	from := d.joint("U1.3V3")
	var path []grid.Hole
	for i := range 5 {
		path = append(path, grid.Hole{Col: from.Col + i, Row: from.Row + 1})
	}
	d.panel.Find("U2").At = grid.Hole{Col: path[2].Col - 1, Row: path[2].Row} // its second terminal is VCC
	d.wires = append(d.wires, wiring.Wire{Net: part.Supply3V3, Kind: wiring.Bare, Face: grid.Back, From: path[0], To: path[4], Path: path, LengthMM: 10.16},
		wiring.Wire{Net: part.Supply3V3, Kind: wiring.Solder, Face: grid.Back, From: from, To: path[0], Path: []grid.Hole{from, path[0]}, LengthMM: 2.54})
	d.wire(part.Ground, "AWG 26", 1000, "U1.GND", "U2.GND")
	want := 0.088*2*2.54/1000 + 0.134
	if got := lossOf(t, d, "U2"); math.Abs(got.ohms()-want) > 2e-4 {
		t.Errorf("%.5f ohms, want %.5f", got.ohms(), want)
	}
	d.wire(part.Ground, "AWG 26", 1000, "U1.GND", "U2.GND")
	if got := lossOf(t, d, "U2"); math.Abs(got.ohms()-(want-0.5*0.134)) > 2e-4 {
		t.Errorf("with a second ground wire %.5f ohms, want %.5f", got.ohms(), want-0.5*0.134)
	}
}

// Parts that no wire reaches, and panels without wires, have no loss to tell.
func TestNoLossWithoutWires(t *testing.T) {
	d := newDesk()
	if got := viewOf(d.plan()).losses(); got != nil {
		t.Errorf("%+v", got)
	}
	d.wire(part.Ground, "AWG 26", 1000, "U1.GND", "U2.GND")
	for _, l := range viewOf(d.plan()).losses() {
		t.Errorf("%s: %s", l.it.Ref, fmt.Sprint(l.mv))
	}
}
