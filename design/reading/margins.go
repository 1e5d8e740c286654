package reading

import "fascia/design/circuit"

// Margins are how far the readings stay from the limits of the inputs.
type Margins struct {
	Low  Margin `json:"low"`  // of what should read low
	High Margin `json:"high"` // of what should read high
}

// A Margin is the reading that comes nearest to a limit, or past it.
type Margin struct {
	Volts  float64  `json:"volts"`  // of the reading
	Limit  float64  `json:"limit"`  // VIL or VIH
	Spare  float64  `json:"spare"`  // from the reading to the limit; negative past it
	Key    string   `json:"key"`    // whose reading it is; "" when there is none
	Held   []string `json:"held"`   // the keys held then
	Proper bool     `json:"proper"` // every reading of this level was past its limit and in no doubt
}

// Margins holds no key, then every key by itself, then each of the chords, and returns the readings
// that stay nearest to the limits, by what each key should read.
func (r *Reader) Margins(chords [][]string) Margins {
	m := Margins{Low: Margin{Proper: true}, High: Margin{Proper: true}}
	sets := [][]string{{}}
	for _, k := range r.hookup.keys {
		sets = append(sets, []string{k.id})
	}
	for _, held := range append(sets, chords...) {
		reading := r.Read(held)
		for i, k := range r.hookup.keys {
			m.add(&r.hookup.pins[k.row].figures.Limits, k, reading.Keys[i], held)
		}
	}
	return m
}

func (m *Margins) add(limits *circuit.Thresholds, k key, got Key, held []string) {
	want, state := opposite(k.active), Released
	for _, id := range held {
		if id == k.id {
			want, state = k.active, Pressed
		}
	}
	proper := got.State == state
	if want == circuit.Low {
		m.Low.add(Margin{got.Volts[1], limits.Low, limits.Low - got.Volts[1], k.id, held, proper})
	} else {
		m.High.add(Margin{got.Volts[0], limits.High, got.Volts[0] - limits.High, k.id, held, proper})
	}
}

func (m *Margin) add(other Margin) {
	proper := m.Proper && other.Proper
	if m.Key == "" || other.Spare < m.Spare {
		*m = other
	}
	m.Proper = proper
}

func opposite(l circuit.Level) circuit.Level {
	if l == circuit.Low {
		return circuit.High
	}
	return circuit.Low
}
