package circuit

import "math"

// thermalVolts is kT/q at 27 degrees Celsius, from the exact constants of the SI (2019).
const thermalVolts = 1.380649e-23 * 300.15 / 1.602176634e-19

// A Diode is a junction after Shockley, I = IS (exp(V / n Vt) - 1), and a resistance in series.
type Diode struct {
	SaturationAmps float64 // IS
	Emission       float64 // n
	SeriesOhms     float64 // RS
}

func (d Diode) valid() bool {
	return d.SaturationAmps > 0 && !math.IsInf(d.SaturationAmps, 0) && d.Emission >= 0.5 && d.Emission <= 20 &&
		d.SeriesOhms >= 0 && !math.IsInf(d.SeriesOhms, 0)
}

// InSeries is the diode with a resistor of that many ohms in line with it.
func (d Diode) InSeries(ohms float64) Diode {
	d.SeriesOhms += ohms
	return d
}

// Volts is what stands across the diode and its series resistance while amps flow forward through
// it. It panics when amps is negative.
func (d Diode) Volts(amps float64) float64 {
	if !(amps >= 0) {
		panic("circuit: forward voltage at a current that is not forward")
	}
	return d.slope()*math.Log1p(amps/d.SaturationAmps) + amps*d.SeriesOhms
}

// slope is n Vt, the voltage in which the current grows e times.
func (d Diode) slope() float64 { return d.Emission * thermalVolts }

// at returns the current of the junction alone at volts, and its conductance there.
func (d Diode) at(volts float64) (amps, siemens float64) {
	grown := d.SaturationAmps * math.Exp(volts/d.slope())
	return grown - d.SaturationAmps, grown / d.slope()
}

// limited is where the junction is taken to be when a step would take it from old to wanted, volts
// standing across the diode then. A rise past the bend of the curve counts by its current and not by
// its voltage, as in SPICE2 (Nagel 1975, from memory); without that the exponential runs away.
func (d Diode) limited(wanted, old, volts float64) float64 {
	slope := d.slope()
	switch {
	case wanted <= d.bend():
		return wanted
	case wanted-old <= 2*slope:
	case old > 0:
		wanted = old + slope*math.Log1p((wanted-old)/slope)
	default:
		wanted = slope * math.Log(max(wanted/slope, math.E))
	}
	return min(wanted, d.most(volts))
}

// most is what the junction can at most have when volts stand across the diode: all of them, or what
// the current has that takes all of them in the series resistance.
func (d Diode) most(volts float64) float64 {
	volts = max(volts, 0)
	return min(volts, d.slope()*math.Log1p(volts/d.SeriesOhms/d.SaturationAmps))
}

// bend is where the curve turns steepest on a page: some 20 to 40 mA flow there.
func (d Diode) bend() float64 {
	slope := d.slope()
	return slope * math.Log(slope/(math.Sqrt2*d.SaturationAmps))
}

// moved is where a straight line that touches the curve at old puts the junction when volts stand
// across the diode with its series resistance; amps is the current at old.
func (d Diode) moved(volts, old, amps float64) float64 {
	siemens := (amps + d.SaturationAmps) / d.slope()
	outer := siemens / (1 + siemens*d.SeriesOhms)
	return volts - (amps+outer*(volts-old-amps*d.SeriesOhms))*d.SeriesOhms
}

// junction returns the voltage of the junction alone when volts stand across the diode.
func (d Diode) junction(volts float64) float64 {
	at := min(volts, d.bend())
	for range budget {
		amps, _ := d.at(at)
		wanted := d.moved(volts, at, amps)
		next := d.limited(wanted, at, volts)
		done := math.Abs(next-at) < stopVolts && next == wanted
		at = next
		if done {
			break
		}
	}
	return at
}
