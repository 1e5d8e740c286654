package pio

import (
	"testing"

	"pgregory.net/rapid"
)

// TestCirclesArePlain does what TestRunIsPlain does with one machine, which goes round in short
// programs that drive and read pins, so that whole circles are left out.
func TestCirclesArePlain(t *testing.T) {
	skipped := uint64(0)
	rapid.Check(t, func(t *rapid.T) {
		pins := &looped{every: rapid.Uint64Range(20, 900).Draw(t, "every")}
		d := duel{fast: New(RP2350, promising{pins}), slow: newPlain(RP2350, pins), pins: pins, longest: 2000}
		switch rapid.IntRange(0, 3).Draw(t, "unpromising") {
		case 0:
			d.fast = New(RP2350, pins)
		case 1:
			d.fast, d.slow = New(RP2350, &counting{}), newPlain(RP2350, &counting{})
		}
		length := rapid.IntRange(1, 7).Draw(t, "length")
		for at := range length {
			w := circling(t)
			d.fast.Load([]uint16{w}, at)
			d.slow.memory[at] = w
		}
		c := drawConfig(t, RP2350)
		c.Wrap, c.WrapTarget, c.AutoPull, c.Sticky = length-1, 0, false, false
		c.Side = SideSet{Pins: rapid.IntRange(0, 2).Draw(t, "side")}
		c.Divider = Divider{rapid.IntRange(1, 2).Draw(t, "whole"), 64 * rapid.IntRange(0, 3).Draw(t, "quarters")}
		few := rapid.IntRange(0, 2)
		c.OutBase, c.SetBase, c.SideBase = few.Draw(t, "out base"), few.Draw(t, "set base"), few.Draw(t, "side base")
		c.InBase, c.JumpPin, c.InCount = few.Draw(t, "in base"), few.Draw(t, "jump pin"), 32
		c.OutCount, c.SetCount = 5, 5
		d.fast.Configure(0, c)
		d.slow.machines[0].c = c
		d.enable(1)
		d.execute(0, 0xe09f) // set pindirs, 31
		for range rapid.IntRange(1, 4).Draw(t, "deeds") {
			d.deed(t)
			n := rapid.IntRange(0, d.longest).Draw(t, "cycles")
			d.fast.Run(uint64(n))
			d.slow.run(n)
			if a, b := d.told(); a != b {
				t.Fatalf("after cycle %d:\nfast  %s\nplain %s", d.slow.now, a, b)
			}
		}
		skipped += d.fast.skipped
	})
	if skipped == 0 {
		t.Error("no circle was left out")
	}
}

// counting are pins that remember: they show how often what is driven has changed.
type counting struct {
	last  Drive
	count uint32
}

func (c *counting) Levels(_ uint64, d Drive) (uint32, uint64) {
	if d != c.last {
		c.last = d
		c.count++
	}
	return c.count >> 5 & 7, Forever
}

// circling draws a word of the kind that scan programs are made of.
func circling(t *rapid.T) uint16 {
	w := rapid.SampledFrom([]uint16{
		0xe080, 0xe000, 0xe020, 0xe040, // set pindirs, pins, x, y
		0x4000, 0x4060, 0x4020, // in pins, null, x
		0xa0c3, 0xa020, 0xa02e, 0xa046, 0xa000, 0xa001, 0xa060, // mov isr null; x pins, isr; y isr; pins pins, x; pindirs pins
		0x8000, 0x8080, // push, pull noblock
		0xc000, 0xc040, // irq, irq clear
		0x0000, 0x00a0, 0x00c0, 0x0020, // jmp, x!=y, pin, !x
		0x2000, 0x2080, 0x6000, // wait gpio, out pins
	}).Draw(t, "kind")
	delay := rapid.Uint16Range(0, 7).Draw(t, "delay")
	switch w >> 13 {
	case opJump, opIRQ:
		w |= rapid.Uint16Range(0, 6).Draw(t, "operand")
	case opWait, opIn, opOut, opSet:
		w |= rapid.Uint16Range(0, 31).Draw(t, "operand")
	}
	return w | delay<<8
}
