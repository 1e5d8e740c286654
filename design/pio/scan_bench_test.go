//go:build unix

package pio

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// A keyMatrix is four columns on GPIO 0 to 3, selected by driving them low, and five rows with pull-ups
// on GPIO 4 to 8. A pressed key joins its row to its column; diodes keep columns apart.
type keyMatrix struct{ pressed [4]uint32 } // for each column, its rows

func (k *keyMatrix) Levels(_ uint64, d Drive) (uint32, uint64) {
	low := d.Directions &^ d.Levels & 15
	levels := uint32(0x1ff) &^ low
	for c := range k.pressed {
		if low>>c&1 != 0 {
			levels &^= k.pressed[c] << 4
		}
	}
	return levels, Forever
}

// A settledMatrix promises that only what is driven counts, until it is told of another key.
type settledMatrix struct{ *keyMatrix }

func (settledMatrix) SameUntil(uint64) uint64 { return Forever }

// tightScan reads the matrix in 21 cycles, without regard to settling.
const tightScan = `
.program tight
.wrap_target
    set pindirs, 1 [3]
    in pins, 5
    set pindirs, 2 [3]
    in pins, 5
    set pindirs, 4 [3]
    in pins, 5
    set pindirs, 8 [3]
    in pins, 5
    push noblock
.wrap
`

// settledScan lets each column settle for about 2.3 us at 125 MHz, and pushes only what has changed.
const settledScan = `
.program settled
.define settle 8
.wrap_target
    set pindirs, 1
    set x, settle
first:
    jmp x--, first [31]
    in pins, 5
    set pindirs, 2
    set x, settle
second:
    jmp x--, second [31]
    in pins, 5
    set pindirs, 4
    set x, settle
third:
    jmp x--, third [31]
    in pins, 5
    set pindirs, 8
    set x, settle
fourth:
    jmp x--, fourth [31]
    in pins, 5
    mov x, isr
    jmp x!=y, news
    jmp idle
news:
    mov y, isr
    push noblock
idle:
    mov isr, null
.wrap
`

func scanning(tb testing.TB, source string, pins Pins) *Block {
	tb.Helper()
	programs, err := Assemble(source, RP2040)
	if err != nil {
		tb.Fatal(err)
	}
	p := programs[0]
	c := p.Config(0)
	c.SetCount, c.InBase, c.InShift = 4, 4, Left
	b := New(RP2040, pins)
	b.Load(p.Words, 0)
	b.Configure(0, c)
	b.Enable(1)
	return b
}

// BenchmarkScan tells how fast one machine scans a matrix in which a key now and then changes. Here and
// below, seconds are those of the processor.
func BenchmarkScan(bench *testing.B) {
	k := &keyMatrix{pressed: [4]uint32{2: 1 << 1}}
	for _, run := range []struct {
		name, source string
		pins         Pins
		machines     int
	}{
		{"tight", tightScan, k, 1}, {"settled", settledScan, k, 1}, {"tight on all machines", tightScan, k, 4},
		{"tight promising", tightScan, settledMatrix{k}, 1}, {"settled promising", settledScan, settledMatrix{k}, 1},
	} {
		bench.Run(run.name, func(bench *testing.B) {
			b := scanning(bench, run.source, run.pins)
			for n := 1; n < run.machines; n++ {
				b.Configure(n, b.machines[0].config)
			}
			b.Enable(1<<run.machines - 1)
			const cycles = 100_000
			began := processorSeconds(bench)
			for bench.Loop() {
				k.pressed[3] ^= 1 << 4
				b.PinsChanged()
				b.Run(cycles)
				for _, rx := b.Waiting(0); rx > 0; rx-- {
					b.Get(0)
				}
			}
			bench.ReportMetric(float64(bench.N)*cycles/(processorSeconds(bench)-began)/1e6, "Mcycles/s")
		})
	}
}

// BenchmarkAgainstAnotherEmulator runs the tight scan here and, in the same run and with the same keys,
// on rp2040js.
func BenchmarkAgainstAnotherEmulator(bench *testing.B) {
	k := &keyMatrix{pressed: [4]uint32{2: 1 << 1, 3: 1 << 4}}
	b := scanning(bench, tightScan, k)
	theirs, words := theirSpeed(bench, b, k)
	var got []uint32
	const cycles = 21 * 4
	for len(got) < 10 {
		b.Run(cycles)
		for w, ok := b.Get(0); ok; w, ok = b.Get(0) {
			got = append(got, w)
		}
	}
	if fmt.Sprint(got[:10]) != "["+words+"]" {
		bench.Fatalf("ours read %d, theirs %s", got, words)
	}
	began := processorSeconds(bench)
	for bench.Loop() {
		b.Run(cycles * 1000)
		for rx := 4; rx > 0; rx-- {
			b.Get(0)
		}
	}
	ours := float64(bench.N) * cycles * 1000 / (processorSeconds(bench) - began) / 1e6
	bench.ReportMetric(ours, "Mcycles/s")
	bench.ReportMetric(theirs, "theirs-Mcycles/s")
	bench.ReportMetric(ours/theirs, "times")
}

func theirSpeed(tb testing.TB, b *Block, k *keyMatrix) (megacycles float64, words string) {
	tb.Helper()
	r0, r1, r2, r3 := b.machines[0].config.Registers(RP2040)
	text, err := json.Marshal([]any{map[string]any{
		"memory": b.memory, "registers": [4]uint32{r0, r1, r2, r3}, "pressed": k.pressed,
	}})
	if err != nil {
		tb.Fatal(err)
	}
	speed, words, _ := strings.Cut(strings.TrimSpace(string(node(tb, "speed.js", text))), "\n")
	if _, err := fmt.Sscan(speed, &megacycles); err != nil {
		tb.Fatalf("speed %q: %v", speed, err)
	}
	return megacycles, words
}
