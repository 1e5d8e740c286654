package wiring_test

import (
	"math"
	"testing"

	"fascia/design/netlist"
	"fascia/design/wiring"
)

// TestGauge holds the gauge rule against published figures. Resistance is of annealed copper at
// 20 °C.
func TestGauge(t *testing.T) {
	tests := []struct {
		gauge         int
		source        string
		mm, ohmMetre  float64
		millivoltLoss float64 // over 0.2 m at 100 mA
	}{
		{36, "ASTM B258: 0.005 inch at 36", 0.127, 1.361, 27.2},
		{18, "ASTM B258 rule, worked by hand", 1.024, 0.0209, 0.4},
		{20, "ASTM B258 rule, worked by hand", 0.812, 0.0333, 0.7},
		{22, "ASTM B258 rule, worked by hand", 0.644, 0.0530, 1.1},
		{24, "ASTM B258 rule, worked by hand", 0.511, 0.0842, 1.7},
		{26, "ASTM B258 rule, worked by hand", 0.405, 0.134, 2.7},
		{28, "ASTM B258 rule, worked by hand", 0.321, 0.213, 4.3},
		{30, "ASTM B258 rule, worked by hand", 0.255, 0.339, 6.8},
	}
	for _, tt := range tests {
		mm := wiring.GaugeMM(tt.gauge)
		ohm := wiring.OhmPerMetre(mm)
		if math.Abs(mm-tt.mm) > 0.0006 {
			t.Errorf("AWG %d is %.4f mm, want %.3f (%s)", tt.gauge, mm, tt.mm, tt.source)
		}
		if math.Abs(ohm-tt.ohmMetre) > tt.ohmMetre*0.005 {
			t.Errorf("AWG %d has %.4f ohm/m, want %.4f (%s)", tt.gauge, ohm, tt.ohmMetre, tt.source)
		}
		if loss := ohm * 0.2 * 100; math.Abs(loss-tt.millivoltLoss) > 0.06 {
			t.Errorf("AWG %d loses %.2f mV, want %.1f (%s)", tt.gauge, loss, tt.millivoltLoss, tt.source)
		}
	}
	// The rule's other fixed point: 0.46 inch at 0000, written -3.
	if mm := wiring.GaugeMM(-3); math.Abs(mm-11.684) > 0.0005 {
		t.Errorf("AWG 0000 is %.4f mm, want 11.684 (ASTM B258: 0.4600 inch)", mm)
	}
}

// TestTinnedWire: resistance of tinned copper wire reckoned as solid copper, worked by hand from
// rho over area.
func TestTinnedWire(t *testing.T) {
	for mm, want := range map[float64]float64{0.4: 0.137, 0.5: 0.088, 0.6: 0.061, 0.8: 0.034} {
		if got := wiring.OhmPerMetre(mm); math.Abs(got-want) > 0.0006 {
			t.Errorf("%.1f mm has %.4f ohm/m, want %.3f", mm, got, want)
		}
	}
}

func TestWireOhms(t *testing.T) {
	tests := []struct {
		name string
		wire wiring.Wire
		want float64
	}{
		{"supply of AWG 24", wiring.Wire{Kind: wiring.Insulated, Class: netlist.Ground, LengthMM: 200}, 0.2 * 0.0842},
		{"row of AWG 30", wiring.Wire{Kind: wiring.Insulated, Class: netlist.Row, LengthMM: 1000}, 0.339},
		{"signal of AWG 28", wiring.Wire{Kind: wiring.Insulated, Class: netlist.Signal, LengthMM: 1000}, 0.213},
		{"bare run", wiring.Wire{Kind: wiring.Bare, Class: netlist.Ground, LengthMM: 1000}, 0.088},
		{"leg bridge", wiring.Wire{Kind: wiring.Leg, LengthMM: 7.62}, 0},
	}
	for _, tt := range tests {
		if got := tt.wire.Ohms(); math.Abs(got-tt.want) > 0.001 {
			t.Errorf("%s: %.4f ohm, want %.4f", tt.name, got, tt.want)
		}
		if got := tt.wire.MillivoltsLost(100); math.Abs(got-100*tt.wire.Ohms()) > 1e-9 {
			t.Errorf("%s: %.3f mV at 100 mA", tt.name, got)
		}
	}
}
