package part

import (
	"fmt"
	"math"
)

// A Series is the preferred values of one decade, ascending from 10 (IEC 60063).
type Series []int

// The series are stored and not computed: 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7 and 8.2 are not the
// roundings of the powers of ten that they stand for.
var (
	E6  = Series{10, 15, 22, 33, 47, 68}
	E12 = Series{10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82}
	E24 = Series{10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91}
)

// sameValue is how near a computed resistance must come to a preferred value to be taken for it:
// far less than any tolerance, far more than the error of a division.
const sameValue = 1e-9

// Next returns the least value of s that is not below ohms: the choice for limiting a current.
// ohms must be positive and within what parts are made for, a milliohm to a teraohm; otherwise Next
// panics.
func (s Series) Next(ohms float64) float64 {
	mustBeResistance(ohms)
	decade := decadeOf(ohms)
	for _, v := range s {
		if value := s.at(v, decade); value >= ohms*(1-sameValue) {
			return value
		}
	}
	return s.at(s[0], decade+1)
}

// Nearest returns the value of s nearest to ohms on a logarithmic scale, the lower of two equally
// near. It panics as Next does.
func (s Series) Nearest(ohms float64) float64 {
	mustBeResistance(ohms)
	decade := decadeOf(ohms)
	best := s.at(s[0], decade)
	for _, v := range s {
		best = nearer(ohms, best, s.at(v, decade))
	}
	return nearer(ohms, best, s.at(s[0], decade+1))
}

func nearer(ohms, a, b float64) float64 {
	if math.Abs(math.Log(b/ohms)) < math.Abs(math.Log(a/ohms)) {
		return b
	}
	return a
}

// at is preferred value v, in tenths, of the decade that starts at 10^decade. Powers of ten from 0
// are exact, so values of a tenth of an ohm and more have no error beyond the last division.
func (s Series) at(v, decade int) float64 {
	if decade < 1 {
		return float64(v) / math.Pow10(1-decade)
	}
	return float64(v) * math.Pow10(decade-1)
}

func decadeOf(ohms float64) int { return int(math.Floor(math.Log10(ohms * (1 + sameValue)))) }

func mustBeResistance(ohms float64) {
	if !(ohms >= 1e-3 && ohms <= 1e12) {
		panic(fmt.Sprintf("part: %g ohms is no resistance", ohms))
	}
}

// LEDResistor returns the exact series resistance in ohms that lets milliamp flow through an LED of
// that forward voltage from that supply: R = (Vs - Vf) / I. It is false when the supply does not
// reach over the forward voltage or the current is not positive.
func LEDResistor(supply, forward, milliamp float64) (ohms float64, ok bool) {
	if !(supply > forward) || !(milliamp > 0) {
		return 0, false
	}
	return (supply - forward) / milliamp * 1000, true
}

// LEDCurrent returns the milliamperes that flow through an LED and its series resistor, 0 when the
// supply does not reach over the forward voltage.
func LEDCurrent(supply, forward, ohms float64) (milliamp float64) {
	return max(0, (supply-forward)/ohms*1000)
}
