package controller

import (
	"slices"
	"testing"
)

func TestChipLimits(t *testing.T) {
	rp2040, rp2350 := mustChip(t, "RP2040"), mustChip(t, "RP2350")
	tests := []struct {
		what      string
		got, want float64
		source    string
	}{
		{"RP2040 sourced, mA", rp2040.SourceTotalMA, 50, "RP2040 data sheet table 627"},
		{"RP2040 sunk, mA", rp2040.SinkTotalMA, 50, "RP2040 data sheet table 627"},
		{"RP2350 sourced, mA", rp2350.SourceTotalMA, 100, "RP2350 data sheet table 1438"},
		{"RP2350 sunk, mA", rp2350.SinkTotalMA, 100, "RP2350 data sheet table 1438"},
		{"RP2040 weakest pull-up", rp2040.PullUpOhms[1], 80e3, "RP2040 data sheet table 625"},
		{"RP2350 weakest pull-up", rp2350.PullUpOhms[1], 86e3, "RP2350 data sheet table 1436"},
		{"RP2350 weakest pull-down", rp2350.PullDownOhms[1], 113e3, "RP2350 data sheet table 1436"},
		{"RP2040 reads 1 above", rp2040.VIHVolts, 2.0, "RP2040 data sheet table 625"},
		{"RP2350 reads 0 below", rp2350.VILVolts, 0.8, "RP2350 data sheet table 1436"},
		{"RP2040 clock", float64(rp2040.SystemHz), 125e6, "pico-sdk 2.2.0 platform_defs.h"},
		{"RP2350 clock", float64(rp2350.SystemHz), 150e6, "pico-sdk 2.2.0 platform_defs.h"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s = %g, want %g (%s)", tt.what, tt.got, tt.want, tt.source)
		}
	}
	// RP2350 data sheet appendix E, RP2350-E9: A2 is affected, A3 and A4 are not, RP2040 never was.
	if !slices.Equal(rp2350.PullDownFaulty, []string{"A2"}) || len(rp2040.PullDownFaulty) != 0 {
		t.Errorf("faulty pull-downs: RP2350 %v, RP2040 %v", rp2350.PullDownFaulty, rp2040.PullDownFaulty)
	}
}

// TestChipNamedIsACopy makes sure that nobody can change the table through an answer.
func TestChipNamedIsACopy(t *testing.T) {
	c := mustChip(t, "RP2350")
	c.PullDownFaulty[0] = "none"
	if again := mustChip(t, "RP2350"); again.PullDownFaulty[0] != "A2" {
		t.Errorf("the table was changed to %v", again.PullDownFaulty)
	}
	if c, ok := ChipNamed("rp2040"); ok {
		t.Errorf("ChipNamed(rp2040) = %v, want a refusal: part numbers are written in capitals", c.Name)
	}
}
