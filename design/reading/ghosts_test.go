package reading_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/reading"
	"fascia/design/scan"
)

// drawRig draws a full matrix of up to 6 x 8 or up to 5 lines, diodes where they come, some keys held.
func drawRig(t *rapid.T) *rig {
	r := full(rapid.IntRange(1, 6).Draw(t, "rows"), rapid.IntRange(1, 8).Draw(t, "columns"), "")
	if rapid.Bool().Draw(t, "lines") {
		r = lines(rapid.IntRange(2, 5).Draw(t, "count"), "")
	}
	r.high = rapid.Bool().Draw(t, "high")
	r.chip = rapid.SampledFrom([]string{"RP2040", "RP2350"}).Draw(t, "chip")
	r.contact = rapid.SampledFrom([]float64{0.1, 100}).Draw(t, "contact")
	number := rapid.SampledFrom([]string{"1N4148", "BAT85"}).Draw(t, "number")
	for i := range r.keys {
		if r.style == "lines" || rapid.Bool().Draw(t, "diode") {
			r.keys[i].diode = number
		}
	}
	r.held = rapid.SliceOfNDistinct(rapid.IntRange(0, len(r.keys)-1), 0, min(6, len(r.keys)), rapid.ID[int]).Draw(t, "held")
	return r
}

// TestAgreesWithLogic holds readings from voltages against logic: a key that is not held and reads
// pressed, or either way, can be reached by current; and one that can be reached through one diode at
// most surely reads pressed. Schottky diodes that leak as much as a pull gives are left out.
func TestAgreesWithLogic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		_, s, _, _ := r.stages()
		got := r.reader().Read(r.heldIDs())
		logic := scan.Reads(s, r.heldIDs())
		for i, k := range got.Keys {
			drops, reached := r.drops(r.keys[i])
			if r.style == "matrix" && reached != slices.Contains(logic, k.Key) {
				t.Fatalf("key %s is reached: %v, by logic %v", k.Key, reached, logic)
			}
			if !reached && k.State != reading.Released {
				t.Fatalf("key %s reads %s at %v and no current reaches it\n%+v", k.Key, k.State, k.Volts, r)
			}
			if reached && drops <= 1 && k.State != reading.Pressed {
				t.Fatalf("key %s reads %s at %v, reached through %d diodes\n%+v", k.Key, k.State, k.Volts, drops, r)
			}
		}
	})
}

// drops is the fewest diodes that current passes on its way between a key's row and its column through
// the held keys; false when there is no way.
func (r *rig) drops(of rigKey) (fewest int, reached bool) {
	type end struct {
		column bool
		n      int
	}
	column := func(n int) end { return end{r.style != "lines", n} }
	row := func(n int) end { return end{false, n} }
	best := map[end]int{column(of.column): 0}
	for range 2 * (r.rows + r.columns) { // back from the column against the diodes
		for _, i := range r.held {
			k := r.keys[i]
			weight := 0
			if k.diode != "" {
				weight = 1
			}
			relax := func(from, to end, weight int) {
				if d, ok := best[to]; ok {
					if old, known := best[from]; !known || d+weight < old {
						best[from] = d + weight
					}
				}
			}
			relax(row(k.row), column(k.column), weight)
			if k.diode == "" {
				relax(column(k.column), row(k.row), 0)
			}
		}
	}
	fewest, reached = best[row(of.row)]
	return fewest, reached
}

// TestTwoDropsAreInDoubt is the row "diodes at the other two" of the worked figures, read as a panel:
// 0.908 V is neither low nor high.
func TestTwoDropsAreInDoubt(t *testing.T) {
	r := full(2, 2, "")
	r.keys[0].diode, r.keys[3].diode = "1N4148", "1N4148"
	sure, doubtful := r.reader().Read([]string{"S1", "S3", "S4"}).Pressed()
	if !slices.Equal(sure, []string{"S1", "S3", "S4"}) || !slices.Equal(doubtful, []string{"S2"}) {
		t.Errorf("S1, S3 and S4 held read %v, in doubt %v; want S2 in doubt (ngspice 39 run: 0.908 V)", sure, doubtful)
	}
	l := lines(3, "1N4148") // S1 from line 0 to 1, S4 from line 1 to 2: two drops from line 0 to 2, which is S2
	sure, doubtful = l.reader().Read([]string{"S1", "S4"}).Pressed()
	if !slices.Equal(sure, []string{"S1", "S4"}) || !slices.Equal(doubtful, []string{"S2"}) {
		t.Errorf("lines: S1 and S4 held read %v, in doubt %v; want S2 in doubt (ngspice 39 run: 0.908 V)", sure, doubtful)
	}
	for i := range l.keys {
		l.keys[i].diode = "BAT85"
	}
	if sure, _ := l.reader().Read([]string{"S1", "S4"}).Pressed(); !slices.Contains(sure, "S2") {
		t.Errorf("lines with Schottky diodes: S1 and S4 held read %v; two drops of 0.2 V make S2 a ghost", sure)
	}
}

// TestLeakyDiode is why a power Schottky diode is no key diode: backward it takes what a pull gives.
func TestLeakyDiode(t *testing.T) {
	r := full(3, 3, "")
	for i := range r.keys {
		r.keys[i].diode = "1N5819"
	}
	sure, doubtful := r.reader().Read([]string{"S1", "S4", "S5"}).Pressed()
	if !slices.Contains(doubtful, "S2") && !slices.Contains(sure, "S2") {
		t.Errorf("S1, S4 and S5 held through 1N5819 read %v, in doubt %v; want S2 among them (1N5819 leaks 30 uA and more)", sure, doubtful)
	}
}
