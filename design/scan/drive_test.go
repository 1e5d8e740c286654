package scan

import (
	"testing"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/part"
)

func TestDrive(t *testing.T) {
	rp2350, _ := controller.ChipNamed("RP2350")
	tests := []struct {
		name, source string
		wish         panel.Scan
		chip         *controller.Chip
		supply       string
		want         drive
	}{
		{"all auto", "common practice, no source", panel.Scan{Active: "auto", Pulls: "auto", Reader: "pio"}, rp2040(), "", drive{"low", "internal", "pio"}},
		{"as asked", "the maker's wish", panel.Scan{Active: "high", Pulls: "internal", Reader: "polled"}, &rp2350, "", drive{"high", "internal", "polled"}},
		{"high on a chip with faulty pull-downs", "RP2350 data sheet, erratum RP2350-E9", panel.Scan{Active: "high", Pulls: "auto", Reader: "pio"}, &rp2350, "", drive{"high", "external", "pio"}},
		{"low on the same chip", "RP2350 data sheet, erratum RP2350-E9", panel.Scan{Active: "auto", Pulls: "auto", Reader: "pio"}, &rp2350, "", drive{"low", "internal", "pio"}},
		{"keys on 3V3", "common practice, no source", panel.Scan{Active: "auto", Pulls: "auto", Reader: "pio"}, rp2040(), part.Supply3V3, drive{"high", "internal", "pio"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := driveOf(tt.wish, tt.chip, map[string]bool{tt.supply: true}); got != tt.want {
				t.Errorf("%+v, want %+v (%s)", got, tt.want, tt.source)
			}
		})
	}
}

// 10 us for internal pulls and 2 us for external ones leave room above the computed rise to 2.0 V:
// 0.932 R C with 80 k or 10 k and 100 pF (RP2040 data sheet tables 614 and 622).
func TestPeriod(t *testing.T) {
	tests := []struct {
		name            string
		d               drive
		columns, direct int
		want            float64
	}{
		{"direct", drive{"low", "internal", "pio"}, 0, 12, 1},
		{"8 columns", drive{"low", "internal", "pio"}, 8, 0, 80.8},
		{"8 columns and direct keys", drive{"low", "internal", "pio"}, 8, 2, 81.8},
		{"external pulls, polled", drive{"low", "external", "polled"}, 8, 0, 24},
	}
	for _, tt := range tests {
		if got := tt.d.period(tt.columns, tt.direct); got != tt.want {
			t.Errorf("%s: %g us, want %g", tt.name, got, tt.want)
		}
	}
	if rise := 0.932 * 80e3 * 100e-12 * 1e6; rise > settleInternal {
		t.Errorf("internal pulls rise in %g us", rise)
	}
	if rise := 0.932 * 10e3 * 100e-12 * 1e6; rise > settleExternal {
		t.Errorf("external pulls rise in %g us", rise)
	}
}
