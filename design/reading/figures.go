package reading

import (
	"slices"

	"fascia/design/circuit"
	"fascia/design/controller"
)

// Figures are what the inputs and outputs of a chip do. Pairs are the least and the most.
type Figures struct {
	Volts        float64            // of its supply
	Limits       circuit.Thresholds // of its inputs
	PullUpOhms   [2]float64
	PullDownOhms [2]float64
	LowOhms      [2]float64 // of an output that drives low
	HighOhms     [2]float64 // of an output that drives high
	PinOhms      float64    // of a pin that does nothing, to ground
	Leaky        bool       // inputs leak between their limits: RP2350-E9
	SelectsHear  bool       // the program leaves the inputs of lines on that only select, so that they leak too
}

// supplyVolts is IOVDD on every module.
const supplyVolts = 3.3

// The drivers of the chips at the drive strength of reset, 4 mA: VOL is 0.5 V at most and VOH 2.62 V
// at least while they carry it (RP2040 data sheet table 622, RP2350 data sheet table 1436). About 40
// ohms are typical (measured by makers, from memory).
const (
	driveAmps     = 4e-3
	mostLowVolts  = 0.5
	leastHighVolt = 2.62
	typicalOhms   = 40
)

// pinOhms stands for the leakage of an idle pin: far below the microampere that data sheets allow, so
// that a line which nothing holds is found as such. Common practice, no source.
const pinOhms = 100e6

// FiguresOf returns the figures of a chip of that stepping; those of the RP2040 when chip is nil.
func FiguresOf(chip *controller.Chip, stepping string) Figures {
	if chip == nil {
		usual, _ := controller.ChipNamed("RP2040")
		chip = &usual
	}
	return Figures{
		Volts:      supplyVolts,
		Limits:     circuit.Thresholds{Low: chip.VILVolts, High: chip.VIHVolts},
		PullUpOhms: chip.PullUpOhms, PullDownOhms: chip.PullDownOhms,
		LowOhms:  [2]float64{typicalOhms, mostLowVolts / driveAmps},
		HighOhms: [2]float64{typicalOhms, (supplyVolts - leastHighVolt) / driveAmps},
		PinOhms:  pinOhms,
		Leaky:    slices.Contains(chip.PullDownFaulty, stepping),
	}
}

// expanderFigures are those of a key line of an MCP23017 at 3.3 V. Limits 0.2 and 0.8 of its supply
// (parameters D031, D041); pull-ups give 40 to 115 uA at 5 V (D070); outputs 0.6 V at 8 mA and 0.7 V
// at 3 mA (D080, D090): data sheet DS20001952, table 1-1.
func expanderFigures() Figures {
	return Figures{
		Volts:      supplyVolts,
		Limits:     circuit.Thresholds{Low: 0.2 * supplyVolts, High: 0.8 * supplyVolts},
		PullUpOhms: [2]float64{5 / 115e-6, 5 / 40e-6},
		LowOhms:    [2]float64{typicalOhms, 0.6 / 8e-3},
		HighOhms:   [2]float64{typicalOhms, 0.7 / 3e-3},
		PinOhms:    pinOhms,
	}
}

// padLeak is RP2350-E9: an enabled input between its limits gives about 120 uA from what acts as 2.2 V,
// and a pull of 8.2 kilohms or less overcomes it (RP2350 data sheet, appendix E). The straight lines
// are ours: they begin at VIL, reach 120 uA at 1.04 V, so that 8.2 kilohms with 5 % of tolerance take
// more all along (1.03 V at 120 uA) and 8.7 do not, and end at 2.2 V.
func padLeak(f Figures) *circuit.Law {
	const amps, full, bend, source = 120e-6, 1.04, 2.0, 2.2
	return circuit.NewLaw(circuit.Point{Volts: f.Limits.Low}, circuit.Point{Volts: full, Amps: amps},
		circuit.Point{Volts: bend, Amps: amps}, circuit.Point{Volts: source})
}

// A Corner says at which end of their ranges the figures are taken.
type Corner uint8

// The corners. At Strong the pulls are at their strongest and drivers and contacts at their worst, so
// that a pressed key is seen at its weakest; at Weak the other way round, so that a released one is.
// Between them lies every mixture in which all pulls, and all contacts and drivers, are alike.
const (
	Nominal Corner = iota
	Strong
	Weak
)

// pull takes a pull's resistance.
func (c Corner) pull(ohms [2]float64) float64 {
	switch c {
	case Strong:
		return ohms[0]
	case Weak:
		return ohms[1]
	}
	return (ohms[0] + ohms[1]) / 2
}

// series takes the resistance of a contact or a driver.
func (c Corner) series(ohms [2]float64) float64 {
	if c == Strong {
		return ohms[1]
	}
	return ohms[0]
}
