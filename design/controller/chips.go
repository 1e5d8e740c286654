package controller

import "slices"

// chips holds the two microcontrollers, in the forms that the modules carry: 30 GPIOs each.
// Limits: RP2040 data sheet tables 614, 622, 625, 627; RP2350 data sheet tables 1433, 1436, 1438
// and appendix E, RP2350-E9. Clocks: pico-sdk 2.2.0 platform_defs.h.
var chips = []Chip{
	{
		Name: "RP2040", GPIOs: 30, ADCFirst: 26, ADCCount: 4,
		SourceTotalMA: 50, SinkTotalMA: 50,
		PullUpOhms: [2]float64{50e3, 80e3}, PullDownOhms: [2]float64{50e3, 80e3},
		VIHVolts: 2.0, VILVolts: 0.8,
		SystemHz: 125e6, PIOVersion: 0,
	},
	{
		Name: "RP2350", GPIOs: 30, ADCFirst: 26, ADCCount: 4,
		SourceTotalMA: 100, SinkTotalMA: 100,
		PullUpOhms: [2]float64{32e3, 86e3}, PullDownOhms: [2]float64{36e3, 113e3},
		VIHVolts: 2.0, VILVolts: 0.8,
		SystemHz: 150e6, PIOVersion: 1,
		PullDownFaulty: []string{"A2"},
	},
}

// ChipNamed returns the chip with that part number, RP2040 or RP2350.
func ChipNamed(name string) (Chip, bool) {
	for _, c := range chips {
		if c.Name == name {
			c.PullDownFaulty = slices.Clone(c.PullDownFaulty)
			return c, true
		}
	}
	return Chip{}, false
}

// ChipNames lists the part numbers that ChipNamed knows.
func ChipNames() []string {
	names := make([]string, len(chips))
	for i, c := range chips {
		names[i] = c.Name
	}
	return names
}
