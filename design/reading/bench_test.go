package reading_test

import (
	"fmt"
	"slices"
	"testing"

	"fascia/design/reading"
)

// BenchmarkRead reads a whole panel: every select line, at both corners.
func BenchmarkRead(b *testing.B) {
	held := []string{"S1", "S2", "S10", "S19"}
	faulty := full(5, 8, "1N4148")
	faulty.chip, faulty.stepping = "RP2350", "A2"
	lit := full(5, 8, "1N4148")
	for j := range lit.columns {
		lit.lamps = append(lit.lamps, rigLamp{j, "red", 680})
	}
	for _, bb := range []struct {
		name string
		rig  *rig
		held []string
	}{
		{"5x8 none held", full(5, 8, "1N4148"), nil},
		{"5x8 no diodes 4 held", full(5, 8, ""), held},
		{"5x8 diodes 4 held", full(5, 8, "1N4148"), held},
		{"5x8 diodes lamps 4 held", lit, held},
		{"5x8 diodes 10 held", full(5, 8, "1N4148"), []string{"S1", "S2", "S3", "S4", "S5", "S6", "S7", "S8", "S9", "S10"}},
		{"5x8 diodes all 40 held", full(5, 8, "1N4148"), full(5, 8, "").ids()},
		{"5x8 leaking chip 4 held", faulty, held},
		{"8x16 diodes 4 held", full(8, 16, "1N4148"), held},
		{"7 lines 4 held", lines(7, "1N4148"), held},
	} {
		b.Run(bb.name, func(b *testing.B) {
			r := bb.rig.reader()
			b.ReportAllocs()
			var got reading.Reading
			for b.Loop() {
				got = r.Read(bb.held)
			}
			doubtful := slices.DeleteFunc(got.Keys, func(k reading.Key) bool { return k.State != reading.Undefined })
			b.ReportMetric(float64(len(doubtful)), "doubtful")
		})
	}
}

// BenchmarkNetwork is one step of an emulator: a line goes low, the next is let go.
func BenchmarkNetwork(b *testing.B) {
	r := full(5, 8, "1N4148")
	n := r.reader().Network(reading.Nominal)
	n.Rest()
	for _, id := range []string{"S1", "S2", "S10", "S19"} {
		k, _ := n.Key(id)
		n.Press(k, true)
	}
	var columns []int
	for j := range r.columns {
		c, _ := n.Pin(fmt.Sprintf("column %d", j))
		columns = append(columns, c)
	}
	i := 0
	for b.Loop() {
		n.Set(columns[i%8], reading.HiZ)
		i++
		n.Set(columns[i%8], reading.DriveLow)
		n.Solve()
	}
}

// BenchmarkMargins presses every key of a panel by itself.
func BenchmarkMargins(b *testing.B) {
	r := full(5, 8, "1N4148").reader()
	for b.Loop() {
		r.Margins(nil)
	}
}
