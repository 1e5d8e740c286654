package reading_test

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fascia/design/circuit"
	"fascia/design/reading"
)

// A deck is a circuit written for ngspice, another simulator. Several small circuits may stand in one
// deck side by side, each with a prefix to its names.
type deck struct {
	strings.Builder
	models map[string]circuit.Diode
	count  int
}

func (d *deck) resistor(a, b string, ohms float64) {
	d.count++
	fmt.Fprintf(d, "R%d %s %s %.12g\n", d.count, a, b, ohms)
}

func (d *deck) diode(a, k, model string, ohms float64, of circuit.Diode) {
	if d.models == nil {
		d.models = map[string]circuit.Diode{}
	}
	d.models[model] = of
	d.count++
	inner := fmt.Sprintf("i%d", d.count)
	if ohms == 0 {
		inner = a
	} else {
		d.resistor(a, inner, ohms)
	}
	d.count++
	fmt.Fprintf(d, "D%d %s %s %s\n", d.count, inner, k, model)
}

// leak is RP2350-E9 as a behavioural source: 120 uA between 1.04 V and 2 V, nothing from 2.2 V up.
func (d *deck) leak(n string) {
	d.count++
	fmt.Fprintf(d, "B%d 0 %s I = pwl(V(%s), -5, 0, 0.8, 0, 1.04, 120e-6, 2, 120e-6, 2.2, 0, 9, 0)\n", d.count, n, n)
}

// run solves the deck for its steady state, or by letting it settle when ends is not empty, and
// returns the voltage of each wanted node.
func (d *deck) run(t testing.TB, wanted []string, settle string) map[string]float64 {
	t.Helper()
	if _, err := exec.LookPath("ngspice"); err != nil {
		t.Fatalf("%v: run go run ./cmd/verify", err)
	}
	var text strings.Builder
	sum := fnv.New64a()
	fmt.Fprint(sum, d.String())
	fmt.Fprintf(&text, "deck %016x\nVDD vdd 0 3.3\n%s", sum.Sum64(), d.String())
	for name, m := range d.models {
		fmt.Fprintf(&text, ".model %s d(is=%.12g n=%.12g rs=%.12g)\n", name, m.SaturationAmps, m.Emission, m.SeriesOhms)
	}
	text.WriteString(".options gmin=1e-15 reltol=1e-6 abstol=1e-15 vntol=1e-9 itl1=2000 itl2=2000\n.control\nset numdgt=10\n")
	index := ""
	if settle == "" {
		text.WriteString("op\n")
	} else {
		text.WriteString(settle + "\nlet last = length(time)-1\n")
		index = "[last]"
	}
	for _, n := range wanted {
		fmt.Fprintf(&text, "print v(%s)%s\n", n, index)
	}
	text.WriteString(".endc\n.end\n")
	file := filepath.Join(t.TempDir(), "keys.cir")
	if err := os.WriteFile(file, []byte(text.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	var complaints bytes.Buffer
	run := exec.Command("ngspice", "-b", file)
	run.Stderr = &complaints
	out, err := run.Output()
	got := map[string]float64{}
	for line := range bytes.Lines(out) {
		name, value, ok := strings.Cut(strings.TrimSpace(string(line)), " = ")
		name = strings.TrimSuffix(strings.TrimPrefix(strings.TrimSuffix(name, "[last]"), "v("), ")")
		if v, fault := strconv.ParseFloat(value, 64); ok && fault == nil {
			got[name] = v
		}
	}
	for _, n := range wanted {
		if _, ok := got[n]; !ok {
			t.Fatalf("ngspice (%v) told nothing of node %s:\n%s%s", err, n, out, complaints.String())
		}
	}
	return got
}

// write adds the rig at one corner with one line selected, all names behind a prefix. Nodes are r0, c0
// and so on; lines that both read and select are r0 and so on.
func (r *rig) write(d *deck, prefix string, c reading.Corner, line int) {
	e := r.ends(c)
	rest, active := "vdd", "0"
	if r.high {
		rest, active = "0", "vdd"
	}
	row := func(i int) string { return fmt.Sprintf("%sr%d", prefix, i) }
	column := func(j int) string { return fmt.Sprintf("%sc%d", prefix, j) }
	if r.style == "lines" {
		column = row
	}
	for i := range r.rows {
		d.resistor(row(i), "0", 100e6)
		if r.style != "lines" || i != line || r.pull > 0 {
			d.resistor(row(i), rest, e.pull)
		}
		if r.stepping == "A2" && (r.style != "lines" || i != line) {
			d.leak(row(i))
		}
	}
	for j := range r.columns {
		if r.style != "lines" {
			d.resistor(column(j), "0", 100e6)
			if r.hear && j != line {
				d.leak(column(j))
			}
		}
	}
	d.resistor(column(line), active, e.driver)
	for _, i := range r.held {
		k := r.keys[i]
		from, to := row(k.row), column(k.column)
		if r.high {
			from, to = to, from
		}
		if k.diode == "" {
			d.resistor(from, to, e.contact)
		} else {
			d.diode(from, to, "d"+k.diode, e.contact, numbers[k.diode])
		}
	}
	for _, l := range r.lamps {
		from, to := "vdd", column(l.column)
		if r.high {
			from, to = column(l.column), "0"
		}
		d.diode(from, to, "led"+l.colour, l.ohms, led(forward[l.colour], 2e-3))
	}
}

// led goes through volts at amps with n of 2 behind 4 ohms.
func led(volts, amps float64) circuit.Diode { return circuit.LED(volts, amps) }

// nodes lists the pins of the rig as the deck and as the network call them.
func (r *rig) nodes(prefix string) (inDeck, inNetwork []string) {
	_, s, _, _ := r.stages()
	for i := range r.rows {
		inDeck, inNetwork = append(inDeck, fmt.Sprintf("%sr%d", prefix, i)), append(inNetwork, s.RowNet(i))
	}
	for j := range r.columns {
		if r.style != "lines" {
			inDeck, inNetwork = append(inDeck, fmt.Sprintf("%sc%d", prefix, j)), append(inNetwork, s.ColumnNet(j))
		}
	}
	return inDeck, inNetwork
}
