package circuit

// A Level is what a voltage reads as.
type Level uint8

// The levels. Undefined is a voltage that an input may read either way.
const (
	Undefined Level = iota
	Low
	High
)

// String writes low, high or undefined.
func (l Level) String() string {
	switch l {
	case Low:
		return "low"
	case High:
		return "high"
	}
	return "undefined"
}

// MarshalText writes a level as String does.
func (l Level) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// Thresholds are the limits of an input.
type Thresholds struct {
	Low  float64 // VIL: at most this surely reads 0
	High float64 // VIH: at least this surely reads 1
}

// Level reads a voltage. What is no number is undefined.
func (t Thresholds) Level(volts float64) Level {
	switch {
	case volts <= t.Low:
		return Low
	case volts >= t.High:
		return High
	}
	return Undefined
}
