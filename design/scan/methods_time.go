package scan

import "math"

// Microseconds that a wake-up and a reading over the bus take.
const (
	// Asleep, a core waits for an interrupt with its clocks running: matrix columns are all selected,
	// so that any pressed key changes a row. A Cortex-M0+ enters its handler 15 cycles later, an M33
	// 12 (Arm's technical reference manuals, from memory): 0.12 us at 125 MHz; the rest is for the
	// handler to start a scan. A sleep that stops the crystal adds about 1 ms for it to start.
	wakeCore = 1.0
	// A reading of both ports: address, register, address again and two bytes of 9 bits each are 45
	// bit times, start, repeated start and stop about 2 more; one is 2.5 us at 400 kHz (UM10204,
	// table 10).
	busRead = 47 * 2.5
	// From a change on a line to the interrupt: MCP23017 data sheet DS20001952, AC characteristics,
	// from memory.
	busAlarm = 0.6
)

// Figures for the currents, in volts, ohms, farads and microamperes.
const (
	supplyVolts = 3.3
	// External pulls: 10 k is common practice; where the chip's own pull-downs are faulty they must be
	// at most 8.2 k (RP2350 data sheet, RP2350-E9).
	pullOhms, pullOhmsFaulty = 10e3, 8.2e3
	// Input leakage, at most: RP2040 data sheet table 625, RP2350 data sheet table 1436, MCP23017 data
	// sheet DS20001952 D060.
	leakMicroamp = 1.0
	// A line that is selected and let go is charged anew, as settleInternal assumes it.
	lineFarads = 100e-12
	// An expander's own: standby D005, and pull-up at most D070, 115 uA at 5 V, in the same data sheet.
	standbyMicroamp = 1.0
	portMicroamp    = 115 * supplyVolts / 5
	// Half the time each of two bus lines is held low against 4.7 k while the bus never rests: common
	// practice, no source.
	busMicroamp = 2 * 0.5 * supplyVolts / 4.7e3 * 1e6
)

// pullMicroamp is what flows through the strongest pull of a line whose key is held.
func (pl *planner) pullMicroamp() float64 {
	ohms := pl.chip.PullUpOhms[0]
	switch {
	case pl.drive.pulls == "external" && pl.drive.active == "high" && len(pl.chip.PullDownFaulty) > 0:
		ohms = pullOhmsFaulty
	case pl.drive.pulls == "external":
		ohms = pullOhms
	case pl.drive.active == "high":
		ohms = pl.chip.PullDownOhms[0]
	}
	return supplyVolts / ohms * 1e6
}

// rest fills in a choice's wake-up and currents for keys that an interrupt can wait for: nothing but
// leakage flows until a key pulls one line.
func (pl *planner) rest(c *Choice) {
	c.WakeMicros = tenth(wakeCore + c.PeriodMicros)
	c.IdleMicroamp = tenth(float64(c.Pins) * leakMicroamp)
	c.HeldMicroamp = tenth(float64(c.Pins)*leakMicroamp + pl.pullMicroamp())
}

// scanOn fills in the same for lines that both read and select: with some of them selected, keys
// between two of these show nowhere, so no state waits for every key and the scan never stops. A key
// shows within one period, each step charges a line, and a held key draws while its line is selected.
func (pl *planner) scanOn(c *Choice) {
	c.WakeMicros = c.PeriodMicros
	step := pl.drive.period(1, 0) * 1e-6
	idle := float64(c.Pins)*leakMicroamp + lineFarads*supplyVolts/step*1e6
	c.IdleMicroamp = tenth(idle)
	c.HeldMicroamp = tenth(idle + pl.pullMicroamp()/float64(c.Columns))
}

func tenth(x float64) float64 { return math.Round(x*10) / 10 }

// askBus fills in the same for keys on expanders. With an interrupt they stand by until a key pulls
// one line, and the one that rang is read; without it the bus never rests.
func (pl *planner) askBus(c *Choice, chips, keys int, alarmed bool) {
	leak := float64(c.Pins+keys) * leakMicroamp
	if alarmed {
		c.WakeMicros = tenth(busAlarm + wakeCore + busRead)
		c.IdleMicroamp = tenth(leak + float64(chips)*pl.expanding.standby())
	} else {
		c.WakeMicros = c.PeriodMicros
		c.IdleMicroamp = tenth(leak + float64(chips)*pl.expanding.model.Facts.CurrentMA*1000 + busMicroamp)
	}
	c.HeldMicroamp = tenth(c.IdleMicroamp + portMicroamp)
}

// standby is what an expander draws while nothing happens; of one that the catalogue doesn't know,
// all that it may draw.
func (x *expanding) standby() float64 {
	if x.usual {
		return standbyMicroamp
	}
	return x.model.Facts.CurrentMA * 1000
}
