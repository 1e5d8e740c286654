package reading_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"fascia/design/circuit"
	"fascia/design/controller"
	"fascia/design/reading"
)

// TestLeakTable is the table of RP2350 data sheet, appendix E, RP2350-E9: which way of scanning works
// on which stepping.
func TestLeakTable(t *testing.T) {
	const source = "RP2350 data sheet, appendix E, RP2350-E9"
	ways := []struct {
		name string
		high bool
		pull float64
	}{
		{"internal pull-up, active low", false, 0},
		{"internal pull-down, active high", true, 0},
		{"8.2k pull-down, active high", true, 8200},
		{"4.7k pull-down, active high", true, 4700},
		{"10k pull-down, active high", true, 10e3},
	}
	chips := []struct{ chip, stepping string }{{"RP2040", ""}, {"RP2350", "A2"}, {"RP2350", "A3"}, {"RP2350", "A4"}}
	fails := map[string]bool{"internal pull-down, active high A2": true, "10k pull-down, active high A2": true}
	for _, w := range ways {
		for _, c := range chips {
			r := full(2, 3, "1N4148")
			r.high, r.pull, r.chip, r.stepping = w.high, w.pull, c.chip, c.stepping
			reader := r.reader()
			works := reader.Read(nil).Faithful(nil)
			for i := range r.keys {
				held := []string{r.id(i)}
				works = works && reader.Read(held).Faithful(held)
			}
			if works == fails[w.name+" "+c.stepping] {
				t.Errorf("%s on %s %s works: %v (%s)", w.name, c.chip, c.stepping, works, source)
			}
		}
	}
}

// TestSelectsThatHear is why the inputs of select lines should be off: a column that is let go parks
// too, and what both give is more than 8.2 kilohms can take.
func TestSelectsThatHear(t *testing.T) {
	chip, _ := controller.ChipNamed("RP2350")
	r := full(2, 2, "1N4148")
	r.high, r.pull = true, 8200
	p, s, n, _ := r.stages()
	f := reading.FiguresOf(&chip, "A2")
	for _, hear := range []bool{false, true} {
		f.SelectsHear = hear
		sure, doubtful := reading.NewWith(p, s, n, f).Read([]string{"S1"}).Pressed()
		if len(sure) != 1 || sure[0] != "S1" || (len(doubtful) > 0) != hear {
			t.Errorf("inputs of columns on: %v: S1 held reads %v, in doubt %v", hear, sure, doubtful)
		}
	}
}

// TestParks has a leaking pin let go after it was high, or low: it parks near 2.2 V against its own
// pull-down, and stays low when it comes from low or when its input is off.
func TestParks(t *testing.T) {
	chip, _ := controller.ChipNamed("RP2350")
	tests := []struct {
		name     string
		from     float64
		drive    reading.Drive
		low, top float64
		level    circuit.Level
		source   string
	}{
		{"pull-down, released from high", 3.3, reading.PullDown, 2.05, 2.2, circuit.High, "RP2350 data sheet, appendix E: parks near 2.2 V, read as 1"},
		{"pull-down, from low", 0, reading.PullDown, 0, 0.01, circuit.Low, "RP2350 data sheet, appendix E: a pad that is low stays low"},
		{"let go from high", 3.3, reading.HiZ, 2.15, 2.25, circuit.High, "RP2350 data sheet, appendix E: floating inputs park at 2.2 V"},
		{"pull-up, from low", 0, reading.PullUp, 3.25, 3.3, circuit.High, "RP2350 data sheet, appendix E: the pull-up still works"},
		{"pull-down with the input off", 3.3, reading.PullDown | reading.Deaf, 0, 0.01, circuit.Low, "RP2350 data sheet, appendix E: the input disabled, the leakage ends"},
		{"driven low", 3.3, reading.DriveLow, 0, 0.01, circuit.Low, "RP2350 data sheet, appendix E: the output is on"},
	}
	r := full(1, 1, "")
	p, s, n, _ := r.stages()
	for _, c := range []reading.Corner{reading.Nominal, reading.Strong, reading.Weak} {
		net := reading.NewWith(p, s, n, reading.FiguresOf(&chip, "A2")).Network(c)
		pin, _ := net.Pin("row 0")
		for _, tt := range tests {
			net.Set(pin, tt.drive)
			net.ComeFrom(tt.from)
			got := net.Solve()
			if v := got.Volts[pin]; v < tt.low-1e-3 || v > tt.top+1e-3 || got.Levels[pin] != tt.level {
				t.Errorf("%s at corner %d: %.4f V reads %s, want %g to %g V and %s (%s)", tt.name, c, v, got.Levels[pin], tt.low, tt.top, tt.level, tt.source)
			}
		}
	}
}

// TestRemembers walks a leaking pin as a program does: it is high after a press, and after it was
// driven low once it is low.
func TestRemembers(t *testing.T) {
	chip, _ := controller.ChipNamed("RP2350")
	r := full(1, 1, "")
	r.high = true
	p, s, n, _ := r.stages()
	net := reading.NewWith(p, s, n, reading.FiguresOf(&chip, "A2")).Network(reading.Nominal)
	row, _ := net.Pin("row 0")
	column, _ := net.Pin("column 0")
	key, _ := net.Key("S1")
	net.Rest()
	steps := []struct {
		deed func()
		want circuit.Level
	}{
		{func() { net.Select(column) }, circuit.Low},
		{func() { net.Press(key, true) }, circuit.High},
		{func() { net.Press(key, false) }, circuit.High}, // released, and stays high
		{func() { net.Set(row, reading.DriveLow) }, circuit.Low},
		{func() { net.Set(row, reading.PullDown) }, circuit.Low},
	}
	for i, step := range steps {
		step.deed()
		if got := net.Solve(); got.Levels[row] != step.want {
			t.Errorf("step %d: %.3f V reads %s, want %s", i+1, got.Volts[row], got.Levels[row], step.want)
		}
	}
}

// TestLeakDecks lets ngspice run random panels with leaking inputs through time, 100 pF at every pin,
// from all pins high and from all pins low, and compares where they come to rest. The two may part
// ways where a pin stops within a millivolt of an end of the leak's straight lines.
func TestLeakDecks(t *testing.T) {
	draw := rand.New(rand.NewPCG(9, 2350))
	var d deck
	var wanted []string
	var rigs []*rig
	for i := range 40 {
		r := randomRig(draw)
		r.chip, r.stepping, r.lamps = "RP2350", "A2", nil
		r.held = r.held[:min(len(r.held), 4)]
		r.hear = r.style != "lines" && draw.IntN(2) == 0
		rigs = append(rigs, r)
		for _, at := range r.leakSettings(i) {
			r.write(&d, at.prefix, at.corner, at.line)
			nodes, _ := r.nodes(at.prefix)
			for _, n := range nodes {
				d.count++
				fmt.Fprintf(&d, "C%d %s 0 100p ic=%g\n", d.count, n, at.from)
			}
			wanted = append(wanted, nodes...)
		}
	}
	volts := d.run(t, wanted, "tran 1m 200m 0 2m uic")
	var worst float64
	for i, r := range rigs {
		reader := r.reader()
		for _, at := range r.leakSettings(i) {
			net := r.network(reader, at.corner, at.line)
			net.ComeFrom(at.from)
			got := net.Solve()
			nodes, names := r.nodes(at.prefix)
			for k, node := range nodes {
				pin, _ := net.Pin(names[k])
				v, want := got.Volts[pin], volts[node]
				worst = max(worst, math.Abs(v-want))
				if math.Abs(v-want) > max(slackVolts, slackShare*want) || got.Verdict != circuit.Settled {
					t.Errorf("rig %d from %g V, line %d, corner %d, %s: %.5f V (%s), ngspice comes to rest at %.5f\n%+v", i, at.from, at.line, at.corner, names[k], v, got.Verdict, want, r)
				}
			}
		}
	}
	t.Logf("%d circuits: worst deviation %.3g mV", len(rigs)*2, worst*1000)
}

type leakSetting struct {
	setting
	from float64
}

// leakSettings takes one line of a rig, from both ends.
func (r *rig) leakSettings(i int) []leakSetting {
	c := []reading.Corner{reading.Strong, reading.Weak}[i%2]
	line := i % r.columns
	return []leakSetting{
		{setting{fmt.Sprintf("y%d_low_", i), c, line}, 0},
		{setting{fmt.Sprintf("y%d_high_", i), c, line}, 3.3},
	}
}
