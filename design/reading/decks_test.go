package reading_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"fascia/design/circuit"
	"fascia/design/reading"
)

const (
	decks      = 240 // panels with keys held, each with all its select lines at both corners
	inOneBatch = 5
)

// Two simulators may differ by 5 mV or by 1 in 100, whichever is more. A hundredth alone would be too
// strict: a line behind a driver of 40 ohms stands at 2 mV, of which a hundredth is less than what
// either leaves undecided when it stops, and far less than any input can tell.
const (
	slackVolts = 5e-3
	slackShare = 0.01
)

// TestDecks compares every voltage and every reading of random panels with ngspice.
func TestDecks(t *testing.T) {
	draw := rand.New(rand.NewPCG(20, 26))
	var worst float64
	circuits := 0
	for batch := 0; batch < decks; batch += inOneBatch {
		var d deck
		var wanted []string
		rigs := make([]*rig, inOneBatch)
		for i := range rigs {
			rigs[i] = randomRig(draw)
			for _, at := range rigs[i].settings(i) {
				circuits++
				rigs[i].write(&d, at.prefix, at.corner, at.line)
				nodes, _ := rigs[i].nodes(at.prefix)
				wanted = append(wanted, nodes...)
			}
		}
		volts := d.run(t, wanted, "")
		for i, r := range rigs {
			worst = max(worst, r.compare(t, fmt.Sprintf("rig %d", batch+i), r.settings(i), volts))
		}
	}
	t.Logf("%d decks, %d circuits: worst deviation %.3g mV", decks, circuits, worst*1000)
}

// A setting is one circuit of a rig.
type setting struct {
	prefix string
	corner reading.Corner
	line   int
}

func (r *rig) settings(i int) []setting {
	var list []setting
	for line := range r.columns {
		for _, c := range []reading.Corner{reading.Strong, reading.Weak} {
			list = append(list, setting{fmt.Sprintf("x%d_%d_%d_", i, line, c), c, line})
		}
	}
	return list
}

// compare solves each setting anew and compares voltages; then it reads the whole panel and compares
// the readings with those that follow from the other simulator's voltages.
func (r *rig) compare(t *testing.T, name string, settings []setting, volts map[string]float64) (worst float64) {
	t.Helper()
	reader := r.reader()
	rows := map[int][]float64{} // by line: rows at one corner after the other
	for _, at := range settings {
		net := r.network(reader, at.corner, at.line)
		got := net.Solve()
		nodes, names := r.nodes(at.prefix)
		for i, node := range nodes {
			pin, _ := net.Pin(names[i])
			v, want := got.Volts[pin], volts[node]
			worst = max(worst, math.Abs(v-want))
			if math.Abs(v-want) > max(slackVolts, slackShare*math.Abs(want)) || got.Verdict != circuit.Settled {
				t.Errorf("%s, line %d, corner %d, %s: %.6f V (%s), ngspice says %.6f\n%+v", name, at.line, at.corner, names[i], v, got.Verdict, want, r)
			}
			if i < r.rows {
				rows[at.line] = append(rows[at.line], want)
			}
		}
	}
	r.compareReading(t, name, reader.Read(r.heldIDs()), rows)
	return worst
}

func (r *rig) network(reader *reading.Reader, c reading.Corner, line int) *reading.Network {
	_, s, _, _ := r.stages()
	n := reader.Network(c)
	for _, id := range r.heldIDs() {
		k, _ := n.Key(id)
		n.Press(k, true)
	}
	n.Rest()
	pin, _ := n.Pin(s.ColumnNet(line))
	n.Select(pin)
	return n
}

// compareReading reads the keys off the other simulator's voltages: RP2040 data sheet table 622, VIL
// 0.8 V and VIH 2.0 V; undefined when the two corners differ or one lies between.
func (r *rig) compareReading(t *testing.T, name string, got reading.Reading, rows map[int][]float64) {
	t.Helper()
	level := func(v float64) int {
		switch {
		case v <= 0.8:
			return 0
		case v >= 2.0:
			return 1
		}
		return -1
	}
	active := 0
	if r.high {
		active = 1
	}
	for i, k := range r.keys {
		at := rows[k.column]
		want := reading.Undefined
		first := level(at[k.row])
		same := true
		for n := k.row; n < len(at); n += r.rows {
			same = same && level(at[n]) == first
		}
		if same && first == active {
			want = reading.Pressed
		} else if same && first == 1-active {
			want = reading.Released
		}
		if got.Keys[i].Key != r.id(i) || got.Keys[i].State != want {
			t.Errorf("%s: key %s reads %s at %v, ngspice says %s", name, r.id(i), got.Keys[i].State, got.Keys[i].Volts, want)
		}
	}
}
